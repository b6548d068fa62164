"""Sections of the check sheet: each function takes a program and returns lines of text, or nothing to say."""
