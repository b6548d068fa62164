"""Steps in every form a machine can want, back to the tube they make."""

from dataclasses import replace
from pathlib import Path

import pytest

from bendgen.bending.foreign_steps import needs_machine, tube_on_machine, tube_without_machine
from bendgen.bending.planning import plan_part
from bendgen.errors import GeometryError, ToolingError
from bendgen.files.part_file import read_part
from bendgen.files.profile_folder import read_profile
from bendgen.records.bend_program import BendProgram
from bendgen.records.machine import FeedForm, MachineProfile, RotationForm, RotationPositive
from bendgen.records.part import WantedSteps
from bendgen.records.step_list import ForeignSteps, ListedStep, StepList
from bendgen.records.tube import Tube

ROOT = Path(__file__).parents[2]
BAY2 = read_profile(ROOT / "machine_profiles" / "bay2")
FEEDS: tuple[FeedForm, ...] = ("incremental", "summed", "passed", "carriage")
ROTATIONS: tuple[RotationForm, ...] = ("incremental", "absolute")
SIGNS: tuple[RotationPositive, ...] = ("clockwise_from_carriage", "counterclockwise_from_carriage")


def planned(feed: FeedForm, rotation: RotationForm, positive: RotationPositive) -> tuple[BendProgram, MachineProfile]:
    profile = read_profile(ROOT / "machine_profiles" / "bay2")
    output = replace(profile.output, feed=feed, rotation=rotation, rotation_positive=positive)
    profile = replace(profile, output=output)
    program = plan_part(read_part(ROOT / "samples" / "six_bend_duct.toml"), profile).program
    assert program is not None
    return program, profile


def foreign(
    steps: list[tuple[float, float, float]],
    feed: FeedForm,
    rotation: RotationForm = "incremental",
    positive: RotationPositive = "clockwise_from_carriage",
    *,
    finished: bool = False,
) -> ForeignSteps:
    return ForeignSteps(
        steps=StepList(
            steps=tuple(
                ListedStep(number=number, feed=y, rotation_deg=b, bend_deg=c)
                for number, (y, b, c) in enumerate(steps, start=1)
            ),
            angles="finished" if finished else "commanded",
        ),
        feed=feed,
        rotation=rotation,
        rotation_positive=positive,
        clr=(None,) * len(steps),
        units="mm",
        understood=(),
        ignored=(),
    )


def test_positions_of_the_carriage_need_the_blank() -> None:
    told = foreign([(800.0, 0.0, 40.0)], "carriage")
    steps = tuple(replace(step, die="d50-r100") for step in told.steps.steps)
    without_blank = replace(told.steps, steps=steps, tube=Tube(od=50.0, wall=1.5, material="304L"))
    with pytest.raises(ToolingError, match="feeds counted from the carriage need the length of the blank"):
        tube_on_machine(told, without_blank, BAY2, rear=200.0)


@pytest.mark.parametrize("positive", SIGNS)
@pytest.mark.parametrize("rotation", ROTATIONS)
@pytest.mark.parametrize("feed", FEEDS)
def test_what_a_machine_was_told_makes_the_predicted_tube(
    feed: FeedForm, rotation: RotationForm, positive: RotationPositive
) -> None:
    """The prediction was played forward on the modelled machine from neutral commands, not from this form."""
    program, profile = planned(feed, rotation, positive)
    told = foreign([(step.feed, step.rotation, step.bend) for step in program.machine_steps], feed, rotation, positive)
    completed = replace(told.steps, tube=program.part.tube, blank=program.blank.length)
    completed = replace(completed, steps=tuple(replace(step, die="d50-r100") for step in completed.steps))
    found = tube_on_machine(told, completed, profile, rear=None)
    assert isinstance(found.wish, WantedSteps)
    made = program.finished
    assert [bend.angle_deg for bend in found.wish.bends] == pytest.approx([bend.angle_deg for bend in made.bends])
    assert [bend.rotation_deg for bend in found.wish.bends] == pytest.approx(
        [bend.rotation_deg for bend in made.bends], abs=1e-6
    )
    straights = [*(bend.straight for bend in found.wish.bends), found.wish.rear]
    assert straights[1:-1] == pytest.approx(made.straights[1:-1], abs=1e-6)
    assert straights[0] - program.blank.front_trim == pytest.approx(made.straights[0], abs=1e-6)


