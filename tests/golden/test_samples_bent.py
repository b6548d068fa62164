"""Samples in, kept outputs out. Regression, never proof: this code made the kept outputs.

All is compared character by character but for two things. Numbers of the JSON and of the neutral CSV are unrounded,
and their last digit may differ between processors and builds of numpy: they agree within 1e-9. And the id of a program
is a digest of those digits: the one made stands for the one kept, if it is the same in all files.
"""

import json
import math
import re
from pathlib import Path

import pytest

from tests.golden.samples_bent import EXPECTED, MACHINES, SAMPLES, files_expected, texts_of_sample

RENEW = "if the change is meant: python -m tests.golden.regenerate, and read the difference"
UNROUNDED = (".json", ".steps.csv")
NUMBER = re.compile(r"(?<![\w.])-?\d+(?:\.\d+(?:e[+-]?\d+)?|e[+-]?\d+)(?![\w.])")
WITHIN = 1e-9  # of the number, or of 1


@pytest.mark.parametrize("sample", MACHINES)
def test_sample_gives_what_it_gave(sample: str, tmp_path: Path) -> None:
    made, kept = texts_of_sample(sample, tmp_path), files_expected(sample)
    assert made.keys() == kept.keys(), RENEW
    made_id, kept_id = id_of(made), id_of(kept)
    for name, text in made.items():
        with_kept_id = text.replace(made_id, kept_id)
        if name.endswith(UNROUNDED):
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


def are_alike(made: str, kept: str) -> bool:
    """Whether two texts agree: decimal numbers within their last digits, all around them exactly."""
    if NUMBER.split(made) != NUMBER.split(kept):
        return False
    numbers = zip(NUMBER.findall(made), NUMBER.findall(kept), strict=True)
    return all(math.isclose(float(ours), float(theirs), rel_tol=WITHIN, abs_tol=WITHIN) for ours, theirs in numbers)


def id_of(texts: dict[str, str]) -> str:
    """Id of the program; of a refused part, which has none, a text that stands nowhere."""
    steps = next((text for name, text in texts.items() if name.endswith(".steps.json")), None)
    return "(no id)" if steps is None else str(json.loads(steps)["id"])
