"""Changes written into a part's file, key by key, as a person would after reading a cure."""

import copy
import json
import re
from collections.abc import Mapping
from typing import Any

from bendgen.bending.hands import mirror_part, reverse_part
from bendgen.files.part_file import parse_part
from bendgen.records.findings import Change
from bendgen.records.part import Part

PartData = dict[str, Any]


def edited(data: Mapping[str, Any], options: frozenset[str], change: Change) -> tuple[PartData, frozenset[str]]:
    """The file's data and the command's options after one change."""
    changed = copy.deepcopy(dict(data))
    if change.key.startswith("--"):
        return changed, (options | {change.key}) if change.value is True else (options - {change.key})
    *tables, last = change.key.split(".")
    place: Any = changed
    for step in tables:
        found = re.fullmatch(r"(\w+)\[(\d+)\]", step)
        place = place[found[1]][int(found[2]) - 1] if found else place.setdefault(step, {})
    assert re.fullmatch(r"\w+", last)
    place[last] = json.loads(json.dumps(change.value))  # lists, as in a file, for tuples
    return changed, options


def part_of_data(data: Mapping[str, Any], options: frozenset[str] = frozenset()) -> Part:
    """Part as the command would plan it."""
    part = parse_part(data, "part.toml")
    if "--mirror" in options:
        part = mirror_part(part)
    return reverse_part(part) if "--from-rear" in options else part