def test_finished_bends_need_no_machine() -> None:
    told = foreign([(100.0, 30.0, 90.0), (250.0, 120.0, 45.0), (280.0, -150.0, 60.0)], "summed", "absolute",
                   "counterclockwise_from_carriage", finished=True)  # fmt: skip
    assert not needs_machine(told)
    wish = tube_without_machine(told, 80.0).wish
    assert isinstance(wish, WantedSteps)
    assert [(bend.straight, bend.rotation_deg) for bend in wish.bends] == [(100.0, 0.0), (150.0, -90.0), (30.0, -90.0)]
    assert wish.rear == 80.0


@pytest.mark.parametrize(("feed", "finished"), [("passed", True), ("carriage", True), ("summed", False)])
def test_what_only_a_machine_can_tell(feed: FeedForm, finished: bool) -> None:  # noqa: FBT001 - a column of the table
    assert needs_machine(foreign([(100.0, 0.0, 90.0)], feed, finished=finished))


def test_feeds_that_go_back_have_another_form() -> None:
    told = foreign([(100.0, 0.0, 90.0), (50.0, 0.0, 45.0)], "summed", finished=True)
    with pytest.raises(GeometryError, match=r"step 2: its feed comes out as -50 mm; is the form of feed right\?"):
        tube_without_machine(told, 80.0)


def listed_on_dies(clr: tuple[float | None, ...], dies: tuple[str | None, ...]) -> tuple[ForeignSteps, StepList]:
    """Two commanded steps, and the same with the tube of a sample."""
    told = foreign([(200.0, 0.0, 90.0), (250.0, 90.0, 45.0)], "incremental")
    steps = tuple(replace(step, die=die) for step, die in zip(told.steps.steps, dies, strict=True))
    told = replace(told, clr=clr, steps=replace(told.steps, steps=steps))
    return told, replace(told.steps, tube=Tube(od=50.0, wall=1.5, material="304L"))


@pytest.mark.parametrize(
    ("clr", "dies"),
    [((75.0, 100.0), (None, None)), ((None, None), ("d50-r75", "d50-r100")), ((75.0, None), (None, "d50-r100"))],
)
def test_a_list_that_says_clr_or_die_sets_is_made_on_those(
    clr: tuple[float | None, ...], dies: tuple[str | None, ...]
) -> None:
    """Springback is that of each die set's own table, and the part asks for the same CLR."""
    told, completed = listed_on_dies(clr, dies)
    wish = tube_on_machine(told, completed, BAY2, rear=200.0).wish
    assert isinstance(wish, WantedSteps)
    assert [bend.clr for bend in wish.bends] == [75.0, 100.0]
    alone = []
    for die in ("d50-r75", "d50-r100"):
        other = tube_on_machine(*listed_on_dies((None, None), (die, die)), BAY2, rear=200.0).wish
        assert isinstance(other, WantedSteps)
        alone.append(other.bends)
    assert [bend.angle_deg for bend in wish.bends] == [alone[0][0].angle_deg, alone[1][1].angle_deg]


def test_a_die_set_that_does_not_make_the_clr_of_the_list() -> None:
    told, completed = listed_on_dies((75.0, 75.0), (None, None))
    named = replace(completed, steps=tuple(replace(step, die="d50-r100") for step in completed.steps))
    with pytest.raises(ToolingError) as caught:
        tube_on_machine(told, named, BAY2, rear=200.0)
    assert str(caught.value) == (
        "step 1: the list says CLR 75 mm, which 'd50-r75' makes and not 'd50-r100': "
        "name that die set, or leave the CLR to the other"
    )


def test_die_sets_without_a_machine_are_passed_over_and_told() -> None:
    told, _ = listed_on_dies((None, None), ("d50-r75", "d50-r100"))
    assert tube_without_machine(told, 80.0).ignored == (
        "column 'die': only a machine tells what CLR its die sets have",
    )
