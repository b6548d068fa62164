"""A tube drawn as its axis in a DXF file."""

import importlib
import logging
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import numpy as np

from bendgen.errors import BendgenError, mistaken
from bendgen.files.axis_points import axis_of_points, may_follow_axis
from bendgen.files.drawings.chain_axis import axis_of_chain
from bendgen.files.drawings.dxf_entities import blocks_taken_apart, of_one_layer, passed_over, seen_entities
from bendgen.files.drawings.dxf_pieces import pieces_of_entity
from bendgen.files.drawings.piece_chain import chained
from bendgen.files.drawings.pieces import Piece
from bendgen.files.field_types import LARGEST_NUMBER, largest_in
from bendgen.files.needless_answers import refuse_needless
from bendgen.files.path_checks import MOST_VERTICES
from bendgen.files.text_files import LARGE_FILE, read_content
from bendgen.geometry.vectors import Array
from bendgen.records.found_tube import Answers, FoundAxis, FoundTube
from bendgen.units import MM_PER_DRAWN_UNIT, DrawnUnits, shop_units

UNITS_OF_CODE: dict[int, DrawnUnits] = {1: "in", 2: "ft", 4: "mm", 5: "cm", 6: "m"}  # $INSUNITS of the DXF reference
SILENT = logging.NullHandler()  # what the library thinks of a damaged file is no line for the operator
MOST_PIECES = 20_000


def read_drawing(path: Path, answers: Answers) -> FoundTube:
    """Tube whose axis is drawn in a file of at most 20 MB; needs the extra `dxf`.

    Raises
    ------
    InputError
        the extra is missing, the file is no DXF, it leaves a question open, or it draws no single path
    """
    file = str(path)
    read_content(path, file, expected="a DXF drawing", most_bytes=LARGE_FILE)  # no such file, a folder, too large
    refuse_needless(answers, "drawing", file)
    with _plain_words(file):
        drawing = _drawing(path, file)
        units, units_from = _units(drawing, file, answers)
        seen = seen_entities(drawing, file)
        chosen = of_one_layer(seen, file, answers.layer)
        pieces = [piece for one in chosen for piece in pieces_of_entity(one.entity, MM_PER_DRAWN_UNIT[units])]
        ignored = passed_over(seen, chosen, drawing)
    _refuse_unfit(pieces, file, ignored, units)
    different = _different(pieces)
    axis = _axis(chained(different, file, units), file, units, answers)
    twice = len(pieces) - len(different)
    return FoundTube(
        kind="an axis drawn in a DXF file",
        units=shop_units(units),
        wish=axis.wish,
        clr_within=axis.clr_within,
        front="the end nearer the drawing's origin",
        understood=(
            ("unit", f"{units}, {units_from}"),
            ("layer", chosen[0].layer),
            *blocks_taken_apart(chosen),
            *axis.understood,
        ),
        ignored=(*ignored, *((f"lines and curves drawn twice: {twice}",) if twice else ())),
    )


def _refuse_unfit(pieces: list[Piece], file: str, ignored: Sequence[str], units: DrawnUnits) -> None:
    """Raise InputError where nothing, or too much, is drawn, or not within reach; ignored: what was passed over."""
    if not 1 <= len(pieces) <= MOST_PIECES:
        passed = f"; passed over: {'; '.join(ignored)}" if ignored else ""
        raise mistaken(file, f"1 to {MOST_PIECES:,} lines and curves", f"{len(pieces):,}{passed}")
    if not all(np.isfinite(piece.points).all() for piece in pieces):
        raise mistaken(file, "finite coordinates", "one that is not")
    if max(np.abs(piece.points).max() for piece in pieces) > LARGEST_NUMBER:
        raise mistaken(file, f"coordinates of at most {largest_in(units)}", "a larger one")


@contextmanager
def _plain_words(file: str) -> Iterator[None]:
    """Whatever the library raises for a damaged file becomes one line."""
    try:
        yield
    except BendgenError:
        raise
    except Exception as error:
        first_line = f"{error}\n".splitlines()[0] or type(error).__name__
        reason = "".join(letter if letter.isprintable() else "·" for letter in first_line[:100])
        raise mistaken(file, "a DXF file", f"'{reason}'") from None


