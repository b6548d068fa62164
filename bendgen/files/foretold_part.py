"""`part` of a step list in JSON, as far as a measured part is held against it."""

from pydantic import ConfigDict

from bendgen.files.field_types import Count, Number, Text
from bendgen.files.step_list_json import ListedTube
from bendgen.files.validation import Table
from bendgen.records.correction import BendCorrection


class Told(Table):
    """An object of the file, of which only some keys matter here."""

    model_config = ConfigDict(extra="ignore")


class ToldBendCorrection(Told):
    """One of `part.correction.bends`."""

    springback: Number
    lost_motion: Number
    elongation: Number
    rotation: Number
    feed: Number

    def record(self) -> BendCorrection:
        """Correction, in mm and degrees."""
        return BendCorrection(
            springback_deg=self.springback,
            lost_motion_deg=self.lost_motion,
            elongation=self.elongation,
            rotation_deg=self.rotation,
            feed=self.feed,
        )


class ToldCorrection(Told):
    """`part.correction`."""

    bends: list[ToldBendCorrection]


class ToldPart(Told):
    """`part`."""

    name: Text
    number: Text
    revision: Text
    issue: Count
    tube: ListedTube
    mirrored: bool = False
    from_rear: bool = False
    correction: ToldCorrection | None = None
