"""A part from its TOML file."""

from collections.abc import Mapping
from pathlib import Path

from bendgen.errors import InputError
from bendgen.files.field_types import context_from_data
from bendgen.files.part_models import PartFile
from bendgen.files.toml_input import load_toml
from bendgen.files.validation import Flaw, mistakes_from_flaws, validate
from bendgen.records.part import Part

WISHES = ("centreline", "offset", "steps")


def read_part(path: Path) -> Part:
    """Part in a TOML file; raises InputError with every mistake of the file."""
    return parse_part(load_toml(path), str(path))


def parse_part(data: Mapping[str, object], file: str) -> Part:
    """Part in the mapping of a TOML file, which mistakes call `file`; raises InputError with every mistake."""
    readable, wish_flaws = _readable_wishes(data)
    model, flaws = validate(PartFile, readable, context_from_data(data))
    if model is None or wish_flaws:
        raise InputError(mistakes_from_flaws([*wish_flaws, *flaws], data, file))
    return model.record()


def _readable_wishes(data: Mapping[str, object]) -> tuple[dict[str, object], list[Flaw]]:
    """Part without the wishes that are not read yet, and what is wrong with its choice of wishes."""
    readable = dict(data)
    flaws = []
    given = [f"[{wish}]" for wish in WISHES if wish in data]
    if len(given) != 1:
        expected = "exactly one of [centreline], [offset] and [steps]"
        flaws.append(Flaw(expected=expected, found=" and ".join(given) or "none"))
    centreline = data.get("centreline")
    if isinstance(centreline, dict) and "from" in centreline:
        del readable["centreline"]
        found = "a file to read the path from, which is not read yet"
        flaws.append(Flaw(place=("centreline", "from"), expected="vertices", found=found))
    return readable, flaws
