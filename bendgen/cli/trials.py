"""`bendgen trials`."""

from datetime import date as calendar_date
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from bendgen.cli.exits import DONE, LIMIT_BROKEN
from bendgen.cli.options import Json, Machine, Page

if TYPE_CHECKING:
    from collections.abc import Sequence

    from bendgen.records.trials import Lesson
    from bendgen.units import Units

Bends = Annotated[Path, typer.Argument(metavar="CSV", help="Trial bends, one a line.")]
Issued = Annotated[
    datetime | None,
    typer.Option("--date", metavar="YYYY-MM-DD", formats=["%Y-%m-%d"], help="Date of the tables; else today."),
]
ForPart = Annotated[Path | None, typer.Option("--for", metavar="PART", help="Advise the next bend for this part.")]
ForRange = Annotated[
    tuple[float, float] | None,
    typer.Option("--range", metavar="LOW HIGH", help="Or for these finished angles, in degrees; else for the die."),
]


def trials(
    bends: Bends,
    machine: Machine,
    date: Issued = None,
    for_part: ForPart = None,
    for_range: ForRange = None,
    html: Page = None,
    json: Json = False,
) -> None:
    """Learn springback, setback radius and elongation from trial bends: new tables for a machine.

    Columns: die, material, wall, perforated, lot, commanded_deg, measured_deg; and, as far as they were measured,
    temper, feed_mm, blank_mm, front_leg_mm, rear_leg_mm, legs (apex or outer_apex), carriage_move_mm, gauge_clr_mm,
    restruck; or lengths in _in. Each die, material and wall gets a table of its own in tables/ of the machine's
    folder; no file is ever changed. Exit status: 0 written, 1 some readings teach nothing, 2 bad input.
    """
    from bendgen.bending.learning import learn_trials
    from bendgen.bending.next_trial import with_next_bend
    from bendgen.bending.replaced_tables import with_losses
    from bendgen.files.part_file import read_part
    from bendgen.files.profile_folder import read_profile
    from bendgen.files.table_file import with_file, write_tables
    from bendgen.files.trials_csv import read_trials
    from bendgen.files.trials_json import format_trials_json
    from bendgen.files.whole_files import refuse_existing
    from bendgen.records.trials import TrialSource
    from bendgen.reports.trials_report import trials_text

    _check_range(for_part, for_range)
    refuse_existing([html] if html is not None else [])
    profile = read_profile(machine)
    part = None if for_part is None else read_part(for_part)
    source = TrialSource(file=bends.name, issued=date.date() if date else calendar_date.today())
    learned = learn_trials(read_trials(bends, profile), profile, source)
    named = [with_losses(with_file(lesson, profile.units), profile) for lesson in learned]
    lessons = [with_next_bend(lesson, profile, part=part, range_deg=for_range) for lesson in named]
    write_tables([lesson.table for lesson in lessons if lesson.table is not None], machine, profile.units)
    text = format_trials_json(lessons) if json else trials_text(lessons, profile.units)
    typer.echo(text, nl=False)
    if html is not None:
        _write_page(html, bends.name, lessons, profile.units)
    raise typer.Exit(LIMIT_BROKEN if any(lesson.refusal for lesson in lessons) else DONE)


def _write_page(file: Path, name: str, lessons: "Sequence[Lesson]", units: "Units") -> None:
    from bendgen.files.whole_files import write_whole_files
    from bendgen.reports.page.report_page import trials_page

    write_whole_files({file: trials_page(name, lessons, units)})


def _check_range(for_part: Path | None, for_range: tuple[float, float] | None) -> None:
    if for_range is None:
        return
    if for_part is not None:
        raise typer.BadParameter("say either --for or --range")
    if not 0.0 < for_range[0] < for_range[1] < 360.0:
        raise typer.BadParameter("--range takes two angles above 0 and below 360, the smaller first")
