"""Trial bends, a part, its measurement, its correction, in a modelled shop that shares no formula with the tool.

The full counts, 500 parts and 400 lots, are made on demand in tests/benchmarks; here a sample with wider margins.
"""

from dataclasses import dataclass, replace

import numpy as np
import pytest

from bendgen.bending.comparison import compare_piece
from bendgen.bending.correction import correction_of
from bendgen.bending.foretold import foretold_of_program
from bendgen.bending.planning import plan_part
from bendgen.bending.uncertainty import with_uncertainty
from bendgen.records.machine import MachineProfile
from bendgen.records.measured import MeasuredPiece
from bendgen.records.part import Part
from tests.modelled_offsets import (
    ANGLE_SD_DEG,
    END,
    LENGTH_SD,
    MeasuredOffset,
    bent,
    learned,
    measured_offset,
    offset_program,
    readings,
)
from tests.modelled_shop import Lost, Shop

FEW = 30
WITHIN = 0.5  # mm; common practice, no source


@dataclass(frozen=True, kw_only=True)
class Shares:
    """Of all parts: within WITHIN of the wanted offset, foretold to be so, within the stated interval."""

    within: float
    foretold: float
    in_interval: float


def shares_of(offsets: list[MeasuredOffset]) -> Shares:
    return Shares(
        within=float(np.mean([abs(one.made - one.wanted) <= WITHIN for one in offsets])),
        foretold=float(np.mean([one.share_foretold for one in offsets])),
        in_interval=float(np.mean([abs(one.made - one.foretold) <= one.expanded for one in offsets])),
    )


def first_parts(  # noqa: PLR0917 - part and profile are fixtures
    part: Part, profile: MachineProfile, count: int, lost: Lost = "even", end: float = END, seed: int = 7
) -> Shares:
    """Each part after trial bends of its own, offsets of 15 to 80 mm."""
    rng = np.random.default_rng(seed)
    shop = Shop(lost=lost, angle_sd_deg=ANGLE_SD_DEG, length_sd=LENGTH_SD)
    offsets = []
    for _ in range(count):
        program = offset_program(part, float(rng.uniform(15.0, 80.0)), learned(shop, profile, rng), end=end)
        offsets.append(measured_offset(program, bent(program, shop, rng)))
    return shares_of(offsets)


def parts_of_a_shifted_lot(part: Part, profile: MachineProfile, count: int, seed: int = 11) -> tuple[Shares, Shares]:
    """First parts of lots that spring back more or less, and the next ones, corrected by that one part."""
    rng = np.random.default_rng(seed)
    known = Shop(angle_sd_deg=ANGLE_SD_DEG, length_sd=LENGTH_SD)
    first, following = [], []
    for _ in range(count):
        lot = replace(known, intercept_deg=known.intercept_deg + float(rng.uniform(0.4, 1.2) * rng.choice((-1.0, 1.0))))
        table = learned(known, profile, rng)
        program = offset_program(part, float(rng.uniform(15.0, 80.0)), table)
        points = bent(program, lot, rng)
        first.append(measured_offset(program, points))
        piece = MeasuredPiece(piece="1", lot=None, readings=readings(program, points, rng))
        foretold = foretold_of_program(program)
        correction = correction_of(foretold, compare_piece(foretold, piece))
        corrected = plan_part(replace(program.part, correction=correction), table).program
        assert corrected is not None
        corrected = with_uncertainty(corrected)
        following.append(measured_offset(corrected, bent(corrected, lot, rng)))
    return shares_of(first), shares_of(following)


@pytest.mark.parametrize("lost", ["even", "both legs", "lost motion"])
def test_offsets_land_and_the_tool_knows_how_often(
    dryer_part: Part, metric_profile: MachineProfile, lost: Lost
) -> None:
    shares = first_parts(dryer_part, metric_profile, FEW, lost)
    assert shares.within >= 0.9
    assert abs(shares.foretold - shares.within) <= 0.08
    assert shares.in_interval >= 0.85


def test_one_measured_part_brings_a_shifted_lot_back(dryer_part: Part, metric_profile: MachineProfile) -> None:
    first, following = parts_of_a_shifted_lot(dryer_part, metric_profile, FEW)
    assert first.within < 0.2
    assert following.within >= 0.9
