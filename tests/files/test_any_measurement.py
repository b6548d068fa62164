"""Whatever is measured or given as a step list, comparing ends in a comparison or in an error of the tool's own."""

import contextlib
import copy
import json
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bendgen.bending.comparison import compare_piece, mean_piece
from bendgen.bending.correction import correction_of
from bendgen.bending.series import series_of
from bendgen.errors import BendgenError
from bendgen.files.comparison_json import format_comparison_json
from bendgen.files.foretold_json import parse_foretold
from bendgen.files.measured_csv import parse_measured
from bendgen.records.comparison import Comparison
from bendgen.records.foretold import Foretold
from bendgen.reports.comparison_report import comparison_text

EXPECTED = Path(__file__).parents[2] / "samples" / "expected"
STEPS = {path.parent.name: path.read_text(encoding="utf-8") for path in sorted(EXPECTED.glob("*/*.steps.json"))}
CELLS = st.sampled_from(["", "0", "-1", "1e300", "nan", "4 1/2", "90", "99999999999", "abc", "1,5", "-0.0"]) | st.text(
    max_size=6
)


def foretold_of(sample: str) -> Foretold:
    return parse_foretold(STEPS[sample], "x.steps.json")


def compared(text: str, foretold: Foretold) -> None:
    """Read, compare, correct and report as the command does."""
    with contextlib.suppress(BendgenError):
        pieces = parse_measured(text, "m.csv", foretold)
        comparisons = [compare_piece(foretold, piece) for piece in pieces]
        correction_of(foretold, compare_piece(foretold, mean_piece(pieces)))
        reported(foretold, comparisons)


def reported(foretold: Foretold, comparisons: list[Comparison]) -> None:
    series = series_of(comparisons)
    assert comparison_text(foretold, comparisons, series)
    json.loads(format_comparison_json(foretold, comparisons, series))


@pytest.mark.parametrize("sample", list(STEPS))
@given(data=st.data())
@settings(max_examples=5, deadline=None, derandomize=True)
def test_any_readings(sample: str, data: st.DataObject) -> None:
    foretold = foretold_of(sample)
    names = st.sampled_from([*(check.id for check in foretold.checks), "diameter-largest-1", "diameter-smallest-1"])
    values = st.floats(-400.0, 4000.0).map(repr) | CELLS
    rows = st.tuples(st.sampled_from(["1", "2"]), names, values, st.sampled_from(["mm", "deg", "in"]))
    lines = [",".join(row) for row in data.draw(st.lists(rows, max_size=12))]
    compared("\n".join(["piece,check,value,unit", *lines]) + "\n", foretold)


@pytest.mark.parametrize("sample", ["bearing_jog", "six_bend_duct"])
@pytest.mark.parametrize("size", [1e-3, 1e5])
def test_points_anywhere(sample: str, size: float) -> None:
    """A cloud that is no tube at all."""
    foretold = foretold_of(sample)
    rng = np.random.default_rng(3)
    for head, count in (("vertex,x_mm,y_mm,z_mm", len(foretold.steps) + 2), ("x_mm,y_mm,z_mm", 60)):
        numbered = [f"{i}," if head.startswith("vertex") else "" for i in range(1, count + 1)]
        points = [",".join(f"{value:.12f}" for value in point) for point in rng.normal(0.0, size, (count, 3))]
        compared("\n".join([head, *(n + p for n, p in zip(numbered, points, strict=True))]) + "\n", foretold)


@pytest.mark.parametrize("sample", list(STEPS))
def test_points_that_are_all_one(sample: str) -> None:
    foretold = foretold_of(sample)
    compared("vertex,x_mm,y_mm,z_mm\n" + "".join(f"{i},1,2,3\n" for i in range(1, len(foretold.steps) + 3)), foretold)
    compared("x_mm,y_mm,z_mm\n" + "1,2,3\n" * 60, foretold)


def places(value: Any, path: tuple[str | int, ...] = ()) -> list[tuple[str | int, ...]]:  # noqa: ANN401 - any JSON
    items: list[tuple[str | int, Any]] = []
    if isinstance(value, dict):
        items = list(value.items())
    elif isinstance(value, list):
        items = list(enumerate(value[:2]))
    return [path] * bool(path) + [place for key, item in items for place in places(item, (*path, key))]


@given(data=st.data())
@settings(max_examples=60, deadline=None, derandomize=True)
def test_a_step_list_with_anything_in_one_place(data: st.DataObject) -> None:
    content = json.loads(STEPS["dryer_inlet"])
    path = data.draw(st.sampled_from(places(content)))
    broken = copy.deepcopy(content)
    item = broken
    for key in path[:-1]:
        item = item[key]
    item[path[-1]] = data.draw(
        st.sampled_from([None, "", "x", 0, -1, 1e308, True, [], {}, [1], "passed"]) | st.floats(-1e3, 1e3)
    )
    with contextlib.suppress(BendgenError):
        foretold = parse_foretold(json.dumps(broken), "x.steps.json")
        compared("check,value,unit\nangle-1,88,deg\nangle-2,91,deg\nstraight-2,130,mm\n", foretold)
