"""Routes between ports: against hand-worked cases, an independent bender, brute force, and what is in the way."""

import math

import numpy as np
import pytest
from numpy.typing import NDArray

from bendgen.bending.hands import mirror_part, reverse_part
from bendgen.bending.offset import solve_offset
from bendgen.bending.planning import plan_part
from bendgen.bending.route import check_routes, fitting_routes, routes_of_part, with_route
from bendgen.records.machine import MachineProfile
from bendgen.records.offset import OffsetWish
from bendgen.records.part import Part
from bendgen.records.route import Box, Route, RouteWish
from tests.independent_bender import IndependentBender, Keyed, SpringLaw, seen_from_front
from tests.offset_jobs import rigid_bender
from tests.route_jobs import joining, link, random_wish, shortest_by_brute_force

Array = NDArray[np.float64]
CLR = 60.0
RIGID = rigid_bender(clr=CLR)
CLAMPED = rigid_bender(clr=CLR, clamp=100.0)


def best(wish: RouteWish, profile: MachineProfile = RIGID.profile) -> Route:
    return routes_of_part(link(wish), profile)[0]


def test_a_rolling_offset() -> None:
    """Worked out by hand from rise, run and radius (case of a pipe fitter's handbook kind, no source)."""
    route = best(joining((300.0, 200.0, 100.0), (-1.0, 0.0, 0.0)))
    assert route.short_by == 0.0
    assert route.angles_deg == pytest.approx([41.26793, 41.26793], abs=1e-4)
    assert route.straights == pytest.approx([0.0, 293.82711, 0.0], abs=1e-3)
    assert route.length == pytest.approx(380.25846, abs=1e-3)


def test_the_offset_is_the_parallel_case() -> None:
    offset = OffsetWish(rise=150.0, length=700.0, shortest_end=80.0)
    solution = solve_offset(offset, CLAMPED.die, CLAMPED.curves, CLAMPED.profile)
    assert solution is not None
    route = best(joining((700.0, 0.0, 150.0), (-1.0, 0.0, 0.0), shortest=(80.0, 80.0)), CLAMPED.profile)
    assert route.angles_deg == pytest.approx([solution.gentlest.angle_deg] * 2, abs=1e-4)
    assert route.straights == pytest.approx([80.0, solution.gentlest.between, 80.0], abs=1e-3)


def test_ports_in_line_need_no_bend() -> None:
    route = best(joining((500.0, 0.0, 0.0), (-2.0, 0.0, 0.0)))
    assert (route.angles_deg, route.straights, route.short_by) == ((), (500.0,), 0.0)


def test_axes_that_meet_need_one_bend() -> None:
    route = best(joining((400.0, 300.0, 0.0), (0.0, -1.0, 0.0)))
    assert route.angles_deg == pytest.approx([90.0])
    assert route.vertices[1] == pytest.approx((400.0, 0.0, 0.0))
    assert route.length == pytest.approx(340.0 + 240.0 + CLR * math.pi / 2.0)


def test_one_bend_where_the_axes_pass_each_other() -> None:
    routes = routes_of_part(link(joining((400.0, 300.0, 7.0), (0.0, -1.0, 0.0), bends=1)), RIGID.profile)
    assert [route.short_by for route in routes] == [pytest.approx(7.0)]
    (finding,) = check_routes(routes)
    assert finding.text == (
        "no route was found that fits; the nearest, of 1 bend on 'only': "
        "the axes of the ports pass each other, 7 mm apart"
    )


def test_how_far_off_the_nearest_is() -> None:
    """Axes 100 apart and ends level need two right angles and 2 CLR between: the clamp's 100 cannot be left."""
    wish = joining((0.0, 100.0, 0.0), (1.0, 0.0, 0.0), bends=2)
    route = best(wish, CLAMPED.profile)
    assert route.short_by == pytest.approx(100.0 + 2.0 * CLR - 100.0, abs=0.1)
    assert route.missing == ("straight 2 is -20 mm and needs 100 mm",)


@pytest.mark.parametrize("seed", range(12))
def test_played_forward_it_lands_on_the_port(seed: int) -> None:
    """On a bender that shares nothing with the package, to 1e-6 mm and 1e-9 in direction."""
    wish = random_wish(np.random.default_rng(seed), shortest=(40.0, 60.0))
    fitting = fitting_routes(routes_of_part(link(wish), CLAMPED.profile))
    assert fitting
    for route in fitting:
        points, last = _made(route)
        ports = _in_frame_of_front(wish, np.array(route.vertices))
        assert points[-1] == pytest.approx(ports[0], abs=1e-6)
        assert last == pytest.approx(ports[1], abs=1e-9)


def _made(route: Route) -> tuple[Array, Array]:
    """Points and last direction of the route as a bender leaves it, in the frame of its front."""
    bender = IndependentBender(
        side="left",
        feed="incremental",
        rotation="incremental",
        clockwise=True,
        grip=0.0,
        laws={"only": SpringLaw(die_clr=CLR)},
    )
    keyed = [
        Keyed(die="only", feed=feed, rotation=rotation, bend=angle)
        for feed, rotation, angle in zip(
            route.straights, [0.0, *_dihedrals(np.array(route.vertices))], route.angles_deg, strict=False
        )
    ]
    arcs = sum(CLR * math.radians(angle) for angle in route.angles_deg)
    made = bender.make(keyed, sum(route.straights) + arcs)
    framed = seen_from_front(np.array([*made.points, made.points[-1] + made.directions[-1]]))
    return framed[:-1], framed[-1] - framed[-2]


