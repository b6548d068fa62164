"""The JSON that a refused part prints: findings and what would cure them."""

from bendgen.files.findings_content import finding_items, machine_item
from bendgen.files.json_text import format_json
from bendgen.files.output_models import FINDINGS_FORMAT, FINDINGS_VERSION, FindingsFile
from bendgen.records.bend_program import Plan


def format_findings_json(plan: Plan) -> str:
    """Limits and cautions of a plan, format "bendgen-findings"."""
    part = plan.part
    content: FindingsFile = {
        "format": FINDINGS_FORMAT,
        "version": FINDINGS_VERSION,
        "part": {"name": part.name, "number": part.number, "revision": part.revision},
        "machine": machine_item(plan.profile),
        "findings": finding_items(plan.findings),
    }
    return format_json(content)
