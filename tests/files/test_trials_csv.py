"""Trial bends from a CSV: every column, both units, and every bad cell at once."""

from pathlib import Path

import pytest

from bendgen.errors import InputError
from bendgen.files.trials_csv import parse_trials, read_trials
from bendgen.records.machine import MachineProfile
from bendgen.records.trials import TrialBend, TubeKind

HEAD = "die,material,wall,perforated,lot,commanded_deg,measured_deg"
KIND = TubeKind(die="d50-r100", material="304L", wall=1.5, perforated=False)


def mistakes(text: str, profile: MachineProfile) -> list[str]:
    with pytest.raises(InputError) as caught:
        parse_trials(text, "a.csv", profile)
    return str(caught.value).splitlines()


def test_the_least_there_can_be(metric_profile: MachineProfile) -> None:
    assert parse_trials(f"{HEAD}\nd50-r100,304L,1.5,no,,92,90\n", "a.csv", metric_profile) == (
        TrialBend(line=2, kind=KIND, commanded_deg=92.0, measured_deg=90.0),
    )


def test_every_column_in_another_order(metric_profile: MachineProfile) -> None:
    head = (
        "remark,restruck,gauge_clr_mm,carriage_move_mm,legs,rear_leg_mm,front_leg_mm,blank_mm,Feed_mm,temper,"
        "measured_deg,commanded_deg,LOT,perforated,wall_mm,material,die"
    )
    line = "invented,yes,104,157.5,outer_apex,420.5,378,700,200,annealed,90,92,7731,TRUE,1.5,304L,d50-r100"
    (bend,) = parse_trials(f"{head}\n\n{line}\n", "a.csv", metric_profile)
    assert bend == TrialBend(
        line=3,
        kind=TubeKind(die="d50-r100", material="304L", wall=1.5, perforated=True, temper="annealed"),
        lot="7731",
        commanded_deg=92.0,
        measured_deg=90.0,
        feed=200.0,
        blank=700.0,
        front_leg=378.0,
        rear_leg=420.5,
        legs="outer_apex",
        carriage_move=157.5,
        gauge_clr=104.0,
        restruck=True,
    )


def test_a_lot_that_is_a_number_stays_as_written(metric_profile: MachineProfile) -> None:
    (bend,) = parse_trials(f"{HEAD}\nd50-r100,304L,1.5,0,007731,92,90\n", "a.csv", metric_profile)
    assert bend.lot == "007731"


def test_inches_and_fractions(metric_profile: MachineProfile) -> None:
    (bend,) = parse_trials(f"{HEAD},feed_in\nd50-r100,304L,0.065,no,,92,90,4 1/2\n", "a.csv", metric_profile)
    assert bend.kind.wall == pytest.approx(1.651)
    assert bend.feed == pytest.approx(114.3)


def test_a_wall_alone_is_in_the_unit_of_the_machine(inch_profile: MachineProfile) -> None:
    (bend,) = parse_trials(f"{HEAD}\nd50-r100,304L,0.065,no,,92,90\n", "a.csv", inch_profile)
    assert bend.kind.wall == pytest.approx(1.651)


def test_every_bad_cell_at_once(metric_profile: MachineProfile) -> None:
    text = (
        f"{HEAD},feed_mm,legs,restruck\n"
        "d50-r10,304L,1.5,no,,92,90,200,apex,\n"
        "d50-r100,,thin,perhaps,,0,360,-3,inner,often\n"
        "d50-r100,304L,1.5,no,,92,90\n"
        "d50-r100,304L,1.5,no,,92,,200,,\n"
    )
    assert mistakes(text, metric_profile) == [
        "a.csv: line 2, column die: expected a known die id (the nearest is 'd50-r100'), found 'd50-r10'",
        "a.csv: line 3, column wall: expected a number greater than 0, found 'thin'",
        "a.csv: line 3, column perforated: expected yes or no, found 'perhaps'",
        "a.csv: line 3, column commanded_deg: expected a number greater than 0 and at most 360, found 0",
        "a.csv: line 3, column measured_deg: expected a number greater than 0 and less than 360, found 360",
        "a.csv: line 3, column feed_mm: expected a number greater than 0, found -3.0",
        "a.csv: line 3, column legs: expected 'apex' or 'outer_apex', found 'inner'",
        "a.csv: line 3, column restruck: expected yes or no, found 'often'",
        "a.csv: line 3, column material: expected a text that is not empty, found nothing",
        "a.csv: line 4: expected 10 cells, as many as the head row has, found 7",
        "a.csv: line 5, column measured_deg: expected a number greater than 0 and less than 360, found nothing",
    ]


@pytest.mark.parametrize(
    ("head", "lines"),
    [
        ("", [f"a.csv: expected a head row with the columns {HEAD.replace(',', ', ')}, found nothing"]),
        (HEAD.replace(",", ";"), ["a.csv: expected a line for each trial bend, found only the head"]),
        (
            HEAD.replace("lot,", "").replace("wall,", ""),
            [
                "a.csv: line 1: expected a column wall, found 'die, material, perforated, commanded_deg, measured_deg'",
                "a.csv: line 1: expected a column lot, found 'die, material, perforated, commanded_deg, measured_deg'",
            ],
        ),
        (
            f"{HEAD},feed_mm,blank_in,feed_in,rear_leg",
            [
                "a.csv: line 1: expected one column feed, found 2 of them",
                "a.csv: line 1: expected rear_leg_mm or rear_leg_in, found 'rear_leg' without a unit",
                "a.csv: line 1: expected lengths in one unit, all columns in _mm or all in _in, "
                "found 'blank_in, feed_in', too",
            ],
        ),
    ],
)
def test_bad_heads(head: str, lines: list[str], metric_profile: MachineProfile) -> None:
    assert mistakes(f"{head}\n", metric_profile) == lines


def test_a_head_alone(metric_profile: MachineProfile) -> None:
    assert mistakes(f"{HEAD}\n", metric_profile) == ["a.csv: expected a line for each trial bend, found only the head"]


def test_no_such_file(metric_profile: MachineProfile, tmp_path: Path) -> None:
    with pytest.raises(InputError, match="expected trial bends, CSV, found nothing"):
        read_trials(tmp_path / "none.csv", metric_profile)
