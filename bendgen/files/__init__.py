"""The edge towards disk: `parse_*` and `read_*` in, `format_*` and `write_*` out; the only validation of input."""
