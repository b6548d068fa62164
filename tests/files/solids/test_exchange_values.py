"""Values of instances, as ISO 10303-21 writes them [ISO2016]."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bendgen.files.solids.exchange_values import Choice, Reference, decoded_text, parse_instance


def test_a_simple_instance() -> None:
    instance = parse_instance("CARTESIAN_POINT('',(0.,-1.5E-3, 12))")
    assert instance == {"CARTESIAN_POINT": ["", [0.0, -0.0015, 12]]}


def test_references_choices_and_what_is_left_out() -> None:
    (values,) = parse_instance("EDGE_CURVE('a',#12,*,$,.T.)").values()
    assert values == ["a", 12, None, None, "T"]
    assert isinstance(values[1], Reference)
    assert isinstance(values[4], Choice)


PLAIN_VALUES = st.one_of(
    st.sampled_from(
        ["''", "$", "*", ".T.", ".unspecified.", "+1", "-0.", "1.E5", "2.5e-3", "007", "123456789012345678901"]
    ),
    st.integers(0, 10**18 - 1).map(lambda number: f"#{number}"),
    st.floats(allow_nan=False, allow_infinity=False).map(lambda number: f"{number:.17G}"),
)


@given(values=st.lists(PLAIN_VALUES, min_size=1, max_size=8))
def test_values_between_bare_commas_are_those_between_spaced_ones(values: list[str]) -> None:
    bare, spaced = (parse_instance(f"Some_Type({comma.join(values)})") for comma in (",", ", "))
    assert bare == spaced
    for kind in (Reference, Choice):
        assert [isinstance(value, kind) for value in bare["SOME_TYPE"]] == [
            isinstance(value, kind) for value in spaced["SOME_TYPE"]
        ]


def test_a_complex_instance_has_arguments_by_type() -> None:
    instance = parse_instance("( LENGTH_UNIT() NAMED_UNIT(*)\n SI_UNIT(.MILLI.,.METRE.) )")
    assert instance == {"LENGTH_UNIT": [], "NAMED_UNIT": [None], "SI_UNIT": ["MILLI", "METRE"]}


def test_a_typed_argument_is_its_value() -> None:
    assert parse_instance("X(LENGTH_MEASURE(25.4),#3)") == {"X": [25.4, 3]}


def test_lists_within_lists() -> None:
    assert parse_instance("B_SPLINE_SURFACE(1,1,((#1,#2),(#3,#4)))") == {"B_SPLINE_SURFACE": [1, 1, [[1, 2], [3, 4]]]}


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("X(1,2", "brackets that do not close"),
        ("X(1))", "a bracket that closes nothing"),
        ("12", "a value without a type"),
        ("", "no type"),
        ("X(1e999)", "1e999, a number too large"),
        ("X(&)", "'&)'"),
        ("X(" + "(" * 60 + ")" * 61, "lists nested too deep"),
    ],
)
def test_what_is_no_instance(text: str, fault: str) -> None:
    with pytest.raises(ValueError) as caught:  # noqa: PT011 - the text is the point
        parse_instance(text)
    assert str(caught.value) == fault


@pytest.mark.parametrize(
    ("raw", "text"),
    [
        ("S\\X2\\00F3\\X0\\lido1", "Sólido1"),
        ("\\X4\\0001F600\\X0\\", "\U0001f600"),
        ("\\X\\E9t\\S\\i", "été"[:1] + "t" + "é"),
        ("it''s", "it's"),
        ("C:\\\\a", "C:\\a"),
        ("Tr\u00c3\u00b6ge", "Tröge"),  # UTF-8 read byte by byte
        ("Tr\u00f6ge", "Tröge"),  # Latin-1
        ("\\X2\\D800\\X0\\", "\ufffd"),  # half of a pair is no character
    ],
)
def test_texts_are_decoded(raw: str, text: str) -> None:
    assert decoded_text(raw) == text
