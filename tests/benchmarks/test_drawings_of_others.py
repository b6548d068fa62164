"""DXF files of others, read from a folder and held against the drawing library's own points; on demand.

    DXF_FOLDER=… .venv/bin/pytest -m benchmark tests/benchmarks/test_drawings_of_others.py -n 0 -s

Such a folder is `integration_tests/data` of the library's source distribution (MIT licence; `pip download --no-deps
--no-binary ezdxf ezdxf`), which is not kept here. What was found in it stands as drawings of our own in
`tests/files/drawings/test_dxf_entities.py`.
"""

import os
from pathlib import Path

import pytest
from ezdxf.filemanagement import readfile

from bendgen.errors import InputError
from bendgen.files.drawings.dxf_entities import seen_entities
from bendgen.files.drawings.dxf_file import read_drawing
from bendgen.records.found_tube import Answers
from tests.library_curves import agree, segments_of_library, segments_of_pieces

pytestmark = pytest.mark.benchmark

FOLDER = "DXF_FOLDER"
NEAR = 2e-3  # share of a curve's own size


def drawings() -> list[Path]:
    folder = os.environ.get(FOLDER, "")
    return sorted(path for path in Path(folder).iterdir() if path.suffix.casefold() == ".dxf") if folder else []


@pytest.mark.skipif(FOLDER not in os.environ, reason=f"no folder in {FOLDER}")
def test_there_are_drawings() -> None:
    assert drawings()


@pytest.mark.parametrize("path", drawings(), ids=lambda path: path.name)
def test_a_drawing_is_read_as_the_library_has_it_or_refused_in_one_line(path: Path) -> None:
    try:
        read_drawing(path, Answers())
    except InputError as refused:
        lines = str(refused).splitlines()
    else:
        lines = ["read"]
    print(f"{path.name}: {lines[0][:200]}")  # noqa: T201 - what is refused is what one runs it for
    assert len(lines) == 1
    try:
        drawing = readfile(path)
    except Exception:
        pytest.skip("the library reads it no better")
    for one in seen_entities(drawing, path.name):
        if one.is_curve and len(ours := segments_of_pieces([one.entity])):
            size = float((ours.reshape(-1, 3).max(axis=0) - ours.reshape(-1, 3).min(axis=0)).max())
            agree(ours, segments_of_library(one.entity), within=NEAR * max(size, 1e-3))
