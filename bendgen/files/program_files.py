"""The files of one program, written together."""

from collections.abc import Iterable, Mapping
from pathlib import Path

from bendgen.files.output_names import MACHINE_CSV, STEPS_CSV, STEPS_JSON, SUFFIXES, output_stem
from bendgen.files.steps_csv import format_machine_csv, format_steps_csv
from bendgen.files.steps_json import format_steps_json, program_id
from bendgen.files.whole_files import refuse_existing, write_whole_files
from bendgen.records.bend_program import BendProgram
from bendgen.records.part import Part


def refuse_existing_issues(parts: Iterable[Part], folder: Path, *, issue: int) -> None:
    """Raise OutputError where a file of that issue exists for any of the parts, before anything is written."""
    paths = (folder / f"{output_stem(part, issue)}{suffix}" for part in parts for suffix in SUFFIXES)
    refuse_existing(paths, cure="without --issue the next number is taken, and --force replaces what is there")


def write_program(
    program: BendProgram, folder: Path, *, issue: int, sheets: Mapping[str, str | bytes], force: bool = False
) -> tuple[Path, ...]:
    """Write step lists and sheet of one issue; the JSON appears last, and with it the issue is complete.

    Parameters
    ----------
    sheets : SHEET_TEXT, SHEET_PAGE, SHEET_PDF or several -> the sheet in that form, which shows the id that
        `bendgen.files.steps_json.program_id` gives for this issue; AXIS_CSV, AXIS_DXF -> the predicted axis
    force : replace files of the same issue; a form of its sheet that is not written again is removed, for it shows
        the numbers of what was replaced

    Returns
    -------
    paths of the files, in the order in which they were written

    Raises
    ------
    OutputError    one of the files exists (none is written then) or cannot be written
    """
    stem = output_stem(program.part, issue)
    tied_by = program_id(program, issue)
    texts: dict[str, str | bytes] = {
        STEPS_CSV: format_steps_csv(program, tied_by),
        MACHINE_CSV: format_machine_csv(program, tied_by),
        **sheets,
        STEPS_JSON: format_steps_json(program, program_id=tied_by, issue=issue),
    }
    files = {folder / f"{stem}{suffix}": text for suffix, text in texts.items()}
    write_whole_files(files, force=force)
    for suffix in set(SUFFIXES) - set(texts):
        if force:
            (folder / f"{stem}{suffix}").unlink(missing_ok=True)
    return tuple(files)
