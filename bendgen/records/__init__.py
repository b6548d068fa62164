"""Frozen records in trade words: floats, strings and tuples in mm and degrees; no arrays, no files, no checks."""
