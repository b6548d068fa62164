"""What a refused part prints with --json."""

import json

from pydantic import TypeAdapter

from bendgen.files.findings_json import format_findings_json
from bendgen.files.output_models import FindingsFile
from bendgen.records.bend_program import BendProgram, Plan
from bendgen.records.findings import Change, Cure, Finding

TOO_SHORT = Finding(
    rule="clamp",
    level="limit",
    step=2,
    value=80.0,
    limit=110.0,
    unit="mm",
    text="bend 2: 80 mm of straight ahead, the clamp needs 110 mm",
    cures=(Cure(text="use another die", change=Change(key="part.die", value="d50-r75")),),
)


def test_holds_findings_and_cures(example_program: BendProgram) -> None:
    plan = Plan(
        part=example_program.part,
        profile=example_program.profile,
        findings=(TOO_SHORT, *example_program.findings),
        program=None,
    )
    text = format_findings_json(plan)
    TypeAdapter(FindingsFile).validate_json(text, strict=True)
    content = json.loads(text)
    assert (content["format"], content["version"]) == ("bendgen-findings", 1)
    assert content["part"] == {"name": "Dryer inlet pipe", "number": "GD-118", "revision": "B"}
    assert content["machine"]["name"] == "Bay 2 mandrel bender"
    assert content["findings"][0] == {
        "rule": "clamp",
        "level": "limit",
        "step": 2,
        "value": 80.0,
        "limit": 110.0,
        "unit": "mm",
        "text": "bend 2: 80 mm of straight ahead, the clamp needs 110 mm",
        "cures": [{"text": "use another die", "change": {"key": "part.die", "value": "d50-r75"}}],
    }
    assert content["findings"][1]["cures"][0]["change"]["value"] == [[0.0, 0.0, 0.0], [300.0, 360.0, 403.0]]
