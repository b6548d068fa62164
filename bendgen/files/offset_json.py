"""The JSON that an explored offset prints."""

from bendgen.files.findings_content import finding_items, machine_item
from bendgen.files.json_text import format_json
from bendgen.files.offset_content import offset_item
from bendgen.files.offset_items import OFFSET_FORMAT, OFFSET_VERSION, OffsetFile
from bendgen.files.steps_content import table_item, tube_item
from bendgen.records.bend_program import BendProgram
from bendgen.records.offset import OffsetSolution


def format_offset_json(program: BendProgram, solution: OffsetSolution) -> str:
    """Text of an offset and the program it was solved in, format "bendgen-offset"."""
    content: OffsetFile = {
        "format": OFFSET_FORMAT,
        "version": OFFSET_VERSION,
        "tube": tube_item(program.part.tube),
        "machine": machine_item(program.profile),
        "tables": [table_item(table) for table in program.tables],
        "basis": program.steps[0].basis.springback if program.steps else None,
        "offset": offset_item(solution),
        "findings": finding_items(program.findings),
    }
    return format_json(content)
