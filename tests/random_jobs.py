"""Random parts and profiles for property tests; every number is invented.

The profiles measure straight lines, so that the independent bender can tell in closed form what a bend becomes; the
tests of `interpolation` see to the curves between rows.
"""

import math
from dataclasses import dataclass
from datetime import date
from unittest.mock import patch

import numpy as np
from hypothesis import strategies as st

from bendgen.bending import machine_limits
from bendgen.bending.planning import plan_part
from bendgen.records.allowances import AllowanceRow, AllowanceTable
from bendgen.records.bend_program import BendProgram
from bendgen.records.machine import (
    BendAxis,
    BlankLimits,
    Carriage,
    FeedAxis,
    FeedForm,
    MachineProfile,
    OutputForm,
    RotationAxis,
)
from bendgen.records.part import Centreline, Part, Vertex, WantedBend, WantedSteps
from bendgen.records.tooling import DieSet
from bendgen.records.tube import Tube
from bendgen.units import Units
from tests.independent_bender import Array, IndependentBender, Keyed, SpringLaw

FINE = 1e-11  # a resolution at which rounding is nothing
TUBE = Tube(od=30.0, wall=1.5, material="304L")
ROW_ANGLES = (1.0, 45.0, 100.0, 180.0)
FEED_FORMS: tuple[FeedForm, ...] = ("incremental", "summed", "passed", "carriage")


@dataclass(frozen=True, kw_only=True)
class WantedTube:
    """Straights front first, one more than angles; rotations[0] is that of the first bend, 0; dies by index."""

    straights: tuple[float, ...]
    angles: tuple[float, ...]
    rotations: tuple[float, ...]
    dies: tuple[int, ...]


@dataclass(frozen=True, kw_only=True)
class Setting:
    """How a machine wants its steps."""

    side: str = "left"
    feed: FeedForm = "incremental"
    rotation: str = "incremental"
    clockwise: bool = True
    units: Units = "mm"
    resolution: float = FINE
    resolution_deg: float = FINE
    rotation_range: tuple[float, float] | None = None


def laws() -> st.SearchStrategy[tuple[SpringLaw, ...]]:
    """Two dies."""
    return st.tuples(_law(60.0), _law(90.0))


def _law(die_clr: float) -> st.SearchStrategy[SpringLaw]:
    kept = st.just((None, 0.0))
    measured = st.tuples(st.floats(0.0, 2.0), st.floats(1.0, 1.06).map(lambda k: k * die_clr * math.pi / 180.0))
    return st.builds(
        lambda lost, per_degree, arc, gained, gained_per_degree: SpringLaw(
            die_clr=die_clr,
            lost=lost,
            lost_per_degree=per_degree,
            arc=arc[0],
            arc_per_degree=arc[1],
            gained=gained,
            gained_per_degree=gained_per_degree,
        ),
        st.floats(0.0, 2.0),
        st.floats(0.0, 0.04),
        st.one_of(kept, measured),
        st.floats(0.0, 0.5),
        st.floats(-0.02, 0.05),
    )


def rotations() -> st.SearchStrategy[float]:
    """All the way round, with the special ones often."""
    return st.one_of(st.sampled_from((0.0, 180.0, 90.0, -90.0)), st.floats(-179.9, 180.0))


@st.composite
def wanted_tubes(draw: st.DrawFn, largest: float = 150.0, dies: int = 2, most: int = 8) -> WantedTube:
    """One to eight bends."""
    n = draw(st.integers(1, most))
    angles = st.one_of(st.sampled_from((30.0, 45.0, 90.0, largest)), st.floats(3.0, largest))
    return WantedTube(
        straights=tuple(draw(st.lists(st.floats(5.0, 300.0), min_size=n + 1, max_size=n + 1))),
        angles=tuple(draw(st.lists(angles, min_size=n, max_size=n))),
        rotations=(0.0, *draw(st.lists(rotations(), min_size=n - 1, max_size=n - 1))),
        dies=tuple(draw(st.lists(st.integers(0, dies - 1), min_size=n, max_size=n))),
    )


def settings_of_machines() -> st.SearchStrategy[Setting]:
    """Every form a machine may want, fine or coarse."""
    return st.builds(
        Setting,
        side=st.sampled_from(("left", "right")),
        feed=st.sampled_from(FEED_FORMS),
        rotation=st.sampled_from(("incremental", "absolute")),
        clockwise=st.booleans(),
        units=st.sampled_from(("mm", "in")),
    )


def profile_of(setting: Setting, springs: tuple[SpringLaw, ...]) -> MachineProfile:
    """Profile with a die and a table for each law, and next to no limits."""
    return MachineProfile(
        name="Invented bender",
        units="mm",
        sha256="0" * 64,
        bend=BendAxis(
            side="left" if setting.side == "left" else "right",
            largest_deg=359.0,
            resolution_deg=setting.resolution_deg,
            repeatability_deg=0.05,
        ),
        rotation=RotationAxis(
            resolution_deg=setting.resolution_deg, repeatability_deg=0.05, range_deg=setting.rotation_range
        ),
        feed=FeedAxis(resolution=setting.resolution, repeatability=0.1),
        carriage=Carriage(travel=1e9, closest=1.0, grip=20.0),
        blank=BlankLimits(shortest=0.0, longest=1e9),
        output=OutputForm(
            units=setting.units,
            feed=setting.feed,
            rotation="incremental" if setting.rotation == "incremental" else "absolute",
            rotation_positive="clockwise_from_carriage" if setting.clockwise else "counterclockwise_from_carriage",
            columns=("number", "feed", "rotation", "bend"),
            headings=("number", "feed", "rotation", "bend"),
        ),
        dies=tuple(_die(law) for law in springs),
        tables=tuple(_table(law) for law in springs),
    )


