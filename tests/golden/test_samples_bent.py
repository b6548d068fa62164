"""Samples in, kept outputs out. Regression, never proof: this code made the kept outputs.

All is compared character by character but for three things. Numbers of the JSON and of the neutral CSV are unrounded,
and their last digit may differ between processors and builds of numpy: they agree within 1e-9. So do places on drawings
of the page, which are rounded to a tenth of a millimetre: they agree within one. And the id of a program is a digest of
those digits: the one made stands for the one kept, if it is the same in all files.
"""

import json
import math
import re
from pathlib import Path

import pytest

from tests.golden.page_digest import PIECE
from tests.golden.samples_bent import EXPECTED, MACHINES, PAGE_DIGEST, SAMPLES, files_expected, texts_of_sample

RENEW = "if the change is meant: python -m tests.golden.regenerate, and read the difference"
UNROUNDED = (".json", ".steps.csv")
NUMBER = re.compile(r"(?<![\w.])-?\d+(?:\.\d+(?:e[+-]?\d+)?|e[+-]?\d+)(?![\w.])")
WITHIN = 1e-9  # of the number, or of 1
PAGE = f".html{PAGE_DIGEST}"
ON_PAPER = 0.1001  # mm


@pytest.mark.parametrize("sample", MACHINES)
def test_sample_gives_what_it_gave(sample: str, tmp_path: Path) -> None:
    made, kept = texts_of_sample(sample, tmp_path), files_expected(sample)
    assert made.keys() == kept.keys(), RENEW
    made_id, kept_id = id_of(made), id_of(kept)
    for name, text in made.items():
        with_kept_id = text.replace(made_id, kept_id)
        if name.endswith(PAGE):
            assert pages_are_alike(with_kept_id, kept[name]), f"{name}: {RENEW}"
        elif name.endswith(UNROUNDED):
            assert are_alike(with_kept_id, kept[name]), f"{name}: {RENEW}"
        else:
            assert with_kept_id == kept[name], f"{name}: {RENEW}"


def test_every_sample_part_is_kept() -> None:
    assert {path.stem for path in SAMPLES.glob("*.toml")} == set(MACHINES)
    assert {path.name for path in EXPECTED.iterdir()} == set(MACHINES)


@pytest.mark.parametrize(
    ("made", "kept", "alike"),
    [
        ('{"feed": 1.0}', '{"feed": 1.000000000001}', True),
        ('{"feed": 1.0}', '{"feed": 1.00000001}', False),
        ('{"feed": 0.0}', '{"feed": -3e-17}', True),
        ('{"feed": 1.0}', '{"feet": 1.0}', False),
        ('{"feed": 1.0}', '{ "feed": 1.0}', False),
        ("[1.0, 2.0]", "[1.0]", False),
        ("1,226.7", "2,226.7", False),
        ("d50_1.5_2026", "d50_1.50_2026", False),
        ('"a208782.5e9"', '"a208782.50e9"', False),
    ],
)
def test_alike(made: str, kept: str, *, alike: bool) -> None:
    assert are_alike(made, kept) is alike


@pytest.mark.parametrize(
    ("made", "kept", "alike"),
    [
        ("feed 226.7", "feed 226.7", True),
        ("feed 226.7", "feed 226.8", False),
        ("    path 226.7", "    path 226.8", True),
        ("    path 226.7", "    path 226.9", False),
        ("    text 1.0: feed 2", "    text 1.1: feed 2", True),
        ("    text 1.0: feed 2.0", "    text 1.0: feed 2.1", False),
        ("one\ntwo", "one", False),
    ],
)
def test_pages_alike(made: str, kept: str, *, alike: bool) -> None:
    assert pages_are_alike(made, kept) is alike


def pages_are_alike(made: str, kept: str) -> bool:
    """Whether two digests agree: words exactly, places on drawings within a tenth of a millimetre."""
    ours, theirs = made.splitlines(), kept.splitlines()
    return len(ours) == len(theirs) and all(map(_lines_are_alike, ours, theirs))


def _lines_are_alike(made: str, kept: str) -> bool:
    if not made.startswith(PIECE):
        return made == kept
    (place, *words), (kept_place, *kept_words) = made.split(": ", 1), kept.split(": ", 1)
    return words == kept_words and are_alike(place, kept_place, within=ON_PAPER)


def are_alike(made: str, kept: str, within: float = WITHIN) -> bool:
    """Whether two texts agree: decimal numbers within their last digits, all around them exactly."""
    if NUMBER.split(made) != NUMBER.split(kept):
        return False
    numbers = zip(NUMBER.findall(made), NUMBER.findall(kept), strict=True)
    return all(math.isclose(float(ours), float(theirs), rel_tol=WITHIN, abs_tol=within) for ours, theirs in numbers)


def id_of(texts: dict[str, str]) -> str:
    """Id of the program; of a refused part, which has none, a text that stands nowhere."""
    steps = next((text for name, text in texts.items() if name.endswith(".steps.json")), None)
    return "(no id)" if steps is None else str(json.loads(steps)["id"])
