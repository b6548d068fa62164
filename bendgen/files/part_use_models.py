"""`[ends]` and `[code]` of a part's file, key by key: what the part is for, as far as bending must know."""

from typing import Literal

from bendgen.files.field_types import PositiveLength
from bendgen.files.validation import Table
from bendgen.records.part import EndFit, PipingCode


class EndFitTable(Table):
    """`front` or `rear` of `[ends]`: sized over another tube, or plain for a weld, and the straight that this needs."""

    kind: Literal["sized", "plain"]
    straight: PositiveLength

    def record(self) -> EndFit:
        """End, in mm."""
        return EndFit(kind=self.kind, straight=self.straight)


class EndsTable(Table):
    """`[ends]`."""

    front: EndFitTable | None = None
    rear: EndFitTable | None = None


class CodeTable(Table):
    """`[code]`: a piping code's thickness rule, for a part that must follow it."""

    rule: Literal["B31.1"]
    minimum_wall: PositiveLength

    def record(self) -> PipingCode:
        """Rule, in mm."""
        return PipingCode(rule=self.rule, minimum_wall=self.minimum_wall)
