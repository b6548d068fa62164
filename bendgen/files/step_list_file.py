"""A step list from its file, JSON or CSV by the end of its name."""

from pathlib import Path

from bendgen.files.step_list_csv import parse_steps_csv
from bendgen.files.step_list_json import parse_steps_json
from bendgen.files.text_files import read_text_file
from bendgen.records.step_list import StepList


def read_step_list(path: Path) -> StepList:
    """Steps in a file of at most 1 MB; raises InputError with every mistake."""
    text = read_text_file(path, "a step list, JSON or CSV")
    file = str(path)
    return parse_steps_json(text, file) if path.suffix.casefold() == ".json" else parse_steps_csv(text, file)
