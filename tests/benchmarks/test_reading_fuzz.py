"""Files that are damaged in thousands of ways are read or refused, each quickly; on demand, as the others here.

    .venv/bin/pytest -m benchmark tests/benchmarks/test_reading_fuzz.py -n 0

What this finds becomes a test of its own beside the reader.
"""

import contextlib
import random
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from ezdxf.filemanagement import new

from bendgen.bending.found_bends import bends_of_found
from bendgen.errors import BendgenError
from bendgen.files.tube_source import read_source
from bendgen.records.found_tube import Answers, FoundTube
from tests.sampled_axis import sampled_axis

pytestmark = pytest.mark.benchmark

DAMAGES = 1500
SLOWEST = 2.0  # s of the processor
ANSWERS = Answers(
    units="mm",
    points="axis",
    feed="summed",
    rotation="absolute",
    rotation_positive="clockwise_from_carriage",
    angles="finished",
)
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


def drawing(path: Path) -> bytes:
    document = new()
    document.header["$INSUNITS"] = 4
    space = document.modelspace()
    space.add_lwpolyline([(0, 0, 0, 0, 0), (100, 0, 0, 0, 0.4142135), (150, 50, 0, 0, 0), (150, 200, 0, 0, 0)])
    space.add_spline(fit_points=[(150, 200, 0), (160, 240, 20), (200, 300, 30)])
    space.add_arc((210, 310, 30), 14.142, 225, 300, dxfattribs={"extrusion": (0.1, 0.2, 1.0)})
    document.saveas(path)
    return path.read_bytes()


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


@pytest.mark.parametrize("kind", ["points.csv", "steps.csv", "axis.dxf"])
def test_damaged_files(kind: str, tmp_path: Path) -> None:
    path = tmp_path / kind
    content = {"points.csv": csv_of_points, "steps.csv": csv_of_steps}.get(kind, lambda: drawing(path))()
    for number, broken in enumerate(damaged(content, seed=len(kind))):
        path.write_bytes(broken)
        start = time.process_time()
        with contextlib.suppress(BendgenError):
            source = read_source(path, ANSWERS)
            if isinstance(source, FoundTube):
                bends_of_found(source)
        assert time.process_time() - start < SLOWEST, number
