"""Answers to what a kind of file does not leave open: refused, for whoever gives one expects that it counts."""

from dataclasses import fields
from typing import Literal

from bendgen.errors import InputError, Mistake
from bendgen.records.found_tube import Answers

Kind = Literal["vertices", "axis", "legs", "steps", "lines and arcs", "drawing", "solids"]

FOUND_WORDS: dict[Kind, str] = {
    "vertices": "vertices in a CSV",
    "axis": "points along the axis, in a CSV",
    "legs": "legs in a CSV",
    "steps": "steps in a CSV",
    "lines and arcs": "a drawing of lines and arcs alone",
    "drawing": "a DXF drawing",
    "solids": "solids",
}
POINTS: tuple[Kind, ...] = ("vertices", "axis")
CSV: tuple[Kind, ...] = (*POINTS, "legs", "steps")
DRAWINGS: tuple[Kind, ...] = ("lines and arcs", "drawing")
# By answer: what it is for, in words, and the kinds of file that those are.
FOR_WHAT: dict[str, tuple[str, tuple[Kind, ...]]] = {
    "units": ("CSVs and drawings", (*CSV, *DRAWINGS)),
    "overrule_units": ("drawings", DRAWINGS),
    "decimal": ("CSVs", CSV),
    "columns": ("CSVs", CSV),
    "layer": ("drawings", DRAWINGS),
    "solid": ("solids", ("solids",)),
    "clr": ("solids", ("solids",)),
    "points": ("points and drawings", (*POINTS, *DRAWINGS)),
    "within": ("points along the axis and drawn curves", ("axis", "drawing")),
    "leave_clr": ("points, steps, drawings and solids", (*POINTS, "steps", *DRAWINGS, "solids")),
    "feed": ("steps", ("steps",)),
    "rotation": ("steps", ("steps",)),
    "rotation_positive": ("steps", ("steps",)),
    "angles": ("steps and legs", ("steps", "legs")),
}


def refuse_needless(answers: Answers, kind: Kind, file: str) -> None:
    """Raise InputError with every answer that does not concern a file of that kind."""
    given = [field.name for field in fields(answers) if getattr(answers, field.name) not in (None, False)]
    mistakes = [needless(name, FOR_WHAT[name][0], kind, file) for name in given if kind not in FOR_WHAT[name][1]]
    if mistakes:
        raise InputError(mistakes)


def needless(name: str, for_what: str, kind: Kind, file: str) -> Mistake:
    """Mistake of an option, by its name without the hyphens before it, that does not concern that kind of file."""
    option = name.replace("_", "-")
    return Mistake(file=file, place="", expected=f"no --{option}, which is for {for_what}", found=FOUND_WORDS[kind])
