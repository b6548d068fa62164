"""A machine in one line."""

from collections.abc import Sequence

from bendgen.records.machine import MachineProfile
from bendgen.reports.tooling_list import dies_without_table


def profile_summary(profile: MachineProfile, *, cautions: int) -> str:
    """Name, numbers of files and cautions, and the die sets that still lack a table."""
    counts = [
        counted(len(profile.dies), "die set"),
        counted(len(profile.tables), "table"),
        counted(len(profile.materials), "material"),
    ]
    parts = [f"{profile.name}: {', '.join(counts)}", f"no mistakes, {counted(cautions, 'caution')}"]
    without = ", ".join(die.id for die in dies_without_table(profile))
    if without:
        parts.append(f"no table yet: {without}")
    return "; ".join(parts)


def counted(number: int, noun: str) -> str:
    """Number with its noun, "1 table", "no tables", "3 tables"."""
    return f"{number or 'no'} {noun}{'' if number == 1 else 's'}"


def new_die_notes(die_id: str, *, absent: Sequence[str]) -> str:
    """What a new die set still lacks: keys that were not given, and trial bends."""
    notes = [f"not given, so not checked: {', '.join(absent)}"] if absent else []
    notes.append(
        f'still missing: a table from trial bends, a file in tables/ with die = "{die_id}"; '
        "until there is one, the springback is estimated and every part on this die set is a trial piece"
    )
    return "\n".join(notes)
