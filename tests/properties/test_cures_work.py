"""Every cure, written into the part's file as it says, removes its finding: on random parts that break limits."""

from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

import numpy as np
from hypothesis import assume, event, given, settings
from hypothesis import strategies as st

from bendgen.bending.planning import plan_part
from bendgen.errors import GeometryError, InputError, ToolingError
from bendgen.files.profile_folder import read_profile
from bendgen.records.findings import Finding
from bendgen.records.machine import MachineProfile
from bendgen.records.part import Part
from bendgen.units import MM_PER_UNIT, Units
from tests.independent_bender import IndependentBender, Keyed, SpringLaw
from tests.part_edits import PartData, edited, part_of_data

PROFILES = Path(__file__).parents[2] / "machine_profiles"


@dataclass(frozen=True, kw_only=True)
class Stock:
    """A tube of a sample profile, with the dies that serve it and their CLR [mm]."""

    profile: str
    od: float
    wall: float
    material: str
    dies: tuple[tuple[str, float], ...]


STOCK = (
    Stock(profile="bay2", od=50.0, wall=1.5, material="304L", dies=(("d50-r100", 100.0), ("d50-r75", 75.0))),
    Stock(profile="bay2", od=38.0, wall=1.5, material="304L", dies=(("d38-r57", 57.0),)),
    Stock(profile="bay2", od=60.0, wall=2.0, material="mild steel", dies=(("d60-r120", 120.0),)),
    Stock(profile="bay5_inch", od=50.8, wall=1.651, material="304L", dies=(("2in-r3", 76.2), ("2in-r4", 101.6))),
)


@cache
def profile_named(name: str) -> MachineProfile:
    return read_profile(PROFILES / name)


def _maybe(strategy: st.SearchStrategy[float]) -> st.SearchStrategy[float | None]:
    return st.one_of(st.none(), st.none(), strategy)


@st.composite
def tight_profiles(draw: st.DrawFn, name: str) -> MachineProfile:
    """A sample profile with some of its limits drawn tight."""
    profile = profile_named(name)
    closest = draw(st.floats(20.0, 300.0))
    reach = draw(st.floats(60.0, 400.0))
    return replace(
        profile,
        bend=replace(profile.bend, largest_deg=draw(st.floats(60.0, 190.0)), smallest_deg=draw(st.floats(0.5, 12.0))),
        rotation=replace(
            profile.rotation, range_deg=draw(st.sampled_from((None, (-reach, reach), (-20.0, reach), (-reach, 45.0))))
        ),
        feed=replace(
            profile.feed, smallest=draw(_maybe(st.floats(0.0, 120.0))), largest=draw(_maybe(st.floats(150.0, 600.0)))
        ),
        carriage=replace(
            profile.carriage,
            closest=closest,
            travel=draw(st.floats(500.0, 3000.0)),
            centre_height=draw(_maybe(st.floats(60.0, 500.0))),
            regrip=False,
        ),
        blank=replace(profile.blank, shortest=draw(st.floats(0.0, 900.0)), longest=draw(st.floats(1000.0, 4000.0))),
        dies=tuple(replace(die, pressure_die=draw(_maybe(st.floats(50.0, 900.0)))) for die in profile.dies),
    )


