"""A tube from whatever file shows it; which reader takes the file is decided here, and nobody waits for another one."""

import re
from pathlib import Path
from typing import TYPE_CHECKING

from bendgen.files.solids.exchange_text import is_exchange_text
from bendgen.records.found_tube import Answers, FoundTube

if TYPE_CHECKING:
    from bendgen.records.step_list import ForeignSteps

DXF_START = re.compile(rb"\s*0\s*\r?\n\s*SECTION")


def read_source(path: Path, answers: Answers) -> "FoundTube | ForeignSteps":
    """Tube in a file of points, a DXF drawing or solids by ISO 10303-21, or the steps that make one.

    Raises
    ------
    InputError
        every mistake of the file, or the questions it leaves open, with the answers that settle them
    """
    return _source(path, answers, steps_too=True)


def read_tube(path: Path, answers: Answers) -> FoundTube:
    """Tube in a file; raises InputError as `read_source` does, and for steps, whose tube hangs on a machine."""
    source = _source(path, answers, steps_too=False)
    assert isinstance(source, FoundTube)  # steps were not asked for
    return source


def is_csv(path: Path) -> bool:
    """Whether the file is read as a CSV, as all are that are neither solids nor a drawing."""
    start = _start_of(path)
    return not is_exchange_text(start) and not _is_drawing(path, start)


def _source(path: Path, answers: Answers, *, steps_too: bool) -> "FoundTube | ForeignSteps":
    start = _start_of(path)
    if is_exchange_text(start):
        from bendgen.files.solids.solid_choice import read_tube_of_solids  # noqa: PLC0415

        return read_tube_of_solids(path, answers)
    if _is_drawing(path, start):
        from bendgen.files.drawings.dxf_file import read_drawing  # noqa: PLC0415

        return read_drawing(path, answers)
    from bendgen.files.csv_source import read_csv_source  # noqa: PLC0415

    return read_csv_source(path, answers, steps_too=steps_too)


def _is_drawing(path: Path, start: bytes) -> bool:
    return path.suffix.casefold() == ".dxf" or DXF_START.match(start) is not None


def _start_of(path: Path) -> bytes:
    """First bytes of a file; none of one that cannot be read, which its reader will say."""
    try:
        with path.open("rb") as stream:
            return stream.read(200)
    except (OSError, ValueError):  # ValueError: a name that no file can have
        return b""
