"""`[centreline] from = "FILE"`: a part whose axis stands in another file."""

import re
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import Literal

from pydantic import Field

from bendgen.errors import InputError, Mistake
from bendgen.files.field_types import MergeAngle, PositiveLength, Text, context_from_data
from bendgen.files.found_wish import wish_data
from bendgen.files.part_models import TubeTable
from bendgen.files.tube_agreement import disagreements
from bendgen.files.tube_source import read_tube
from bendgen.files.validation import Flaw, Table, mistakes_from_flaws, validate
from bendgen.records.found_tube import Answers, FoundTube
from bendgen.units import DrawnUnits

OPTION = re.compile(r"--([a-z]+(?:-[a-z]+)*)")


class CentrelineSource(Table):
    """`[centreline]` with `from`; the keys beside it answer what the file leaves open."""

    file: Text = Field(alias="from")  # which cannot be a name in Python
    units: DrawnUnits | None = None
    overrule_units: bool = False
    decimal: Literal["point", "comma"] | None = None
    columns: Text | None = None
    points: Literal["vertices", "axis"] | None = None
    layer: Text | None = None
    solid: Text | None = None
    clr: PositiveLength | None = None
    within: PositiveLength | None = None
    leave_clr: bool = False
    merge_below: MergeAngle | None = None

    def answers(self) -> Answers:
        """Keys as answers to the reader."""
        return Answers(
            units=self.units,
            overrule_units=self.overrule_units,
            decimal=self.decimal,
            columns=self.columns,
            points=self.points,
            layer=self.layer,
            solid=self.solid,
            clr=self.clr,
            within=self.within,
            leave_clr=self.leave_clr,
        )


def wish_in_source(data: Mapping[str, object], file: str, folder: Path) -> dict[str, dict[str, object]]:
    """`[centreline]` or `[steps]` to put in the place of `[centreline] from`, in the units of the part.

    Parameters
    ----------
    data : of the part's whole file, which mistakes call `file`
    folder : of that file; the other is named relative to it

    Raises
    ------
    InputError
        every mistake of the keys, or every mistake of the other file
    """
    centreline = data["centreline"]
    assert isinstance(centreline, dict)
    context = context_from_data(data)
    source, flaws = validate(CentrelineSource, centreline, context)
    if source is None:
        raise InputError(mistakes_from_flaws([_in_centreline(flaw) for flaw in flaws], data, file))
    found = _read(folder / source.file, source.answers())
    _check_tube(found, data, file)
    wish = wish_data(found, context["units"])
    if source.merge_below is not None and "centreline" in wish:
        wish["centreline"]["merge_below"] = source.merge_below
    return wish


def _check_tube(found: FoundTube, data: Mapping[str, object], file: str) -> None:
    """Raise InputError where the other file shows another tube than `[tube]`, as far as that can be read."""
    context = context_from_data(data)
    tube = data.get("tube")
    said, _ = validate(TubeTable, tube, context) if isinstance(tube, dict) else (None, [])
    if said is None:
        return
    wrong = disagreements(found, od=said.od, wall=said.wall, units=context["units"])
    mistakes = [
        Mistake(file=file, place=f"tube.{item.key}", expected=item.expected, found=item.found) for item in wrong
    ]
    if mistakes:
        raise InputError(mistakes)


def _in_centreline(flaw: Flaw) -> Flaw:
    return replace(flaw, place=("centreline", *flaw.place))


def _read(path: Path, answers: Answers) -> FoundTube:
    """Tube in the file; a question it leaves open names the key beside `from` that answers it."""
    try:
        return read_tube(path, answers)
    except InputError as error:
        raise InputError([_naming_keys(mistake) for mistake in error.mistakes]) from None


def _naming_keys(mistake: Mistake) -> Mistake:
    named = OPTION.sub(lambda option: f"the key '{option[1].replace('-', '_')}' beside 'from'", mistake.expected)
    return replace(mistake, expected=named)