def _dihedrals(vertices: Array) -> list[float]:
    """Rotations [deg] between the planes of neighbouring bends: angle of their normals, signed by the leg between."""
    legs = np.diff(vertices, axis=0)
    normals = np.cross(legs[:-1], legs[1:])
    rotations = []
    for leg, before, behind in zip(legs[1:-1], normals[:-1], normals[1:], strict=True):
        sine = np.cross(before, behind) @ leg / np.linalg.norm(leg)
        rotations.append(math.degrees(math.atan2(float(sine), float(before @ behind))))
    return rotations


def _in_frame_of_front(wish: RouteWish, vertices: Array) -> tuple[Array, Array]:
    """Rear port's place and the direction into it, in the frame of the front leg and the first bend."""
    into = -np.array(wish.rear.towards) / np.linalg.norm(wish.rear.towards)
    framed = seen_from_front(np.array([*vertices, vertices[-1] + into]))
    return framed[-2], framed[-1] - framed[-2]


@pytest.mark.parametrize("seed", range(20))
def test_brute_force_finds_no_shorter_pair_of_bends(seed: int) -> None:
    wish = random_wish(np.random.default_rng(1000 + seed), shortest=(40.0, 60.0))
    route = next(r for r in routes_of_part(link(wish), CLAMPED.profile) if len(r.angles_deg) == 2)
    shortest = shortest_by_brute_force(wish, clr=CLR, between=100.0)
    if route.short_by:
        assert shortest == math.inf
    else:
        assert route.length <= shortest + 0.1


def test_it_stays_out_of_boxes() -> None:
    box = Box(corner=(200.0, -300.0, -300.0), opposite=(500.0, 80.0, 300.0))
    wish = joining((700.0, 0.0, 0.0), (-1.0, 0.0, 0.0), keep_out=(box,), clearance=5.0)
    route = best(wish)
    assert route.short_by <= 1e-7
    places = _along(route, 2000)
    low, high = np.array(box.corner), np.array(box.opposite)
    outside = np.linalg.norm(np.maximum(np.maximum(low - places, places - high), 0.0), axis=1)
    assert outside.min() >= 10.0 + 5.0 - 1e-6
    free = best(joining((700.0, 0.0, 0.0), (-1.0, 0.0, 0.0)))
    assert free.length < route.length


def _along(route: Route, count: int) -> Array:
    """Places along the axis: straights, and arcs of constant radius between their tangent points."""
    vertices = np.array(route.vertices)
    legs = np.diff(vertices, axis=0)
    ways = legs / np.linalg.norm(legs, axis=1)[:, None]
    places = [vertices[0]]
    part = np.linspace(0.0, 1.0, count)[:, None]
    start = vertices[0]
    for vertex, before, behind, angle in zip(vertices[1:-1], ways, ways[1:], route.angles_deg, strict=False):
        tangent = CLR * math.tan(math.radians(angle) / 2.0)
        end = vertex - tangent * before
        places.extend(start + part * (end - start))
        inward = (behind - math.cos(math.radians(angle)) * before) / math.sin(math.radians(angle))
        swept = part * math.radians(angle)
        places.extend(end + CLR * (np.sin(swept) * before + (1.0 - np.cos(swept)) * inward))
        start = vertex + tangent * behind
    places.extend(start + part * (vertices[-1] - start))
    return np.array(places)


ASKED = joining((500.0, 300.0, 200.0), (0.0, 0.0, -1.0), shortest=(120.0, 150.0))


def planned(part: Part) -> tuple[tuple[float, ...], list[float], list[float]]:
    program = plan_part(part, CLAMPED.profile).program
    assert program is not None
    tube = program.finished
    return tube.straights, [b.angle_deg for b in tube.bends], [b.rotation_deg for b in tube.bends]


def test_a_part_with_a_route_is_planned_and_reaches_its_ports() -> None:
    plan = plan_part(link(ASKED), CLAMPED.profile)
    assert plan.program is not None
    assert plan.part.die == "only"
    wanted = plan.program.wanted.points
    assert wanted[0] == pytest.approx((0.0, 0.0, 0.0))
    assert wanted[-1] == pytest.approx((500.0, 300.0, 200.0))


def test_hand_and_end_of_a_route() -> None:
    straights, angles, rotations = planned(link(ASKED))
    mirrored = planned(mirror_part(link(ASKED)))
    assert mirrored[0] == pytest.approx(straights, abs=0.2)
    assert mirrored[2][1:] == pytest.approx([-rotation for rotation in rotations[1:]], abs=0.2)
    other_end = planned(reverse_part(link(ASKED)))
    assert other_end[1] == pytest.approx(angles[::-1], abs=0.2)
    assert other_end[0] == pytest.approx(straights[::-1], abs=0.2)


def test_a_part_without_a_route_says_what_is_short() -> None:
    plan = plan_part(link(joining((0.0, 100.0, 0.0), (1.0, 0.0, 0.0), bends=2)), CLAMPED.profile)
    assert plan.program is None
    (finding,) = plan.findings
    assert (finding.rule, finding.level, finding.limit) == ("route", "limit", 0.0)
    assert finding.value == pytest.approx(120.0, abs=0.01)


def test_a_route_becomes_a_centreline_on_its_die() -> None:
    route = best(ASKED, CLAMPED.profile)
    part = with_route(link(ASKED), route)
    assert part.centreline is not None
    assert len(part.centreline.vertices) == len(route.vertices)
    assert part.die == route.die
