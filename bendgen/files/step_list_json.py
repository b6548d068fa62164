"""Steps read back from a step list in JSON; keys that this version does not know are passed over."""

from typing import Annotated

from pydantic import ConfigDict

from bendgen.files.field_types import (
    Count,
    FinishedAngle,
    Number,
    NumberFromZero,
    PositiveNumber,
    Rotation,
    Text,
    context_from_data,
)
from bendgen.files.json_text import parse_json, without_nulls
from bendgen.files.output_models import STEPS_FORMAT, STEPS_VERSION
from bendgen.files.part_models import PerforationTable, TubeTable
from bendgen.files.step_numbers import check_numbers
from bendgen.files.validation import Table, sound_table, together
from bendgen.records.step_list import ListedStep, StepList

OTHER_KEYS_PASS = ConfigDict(extra="ignore")


class ListedPerforation(PerforationTable):
    """`part.tube.perforation`."""

    model_config = OTHER_KEYS_PASS


class ListedTube(TubeTable):
    """`part.tube`."""

    model_config = OTHER_KEYS_PASS
    perforation: ListedPerforation | None = None


class ListedPart(Table):
    """`part`, as far as playing the steps needs it."""

    model_config = OTHER_KEYS_PASS
    tube: ListedTube


class ListedBlank(Table):
    """`blank`, as far as playing the steps needs it."""

    model_config = OTHER_KEYS_PASS
    length: PositiveNumber
    front_trim: NumberFromZero
    rear_trim: NumberFromZero


class ListedBend(Table):
    """One item of `steps`, as far as playing it needs it."""

    model_config = OTHER_KEYS_PASS
    number: Count
    die: Text
    feed: Number
    rotation: Rotation
    bend: FinishedAngle  # commanded, but within the same range

    def record(self) -> ListedStep:
        """Step, in mm and degrees."""
        return ListedStep(
            number=self.number, die=self.die, feed=self.feed, rotation_deg=self.rotation, bend_deg=self.bend
        )


class ListedProgram(Table):
    """A step list, as far as playing it needs it."""

    model_config = OTHER_KEYS_PASS
    id: Text
    part: ListedPart
    blank: ListedBlank
    steps: Annotated[
        list[ListedBend], together(lambda steps, _: check_numbers({i: step.number for i, step in steps.items()}))
    ]

    def record(self) -> StepList:
        """Steps, in mm and degrees."""
        return StepList(
            steps=tuple(step.record() for step in self.steps),
            angles="commanded",
            blank=self.blank.length,
            front_trim=self.blank.front_trim,
            rear_trim=self.blank.rear_trim,
            tube=self.part.tube.record(),
            id=self.id,
        )


def parse_steps_json(text: str, file: str) -> StepList:
    """Steps in a JSON file of format "bendgen-steps", which mistakes call `file`.

    Raises
    ------
    InputError    every mistake; one for another format, or for a version newer than this program
    """
    data = parse_json(text, file, file_format=STEPS_FORMAT, version=STEPS_VERSION)
    return sound_table(ListedProgram, without_nulls(data), file, context_from_data({})).record()
