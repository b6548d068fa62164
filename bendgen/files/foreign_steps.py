"""Steps of somebody else's: feed, rotation and bend from any CSV; what they mean is answered, never guessed."""

from collections.abc import Iterator, Mapping, Sequence

from bendgen.errors import Mistake, mistaken
from bendgen.files.csv_lines import CsvLine
from bendgen.files.foreign_cells import (
    CLR_LEFT,
    EXPECTED_COLUMNS,
    EXPECTED_UNIT,
    length_of_cell,
    mistaken_cell,
    named_columns,
    refuse,
    units_of_columns,
)
from bendgen.files.foreign_csv import Column, ForeignCsv, finite_number
from bendgen.files.needless_answers import refuse_needless
from bendgen.records.found_tube import Answers
from bendgen.records.step_list import ForeignSteps, ListedStep, StepList
from bendgen.units import DrawnUnits, shop_units

NAMES = {"y": "feed", "b": "rotation", "c": "bend", "radius": "clr", "r": "clr"}  # trade words for the same columns
NEEDED = ("feed", "rotation", "bend")
KNOWN = (*NEEDED, "clr", "die")
QUESTIONS = {
    "feed": "incremental, summed, passed or carriage by --feed: what is the feed counted from?",
    "rotation": "incremental or absolute by --rotation: is the rotation counted from the bend before?",
    "rotation_positive": "clockwise_from_carriage or counterclockwise_from_carriage by --rotation-positive",
    "angles": "commanded or finished by --angles: is springback in the bends?",
}


def names_steps(columns: Sequence[Column]) -> bool:
    """Whether columns are those of steps."""
    return set(NEEDED) <= {_name(column) for column in columns}


def parse_foreign_steps(table: ForeignCsv, file: str, answers: Answers) -> ForeignSteps:
    """Steps in a table, which mistakes call `file`, in their own form.

    Raises
    ------
    InputError
        a column or the unit is missing; or else every bad cell; or else every question that only an answer settles
    """
    columns = named_columns(table, file, answers)
    places = _places(columns, file)
    units, units_from = units_of_columns(columns, file, answers)
    refuse_needless(answers, "steps", file)
    rows = _rows(table, places, units, file)
    _ask(rows, file, answers)
    assert answers.feed is not None  # it has been asked for
    return ForeignSteps(
        steps=StepList(
            steps=tuple(
                ListedStep(number=number, feed=row["feed"], rotation_deg=row["rotation"], bend_deg=row["bend"], die=die)
                for number, (row, die) in enumerate(zip(rows, _dies(table, places), strict=True), start=1)
            ),
            angles="commanded" if answers.angles == "commanded" else "finished",
        ),
        feed=answers.feed,
        rotation=answers.rotation or "incremental",  # where it was not asked for, it does not matter
        rotation_positive=answers.rotation_positive or "clockwise_from_carriage",
        clr=tuple(None if answers.leave_clr else row.get("clr") for row in rows),
        units=shop_units(units or "mm"),
        understood=(
            ("unit", f"{units}, {units_from}"),
            *table.understood,
            *((key.replace("_", " "), str(value)) for key in QUESTIONS if (value := getattr(answers, key)) is not None),
        ),
        ignored=(*table.ignored, *_ignored(columns, places, answers)),
    )


def _name(column: Column) -> str:
    return NAMES.get(column.name, column.name)


def _places(columns: Sequence[Column], file: str) -> dict[str, int]:
    places: dict[str, int] = {}
    for index, column in enumerate(columns):
        name = _name(column)
        if name in places:
            raise mistaken(file, f"one column {name}", "two", place="head row")
        if name in KNOWN:
            places[name] = index
    if not set(NEEDED) <= places.keys():
        headings = ", ".join(column.heading for column in columns)
        raise mistaken(file, EXPECTED_COLUMNS, f"'{headings[:80]}'", place="head row")
    return places


def _ignored(columns: Sequence[Column], places: Mapping[str, int], answers: Answers) -> Iterator[str]:
    for index, column in enumerate(columns):
        if index not in places.values():
            yield f"column '{column.heading}': none of feed, rotation, bend, CLR and die set"
    if "clr" in places and answers.leave_clr:
        yield CLR_LEFT


def _rows(table: ForeignCsv, places: Mapping[str, int], units: DrawnUnits | None, file: str) -> list[dict[str, float]]:
    """Numbers of each step by column; raises InputError for every bad cell."""
    rows, mistakes = [], []
    for line in table.lines:
        if len(line.cells) <= max(places.values()):
            expected = f"{max(places.values()) + 1} cells or more"
            found = str(len(line.cells))
            mistakes.append(Mistake(file=file, place=f"line {line.number}", expected=expected, found=found))
            continue
        row: dict[str, float] = {}
        for name, place in places.items():
            if name == "die":
                continue
            value = _value(line, name, place, units)
            if isinstance(value, str):
                mistakes.append(mistaken_cell(line, place, name, value, file))
            elif value is not None:
                row[name] = value
        rows.append(row)
    question = next((mistake for mistake in mistakes if mistake.expected == EXPECTED_UNIT), None)
    refuse(mistakes if question is None else [question])
    if not rows:
        raise mistaken(file, "one step or more", "none")
    return rows


def _dies(table: ForeignCsv, places: Mapping[str, int]) -> list[str | None]:
    """Name of each step's die set, where the table has a column of them."""
    if "die" not in places:
        return [None] * len(table.lines)
    return [line.cells[places["die"]].strip() or None for line in table.lines]


def _value(line: CsvLine, name: str, place: int, units: DrawnUnits | None) -> float | str | None:
    """Number in a cell, what was expected there instead, or None for a CLR that is not given."""
    cell = line.cells[place]
    if name == "clr" and cell in ("", "-", "0"):
        return None
    if name in ("feed", "clr"):
        return length_of_cell(cell, units)
    degrees = finite_number(cell.removesuffix("°").strip())
    if name == "rotation":
        return degrees if degrees is not None and abs(degrees) <= 360.0 else "a number from -360 to 360"
    return degrees if degrees is not None and 0.0 < degrees < 360.0 else "a number greater than 0 and less than 360"


def _ask(rows: Sequence[Mapping[str, float]], file: str, answers: Answers) -> None:
    """Raise InputError with every question that matters for these steps and nobody has answered."""
    turned = any(row["rotation"] % 180.0 != 0.0 for row in rows[1:])
    matters = {
        "feed": True,
        "rotation": any(row["rotation"] for row in rows[1:]),
        "rotation_positive": turned,
        "angles": True,
    }
    found = "nothing that says it"
    refuse(
        Mistake(file=file, place="", expected=question, found=found)
        for key, question in QUESTIONS.items()
        if matters[key] and getattr(answers, key) in (None, "views", "turns")
    )
