"""Sections of the check sheet: each function takes a program and returns what is said, or None for nothing."""