def _drawing(path: Path, file: str) -> Any:  # noqa: ANN401 - of a library without types
    try:
        library = importlib.import_module("ezdxf")
    except ImportError:
        raise mistaken(file, "the extra for drawings, pip install 'bendgen[dxf]'", "a DXF file without it") from None
    logging.getLogger("ezdxf").addHandler(SILENT)
    return library.readfile(path)


def _units(drawing: Any, file: str, answers: Answers) -> tuple[DrawnUnits, str]:  # noqa: ANN401 - as above
    code = int(drawing.header.get("$INSUNITS", 0))
    by_file = UNITS_OF_CODE.get(code)
    if by_file is not None:
        return _agreed_units(by_file, file, answers)
    if answers.overrule_units:
        raise mistaken(file, "no --overrule-units, as there is nothing to overrule", "a drawing that names no unit")
    named = f"code {code} in $INSUNITS, which is none of these" if code else ""
    if answers.units is None:
        raise mistaken(file, "a unit in the drawing, or mm, cm, m, in or ft by --units", named)
    return answers.units, "as --units says" + (f"; the drawing has {named}" if named else "")


def _agreed_units(by_file: DrawnUnits, file: str, answers: Answers) -> tuple[DrawnUnits, str]:
    """Unit that the drawing names, or the one that somebody who knows better says, and where it is from."""
    named = f"{by_file}, which the drawing names"
    if answers.units in (None, by_file):
        if answers.overrule_units:
            raise mistaken(file, f"another unit than {named}, by --units", "--overrule-units without one")
        return by_file, "from the drawing"
    if not answers.overrule_units:
        expected = f"--units {named}; or, where the drawing is known to be wrong, --overrule-units, too"
        raise mistaken(file, expected, f"--units {answers.units}")
    assert answers.units is not None  # it is none of the first two
    return answers.units, f"as --units says; it overrules {named}"


def _different(pieces: list[Piece]) -> list[Piece]:
    """Pieces without those that are drawn a second time, in either direction."""
    different: dict[tuple[float, ...], Piece] = {}
    for piece in pieces:
        ends = sorted(np.round(piece.points[[0, -1]], 3).tolist())
        middle = np.round(piece.points.mean(axis=0), 3)
        different.setdefault((*ends[0], *ends[1], *middle.tolist()), piece)
    return list(different.values())


def _axis(chain: list[Piece], file: str, units: DrawnUnits, answers: Answers) -> FoundAxis:
    """Axis of a chain: exact where it is of lines and arcs, fitted where there are other curves or many small lines."""
    curves = len(chain) > MOST_VERTICES or any(piece.arc is None and not piece.is_line for piece in chain)
    points = _points(chain)
    if not curves and answers.points is None and all(piece.is_line for piece in chain) and may_follow_axis(points):
        expected = "vertices or axis by --points: they turn so slowly that they could be either"
        raise mistaken(file, expected, f"{len(chain)} lines")
    if curves and answers.points == "vertices":
        found = f"a curve, or more than {MOST_VERTICES:,} lines"
        raise mistaken(file, "no --points vertices, which is for lines and arcs", found)
    if curves or answers.points == "axis":
        numbered = {number: point.tolist() for number, point in enumerate(points, start=1)}
        return axis_of_points(numbered, file, answers, counted="point")
    refuse_needless(answers, "lines and arcs", file)
    arcs = sum(piece.arc is not None for piece in chain)
    words = (("drawn", f"lines: {len(chain) - arcs}, arcs: {arcs}; put one behind the other"),)
    wish = axis_of_chain(chain, file, units=units, leave_clr=answers.leave_clr)
    return FoundAxis(wish=wish, understood=words)


def _points(chain: list[Piece]) -> Array:
    return np.vstack([chain[0].points[:1], *(piece.points[1:] for piece in chain)])
