"""A new TOML file from what somebody typed."""

import re
from collections.abc import Mapping
from pathlib import Path

import tomli_w

from bendgen.files.whole_files import write_whole_files

NUMBER_LIST = re.compile(r"\[\n((?: +[-+0-9.e]+,\n)+) *\]")  # no text holds it: texts have no line feeds
PLAIN_NUMBER = re.compile(r"[-+]?[0-9]+(\.[0-9]*)?|[-+]?\.[0-9]+")


def number_or_text(typed: str) -> float | str:
    """Typed "110" as a number; "4 1/2" stays as written, for the file's reader to take apart."""
    return float(typed) if PLAIN_NUMBER.fullmatch(typed.strip()) else typed


def write_new_file(path: Path, data: Mapping[str, object], *, force: bool = False) -> None:
    """Write the file, whole or not at all; raises OutputError where it exists, unless forced, or cannot be written."""
    text = NUMBER_LIST.sub(_on_one_line, tomli_w.dumps(data))
    write_whole_files({path: text}, force=force)


def _on_one_line(numbers: re.Match[str]) -> str:
    return f"[{', '.join(numbers[1].replace(',', ' ').split())}]"
