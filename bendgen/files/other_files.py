"""What a file is that is not the one a command wants: the files of this tool lie side by side, and hands slip.

Only marks are looked for that no other kind of file has; whatever has none is left to the reader to complain about.
"""

import re
from pathlib import Path
from typing import Literal

from bendgen.errors import mistaken
from bendgen.files.output_names import MACHINE_CSV, STEPS_JSON, SUFFIXES

Kind = Literal["part", "machine", "die", "table", "material", "steps", "steps as CSV", "trials", "measured"]

_TOML_MARKS: dict[Kind, re.Pattern[str]] = {
    "part": re.compile(r"^\[part\]", re.MULTILINE),
    "machine": re.compile(r"^\[carriage\]", re.MULTILINE),
    "die": re.compile(r"^tube_od\s*=", re.MULTILINE),
    "table": re.compile(r"^springback\s*=", re.MULTILINE),
    "material": re.compile(r"^youngs_modulus_mpa\s*=", re.MULTILINE),
}
_HEADS: dict[Kind, frozenset[str]] = {
    "trials": frozenset({"commanded_deg", "measured_deg"}),
    "measured": frozenset({"check", "value", "unit"}),
    "steps as CSV": frozenset({"rotation_deg", "bend_deg"}),
}
_NAMES: dict[Kind, str] = {
    "part": "a part's file",
    "machine": "a machine's own file, machine.toml",
    "die": "a die set's file",
    "table": "a table of springback",
    "material": "material data",
    "steps": "a .steps.json",
    "steps as CSV": "a list of steps as CSV",
    "trials": "trial bends",
    "measured": "readings of measured pieces",
}
_JSON_STEPS = re.compile(r'\s*\{\s*"format"\s*:\s*"bendgen-steps"')
_PAGE = re.compile(r"\s*<(!doctype|html)", re.IGNORECASE)
_BETWEEN_CELLS = re.compile(r"[,;\t|]")
LONGEST_HEAD = 2000  # characters


def refuse_other_kinds(text: str, path: Path, expected: str, *kinds: Kind) -> None:
    """Raise InputError where a text is plainly a file of another kind than those; `expected` is what is wanted."""
    kind = _kind_of_text(text)
    if kind is not None and kind not in kinds:
        raise mistaken(str(path), expected, _NAMES[kind])
    if _PAGE.match(text):
        raise mistaken(str(path), expected, "a page")


def refuse_siblings(path: Path, expected: str, *suffixes: str) -> None:
    """Raise InputError for a file of an issue without one of those suffixes; name its .steps.json if that is there."""
    other = next((suffix for suffix in SUFFIXES if path.name.casefold().endswith(suffix)), None)
    if other is None or other in suffixes:
        return
    steps = path.with_name(path.name[: -len(other)] + STEPS_JSON)
    beside = f"{steps}, which lies beside it" if steps.is_file() else expected
    raise mistaken(str(path), beside, f"a {other}" + ", in the form of one machine" * (other == MACHINE_CSV))


def _kind_of_text(text: str) -> Kind | None:
    if _JSON_STEPS.match(text):
        return "steps"
    head = {cell.strip().casefold() for cell in _BETWEEN_CELLS.split(text[:LONGEST_HEAD].partition("\n")[0])}
    by_head = next((kind for kind, columns in _HEADS.items() if columns <= head), None)
    return by_head or next((kind for kind, mark in _TOML_MARKS.items() if mark.search(text)), None)
