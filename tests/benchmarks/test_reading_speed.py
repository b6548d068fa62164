"""How long it takes to read a tube from points and to find a route; routes against brute force; all on demand."""

import math
import resource
import subprocess
import sys
import time
from pathlib import Path

import numpy as np
import pytest

from bendgen.bending.route import routes_of_part
from tests.offset_jobs import rigid_bender
from tests.route_jobs import joining, link, random_wish, shortest_by_brute_force
from tests.sampled_axis import sampled_axis

pytestmark = pytest.mark.benchmark

STRAIGHTS = [200.0, 120.0, 220.0, 260.0, 240.0, 300.0, 200.0]
BENDS = [
    *((0.0, 56.0, 100.0), (40.0, 45.0, 100.0), (-70.0, 70.0, 100.0)),
    *((120.0, 60.0, 100.0), (180.0, 80.0, 100.0), (30.0, 50.0, 100.0)),
]
LENGTH = 2170.0


def points_file(folder: Path, count: int, noise: float) -> Path:
    points = sampled_axis(STRAIGHTS, BENDS, LENGTH / count, noise=noise)
    path = folder / f"{count}.csv"
    path.write_text("x_mm,y_mm,z_mm\n" + "".join(f"{x:.6f},{y:.6f},{z:.6f}\n" for x, y, z in points))
    return path


def seconds_to_read(path: Path) -> float:
    """Seconds of the processor, start-up included, the best of three: other processes share the machine."""
    times = []
    for _ in range(3):
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        subprocess.run([sys.executable, "-m", "bendgen", "read", str(path)], check=True, capture_output=True)
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        times.append(after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)
    return min(times)


@pytest.mark.parametrize("noise", [0.0, 0.02])
def test_a_hundred_thousand_points(tmp_path: Path, noise: float) -> None:
    assert seconds_to_read(points_file(tmp_path, 100_000, noise)) <= 2.0


def test_the_time_grows_no_faster_than_the_points(tmp_path: Path) -> None:
    few, many = (seconds_to_read(points_file(tmp_path, count, 0.0)) for count in (25_000, 200_000))
    assert many <= 8.0 * few


def test_a_route_of_three_bends() -> None:
    """Search and all, in a process that has started; ports that no route with fewer bends joins."""
    part = link(joining((150.0, 60.0, 30.0), (-1.0, 0.0, 0.0), bends=3))
    rigid = rigid_bender(clr=60.0, clamp=100.0)
    routes_of_part(part, rigid.profile)
    start = time.perf_counter()
    routes = routes_of_part(part, rigid.profile)
    assert time.perf_counter() - start <= 0.5
    assert not routes[0].short_by


@pytest.mark.parametrize("seed", range(200))
def test_brute_force_finds_no_shorter_pair_of_bends(seed: int) -> None:
    wish = random_wish(np.random.default_rng(5000 + seed), shortest=(40.0, 60.0))
    routes = routes_of_part(link(wish), rigid_bender(clr=60.0, clamp=100.0).profile)
    route = next(route for route in routes if len(route.angles_deg) == 2)
    shortest = shortest_by_brute_force(wish, clr=60.0, between=100.0)
    assert math.isinf(shortest) if route.short_by else route.length <= shortest + 0.1
