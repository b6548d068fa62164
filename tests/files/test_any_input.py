"""Whatever is given, reading ends in a record or an InputError, never in another exception."""

import contextlib
import copy
import tomllib

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bendgen.errors import InputError, Mistake
from bendgen.files.die_models import DieFile
from bendgen.files.field_types import context_from_data
from bendgen.files.machine_models import MachineFile
from bendgen.files.part_file import parse_part
from bendgen.files.table_models import MaterialFile, TableFile
from bendgen.files.toml_input import parse_toml
from bendgen.files.validation import Table, mistakes_from_flaws, validate
from bendgen.records.part import Part

GOOD_PART: dict[str, object] = {
    "units": "mm",
    "part": {"name": "Duct", "number": "GD-1", "revision": "A", "quantity": 1},
    "tube": {"od": 50.0, "wall": 1.5, "material": "304L", "perforated": False},
    "centreline": {"vertices": [[0, 0, 0], [300, 0, 0, 100], [300, 220, 0]]},
    "tolerance": {"length": 1.0},
}
KEYS = [
    "units", "part", "tube", "centreline", "steps", "offset", "tolerance", "limits", "vertices", "bend", "rear", "from",
    "od", "wall", "perforation", "straight", "rotation", "angle", "clr", "name", "quantity", "trim", "blank", "row",
    "rise", "length", "shortest_end", "between", "prefer", "front", "out", "clock",
]  # fmt: skip

scalars = (
    st.booleans()
    | st.integers()
    | st.integers(min_value=10**400)
    | st.floats()
    | st.text(max_size=20)
    | st.sampled_from(["mm", "in", "4 1/2", "1'-2 3/8\"", "m", "both"])
    | st.dates()
    | st.datetimes()
    | st.times()
    | st.none()
)
values = st.recursive(
    scalars,
    lambda inner: (
        st.lists(inner, max_size=4) | st.dictionaries(st.sampled_from(KEYS) | st.text(max_size=8), inner, max_size=4)
    ),
    max_leaves=20,
)


def parsed(data: dict[str, object]) -> None:
    mistakes: tuple[Mistake, ...] = ()
    try:
        assert isinstance(parse_part(data, "any.toml"), Part)
    except InputError as error:
        mistakes = error.mistakes
    assert all(str(mistake).isprintable() for mistake in mistakes)


@given(st.dictionaries(st.sampled_from(KEYS) | st.text(max_size=8), values, max_size=6))
@settings(max_examples=200, deadline=None)
def test_any_mapping(data: dict[str, object]) -> None:
    parsed(data)


@given(st.data())
@settings(max_examples=200, deadline=None)
def test_a_good_part_with_anything_in_one_place(data: st.DataObject) -> None:
    part = copy.deepcopy(GOOD_PART)
    table = data.draw(st.sampled_from([part, *(value for value in part.values() if isinstance(value, dict))]))
    key = data.draw(st.sampled_from(list(table) + KEYS))
    table[key] = data.draw(values)
    parsed(part)


@pytest.mark.parametrize(("model", "file"), [(MachineFile, 0), (DieFile, 1), (TableFile, 2), (MaterialFile, 3)])
@given(data=st.data())
@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_a_good_profile_file_with_anything_in_one_place(
    profile_texts: dict[str, str], model: type[Table], file: int, data: st.DataObject
) -> None:
    content = tomllib.loads(list(profile_texts.values())[file])
    table = data.draw(st.sampled_from([content, *(value for value in content.values() if isinstance(value, dict))]))
    key = data.draw(st.sampled_from([*table, *KEYS]))
    table[key] = data.draw(values)
    read, flaws = validate(model, content, context_from_data(content))
    assert (read is None) == bool(flaws)
    for mistake in mistakes_from_flaws(flaws, content, "any.toml"):
        assert str(mistake).isprintable()


@given(st.lists(st.lists(st.floats() | st.integers(-3, 3), min_size=2, max_size=5), max_size=8))
@settings(max_examples=200, deadline=None)
def test_any_path(vertices: list[list[float]]) -> None:
    parsed({**GOOD_PART, "centreline": {"vertices": vertices}})


@given(st.text() | st.text(alphabet="[]{}=\"'.,# \n\tabc012-:"))
@settings(max_examples=200, deadline=None)
def test_any_text(text: str) -> None:
    with contextlib.suppress(InputError):
        parsed(parse_toml(text.encode(errors="surrogatepass"), "any.toml"))


@given(st.binary())
@settings(max_examples=100, deadline=None)
def test_any_bytes(content: bytes) -> None:
    with contextlib.suppress(InputError):
        parsed(parse_toml(content, "any.toml"))
