"""The command line: parses, calls, prints; the only layer that prints, exits or names a file on its own."""
