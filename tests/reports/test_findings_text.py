"""Findings as the terminal shows them."""

import json
import tomllib
from dataclasses import replace

import pytest

from bendgen.records.findings import Change, Cure, Finding, Value
from bendgen.reports.findings_text import change_text, findings_text

CAUTION = Finding(
    rule="perforated", level="caution", step=None, value=None, limit=None, unit="", text="keep holes clear of the clamp"
)
LIMIT = Finding(
    rule="clamp",
    level="limit",
    step=2,
    value=90.0,
    limit=110.0,
    unit="mm",
    text="90 mm of straight ahead; the clamp of 'd50-r100' needs 110 mm",
    cures=(
        Cure(text="use another die", change=Change(key="part.die", value="d50-r75")),
        Cure(text="a longer straight", change=Change(key="steps.bend[1].straight", value=110.0)),
    ),
)


def test_limits_come_first_each_with_its_cures() -> None:
    assert findings_text((CAUTION, LIMIT)) == (
        "LIMIT clamp, bend 2: 90 mm of straight ahead; the clamp of 'd50-r100' needs 110 mm\n"
        '  cure: use another die (part.die = "d50-r75")\n'
        "  cure: a longer straight (steps.bend[1].straight = 110)\n"
        "\n"
        "CAUTION perforated: keep holes clear of the clamp"
    )


def test_what_is_found_alike_at_several_bends_is_said_once() -> None:
    thin = replace(CAUTION, step=1, value=1.5, text="wall 1.5 mm; the mandrel takes 2 mm")
    alike = [thin, LIMIT, *(replace(thin, step=step) for step in (2, 3, 5))]
    assert findings_text([*alike, replace(thin, step=4, cures=LIMIT.cures)]).split("\n\n")[1:] == [
        "CAUTION perforated, bends 1 to 3, 5: wall 1.5 mm; the mandrel takes 2 mm",
        "CAUTION perforated, bend 4: wall 1.5 mm; the mandrel takes 2 mm\n"
        '  cure: use another die (part.die = "d50-r75")\n'
        "  cure: a longer straight (steps.bend[1].straight = 110)",
    ]


def test_an_option_of_the_command_is_told_as_it_is_typed() -> None:
    assert change_text(Change(key="--from-rear", value=True)) == "--from-rear"
    assert change_text(Change(key="--from-rear", value=False)) == "without --from-rear"


def test_nothing_found_is_no_text() -> None:
    assert findings_text(()) == ""


def test_long_findings_keep_within_the_width() -> None:
    lines = findings_text((LIMIT,), width=40).splitlines()
    assert max(map(len, lines)) <= 40
    assert lines[1].startswith("  ")


@pytest.mark.parametrize(
    "value",
    [
        110.0,
        -0.0,
        0.1,
        1.0e6,
        2.0 / 3.0,
        True,
        False,
        "d50-r75",
        'a "quoted" \\ name',
        "קוטר",
        ((0.0, 0.0, 0.0), (300.5, -1.25, 0.0)),
        (900.0, -1.25, 0.0),
        (),
    ],
)
def test_a_change_can_be_typed_into_the_file(value: Value) -> None:
    read = tomllib.loads(change_text(Change(key="key", value=value)))["key"]
    if isinstance(value, tuple):
        assert read == json.loads(json.dumps(value))  # lists for tuples
    elif isinstance(value, float):
        assert read == pytest.approx(value, rel=1e-11)
    else:
        assert read == value
    assert isinstance(read, bool) == isinstance(value, bool)
