"""Checks: what to read, what is wanted and predicted, and a box for what was read."""

from collections.abc import Mapping, Sequence

import htpy
from htpy import Element, Node, button, div, h3, label, output, p, section, small, span, table, tbody, td, th, thead, tr

from bendgen.records.bend_program import BendProgram, Check
from bendgen.records.measured import diameter_names
from bendgen.records.part import Part
from bendgen.reports.page.blocks import CELLS, rendered
from bendgen.reports.sheet.checks import (
    OVALITY,
    band_words,
    check_notes,
    checks_by_moment,
    doubt_words,
    out_words,
    predicted_words,
    wanted_by_id,
    wanted_words,
)
from bendgen.reports.sheet.numbers import SheetNumbers

HEADINGS = (
    ("check", "text"),
    ("from – to", "text"),
    ("wanted ± tolerance", "number"),
    ("predicted", "number"),
    ("read", "text"),
    ("verdict", "verdict"),
)
ROW_HEADING, WANTED, VERDICT = th(scope="row"), td(".number.wanted"), td(".verdict")


def readings_section(program: BendProgram, numbers: SheetNumbers, wanted: Sequence[float]) -> Element:
    """All checks in the order in which they can be made.

    wanted : what each reads on the part that was asked for
    """
    wanted_of = wanted_by_id(program, wanted)
    return section(".readings", aria_labelledby="checks")[
        h3("#checks")["Checks"],
        (p[note] for note in check_notes(program)),
        _piece_boxes(program.part),
        table[
            thead[tr[(th(scope="col", class_=kind)[heading] for heading, kind in HEADINGS)]],
            (_moment_rows(moment, checks, numbers, wanted_of) for moment, checks in checks_by_moment(program)),
        ],
        _diameter_boxes(program),
        _saving(),
    ]


def readings_data(program: BendProgram, wanted: Sequence[float]) -> dict[str, object]:
    """What the page's script needs to judge a reading; lengths in mm."""
    wanted_of = wanted_by_id(program, wanted)
    return {
        "units": program.profile.output.units,
        "od": program.part.tube.od,
        "diameters": [diameter_names(step.number) for step in program.steps],
        "checks": [
            {"id": check.id, "unit": check.unit, "wanted": wanted_of[check.id], "tolerance": check.tolerance}
            for check in program.checks
        ],
    }


def _piece_boxes(part: Part) -> Element:
    """Which piece was read, from which heat or lot."""
    return div(".piece")[
        label["piece ", _box(id="piece", inputmode="numeric", value="1", maxlength=40)],
        label["heat or lot ", _box(id="lot", value=part.tube.lot or "", maxlength=100)],
    ]


def _moment_rows(
    moment: str, checks: Sequence[Check], numbers: SheetNumbers, wanted_of: Mapping[str, float]
) -> Element:
    return tbody[
        tr(".moment")[th(scope="rowgroup", colspan=len(HEADINGS) - 1)[moment], VERDICT],
        (rendered(_check_row(check, numbers, wanted_of[check.id])) for check in checks),
    ]


def _check_row(check: Check, numbers: SheetNumbers, wanted: float) -> Element:
    read = f"read-{check.id}"
    return tr[
        ROW_HEADING[check.id, small[check.quantity]],
        td[f"{check.start} to {check.end}", _small(band_words(check, numbers))],
        WANTED[wanted_words(check, wanted, numbers)],
        CELLS["r"][predicted_words(check, numbers), _small(out_words(check, wanted)), _small(doubt_words(check))],
        td[_box(id=read, inputmode="decimal", maxlength=24, aria_label=f"reading of {check.id}")],
        VERDICT[output(for_=read)],
    ]


def _diameter_boxes(program: BendProgram) -> Node:
    """Two boxes for every bend, and what they say of its ovality; nothing where nothing is bent."""
    if not program.steps:
        return None
    return div(".diameters")[
        p[OVALITY],
        (
            div(".diameter-pair")[
                span(".bend")[f"bend {step.number}"],
                (
                    label[
                        which,
                        _box(
                            id=f"read-{name}",
                            inputmode="decimal",
                            maxlength=24,
                            aria_label=f"{which} diameter in bend {step.number}",
                        ),
                    ]
                    for name, which in zip(names, ("largest", "smallest"), strict=True)
                ),
                output(for_=" ".join(f"read-{name}" for name in names)),
            ]
            for step in program.steps
            for names in [diameter_names(step.number)]
        ),
    ]


def _small(words: str) -> Node:
    return small[words] if words else None


def _box(**attributes: str | int) -> htpy.VoidElement:
    """A box to type or to write into."""
    return htpy.input(type="text", autocomplete="off", **attributes)


def _saving() -> Element:
    """What the page's script offers; without scripts it stays hidden."""
    return div("#saving", hidden=True)[
        p("#count"),
        button("#save", type="button")["Save the readings"],
        button("#next", type="button")["Next piece"],
    ]