@st.composite
def part_files(draw: st.DrawFn, stock: Stock) -> PartData:
    """Data of a part's file, in mm or inches, vertices or steps, with trims as shops fix them."""
    units: Units = draw(st.sampled_from(("mm", "in")))
    mm = MM_PER_UNIT[units]
    die, clr = draw(st.sampled_from(stock.dies))
    n = draw(st.integers(1, 4))
    straights = draw(st.lists(st.floats(5.0, 420.0).map(lambda x: round(x, 1)), min_size=n + 1, max_size=n + 1))
    angles = draw(st.lists(st.floats(1.0, 165.0).map(lambda x: round(x, 1)), min_size=n, max_size=n))
    rotations = draw(st.lists(st.floats(-179.0, 180.0).map(lambda x: round(x, 1)), min_size=n, max_size=n))
    part: dict[str, object] = {"name": "Dryer guard", "number": "GD-9", "revision": "A", "quantity": 2}
    part["trim"] = draw(st.sampled_from(("both", "both", "front", "rear", "none")))
    if part["trim"] in ("both", "front") and draw(st.booleans()):
        part["front_trim"] = draw(st.floats(1.0, 80.0)) / mm
    fixed = draw(st.sampled_from(("nothing", "nothing", "blank", "rear trim")))
    if fixed == "blank":
        part["blank"] = draw(st.floats(400.0, 2500.0)) / mm
    elif fixed == "rear trim" and part["trim"] in ("both", "rear"):
        part["rear_trim"] = draw(st.floats(1.0, 80.0)) / mm
    data: PartData = {"units": units, "part": part}
    data["tube"] = {"od": stock.od / mm, "wall": stock.wall / mm, "material": stock.material}
    asks_clr = draw(st.booleans())
    if draw(st.booleans()):
        bends = [
            {"straight": s / mm, "rotation": r, "angle": a} | ({"clr": clr / mm} if asks_clr else {})
            for s, r, a in zip(straights[:-1], rotations, angles, strict=True)
        ]
        data["steps"] = {"bend": bends, "rear": straights[-1] / mm}
    else:
        # Sharp corners, or the clearance of a die smaller than any: some of these bends overlap.
        walker = IndependentBender(
            side="left",
            feed="incremental",
            rotation="incremental",
            clockwise=True,
            grip=0.0,
            laws={"": SpringLaw(die_clr=draw(st.sampled_from((1.0, clr, clr))))},
        )
        table = [
            Keyed(die="", feed=s, rotation=r, bend=a) for s, r, a in zip(straights, rotations, angles, strict=False)
        ]
        arcs = sum(walker.laws[""].die_clr * np.radians(a) for a in angles)
        corners = (walker.make(table, sum(straights) + arcs).vertices() / mm).tolist()
        data["centreline"] = {"vertices": corners}
        if asks_clr:
            data["centreline"]["vertices"] = [
                v + ([clr / mm] if 0 < i < len(corners) - 1 else []) for i, v in enumerate(corners)
            ]
    if not asks_clr:
        part["die"] = die
    return data


@st.composite
def broken_jobs(draw: st.DrawFn) -> tuple[MachineProfile, PartData, frozenset[str]]:
    stock = draw(st.sampled_from(STOCK))
    profile = draw(tight_profiles(stock.profile))
    data = draw(part_files(stock))
    options = frozenset(draw(st.sets(st.sampled_from(("--mirror", "--from-rear")))))
    return profile, data, options


def limits_of(part: Part, profile: MachineProfile) -> list[Finding]:
    return [finding for finding in plan_part(part, profile).findings if finding.level == "limit"]


@given(broken_jobs())
@settings(max_examples=80, deadline=None, derandomize=True)
def test_every_cure_removes_its_finding(job: tuple[MachineProfile, PartData, frozenset[str]]) -> None:
    profile, data, options = job
    try:
        before = limits_of(part_of_data(data, options), profile)
    except (InputError, GeometryError, ToolingError):
        assume(False)  # noqa: FBT003 - Hypothesis' way to pass over a case
    for finding in before:
        texts = [cure.text for cure in finding.cures]
        assert len(set(texts)) == len(texts)
        for cure in finding.cures:
            event(f"{finding.rule}: {cure.change.key.split('[')[0]}")
            changed, changed_options = edited(data, options, cure.change)
            after = limits_of(part_of_data(changed, changed_options), profile)
            renumbered = cure.change.key in ("--from-rear", "centreline.merge_below")
            left = [f for f in after if f.rule == finding.rule and (renumbered or f.step == finding.step)]
            assert not left, (finding, cure, left)
            assert {f.rule for f in after} <= {f.rule for f in before}


def test_a_cure_for_a_fixed_blank_bent_from_its_other_end_can_be_written_into_the_file() -> None:
    # A file fixes no blank together with a rear trim: what lacks at the filed rear is asked for by the blank.
    profile = profile_named("bay2")
    head = {"name": "Guard", "number": "GD-9", "revision": "A", "quantity": 1, "front_trim": 5.0, "blank": 500.0}
    data: PartData = {
        "units": "mm",
        "part": head | {"die": "d50-r100"},
        "tube": {"od": 50.0, "wall": 1.5, "material": "304L"},
        "steps": {"bend": [{"straight": 350.0, "rotation": 0.0, "angle": 30.0}], "rear": 60.0},
    }
    options = frozenset({"--from-rear"})
    (clamp,) = [finding for finding in limits_of(part_of_data(data, options), profile) if finding.rule == "clamp"]
    assert [cure.change.key for cure in clamp.cures] == ["part.blank"]
    for cure in clamp.cures:
        changed, changed_options = edited(data, options, cure.change)
        left = [finding.rule for finding in limits_of(part_of_data(changed, changed_options), profile)]
        assert "clamp" not in left
