"""The neutral step list as JSON, and the id that ties all files of one program together."""

import hashlib

from bendgen.files.json_text import canonical_json, format_json
from bendgen.files.steps_content import steps_content
from bendgen.records.bend_program import BendProgram

ID_DIGITS = 8


def format_steps_json(program: BendProgram, *, program_id: str, issue: int) -> str:
    """Text of the file, format "bendgen-steps"."""
    return format_json(steps_content(program, program_id=program_id, issue=issue))


def program_id(program: BendProgram, issue: int) -> str:
    """Id of a step list: eight hex digits that change with anything it says, and with any change of the profile.

    It begins the sha256 of the file's contents without `id` and without the dates of issue of the `tables`, as JSON in
    one spelling: keys in order, no spaces, ASCII.
    """
    content = steps_content(program, program_id="", issue=issue)
    undated = [{key: value for key, value in table.items() if key != "issued"} for table in content["tables"]]
    hashed = {key: value for key, value in content.items() if key != "id"} | {"tables": undated}
    return hashlib.sha256(canonical_json(hashed)).hexdigest()[:ID_DIGITS]
