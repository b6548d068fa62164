"""The trade: records in, records out; no files, no printing."""
