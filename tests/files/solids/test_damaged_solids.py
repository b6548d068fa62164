"""Files damaged at random: an answer or mistakes in one line each, never anything else."""

import re
from functools import partial

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bendgen.errors import InputError
from bendgen.records.solid_tube import OtherSolid, SolidTube
from tests.files.solids.reading import file_of
from tests.solid_writer import TubeMaker, Writer, fitted_surface, tube_text

SHORT = ((30.0, 0.0, 90.0, 40.0),)
TEXTS = (
    tube_text(SHORT, 20.0),
    tube_text(SHORT, 20.0, maker=TubeMaker(Writer(unit="in"), parts=2, rounded=0.5)),
    tube_text(SHORT, 20.0, maker=TubeMaker(Writer(), radii=(19.05,), surface=partial(fitted_surface, around=13))),
)
REFERENCE = re.compile(r"#\d+")
NUMBER = re.compile(r"-?\d+\.\d*")
ODD_NUMBERS = ("0.", "-1.", "1.E308", "1.E-300", "1.E9", "NAN", "3", "$", "*", "''", "()", "#1")


def checked(text: str) -> None:
    """Read whatever a file holds."""
    found: list[SolidTube | OtherSolid] = []
    message = ""
    try:
        file = file_of(text)
        found = [file.tube([number]) for number in range(1, len(file.solids) + 1)]
    except InputError as error:
        message = str(error)
    reasons = [tube.reason for tube in found if isinstance(tube, OtherSolid)]
    assert found or message
    assert not any("\n" in line or len(line) > 400 for line in (message, *reasons))


def edited(text: str, pattern: re.Pattern[str], choices: list[tuple[int, str]]) -> str:
    """Text with some of what a pattern finds replaced."""
    places = list(pattern.finditer(text))
    new = {places[index % len(places)].start(): by for index, by in choices}
    return pattern.sub(lambda found: new.get(found.start(), found[0]), text)


index = st.integers(0, 10**6)


@settings(max_examples=100, deadline=None)
@given(
    st.sampled_from(TEXTS), st.lists(st.tuples(index, st.integers(1, 400).map("#{}".format)), min_size=1, max_size=3)
)
def test_references_to_something_else(text: str, choices: list[tuple[int, str]]) -> None:
    """Most of them lead to instances of another type, some round in a circle."""
    checked(edited(text, REFERENCE, choices))


@settings(max_examples=100, deadline=None)
@given(st.sampled_from(TEXTS), st.lists(st.tuples(index, st.sampled_from(ODD_NUMBERS)), min_size=1, max_size=3))
def test_other_numbers(text: str, choices: list[tuple[int, str]]) -> None:
    checked(edited(text, NUMBER, choices))


@settings(max_examples=100, deadline=None)
@given(st.sampled_from(TEXTS), index, st.integers(0, 60), st.text("();,'#$*.0aA\\/ \n", max_size=6))
def test_pieces_cut_out_and_put_in(text: str, place: int, length: int, new: str) -> None:
    start = place % len(text)
    checked(text[:start] + new + text[start + length :])


def test_cut_off_anywhere() -> None:
    """At 200 places, the end of the file lost or only what was between."""
    text = TEXTS[0]
    for place in range(0, len(text), len(text) // 200):
        checked(text[:place])
        checked(text[:place] + "\nENDSEC;\nEND-ISO-10303-21;\n")


@pytest.mark.parametrize("text", TEXTS)
def test_the_files_themselves_are_sound(text: str) -> None:
    assert isinstance(file_of(text).tube([1]), SolidTube)
