"""A tube from whatever file shows it; which reader takes the file is decided here and nowhere else."""

from pathlib import Path

from bendgen.files.foreign_csv import parse_foreign_csv
from bendgen.files.points_csv import parse_points
from bendgen.files.solids.exchange_text import is_exchange_text
from bendgen.files.text_files import read_text_file
from bendgen.records.found_tube import Answers, FoundTube

MOST_BYTES = 20_000_000  # a hundred thousand points with all their digits take 6 MB


def read_tube(path: Path, answers: Answers) -> FoundTube:
    """Tube in a file of points, or of solids by ISO 10303-21.

    Raises
    ------
    InputError
        every mistake of the file, or the question it leaves open, with the answer that settles it
    """
    file = str(path)
    if _shows_solids(path):
        from bendgen.files.solids.solid_choice import read_tube_of_solids  # noqa: PLC0415 - other files don't wait

        return read_tube_of_solids(path, answers)
    text = read_text_file(path, "a file that shows a tube", most_bytes=MOST_BYTES)
    return parse_points(parse_foreign_csv(text, file, answers), file, answers)


def _shows_solids(path: Path) -> bool:
    """Whether a file begins as ISO 10303-21 has it; False for one that cannot be read."""
    try:
        with path.open("rb") as stream:
            return is_exchange_text(stream.read(200))
    except (OSError, ValueError):  # ValueError: a name that no file can have
        return False
