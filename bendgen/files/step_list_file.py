"""A step list from its file, JSON or CSV by the end of its name."""

from pathlib import Path

from bendgen.files.other_files import refuse_other_kinds, refuse_siblings
from bendgen.files.output_names import STEPS_CSV, STEPS_JSON
from bendgen.files.step_list_csv import parse_steps_csv
from bendgen.files.step_list_json import parse_steps_json
from bendgen.files.text_files import read_text_file
from bendgen.records.step_list import StepList


def read_step_list(path: Path) -> StepList:
    """Steps in a file of at most 1 MB; raises InputError with every mistake."""
    expected = "a step list, .steps.json or CSV"
    refuse_siblings(path, expected, STEPS_JSON, STEPS_CSV)
    text = read_text_file(path, expected)
    refuse_other_kinds(text, path, expected, "steps", "steps as CSV")
    file = str(path)
    return parse_steps_json(text, file) if path.suffix.casefold() == ".json" else parse_steps_csv(text, file)
