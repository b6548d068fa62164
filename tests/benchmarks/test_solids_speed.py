"""How long a solid keeps a person waiting; on demand only, as in `test_speed`.

Against a CAD kernel (the extra `cad`; skipped without it) whole processes are compared, from the start of Python to
the printed answer, which is the same: OD, wall, every straight and bend in order. They take turns, and what counts is
the median of the processor's time. `kernel_reading` is what somebody with a kernel would write; it proves less.
"""

import json
import os
import statistics
import subprocess
import sys
import time
from collections.abc import Sequence
from pathlib import Path

import numpy as np
import pytest

from bendgen.files.solids.solid_file import read_solid_file
from bendgen.records.solid_tube import SolidTube
from tests.solid_writer import START, TubeMaker, Writer, spline_curve_text, walk

pytestmark = pytest.mark.benchmark

ROOT = Path(__file__).parents[2]
PERFORATED = ROOT / "tests" / "files" / "solids" / "made" / "perforated.step"
WHOLE_PROCESS = 0.5  # s
PITCH, HOLE = 6.0, 2.0  # mm


def test_a_perforated_tube_of_600_kb_in_a_whole_process() -> None:
    command = (sys.executable, "-m", "bendgen", "read", str(PERFORATED))
    taken = []
    for _ in range(9):
        start = time.perf_counter()
        subprocess.run(command, check=True, capture_output=True, cwd=ROOT)
        taken.append(time.perf_counter() - start)
    print(f"read a perforated tube: {statistics.median(taken):.3f} s")  # noqa: T201 - the figure is what one runs it for
    assert statistics.median(taken) <= WHOLE_PROCESS


def test_cost_grows_with_size_up_to_50_mb(tmp_path: Path) -> None:
    """Seconds of the processor and memory for files of 7, 13, 27 and 50 MB."""
    rates = []
    for holes in (500, 1000, 2000, 3600):
        path = tmp_path / f"{holes}.step"
        path.write_text(perforated_text(holes))
        start = time.process_time()
        found = read_solid_file(path).tube([1])
        taken = time.process_time() - start
        assert isinstance(found, SolidTube)
        megabytes = path.stat().st_size / 1e6
        rates.append(taken / megabytes)
        print(f"{megabytes:.1f} MB: {taken:.2f} s")  # noqa: T201 - the figure is what one runs it for
    assert max(rates) <= 1.5 * min(rates)


READER = """
import sys
from pathlib import Path
from bendgen.files.solids.solid_file import read_solid_file
print(read_solid_file(Path(sys.argv[1])).tube([1]))
"""
KERNEL = ROOT / "tests" / "benchmarks" / "kernel_reading.py"
LEAST_FACTOR = 5.0
ROUNDS = 7


@pytest.mark.parametrize("holes", [None, 500, 3600])
def test_against_a_kernel(holes: int | None, tmp_path: Path) -> None:
    """Seconds of the kernel, of the reader alone and of the command on one file."""
    pytest.importorskip("OCP", reason="held against the extra 'cad'")
    path = PERFORATED
    if holes is not None:
        path = tmp_path / "perforated.step"
        path.write_text(perforated_text(holes))
    commands = {
        "kernel": (sys.executable, str(KERNEL), str(path)),
        "reader": (sys.executable, "-c", READER, str(path)),
        "command": (sys.executable, "-m", "bendgen", "read", str(path)),
    }
    seconds: dict[str, list[float]] = {name: [] for name in commands}
    for _ in range(ROUNDS if holes is None else 3):
        for name, command in commands.items():
            seconds[name].append(processor_seconds(command))
    medians = {name: statistics.median(taken) for name, taken in seconds.items()}
    print(f"\n{path.stat().st_size / 1e6:.1f} MB:", json.dumps(medians))  # noqa: T201 - the figures are what one runs it for
    assert medians["kernel"] >= LEAST_FACTOR * medians["reader"]


def processor_seconds(command: Sequence[str]) -> float:
    """Time of the processor that a process takes, of which it uses one only."""
    environment = os.environ | {"OPENBLAS_NUM_THREADS": "1"}
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL, cwd=ROOT, env=environment)
    _, status, usage = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    assert process.returncode == 0
    return usage.ru_utime + usage.ru_stime


def perforated_text(holes: int) -> str:
    """Tube with a row of holes through one side of its first straight, their rims curves through 61 points."""
    writer = Writer()
    faces = TubeMaker(writer).faces(*walk(((PITCH * holes, 0.0, 90.0, 57.0),), 100.0, START))
    across = np.cross(START.along, START.side)
    angles = np.linspace(0.0, 2.0 * np.pi, 61)
    x, y = HOLE * np.cos(angles)[:, None], HOLE * np.sin(angles)[:, None]
    for hole in range(holes):
        middle = START.at + PITCH * (hole + 0.6) * START.along
        edges = []
        for radius in (19.05, 17.55):
            rim = middle + x * START.along + y * across + np.sqrt(radius**2 - y**2) * START.side
            corner = writer.vertex(rim[0])
            edges.append([writer.edge(corner, corner, spline_curve_text(writer, rim))])
        placement = writer.placement(middle, START.side, START.along)
        surface = writer.add(f"CYLINDRICAL_SURFACE('',{placement},{writer.length(HOLE)})")
        faces.append(writer.face(edges, surface, outward=False))
    tube = writer.representation([writer.solid(faces)], writer.context())
    writer.product(tube, "Duct (invented)")
    return writer.text()
