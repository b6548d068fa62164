"""Files that a CAD kernel made of invented tubes (`kernel_shapes`), and with the kernel at hand, its volumes."""

import math
import re
from pathlib import Path

import pytest

from bendgen.records.solid_tube import OtherSolid, SolidTube
from tests.files.solids.reading import numbers_of, solids_in
from tests.solid_writer import REAR, TUBE, Bend

MADE = Path(__file__).parent / "made"
WITHIN = 1e-6  # mm and degrees
FITTED = 0.01  # mm, to which the kernel fitted, and degrees
ONE_BEND: tuple[Bend, ...] = ((50.0, 0.0, 75.0, 57.0),)
THREE_QUARTERS: tuple[Bend, ...] = ((20.0, 0.0, 270.0, 57.0),)
NO_STRAIGHTS: tuple[Bend, ...] = ((0.0, 0.0, 90.0, 57.0), (0.0, 90.0, 60.0, 57.0), (0.0, 180.0, 10.0, 57.0))
HALF_TURN: tuple[Bend, ...] = ((60.0, 0.0, 180.0, 57.0), (60.0, 0.0, 30.0, 57.0))
FORTY: tuple[Bend, ...] = tuple((30.0, 180.0 if number else 0.0, 20.0, 60.0) for number in range(40))


def read(path: Path) -> SolidTube:
    (found,) = solids_in(path)
    assert isinstance(found, SolidTube), found
    return found


def check_numbers(tube: SolidTube, bends: tuple[Bend, ...], rear: float, within: float = WITHIN) -> None:
    straights, angles, rotations, clr = numbers_of(tube)
    assert straights == pytest.approx([*(bend[0] for bend in bends), rear], abs=within)
    assert angles == pytest.approx([bend[2] for bend in bends], abs=within)
    assert rotations == pytest.approx([bend[1] for bend in bends[1:]], abs=within)
    assert clr == pytest.approx([bend[3] for bend in bends], abs=within)
    assert (tube.od, tube.wall) == pytest.approx((38.1, 1.5), abs=within)


@pytest.mark.parametrize(
    ("name", "bends", "rear"),
    [
        ("three_quarters", THREE_QUARTERS, 20.0),  # in centimetres
        ("no_straights", NO_STRAIGHTS, 0.0),  # in metres
        ("slotted", TUBE, REAR),
        ("drilled", TUBE, REAR),
    ],
)
def test_exact_tubes(name: str, bends: tuple[Bend, ...], rear: float) -> None:
    check_numbers(read(MADE / f"{name}.step"), bends, rear)


def test_a_sweep_along_one_curve() -> None:
    """The kernel joins the curve with 1e-4 mm to spare, and so are its lengths."""
    check_numbers(read(MADE / "one_spline_face.step"), TUBE, REAR, within=1e-4)


def test_faces_that_the_kernel_fitted() -> None:
    """To 0.01 mm, and so are the numbers."""
    tube = read(MADE / "fitted.step")
    check_numbers(tube, ONE_BEND, 60.0, within=FITTED)
    assert tube.understood[0][0] == "surfaces"


def test_exact_faces_within_edges_that_the_kernel_fitted() -> None:
    """Straights and bends are those of the faces, whatever their edges; only the ends hang on edges."""
    check_numbers(read(MADE / "fitted_edges.step"), TUBE, REAR, within=FITTED)


@pytest.mark.parametrize("degree", [3, 5, 8])
@pytest.mark.parametrize("only_edges", [True, False])
def test_fitted_by_the_kernel_at_hand(tmp_path: Path, degree: int, only_edges: bool) -> None:  # noqa: FBT001 - of the case
    pytest.importorskip("OCP", reason="made with the extra 'cad' only")
    from tests.files.solids.kernel_shapes import fitted, tube, write

    write(fitted(tube(), degree, only_edges=only_edges), tmp_path / "tube.step")
    check_numbers(read(tmp_path / "tube.step"), TUBE, REAR, within=FITTED)


def test_a_slot_is_passed_over() -> None:
    assert read(MADE / "slotted.step").ignored == ("holes and cuts that are not round: 4 faces",)


def test_holes_like_a_bore_are_none() -> None:
    """One of exactly the bore, through both sides; one of 8 mm in a bend, on the axis of the straight before it."""
    assert read(MADE / "drilled.step").ignored == ("round holes and cuts, Ø 8, 35.1 mm",)


@pytest.mark.parametrize(
    ("name", "reason"),
    [
        (
            "branched",
            r"7 pieces end to end and, of the same radius, left over: a straight, 80 mm long, at \(.*\) mm .*",
        ),
        ("flanged", r"3 faces that are not in the tube's wall, near \(.*\) mm: #\d+ \(CYLINDRICAL_SURFACE\), .*"),
        ("capped", r"a bore that is closed by #\d+ at \(12\.2034, -7\.20344, 30\) mm"),
    ],
)
def test_what_is_welded_on_is_named(name: str, reason: str) -> None:
    (found,) = solids_in(MADE / f"{name}.step")
    assert isinstance(found, OtherSolid)
    assert re.fullmatch(reason, found.reason)


def test_tubes_in_a_bigger_model() -> None:
    """An assembly in inches: a frame of a tube and a block, turned and placed twice, and another tube once."""
    check_nested(MADE / "nested.step")


@pytest.mark.parametrize("unit", ["MM", "CM", "M", "INCH"])
def test_the_same_in_every_unit(tmp_path: Path, unit: str) -> None:
    pytest.importorskip("OCP", reason="made with the extra 'cad' only")
    from tests.files.solids.kernel_shapes import nested, write

    write(nested(), tmp_path / "nested.step", unit)
    check_nested(tmp_path / "nested.step")


def check_nested(path: Path) -> None:
    tube, block, branch = solids_in(path)
    assert isinstance(tube, SolidTube)
    check_numbers(tube, TUBE, REAR)
    assert tube.instances == 2
    assert isinstance(block, OtherSolid)
    assert isinstance(branch, SolidTube)
    assert branch.instances == 1
    assert branch.od == pytest.approx(24.0)
    assert branch.ends[0] == pytest.approx((12.0, -7.0, 530.0), abs=WITHIN)


@pytest.mark.parametrize(
    ("bends", "rear"), [(TUBE, REAR), (THREE_QUARTERS, 20.0), (NO_STRAIGHTS, 0.0), (HALF_TURN, 80.0), (FORTY, 30.0)]
)
@pytest.mark.parametrize("unit", ["MM", "CM", "M", "INCH"])
def test_the_kernels_volume_is_that_of_pappus(tmp_path: Path, bends: tuple[Bend, ...], rear: float, unit: str) -> None:
    """Volume = section times length of the axis, with the section and the length as read."""
    pytest.importorskip("OCP", reason="made with the extra 'cad' only")
    from tests.files.solids.kernel_shapes import tube, volume, write

    shape = tube(bends, rear)
    write(shape, tmp_path / "tube.step", unit)
    found = read(tmp_path / "tube.step")
    check_numbers(found, bends, rear)
    assert found.steps is not None
    assert found.wall is not None
    arcs = [math.radians(bend.angle_deg) * (bend.clr or 0.0) for bend in found.steps.bends]
    length = sum(bend.straight for bend in found.steps.bends) + found.steps.rear + sum(arcs)
    section = math.pi * found.wall * (found.od - found.wall)
    assert section * length == pytest.approx(volume(shape), rel=1e-9)
