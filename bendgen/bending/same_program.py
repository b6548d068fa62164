"""Whether a part and a machine still give the program that a sheet was written from."""

from bendgen.records.bend_program import BendProgram
from bendgen.records.foretold import Foretold
from bendgen.units import counted

SAME = 1e-6  # of two commands [mm, deg]


def difference(program: BendProgram, foretold: Foretold) -> str | None:
    """First difference of machine or commands in words, None where there is none."""
    if program.profile.name != foretold.machine:
        return f"machine '{program.profile.name}' instead of '{foretold.machine}'"
    if len(program.steps) != len(foretold.steps):
        return f"{counted(len(program.steps), 'bend')} instead of {len(foretold.steps)}"
    for ours, theirs in zip(program.steps, foretold.steps, strict=True):
        values = {
            "feed": (ours.feed, theirs.feed),
            "rotation": (ours.rotation_deg, theirs.rotation_deg),
            "bend": (ours.bend_deg, theirs.bend_deg),
        }
        for name, (now, then) in values.items():
            if abs(now - then) > SAME:
                return f"step {ours.number}: {name} {now:.6g} instead of {then:.6g}"
    return None
