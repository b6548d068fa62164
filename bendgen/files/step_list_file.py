"""A step list from its file, JSON or CSV by the end of its name."""

from pathlib import Path

from bendgen.errors import InputError, Mistake
from bendgen.files.step_list_csv import parse_steps_csv
from bendgen.files.step_list_json import parse_steps_json
from bendgen.files.toml_input import read_content
from bendgen.records.step_list import StepList


def read_step_list(path: Path) -> StepList:
    """Steps in a file of at most 1 MB; raises InputError with every mistake."""
    file = str(path)
    if path.is_dir() or not path.exists():
        raise _mistaken(file, "a step list, JSON or CSV", "a folder" if path.is_dir() else "")
    content = read_content(path, file)
    try:
        text = content.decode("utf-8")
    except UnicodeDecodeError as error:
        line = content[: error.start].count(b"\n") + 1
        raise _mistaken(file, "UTF-8 text", f"a byte that is none, at line {line}") from None
    return parse_steps_json(text, file) if path.suffix.casefold() == ".json" else parse_steps_csv(text, file)


def _mistaken(file: str, expected: str, found: str) -> InputError:
    return InputError([Mistake(file=file, place="", expected=expected, found=found)])
