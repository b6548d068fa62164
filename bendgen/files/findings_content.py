"""From findings to their JSON contents; both JSON files hold them in one form."""

from collections.abc import Iterable

from bendgen.files.output_items import ChangeItem, ChangeValue, CureItem, FindingItem, MachineItem
from bendgen.records.findings import Change, Cure, Finding, Value
from bendgen.records.machine import MachineProfile


def finding_items(findings: Iterable[Finding]) -> list[FindingItem]:
    """Each finding with its cures."""
    return [
        {
            "rule": finding.rule,
            "level": finding.level,
            "step": finding.step,
            "value": finding.value,
            "limit": finding.limit,
            "unit": finding.unit,
            "text": finding.text,
            "cures": cure_items(finding.cures),
        }
        for finding in findings
    ]


def cure_items(cures: Iterable[Cure]) -> list[CureItem]:
    """Each cure with the change that it is."""
    return [{"text": cure.text, "change": _change_item(cure.change)} for cure in cures]


def _change_item(change: Change) -> ChangeItem:
    return {"key": change.key, "value": _value(change.value)}


def _value(value: Value) -> ChangeValue:
    """Value with lists for its tuples: of numbers, or of rows of numbers."""
    if not isinstance(value, tuple):
        return value
    rows = [list(item) for item in value if isinstance(item, tuple)]
    return rows or [item for item in value if not isinstance(item, tuple)]


def machine_item(profile: MachineProfile) -> MachineItem:
    """Name the machine meant and the state of its profile."""
    return {"name": profile.name, "sha256": profile.sha256}
