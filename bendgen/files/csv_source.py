"""A tube, or the steps that make one, from a CSV from elsewhere: what its columns hold decides."""

from pathlib import Path

from bendgen.errors import mistaken
from bendgen.files.foreign_cells import named_columns
from bendgen.files.foreign_csv import parse_foreign_csv
from bendgen.files.foreign_steps import names_steps, parse_foreign_steps
from bendgen.files.legs_csv import names_legs, parse_legs
from bendgen.files.other_files import refuse_other_kinds
from bendgen.files.points_csv import parse_points
from bendgen.files.text_files import LARGE_FILE, read_text_file
from bendgen.records.found_tube import Answers, FoundTube
from bendgen.records.step_list import ForeignSteps


def read_csv_source(path: Path, answers: Answers, *, steps_too: bool) -> FoundTube | ForeignSteps:
    """Tube in a CSV, or, where they are asked for too, steps; raises InputError as `read_source` does."""
    file = str(path)
    text = read_text_file(path, "a file that shows a tube", most_bytes=LARGE_FILE)
    refuse_other_kinds(text, path, "a file that shows a tube", "steps as CSV")
    table = parse_foreign_csv(text, file, answers)
    columns = named_columns(table, file, answers)
    if names_legs(columns):
        return parse_legs(table, file, answers)
    if not names_steps(columns):
        return parse_points(table, file, answers)
    if steps_too:
        return parse_foreign_steps(table, file, answers)
    expected, found = "a tube, not steps: bendgen read makes a part of those", "feed, rotation and bend"
    raise mistaken(file, expected, found)
