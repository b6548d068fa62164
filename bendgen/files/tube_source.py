"""A tube from whatever file shows it; which reader takes the file is decided here and nowhere else."""

import re
from pathlib import Path

from bendgen.errors import InputError, Mistake
from bendgen.files.foreign_cells import named_columns
from bendgen.files.foreign_csv import parse_foreign_csv
from bendgen.files.foreign_steps import names_steps, parse_foreign_steps
from bendgen.files.legs_csv import names_legs, parse_legs
from bendgen.files.points_csv import parse_points
from bendgen.files.solids.exchange_text import is_exchange_text
from bendgen.files.text_files import LARGE_FILE, read_text_file
from bendgen.records.found_tube import Answers, FoundTube
from bendgen.records.step_list import ForeignSteps

DXF_START = re.compile(rb"\s*0\s*\r?\n\s*SECTION")


def read_source(path: Path, answers: Answers) -> FoundTube | ForeignSteps:
    """Tube in a file of points, a DXF drawing or solids by ISO 10303-21, or the steps that make one.

    Raises
    ------
    InputError
        every mistake of the file, or the questions it leaves open, with the answers that settle them
    """
    return _drawn_tube(path, answers) or _source_in_csv(path, answers, steps_too=True)


def read_tube(path: Path, answers: Answers) -> FoundTube:
    """Tube in a file; raises InputError as `read_source` does, and for steps, whose tube hangs on a machine."""
    source = _drawn_tube(path, answers) or _source_in_csv(path, answers, steps_too=False)
    assert isinstance(source, FoundTube)  # steps were not asked for
    return source


def _drawn_tube(path: Path, answers: Answers) -> FoundTube | None:
    """Tube of a file of solids or of a drawing, None for any other; nobody waits for a reader he does not need."""
    start = _start_of(path)
    if is_exchange_text(start):
        from bendgen.files.solids.solid_choice import read_tube_of_solids  # noqa: PLC0415

        return read_tube_of_solids(path, answers)
    if path.suffix.casefold() == ".dxf" or DXF_START.match(start):
        from bendgen.files.drawings.dxf_file import read_drawing  # noqa: PLC0415

        return read_drawing(path, answers)
    return None


def _source_in_csv(path: Path, answers: Answers, *, steps_too: bool) -> FoundTube | ForeignSteps:
    file = str(path)
    for option, answer in (("--solid", answers.solid), ("--clr", answers.clr)):
        if answer is not None:
            raise InputError([Mistake(file=file, place="", expected=f"no {option}", found="a file without solids")])
    text = read_text_file(path, "a file that shows a tube", most_bytes=LARGE_FILE)
    table = parse_foreign_csv(text, file, answers)
    columns = named_columns(table, file, answers)
    if names_legs(columns):
        return parse_legs(table, file, answers)
    if not names_steps(columns):
        return parse_points(table, file, answers)
    if steps_too:
        return parse_foreign_steps(table, file, answers)
    expected, found = "a tube, not steps: bendgen read makes a part of those", "feed, rotation and bend"
    raise InputError([Mistake(file=file, place="", expected=expected, found=found)])


def _start_of(path: Path) -> bytes:
    """First bytes of a file; none of one that cannot be read, which its reader will say."""
    try:
        with path.open("rb") as stream:
            return stream.read(200)
    except (OSError, ValueError):  # ValueError: a name that no file can have
        return b""
