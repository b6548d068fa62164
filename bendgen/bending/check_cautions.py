"""Cautions that follow from what the checks of a program foretell: what to know before a tube is sawn."""

from collections.abc import Iterator, Sequence

from bendgen.bending.check_values import wanted_readings
from bendgen.bending.foretold import foretold_of_program
from bendgen.records.bend_program import BendProgram, Check
from bendgen.records.comparison import missed_by
from bendgen.records.findings import Finding


def check_cautions(program: BendProgram, unknown: Sequence[Check]) -> Iterator[Finding]:
    """Readings predicted out of tolerance, less certain than their tolerance, and not foretold by any measurement.

    unknown : checks that depend on what nobody measured
    """
    yield from _missed_tolerances(program)
    yield from _tighter_tolerances(program.checks)
    yield from _unknown_readings(program, unknown)


def _missed_tolerances(program: BendProgram) -> Iterator[Finding]:
    """One caution for all readings that the commands themselves bring out of tolerance, with the worst's numbers."""
    wanted = wanted_readings(foretold_of_program(program))
    misses = [(check, missed_by(check, value)) for check, value in zip(program.checks, wanted, strict=True)]
    out = [(check, off) for check, off in misses if off]
    if not out:
        return
    worst, off = max(out, key=lambda pair: pair[1] / pair[0].tolerance)
    yield Finding(
        rule="tolerance",
        level="caution",
        step=None,
        value=off,
        limit=worst.tolerance,
        unit=worst.unit,
        text=f"{_named(worst, [check for check, _ in out])}: predicted out of tolerance: "
        "change part or tolerance before you saw a tube",
    )


def _tighter_tolerances(checks: Sequence[Check]) -> Iterator[Finding]:
    """One caution for all readings that are less certain than their tolerance, with the numbers of the worst."""
    loose = [(check, of) for check in checks if (of := check.uncertainty) is not None and of.expanded > check.tolerance]
    if not loose:
        return
    check, uncertainty = max(loose, key=lambda pair: pair[1].expanded / pair[0].tolerance)
    # A share goes beyond 1 where another bend makes up for part of it.
    step, share = max(enumerate(uncertainty.shares, start=1), key=lambda of_step: of_step[1])
    yield Finding(
        rule="uncertainty",
        level="caution",
        step=step,
        value=uncertainty.expanded,
        limit=check.tolerance,
        unit=check.unit,
        text=f"{_named(check, [other for other, _ in loose])}: less certain than the tolerance; bend {step} makes "
        f"{min(share, 1.0):.0%} of it: measure the first part, and bend trials near its angle",
    )


def _unknown_readings(program: BendProgram, unknown: Sequence[Check]) -> Iterator[Finding]:
    """One caution for all readings that depend on what nobody measured, unless no table serves: that is said anyway."""
    if not unknown or not program.tables:
        return
    unmeasured = any(step.basis.elongation == "not measured" for step in program.steps)
    why = "elongation was never measured and is taken as 0" if unmeasured else "the table has too few rows to tell"
    yield Finding(
        rule="elongation",
        level="caution",
        step=None,
        value=None,
        limit=None,
        unit="",
        text=f"{_named(unknown[0], unknown)}: how far off is not known: {why}: measure the first part",
    )


def _named(first: Check, checks: Sequence[Check]) -> str:
    """One of them, and how many more."""
    return f"{first.id} and {len(checks) - 1} more" if len(checks) > 1 else first.id
