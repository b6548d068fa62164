"""DXF drawings made with a general library, and what the reader makes of them."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from ezdxf.filemanagement import new

from bendgen.errors import InputError
from bendgen.files.drawings.dxf_file import read_drawing
from bendgen.records.found_tube import Answers, FoundTube

MM, INCHES, NO_UNIT = 4, 1, 0
Space = Any  # of a library without types that could be named here
Draw = Callable[[Space], object]


def drawing(path: Path, draw: Draw, units: int = MM) -> Path:
    """Drawing file whose model space `draw` fills; units: as the header names them, by their code."""
    document = new()
    document.header["$INSUNITS"] = units
    draw(document.modelspace())
    document.saveas(path)
    return path


def drawn(tmp_path: Path, draw: Draw, answers: Answers | None = None, units: int = MM) -> FoundTube:
    """What is read from such a drawing."""
    return read_drawing(drawing(tmp_path / "a.dxf", draw, units), answers or Answers())


def refusal(tmp_path: Path, draw: Draw, answers: Answers | None = None, units: int = MM) -> str:
    """What is said of a drawing that is not read."""
    with pytest.raises(InputError) as caught:
        drawn(tmp_path, draw, answers, units)
    return str(caught.value).removeprefix(f"{tmp_path / 'a.dxf'}: ")
