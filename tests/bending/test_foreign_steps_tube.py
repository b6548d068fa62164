"""Steps in every form a machine can want, back to the tube they make."""

from dataclasses import replace
from pathlib import Path

import pytest

from bendgen.bending.foreign_steps import needs_machine, tube_on_machine, tube_without_machine
from bendgen.bending.planning import plan_part
from bendgen.errors import GeometryError
from bendgen.files.part_file import read_part
from bendgen.files.profile_folder import read_profile
from bendgen.records.bend_program import BendProgram
from bendgen.records.machine import FeedForm, MachineProfile, RotationForm, RotationPositive
from bendgen.records.part import WantedSteps
from bendgen.records.step_list import ForeignSteps, ListedStep, StepList

ROOT = Path(__file__).parents[2]
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
    with pytest.raises(GeometryError, match=r"step 2: its feed comes out as -50.00 mm; is the form of feed right\?"):
        tube_without_machine(told, 80.0)