def _die(law: SpringLaw) -> DieSet:
    return DieSet(id=f"r{law.die_clr:g}", tube_od=TUBE.od, clr=law.die_clr, clamp=4.0, largest_bend_deg=359.0)


def _table(law: SpringLaw) -> AllowanceTable:
    return AllowanceTable(
        file=f"tables/r{law.die_clr:g}.toml",
        die=f"r{law.die_clr:g}",
        material=TUBE.material,
        wall=TUBE.wall,
        perforated=False,
        source="invented",
        issued=date(2026, 1, 5),
        rows=tuple(
            AllowanceRow(
                angle_deg=angle,
                springback_deg=law.lost + law.lost_per_degree * angle,
                elongation=law.gained + law.gained_per_degree * angle,
                clr=None if law.arc is None else (law.arc + law.arc_per_degree * angle) / math.radians(angle),
            )
            for angle in ROW_ANGLES
        ),
    )


def bender_of(setting: Setting, springs: tuple[SpringLaw, ...]) -> IndependentBender:
    """The bender that the profile describes."""
    return IndependentBender(
        side=setting.side,
        feed=setting.feed,
        rotation=setting.rotation,
        clockwise=setting.clockwise,
        grip=20.0,
        laws={f"r{law.die_clr:g}": law for law in springs},
        mm=25.4 if setting.units == "in" else 1.0,
    )


def vertices_of(wanted: WantedTube, springs: tuple[SpringLaw, ...]) -> Array:
    """Vertices of a tube whose formed straights are the wanted ones, walked from the front with the bender itself.

    A machine without springback and stretch whose dies have the formed radii makes them, feed by feed.
    """
    formed = {}
    table = []
    for i, (angle, die) in enumerate(zip(wanted.angles, wanted.dies, strict=True)):
        law = springs[die]
        commanded = angle + law.lost + law.lost_per_degree * angle
        held = law.released(commanded)[1] / math.radians(angle) if angle <= 150.0 else law.die_clr
        formed[f"bend {i}"] = SpringLaw(die_clr=held)
        table.append(Keyed(die=f"bend {i}", feed=wanted.straights[i], rotation=wanted.rotations[i], bend=angle))
    walker = IndependentBender(
        side="left", feed="incremental", rotation="incremental", clockwise=True, grip=0.0, laws=formed
    )
    arcs = sum(formed[line.die].die_clr * math.radians(line.bend) for line in table)
    return walker.make(table, sum(wanted.straights) + arcs).vertices()


def part_of(wanted: WantedTube, springs: tuple[SpringLaw, ...], vertices: Array | None = None) -> Part:
    """Part given as vertices, each bend asking for its die by CLR."""
    points = vertices_of(wanted, springs) if vertices is None else vertices
    asked = [None, *(springs[die].die_clr for die in wanted.dies), None]
    corners = tuple(Vertex(x=x, y=y, z=z, clr=clr) for (x, y, z), clr in zip(points.tolist(), asked, strict=True))
    return part_for(Centreline(vertices=corners))


def step_part_of(wanted: WantedTube, springs: tuple[SpringLaw, ...]) -> Part:
    """The same wish as steps."""
    bends = tuple(
        WantedBend(straight=straight, rotation_deg=rotation, angle_deg=angle, clr=springs[die].die_clr)
        for straight, rotation, angle, die in zip(
            wanted.straights[:-1], wanted.rotations, wanted.angles, wanted.dies, strict=True
        )
    )
    return part_for(WantedSteps(bends=bends, rear=wanted.straights[-1]))


def part_for(wish: Centreline | WantedSteps) -> Part:
    return Part(
        name="Grain dryer duct",
        number="GD-1",
        revision="A",
        quantity=1,
        units="mm",
        tube=TUBE,
        centreline=wish if isinstance(wish, Centreline) else None,
        steps=wish if isinstance(wish, WantedSteps) else None,
    )


def program_of(part: Part, profile: MachineProfile) -> BendProgram:
    """Program of a random part; that it may pass through itself in the air is no matter here."""
    rules = tuple(rule for rule in machine_limits.RULES if rule.__name__ != "check_self_contact")
    with patch.object(machine_limits, "RULES", rules):
        plan = plan_part(part, profile)
    assert plan.program is not None, plan.findings
    return plan.program


def placements() -> st.SearchStrategy[tuple[Array, Array]]:
    """A turn in space, as a matrix, and a shift."""
    return st.builds(
        lambda angles, shift: (_turn_matrix(*angles), np.array(shift)),
        st.tuples(*[st.floats(-180.0, 180.0)] * 3),
        st.tuples(*[st.floats(-1000.0, 1000.0)] * 3),
    )


def _turn_matrix(first: float, second: float, third: float) -> Array:
    """Product of three turns about the axes: any proper rotation."""
    matrix: Array = np.eye(3)
    for angle, (i, j) in zip((first, second, third), ((0, 1), (1, 2), (2, 0)), strict=True):
        turn = np.eye(3)
        c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
        turn[i, i], turn[j, j], turn[i, j], turn[j, i] = c, c, -s, s
        matrix = matrix @ turn
    return matrix
