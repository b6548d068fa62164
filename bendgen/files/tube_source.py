"""A tube from whatever file shows it; which reader takes the file is decided here and nowhere else."""

from pathlib import Path

from bendgen.files.foreign_csv import parse_foreign_csv
from bendgen.files.points_csv import parse_points
from bendgen.files.text_files import read_text_file
from bendgen.records.found_tube import Answers, FoundTube

MOST_BYTES = 20_000_000  # a hundred thousand points with all their digits take 6 MB


def read_tube(path: Path, answers: Answers) -> FoundTube:
    """Tube in a file of points.

    Raises
    ------
    InputError
        every mistake of the file, or the question it leaves open, with the answer that settles it
    """
    file = str(path)
    text = read_text_file(path, "a file that shows a tube", most_bytes=MOST_BYTES)
    return parse_points(parse_foreign_csv(text, file, answers), file, answers)
