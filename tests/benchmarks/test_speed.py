"""How long the tool keeps a person waiting; on demand only, for a busy machine measures nothing.

    .venv/bin/pytest -m benchmark tests/benchmarks -n 0 -s

Start-up is measured against a Python that imports numpy and typer on the same machine, in alternating runs, so that
the asserted ratios hold on any machine; medians, because another process may take a processor for a while.
"""

import statistics
import subprocess
import sys
import time
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from bendgen.bending.check_values import check_values
from bendgen.bending.comparison import compare_piece
from bendgen.bending.foretold import foretold_of_program
from bendgen.bending.measured_shape import axis_of_wanted
from bendgen.bending.miss_sources import miss_sources
from bendgen.bending.misses import missed_tubes, misses_of_array
from bendgen.bending.planning import plan_part
from bendgen.files.part_file import read_part
from bendgen.files.profile_folder import read_profile
from bendgen.geometry.extents import arc_points
from bendgen.records.measured import MeasuredPiece
from bendgen.records.part import Centreline, Part

pytestmark = pytest.mark.benchmark

ROOT = Path(__file__).parents[2]
SIX_BENDS = ROOT / "samples" / "six_bend_duct.toml"
BAY_2 = ROOT / "machine_profiles" / "bay2"
NUMPY_AND_TYPER = (sys.executable, "-c", "import numpy, typer")
BENDGEN = (sys.executable, "-m", "bendgen")
RUNS = 15
PARTS = 2000
PARTS_PER_SECOND = 1000.0


def test_help_starts_quickly() -> None:
    assert times_as_long((*BENDGEN, "--help")) <= 1.5


def test_program_of_six_bends_is_written_quickly(tmp_path: Path) -> None:
    command = (*BENDGEN, "program", str(SIX_BENDS), "--machine", str(BAY_2), "--out", str(tmp_path))
    assert times_as_long((*command, "--issue", "1", "--force")) <= 3.2


def test_two_hundred_parts_are_written_with_their_sheets(tmp_path: Path) -> None:
    """Pages included; on the machine this was written on."""
    text = SIX_BENDS.read_text(encoding="utf-8")
    parts = []
    for number in range(200):
        parts.append(tmp_path / f"part_{number}.toml")
        varied = text.replace("GD-204", f"GD-{2000 + number}").replace("[260, 0, 0]", f"[{260.0 + 0.1 * number}, 0, 0]")
        parts[-1].write_text(varied, encoding="utf-8")
    command = (*BENDGEN, "program", *map(str, parts), "--machine", str(BAY_2), "--out", str(tmp_path / "out"))
    start = time.perf_counter()
    subprocess.run([*command, "--quiet"], check=True)
    seconds = time.perf_counter() - start
    print(f"200 parts with their sheets: {seconds:.1f} s")  # noqa: T201 - the figure is what one runs it for
    assert len(list((tmp_path / "out").iterdir())) == 5 * len(parts)
    assert seconds <= 10.0


def test_parts_planned_in_one_second() -> None:
    """Limits and prediction included; every part differs, so no answer is remembered; seconds of the processor."""
    profile = read_profile(BAY_2)
    part = read_part(SIX_BENDS)
    rounds = []
    for first in range(0, PARTS, PARTS // 5):
        parts = [stretched(part, 1.0 + number * 1e-5) for number in range(first, first + PARTS // 5)]
        start = time.process_time()
        plans = [plan_part(varied, profile) for varied in parts]
        rounds.append(len(plans) / (time.process_time() - start))
        assert all(plan.program is not None for plan in plans)
    print(f"six-bend parts per second: {statistics.median(rounds):.0f}")  # noqa: T201 - the figure is what one runs it for
    assert statistics.median(rounds) >= PARTS_PER_SECOND


def test_100_000_samples_of_a_six_bend_part() -> None:
    """Monte Carlo of every cause through every reading, in seconds of one processor."""
    program = plan_part(read_part(SIX_BENDS), read_profile(BAY_2)).program
    assert program is not None
    foretold, sources = foretold_of_program(program), np.nan_to_num(miss_sources(program))
    rng = np.random.default_rng(1)
    start = time.process_time()
    for _ in range(20):
        drawn = np.einsum("dk,kjn->djn", rng.standard_normal((5_000, len(sources))), sources)  # on one core
        check_values(foretold, missed_tubes(foretold, misses_of_array(drawn)))
    seconds = time.process_time() - start
    print(f"100,000 samples of six bends: {seconds:.2f} s")  # noqa: T201 - the figure is what one runs it for
    assert seconds < 1.0


def test_an_axis_of_5_000_points_is_compared_quickly() -> None:
    program = plan_part(read_part(SIX_BENDS), read_profile(BAY_2)).program
    assert program is not None
    foretold = foretold_of_program(program)
    axis = axis_of_wanted(foretold)
    arcs = arc_points(axis.points[1:-1:2], axis.points[2:-1:2], axis.directions[:-1], axis.angles, axis.clr)
    path = np.concatenate((axis.points[:1], arcs.reshape(-1, 3), axis.points[-1:]))
    way = np.concatenate(([0.0], np.cumsum(np.linalg.norm(np.diff(path, axis=0), axis=1))))
    at = np.linspace(0.0, way[-1], 5_000)
    points = np.column_stack([np.interp(at, way, path[:, k]) for k in range(3)])
    points += np.random.default_rng(2).normal(0.0, 0.02, points.shape)
    piece = MeasuredPiece(piece="1", lot=None, axis=tuple(map(tuple, points.tolist())))
    start = time.process_time()
    compared = compare_piece(foretold, piece)
    seconds = time.process_time() - start
    print(f"axis of 5,000 points compared: {seconds:.2f} s")  # noqa: T201 - the figure is what one runs it for
    assert compared.deviations
    assert seconds < 1.0


def stretched(part: Part, factor: float) -> Part:
    """The same path, its first coordinate stretched: other lengths, angles and rotations."""
    assert part.centreline is not None
    vertices = tuple(replace(vertex, x=vertex.x * factor) for vertex in part.centreline.vertices)
    return replace(part, centreline=Centreline(vertices=vertices))


def times_as_long(command: Sequence[str]) -> float:
    """Wall time of a command against that of importing numpy and typer: medians of alternating runs."""
    ours, theirs = [], []
    for _ in range(RUNS):
        theirs.append(seconds_of(NUMPY_AND_TYPER))
        ours.append(seconds_of(command))
    ratio = statistics.median(ours) / statistics.median(theirs)
    figures = f"{statistics.median(ours):.3f} s against {statistics.median(theirs):.3f} s"
    print(f"{figures}: {ratio:.2f} times as long")  # noqa: T201 - the figure is what one runs it for
    return ratio


def seconds_of(command: Sequence[str]) -> float:
    start = time.perf_counter()
    subprocess.run(command, check=True, capture_output=True, cwd=ROOT)
    return time.perf_counter() - start
