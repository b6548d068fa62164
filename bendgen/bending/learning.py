"""From trial bends to tables: one for each die and kind of tube, with all that was left out and why."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

import numpy as np

from bendgen.bending.learned_rows import learned_rows, repeats
from bendgen.bending.learned_table import rounded_rows, table_of_lesson
from bendgen.bending.lot_shift import lot_shift, shift_cautions, shift_refusal, shifted_rows, tables_of_kind
from bendgen.bending.outlying_readings import fitting_degree
from bendgen.bending.trial_groups import Group, grouped_trials, walls_agree
from bendgen.bending.trial_outliers import sifted_trials
from bendgen.geometry.least_squares import linear_fit, powers
from bendgen.records.machine import MachineProfile
from bendgen.records.trials import LearnedRow, Lesson, SpringbackFit, TrialBend, TrialSource, TubeKind
from bendgen.units import format_length, unit_question


def learn_trials(bends: Sequence[TrialBend], profile: MachineProfile, source: TrialSource) -> tuple[Lesson, ...]:
    """What the trial bends of one file teach, one lesson for each die and kind of tube.

    Raises
    ------
    InputError
        lots, or nearly equal walls, are mixed in one table
    """
    groups = grouped_trials(bends, source.file, profile.units)
    return tuple(_lesson(group, profile, source) for group in groups)


def _lesson(group: Group, profile: MachineProfile, source: TrialSource) -> Lesson:
    die = profile.die(group[0].kind.die)
    sifted = sifted_trials(group, die, profile)
    lesson = Lesson(
        kind=group[0].kind,
        lot=group[0].lot,
        bends=len(group),
        left_out=sifted.left_out,
        cautions=(*_wall_question(group[0].kind, profile), *_cautions(sifted.kept)),
    )
    if sifted.doubt:
        return replace(lesson, refusal=sifted.doubt)
    without_lengths = frozenset(found.line for found in sifted.left_out if found.reading == "lengths")
    rows = learned_rows(repeats(sifted.kept, profile.bend.resolution_deg), die, without_lengths)
    lesson = replace(lesson, rows=rows)
    refusal = _no_bend_left(rows) or _same_day(lesson, profile, source)
    if refusal:
        return replace(lesson, refusal=refusal)
    if len(rows) < 2:
        return _shifted(lesson, profile, source)
    fit = springback_fit(sifted.kept, different=[row.commanded_deg for row in rows])
    return replace(lesson, table=table_of_lesson(lesson, profile.units, source), fit=fit)


def springback_fit(bends: Sequence[TrialBend], *, different: Sequence[float]) -> SpringbackFit:
    """Polynomial through the springback of single bends; `different` are their commands, each once."""
    angles = np.array([bend.measured_deg for bend in bends])
    springback = np.array([bend.springback_deg for bend in bends])
    fit = linear_fit(powers(angles, fitting_degree(np.array(different))), springback)
    return SpringbackFit(
        coefficients=tuple(fit.coefficients.tolist()),
        covariance=tuple(tuple(row) for row in fit.covariance.tolist()),
        sd_deg=fit.residual_sd,
        degrees_of_freedom=fit.degrees_of_freedom,
    )


def _cautions(bends: Iterable[TrialBend]) -> Iterable[str]:
    for bend in bends:
        if bend.springback_deg < 0.0:
            yield (
                f"line {bend.line}: measured {bend.measured_deg:g}°, above the command of {bend.commanded_deg:g}°: "
                "the bend closed on release, or the columns are swapped"
            )
        if bend.feed is not None and bend.front_leg is None:
            yield f"line {bend.line}: a feed without a front leg tells no setback radius"
    if any(bend.kind.perforated for bend in bends):
        yield "the table has no proven_angle: add the largest angle at which no hole tore"


def _wall_question(kind: TubeKind, profile: MachineProfile) -> Iterator[str]:
    """A wall that no tube of this die has had, but that would be one of theirs in the other unit."""
    walls = [table.wall for table in profile.tables if table.die == kind.die]
    question = "" if any(walls_agree(wall, kind.wall) for wall in walls) else unit_question(kind.wall, walls)
    if question:
        yield f"the wall is {format_length(kind.wall, profile.units)}: {question}, as other tables of this die have it"


def _no_bend_left(rows: Sequence[LearnedRow]) -> str | None:
    return None if rows else "no bend is left to learn from"


def _same_day(lesson: Lesson, profile: MachineProfile, source: TrialSource) -> str | None:
    """A table of the same day would leave parts that name no lot without a choice."""
    for table in tables_of_kind(lesson.kind, profile):
        if table.issued == source.issued:
            return f"{table.file} is issued {source.issued}, too, and no part could choose: give another --date"
    return None


def _shifted(lesson: Lesson, profile: MachineProfile, source: TrialSource) -> Lesson:
    """Table of another lot moved to the single angle of this one."""
    row, die = lesson.rows[0], profile.die(lesson.kind.die)
    too_few = f"all bends have one command, {row.commanded_deg:g}°: a table needs two different angles or more"
    known = tables_of_kind(lesson.kind, profile)
    if lesson.lot is None or not known:
        way_out = "" if not known else f"; to shift {known[-1].file} by them, name their lot"
        return replace(lesson, refusal=too_few + way_out)
    of_lot = [table.file for table in known if table.lot == lesson.lot]
    if of_lot:
        return replace(lesson, refusal=f"{too_few}, and lot '{lesson.lot}' has {of_lot[-1]} already")
    base = known[-1]
    shift = lot_shift(row, base, die)
    refusal = shift_refusal(row, shift)
    if refusal:
        return replace(lesson, refusal=refusal)
    table = replace(
        base,
        file="",
        lot=lesson.lot,
        issued=source.issued,
        source=f"trial bends: {source.file} shifts {base.file} by {shift.shift_deg:+.2f}° of springback, the "
        f"difference at {row.angle_deg:.1f}°",
        rows=rounded_rows(shifted_rows(base.rows, shift.shift_deg, die), profile.units),
    )
    return replace(lesson, table=table, shift=shift, cautions=(*lesson.cautions, *shift_cautions(shift, base, die)))
