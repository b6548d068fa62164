"""Sheets as pages, made as the command line makes them."""

from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from pathlib import Path

from bendgen.bending.check_values import wanted_readings
from bendgen.bending.foretold import foretold_of_program
from bendgen.bending.lying import lying_before_bends
from bendgen.bending.planning import plan_part
from bendgen.bending.uncertainty import with_uncertainty
from bendgen.files.part_file import read_part
from bendgen.files.profile_folder import read_profile
from bendgen.records.bend_program import BendProgram
from bendgen.records.correction import BendCorrection, CommandsBefore, Correction
from bendgen.records.machine import MachineProfile
from bendgen.records.part import Part, WantedBend, WantedSteps
from bendgen.records.tube import Perforation, Tube
from bendgen.reports.check_sheet import check_sheet
from bendgen.reports.page.sheet_page import sheet_page

ROOT = Path(__file__).parents[1]
ID = "1a2b3c4d"
ISSUE = 3


def bare_page_of(program: BendProgram) -> str:
    """HTML of the sheet of a program made by hand: what is wanted is what it foretells."""
    return _page(program, [check.predicted for check in program.checks])


def bare_text_of(program: BendProgram) -> str:
    """The same sheet as text."""
    return check_sheet(program, program_id=ID, issue=ISSUE, wanted=[check.predicted for check in program.checks])


def text_of(program: BendProgram) -> str:
    """Text of the program's sheet."""
    return check_sheet(program, program_id=ID, issue=ISSUE, wanted=wanted_of(program))


def wanted_of(program: BendProgram) -> tuple[float, ...]:
    """What each check reads on the part that was asked for."""
    return wanted_readings(foretold_of_program(program))


def page_of(program: BendProgram) -> str:
    """HTML of the program's sheet."""
    return _page(program, wanted_of(program))


def _page(program: BendProgram, wanted: Sequence[float]) -> str:
    return sheet_page(program, program_id=ID, issue=ISSUE, wanted=wanted, lying=lying_before_bends(program))


@cache
def profile_named(name: str) -> MachineProfile:
    """One of the invented benders."""
    return read_profile(ROOT / "machine_profiles" / name)


@cache
def sample_program(sample: str, machine: str = "bay2") -> BendProgram:
    """Program of a sample part."""
    return planned(read_part(ROOT / "samples" / f"{sample}.toml"), profile_named(machine))


def planned(part: Part, profile: MachineProfile) -> BendProgram:
    """Program of a part that breaks no limit."""
    program = plan_part(part, profile).program
    assert program is not None
    return with_uncertainty(program)


def corrected(program: BendProgram) -> BendProgram:
    """The program as if its piece 7 had been measured after issue 2."""
    before = tuple(
        CommandsBefore(feed=step.feed, rotation_deg=step.rotation_deg, bend_deg=step.bend_deg) for step in program.steps
    )
    bends = (BendCorrection(springback_deg=0.5),) * len(program.steps)
    correction = Correction(replaces_id="0ddba11d", replaces_issue=2, piece="7", causes=(), bends=bends, before=before)
    return replace(program, part=replace(program.part, correction=correction))


def winding_part(bends: int, *, angle_deg: float = 30.0, name: str = "Zigzag duct") -> Part:
    """Part whose bends go left and right in turn."""
    steps = tuple(
        WantedBend(straight=130.0, rotation_deg=180.0 * (number > 0), angle_deg=angle_deg) for number in range(bends)
    )
    return Part(
        name=name,
        number="GD-300",
        revision="A",
        quantity=3,
        units="mm",
        tube=Tube(od=50.0, wall=1.5, material="304L"),
        steps=WantedSteps(bends=steps, rear=150.0),
        die="d50-r100",
    )


def large_bender() -> MachineProfile:
    """The metric bender with room for twenty bends."""
    profile = profile_named("bay2")
    carriage = replace(profile.carriage, travel=20_000.0)
    return replace(profile, carriage=carriage, blank=replace(profile.blank, longest=20_000.0))


def five_column_bender() -> MachineProfile:
    """The same, told its steps in inches and in five columns."""
    return replace(large_bender(), output=profile_named("bay5_inch").output)


def perforated_part() -> Part:
    """Eight bends of which everything gives a caution: holes, no table, a seam, the other hand, the other end."""
    part = winding_part(8, angle_deg=70.0, name="Air duct around the frame, long side, with two branches")
    holes = Perforation(hole=3.0, pitch=5.0, pattern="60", plain_front=10.0, plain_rear=10.0)
    tube = replace(part.tube, seam_deg=90.0, lot="7731-B", temper="annealed", perforated=True, perforation=holes)
    return replace(part, tube=tube, mirrored=True, from_rear=True)


def two_die_part() -> Part:
    """Eight bends beyond the rows of two tables, on two die sets, as the other hand."""
    return _on_dies([100.0] * 4 + [75.0] * 4)


def alternating_part() -> Part:
    """The same, with another die set at every bend."""
    return _on_dies([100.0, 75.0] * 4)


def _on_dies(clrs: Sequence[float]) -> Part:
    part = winding_part(len(clrs), angle_deg=25.0)
    assert part.steps is not None
    bends = tuple(replace(bend, clr=clr, straight=160.0) for bend, clr in zip(part.steps.bends, clrs, strict=True))
    tube = replace(part.tube, seam_deg=90.0, lot="7731")
    return replace(part, die=None, steps=replace(part.steps, bends=bends), tube=tube, mirrored=True, from_rear=True)


def perforated_alternating_part() -> Part:
    """The alternating part with everything else that gives a caution."""
    perforated, alternating = perforated_part(), alternating_part()
    return replace(perforated, die=None, steps=alternating.steps)


def stopping_bender() -> MachineProfile:
    """The five-column bender, which stops for every change of dies and opens its collet before the last bend."""
    profile = five_column_bender()
    dies = tuple(replace(die, stack=None, pressure_die=None) for die in profile.dies)
    carriage = replace(profile.carriage, open_before_last=True, last_rear=60.0)
    return replace(profile, dies=dies, carriage=carriage)
