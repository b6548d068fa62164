"""Files that are damaged in thousands of ways are read or refused, each quickly; on demand, as the others here.

    .venv/bin/pytest -m benchmark tests/benchmarks/test_reading_fuzz.py -n 0

What this finds becomes a test of its own beside the reader.
"""

import contextlib
import math
import os
import random
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path

import pytest

from bendgen.bending.found_bends import bends_of_found
from bendgen.errors import BendgenError
from bendgen.files.tube_source import read_source
from bendgen.records.found_tube import Answers, FoundTube
from tests.drawn_files import Draw, Space
from tests.drawn_files import drawing as written_drawing
from tests.sampled_axis import sampled_axis

pytestmark = pytest.mark.benchmark

DAMAGES = 1500
SLOWEST = 2.0  # s of the processor
ANSWERS = {
    "points.csv": Answers(points="axis"),
    "steps.csv": Answers(
        feed="summed", rotation="absolute", rotation_positive="clockwise_from_carriage", angles="finished"
    ),
    "axis.dxf": Answers(),
    "curve.dxf": Answers(),
}
PIECES = (
    b"nan",
    b"inf",
    b"-",
    b",",
    b";",
    b"\t",
    b'"',
    b"\n",
    b"\r",
    b"\x00",
    b"\xff",
    b"1e308",
    b"9" * 400,
    b"0",
    b"#",
)
BENT = sampled_axis([60.0, 40.0], [(0.0, 70.0, 50.0)], 3.0)


def csv_of_points() -> bytes:
    return ("x_mm,y_mm,z_mm\n" + "".join(f"{x:.4f},{y:.4f},{z:.4f}\n" for x, y, z in BENT)).encode()


def csv_of_steps() -> bytes:
    return b"Y (in);B;C;R\n4,5;0;90;3\n10,25;-90;45;3\n20;30;60;-\n"


def lines_and_arcs(space: Space) -> None:
    """Some of them in a block within a block, one on a layer that is frozen."""
    space.add_lwpolyline([(0, 0, 0, 0, 0), (100, 0, 0, 0, 0.41421356), (150, 50, 0, 0, 0), (150, 200, 0, 0, 0)])
    block = space.doc.blocks.new("TAIL")
    block.add_ellipse((0, 0), (30, 0), 1.0, 0.0, 0.5 * math.pi)
    block.add_polyline3d([(0, 30, 0), (-70, 30, 0), (-70, 30, 60)])
    space.doc.blocks.new("END").add_blockref("TAIL", (5, 5))
    space.add_blockref("END", (115, 195, 0))
    space.doc.layers.add("OLD").freeze()
    space.add_arc((210, 310, 30), 14.142, 225, 300, dxfattribs={"extrusion": (0.1, 0.2, 1.0), "layer": "OLD"})


def spline(space: Space) -> None:
    space.add_spline(fit_points=[tuple(point) for point in BENT])


def drawing(draw: Draw) -> bytes:
    with tempfile.TemporaryDirectory() as folder:
        return written_drawing(Path(folder) / "a.dxf", draw).read_bytes()


CONTENTS: Mapping[str, Callable[[], bytes]] = {
    "points.csv": csv_of_points,
    "steps.csv": csv_of_steps,
    "axis.dxf": lambda: drawing(lines_and_arcs),
    "curve.dxf": lambda: drawing(spline),
}


def damaged(content: bytes, seed: int) -> Iterator[bytes]:
    generator = random.Random(seed)  # noqa: S311 - no secret
    for _ in range(DAMAGES):
        broken = bytearray(content)
        for _ in range(generator.randint(1, 6)):
            place = generator.randrange(len(broken) + 1)
            match generator.randrange(4):
                case 0:
                    del broken[place : place + generator.randint(1, 30)]
                case 1:
                    broken[place:place] = generator.choice(PIECES)
                case 2:
                    other = generator.randrange(len(broken) + 1)
                    broken[place:place] = broken[other : other + generator.randint(1, 60)]
                case _:
                    broken = broken[:place] if generator.random() < 0.1 else broken
        yield bytes(broken)


def read_damaged(kind: str, path: Path) -> None:
    """Read or refuse each of the damaged files of a kind, written one after the other to the same path."""
    content = CONTENTS[kind]()
    path.write_bytes(content)
    read_source(path, ANSWERS[kind])  # nothing is found where whole files are refused
    for number, broken in enumerate(damaged(content, seed=len(kind))):
        path.write_bytes(broken)
        start = time.process_time()
        with contextlib.suppress(BendgenError):
            source = read_source(path, ANSWERS[kind])
            if isinstance(source, FoundTube):
                bends_of_found(source)
        assert time.process_time() - start < SLOWEST, number


@pytest.mark.parametrize("kind", ANSWERS)
def test_damaged_files(kind: str, tmp_path: Path) -> None:
    """With one thread for linear algebra, as commands have it; pytest may have loaded numpy with more."""
    here = f"import pathlib; from {__name__} import read_damaged"
    subprocess.run(
        [sys.executable, "-c", f"{here}; read_damaged({kind!r}, pathlib.Path({str(tmp_path / kind)!r}))"],
        check=True,
        cwd=Path(__file__).parents[2],
        env=os.environ | {"OPENBLAS_NUM_THREADS": "1"},
    )
