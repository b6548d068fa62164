"""A part from its TOML file."""

from collections.abc import Iterator, Mapping
from pathlib import Path

from bendgen.errors import InputError, Mistake
from bendgen.files.decimal_commas import refuse_decimal_commas
from bendgen.files.field_types import context_from_data
from bendgen.files.other_files import refuse_other_kinds
from bendgen.files.part_models import PartFile
from bendgen.files.text_files import read_content, utf_8_text
from bendgen.files.toml_input import parse_toml
from bendgen.files.validation import Flaw, mistakes_from_flaws, validate
from bendgen.records.part import Part
from bendgen.units import Units

WISHES = ("centreline", "offset", "route", "steps")


def read_part(path: Path, *, units: Units | None = None) -> Part:
    """Part in a TOML file; raises InputError with every mistake of the file, and of the one it takes its axis from.

    units : read the file as if it said these
    """
    content = read_content(path, str(path), expected="a part's file, TOML")
    text = utf_8_text(content, str(path))
    refuse_other_kinds(text, path, "a part's file, TOML", "part")
    data = parse_toml(content, str(path))
    refuse_decimal_commas(text, data, str(path))
    return parse_part(data | {"units": units} if units else data, str(path), folder=path.parent)


def parse_part(data: Mapping[str, object], file: str, *, folder: Path | None = None) -> Part:
    """Part in the mapping of a TOML file, which mistakes call `file`; raises InputError with every mistake.

    folder : where `[centreline] from` is looked for; None: such a part is refused
    """
    readable, mistakes_of_axis = _with_axis(data, file, folder)
    model, flaws = validate(PartFile, readable, context_from_data(data))
    mistakes = [*mistakes_from_flaws([*_wish_flaws(data), *flaws], data, file), *mistakes_of_axis]
    if model is None or mistakes:
        raise InputError(mistakes)
    return model.record()


def _wish_flaws(data: Mapping[str, object]) -> Iterator[Flaw]:
    given = [f"[{wish}]" for wish in WISHES if wish in data]
    if len(given) != 1:
        expected = "exactly one of [centreline], [offset], [route] and [steps]"
        yield Flaw(expected=expected, found=" and ".join(given) or "none")


def _with_axis(
    data: Mapping[str, object], file: str, folder: Path | None
) -> tuple[dict[str, object], tuple[Mistake, ...]]:
    """Part with the axis that another file shows, or without one and with the mistakes that stand in the way."""
    centreline = data.get("centreline")
    if not isinstance(centreline, dict) or "from" not in centreline:
        return dict(data), ()
    others = {key: value for key, value in data.items() if key != "centreline"}
    if folder is None:
        found = "a file, which a part that is no file itself cannot name"
        return others, (Mistake(file=file, place="centreline.from", expected="vertices", found=found),)
    # The readers of other people's files load only where a part names such a file.
    from bendgen.files.centreline_source import wish_in_source  # noqa: PLC0415

    try:
        return {**others, **wish_in_source(data, file, folder)}, ()
    except InputError as error:
        return others, error.mistakes
