"""The check sheet holds what the record holds, as a person with a tape and gloves reads it."""

import re
from dataclasses import replace
from typing import Literal

import pytest

from bendgen.records.bend_program import BendProgram, CutMark
from bendgen.records.bent_tube import Mark
from bendgen.records.machine import MachineProfile
from bendgen.records.part import Tolerance
from bendgen.records.tooling import DieSet
from bendgen.reports.cautions import LICENSED_WORK, NOT_CHECKED, PERFORATED_CAUTION, USUAL_CAUTIONS
from bendgen.reports.sheet.job import TRIAL_TITLE
from bendgen.reports.sheet.lines import WIDTH
from bendgen.reports.sheet.neutral import NEUTRAL_ROTATION
from bendgen.reports.text_table import display_width
from tests.pages import ID, bare_text_of


def sheet_of(program: BendProgram) -> str:
    return bare_text_of(program)


def section_of(sheet: str, title: str) -> str:
    """Text between a section's title and the next empty line that stands before another title."""
    start = re.search(rf"^{re.escape(title)}\n-+\n", sheet, re.MULTILINE)
    assert start, f"no section {title}"
    rest = sheet[start.end() :]
    end = re.search(r"\n\n(?:[A-Z ,-]+\n-{20}|={20})", rest)
    return rest[: end.start()] if end else rest


def frame_rows(sheet: str) -> list[list[str]]:
    """Cells of the operator's frame, rows with a tick box only."""
    rows = [line for line in section_of(sheet, "MACHINE STEPS").splitlines() if "[ ]" in line]
    return [[cell.strip() for cell in row.strip("|").split("|")] for row in rows]


def one_line(text: str) -> str:
    return " ".join(text.split())


def with_steps(program: BendProgram, count: int) -> BendProgram:
    """The same pipe with as many bends as asked for, alike but for their numbers."""
    step, machine_step, bend = program.steps[1], program.machine_steps[1], program.finished.bends[1]
    numbers = range(1, count + 1)
    tube = replace(program.finished, straights=(154.0,) * (count + 1), bends=(bend,) * count)
    return replace(
        program,
        steps=tuple(replace(step, number=number, passed=400.0 * number) for number in numbers),
        machine_steps=tuple(replace(machine_step, number=number, feed=100.0 + number) for number in numbers),
        finished=tube,
        wanted_tube=tube,
    )


def test_machine_steps_are_read_back_from_the_frame(example_program: BendProgram) -> None:
    rows = frame_rows(sheet_of(example_program))
    assert rows == [["1", "197.0", "0.0", "92.7", "[ ]"], ["2", "154.0", "90.0", "92.7", "[ ]"]]
    for row, step in zip(rows, example_program.machine_steps, strict=True):
        assert [float(cell) for cell in row[:4]] == [step.number, step.feed, step.rotation, step.bend]


def test_machine_steps_of_an_inch_machine_keep_its_columns(inch_program: BendProgram) -> None:
    sheet = sheet_of(inch_program)
    for row, step in zip(frame_rows(sheet), inch_program.machine_steps, strict=True):
        number, die, bend, turn, stop, _ = row
        assert (number, die) == (str(step.number), step.die)
        assert float(bend) == pytest.approx(step.bend, abs=0.25)
        assert float(turn) == pytest.approx(step.rotation, abs=0.25)
        assert float(stop) == pytest.approx(step.feed, abs=0.0005)
    frame = section_of(sheet, "MACHINE STEPS").splitlines()
    assert [cell.strip() for cell in frame[3].strip("|").split("|")] == [
        "line",
        "tool",
        "degrees",
        "turn",
        "stop",
        "done",
    ]
    assert [cell.strip() for cell in frame[4].strip("|").split("|")] == ["", "", "°", "°", "in", ""]


@pytest.mark.parametrize(
    ("positive", "words"),
    [
        ("clockwise_from_carriage", "a positive number turns the top of the tube to your right (clockwise)"),
        (
            "counterclockwise_from_carriage",
            "a positive number turns the top of the tube to your left (counterclockwise)",
        ),
    ],
)
def test_rotation_in_words(
    example_program: BendProgram,
    positive: Literal["clockwise_from_carriage", "counterclockwise_from_carriage"],
    words: str,
) -> None:
    profile = example_program.profile
    turned = replace(profile, output=replace(profile.output, rotation_positive=positive))
    assert words in one_line(section_of(sheet_of(replace(example_program, profile=turned)), "MACHINE STEPS"))


@pytest.mark.parametrize("name", ["example_program", "inch_program", "blank_program"])
def test_cautions_and_id_on_every_sheet(name: str, request: pytest.FixtureRequest) -> None:
    sheet = sheet_of(request.getfixturevalue(name))
    flat = one_line(sheet)
    for caution in (*USUAL_CAUTIONS, LICENSED_WORK, NOT_CHECKED):
        assert caution in flat
    lines = sheet.splitlines()
    assert lines[1].endswith(f"issue 3   id {ID}")
    assert f"id {ID}" in "\n".join(lines[-5:])
    assert PERFORATED_CAUTION not in flat


def test_perforated_edges(example_program: BendProgram) -> None:
    tube = replace(example_program.part.tube, perforated=True)
    sheet = sheet_of(replace(example_program, part=replace(example_program.part, tube=tube)))
    assert PERFORATED_CAUTION in one_line(sheet)
    assert "PERFORATED" in section_of(sheet, "PART")


@pytest.mark.parametrize("name", ["example_program", "inch_program", "blank_program"])
def test_no_empty_value_shows_through(name: str, request: pytest.FixtureRequest) -> None:
    sheet = sheet_of(request.getfixturevalue(name))
    assert not re.search(r"\b(nan|inf|None|True|False)\b|-0(?:\.0+)?\b(?!\.)|\d[eE][-+]\d", sheet)
    assert "-0.0" not in sheet


def test_minus_zero_in_the_record_is_plain_zero(example_program: BendProgram) -> None:
    first = replace(example_program.machine_steps[0], rotation=-0.0)
    steps = tuple(replace(step, rotation_deg=-0.0, elongation=-0.0) for step in example_program.steps)
    program = replace(
        example_program, machine_steps=(first, example_program.machine_steps[1]), steps=steps, largest_deviation=-0.0
    )
    assert not re.search(r"-0\.0", sheet_of(program))


@pytest.mark.parametrize("name", ["example_program", "inch_program", "blank_program"])
def test_lines_fit_the_page(name: str, request: pytest.FixtureRequest) -> None:
    sheet = sheet_of(request.getfixturevalue(name))
    assert WIDTH <= 96
    assert max(map(display_width, sheet.splitlines())) == WIDTH
    assert not any(line != line.rstrip() for line in sheet.splitlines())


@pytest.mark.parametrize("count", [1, 12, 13, 20])
def test_many_bends(example_program: BendProgram, count: int) -> None:
    sheet = sheet_of(with_steps(example_program, count))
    assert [row[0] for row in frame_rows(sheet)] == [str(number) for number in range(1, count + 1)]
    assert [row[1] for row in frame_rows(sheet)] == [f"{100.0 + number:.1f}" for number in range(1, count + 1)]
    assert len(section_of(sheet, "MACHINE STEPS").split("\n\n")[1].splitlines()) <= 56, "the frame fits one page"
    assert max(map(display_width, sheet.splitlines())) == WIDTH


@pytest.mark.parametrize(
    "name",
    [
        "Trockner-Einlaufrohr " * 20,
        "x" * 300,
        "צינור כניסה למייבש",
        "أنبوب مجفف ٣",
        "乾燥機入口管" * 20,
        "e\u0301" * 200,
    ],
)
def test_names_of_any_script_and_length_appear_whole(example_program: BendProgram, name: str) -> None:
    part = replace(example_program.part, name=name, number=name)
    sheet = sheet_of(replace(example_program, part=part))
    assert name.replace(" ", "") in re.sub(r"\s", "", section_of(sheet, "PART"))
    assert re.sub(r"\s", "", sheet).count(name.replace(" ", "")) == 4, "at the top, in the middle, at the end, as name"
    assert max(map(display_width, sheet.splitlines())) == WIDTH


def test_letters_written_leftwards_do_not_move_the_next_column(inch_program: BendProgram) -> None:
    steps = tuple(replace(step, die="חמישים") for step in inch_program.machine_steps)
    rows = [
        line
        for line in sheet_of(replace(inch_program, machine_steps=steps)).splitlines()
        if "חמישים" in line and "[ ]" in line
    ]
    assert len(rows) == 2
    assert all("חמישים\u200e" in row for row in rows)


def test_trial_piece_cannot_be_overlooked(example_program: BendProgram) -> None:
    reason = "bend 2: trial piece: finished angle 140.00° is beyond the table's rows, 30° to 120°"
    sheet = sheet_of(replace(example_program, trial_piece=(reason,)))
    top = sheet[: sheet.index("\nPART\n")]
    assert TRIAL_TITLE in top
    assert reason in one_line(top)
    saw = section_of(sheet, "BLANK AND SAW LIST")
    assert re.search(r"saw +1  x  ", saw)
    assert "the other 11 only after it was measured" in saw
    assert TRIAL_TITLE not in sheet_of(example_program)


def test_saw_list(example_program: BendProgram) -> None:
    saw = section_of(sheet_of(example_program), "BLANK AND SAW LIST")
    assert f"12  x  {example_program.blank.length:.1f} mm\n" in saw
    assert "143.0 mm at the rear" in saw


def test_saw_list_in_an_inch_shop(inch_program: BendProgram) -> None:
    blank = replace(inch_program.blank, length=32.85 * 25.4)
    saw = section_of(sheet_of(replace(inch_program, blank=blank)), "BLANK AND SAW LIST")
    assert "12  x  32.850 in (32 27/32 in + 0.006 in)" in saw


def test_tape_list_runs_from_the_front_end(example_program: BendProgram) -> None:
    front = CutMark(end="front", distance=12.5, when="before_bending", measured_from="front_end")
    blank = replace(example_program.blank, front_trim=12.5, cut_marks=(*example_program.blank.cut_marks, front))
    marks = section_of(sheet_of(replace(example_program, blank=blank)), "MARKS ON THE BLANK, BEFORE BENDING")
    readings = re.findall(r"^ *([\d.]+) mm   (.*)$", marks, re.MULTILINE)
    second = f"{example_program.steps[1].passed:.1f}"
    assert readings == [
        ("12.5", "CUT, front: saw here after bending"),
        ("197.0", "bend 1 starts here"),
        (second, "bend 2 starts here"),
    ]
    assert "the edge that you can see lies 38.0 mm behind it, towards the carriage" in one_line(marks)


def test_rear_cut_is_found_from_the_bend_and_only_checked_from_the_end(example_program: BendProgram) -> None:
    apex = CutMark(end="rear", distance=285.0, when="after_bending", measured_from="last_outer_apex")
    blank = replace(example_program.blank, cut_marks=(*example_program.blank.cut_marks, apex))
    cutting = one_line(section_of(sheet_of(replace(example_program, blank=blank)), "CUTTING, AFTER BENDING"))
    assert (
        "Cut the rear: 157.0 mm from the end of the last bend, where the straight begins; or 285.0 mm from" in cutting
    )
    assert "from the rear cut to the rear end it must be 143.0 mm. [________] If it does not agree" in cutting


def test_what_no_saw_takes_off_stays_on(example_program: BendProgram) -> None:
    """The saw stop rounds blanks up: a hundredth of a millimetre is nothing to mark, to saw or to prove."""
    sheet = sheet_of(replace(example_program, blank=replace(example_program.blank, rear_trim=0.06, cut_marks=())))
    assert "0.1 mm at the rear, too little to saw off: it stays on" in one_line(sheet)
    assert "CUTTING, AFTER BENDING" not in sheet


def test_saw_check_names_the_tolerance_of_its_check(example_program: BendProgram) -> None:
    check = replace(example_program.checks[0], id="rear-cut", unit="mm", tolerance=1.5)
    sheet = sheet_of(replace(example_program, checks=(check,)))
    assert "Off by more than 1.5 mm" in one_line(section_of(sheet, "CUTTING, AFTER BENDING"))


def two_dies(program: BendProgram, stacks: tuple[str | None, str | None]) -> BendProgram:
    die = program.dies[0]
    dies: tuple[DieSet, ...] = tuple(
        replace(die, id=name, stack=stack) for name, stack in zip(("d50-r100", "d50-r75"), stacks, strict=True)
    )
    steps = (program.steps[0], replace(program.steps[1], die="d50-r75"))
    machine_steps = (program.machine_steps[0], replace(program.machine_steps[1], die="d50-r75"))
    return replace(program, dies=dies, steps=steps, machine_steps=machine_steps)


@pytest.mark.parametrize("stacks", [(None, None), ("lower", "upper"), ("lower", None)])
def test_die_change_between_steps(example_program: BendProgram, stacks: tuple[str | None, str | None]) -> None:
    lines = section_of(sheet_of(two_dies(example_program, stacks)), "MACHINE STEPS").splitlines()
    places = [number for number, line in enumerate(lines) if "[ ]" in line or ">>>" in line]
    assert ["START WITH DIE SET d50-r100" in lines[places[0]], "[ ]" in lines[places[1]]] == [True, True]
    assert "STOP - CHANGE DIE HERE: take off d50-r100, mount d50-r75" in lines[places[2]]
    assert "[ ]" in lines[places[3]]


def test_dies_of_one_stack_change_without_a_stop(example_program: BendProgram) -> None:
    frame = section_of(sheet_of(two_dies(example_program, ("lower", "lower"))), "MACHINE STEPS")
    assert "STOP" not in frame
    assert "next on die set d50-r75: same stack, changes without a stop" in frame


def test_collet_opens_before_the_step_that_says_so(example_program: BendProgram) -> None:
    steps = (example_program.steps[0], replace(example_program.steps[1], collet_open=True))
    frame = section_of(sheet_of(replace(example_program, steps=steps)), "MACHINE STEPS")
    assert frame.index("92.7") < frame.index("COLLET OPENS before bend 2") < frame.rindex("92.7")


def test_neutral_steps_stand_apart_and_say_so(inch_program: BendProgram) -> None:
    sheet = sheet_of(inch_program)
    assert sheet.index("MACHINE STEPS") < sheet.index("FOR WHOEVER CHECKS THE PART") < sheet.index("NEUTRAL STEPS")
    neutral = section_of(sheet, "NEUTRAL STEPS")
    assert "DO NOT TYPE THESE INTO THE MACHINE" in neutral
    assert re.search(r"2 +d50-r100 +154\.000 +90\.000 +92\.700 +90\.000", neutral)


def test_rotations_to_check_are_told_from_those_to_type(inch_program: BendProgram, blank_program: BendProgram) -> None:
    sheet = sheet_of(inch_program)
    for title in ("CHECKS", "FINISHED PART, PREDICTED AGAINST WANTED"):
        assert NEUTRAL_ROTATION in one_line(section_of(sheet, title))
    assert NEUTRAL_ROTATION not in one_line(sheet_of(blank_program))


def test_room_with_and_without_a_known_height(example_program: BendProgram) -> None:
    room = section_of(sheet_of(example_program), "ROOM TO KEEP CLEAR")
    assert re.search(r"1 +233\.3 +25\.0 below +197\.0 +1025\.0", room)
    profile = example_program.profile
    blind = replace(profile, carriage=replace(profile.carriage, centre_height=None))
    sheet = sheet_of(replace(example_program, profile=blind))
    assert "floor" not in section_of(sheet, "ROOM TO KEEP CLEAR")
    assert "height of the tube's axis above the floor" in section_of(sheet, "NOT CHECKED")


def test_keys_the_profile_lacks_are_named(example_program: BendProgram, metric_profile: MachineProfile) -> None:
    bare = replace(example_program.dies[0], pressure_die=None, smallest_bend_deg=None, walls=None)
    profile = replace(metric_profile, feed=replace(metric_profile.feed, largest=None))
    silent = section_of(sheet_of(replace(example_program, dies=(bare,), profile=profile)), "NOT CHECKED")
    named = re.findall(r"^  - (.*)$", silent, re.MULTILINE)
    assert named == [
        "largest feed",
        "wall thinning",
        "wall factor",
        "die set d50-r100: smallest bend",
        "die set d50-r100: room for the pressure die",
        "die set d50-r100: walls that the mandrel takes",
    ]


def test_checks_have_value_tolerance_and_a_box_in_order_of_time(example_program: BendProgram) -> None:
    checks = section_of(sheet_of(example_program), "CHECKS")
    moments = re.findall(r"^  ((?:BEFORE|AFTER)[A-Z0-9 ]*)$", checks, re.MULTILINE)
    assert moments == ["AFTER STEP 1", "AFTER STEP 2", "AFTER BENDING", "AFTER CUTTING"]
    assert checks.count("[________]") == len(example_program.checks)
    for check in example_program.checks:
        unit = "°" if check.unit == "deg" else "mm"
        assert re.search(rf"{check.id} .* {check.predicted:.1f} ± {check.tolerance:.1f} {unit} \[", checks)


def test_steps_after_the_ninth_come_in_order(example_program: BendProgram) -> None:
    moments = ("after cutting", "after step 10", "after step 9", "before bending", "after bending")
    checks = tuple(replace(example_program.checks[0], when=when) for when in moments)
    text = section_of(sheet_of(replace(example_program, checks=checks)), "CHECKS")
    found = re.findall(r"^  ((?:BEFORE|AFTER)[A-Z0-9 ]*)$", text, re.MULTILINE)
    assert found == ["BEFORE BENDING", "AFTER STEP 9", "AFTER STEP 10", "AFTER BENDING", "AFTER CUTTING"]


@pytest.mark.parametrize(
    ("tolerance", "words"),
    [
        (Tolerance(), "TOOL'S DEFAULT"),
        (Tolerance(length=2.0, source="part"), "± 2.0 mm"),
        (Tolerance(iso2768="m", source="part"), "ISO 2768 class m"),
    ],
)
def test_tolerances_and_their_source(example_program: BendProgram, tolerance: Tolerance, words: str) -> None:
    part = replace(example_program.part, tolerance=tolerance)
    text = section_of(sheet_of(replace(example_program, part=part)), "TOLERANCES")
    assert words in text
    assert ("the part's file" in text) == (tolerance.source == "part")


@pytest.mark.parametrize(("deviation", "loud"), [(0.4, False), (1.4, True)])
def test_deviation_beyond_the_tolerance_is_said_aloud(
    example_program: BendProgram, deviation: float, *, loud: bool
) -> None:
    sheet = sheet_of(replace(example_program, largest_deviation=deviation))
    finished = section_of(sheet, "FINISHED PART, PREDICTED AGAINST WANTED")
    assert f"wanted axis: {deviation} mm." in finished
    assert ("MORE THAN THE TOLERANCE" in one_line(finished)) == loud


def test_finished_part_against_wanted(example_program: BendProgram) -> None:
    wanted = replace(example_program.wanted_tube, straights=(196.0, 154.0, 157.0))
    program = replace(example_program, wanted_tube=wanted)
    table = section_of(sheet_of(program), "FINISHED PART, PREDICTED AGAINST WANTED")
    assert re.search(r"1 +197\.0 +196\.0 +0\.0 +0\.0 +90\.0 +90\.0 +103\.0", table)
    assert re.search(r"3 +157\.0 +157\.0$", table, re.MULTILINE)


def test_width_change_of_held_straights(example_program: BendProgram) -> None:
    steps = (example_program.steps[0], replace(example_program.steps[1], width_change=6.04))
    table = section_of(sheet_of(replace(example_program, steps=steps)), "FINISHED PART, PREDICTED AGAINST WANTED")
    assert "- bend 2: 6.0 mm" in table
    assert "bend 1:" not in table


def test_basis_in_words(example_program: BendProgram) -> None:
    basis = replace(example_program.steps[1].basis, springback="beyond", elongation="not measured")
    steps = (example_program.steps[0], replace(example_program.steps[1], basis=basis))
    text = section_of(sheet_of(replace(example_program, steps=steps)), "WHERE THE VALUES COME FROM")
    assert re.search(r"1 +2\.70  measured +103\.0  arc kept +4\.0  measured +1\.027", text)
    assert re.search(r"2 +2\.70  beyond +103\.0  arc kept +4\.0  not measured", text)
    for word in ("measured", "beyond", "arc kept", "not measured"):
        assert f"- {word}: " in text
    assert "- between: " not in text


def test_table_or_its_absence_is_named(example_program: BendProgram) -> None:
    table = example_program.tables[0]
    set_up = one_line(section_of(sheet_of(example_program), "MACHINE AND SET-UP"))
    assert f"{table.file} issued 2026-03-14, lot 7731, source: invented trial bends" in set_up
    without = one_line(section_of(sheet_of(replace(example_program, tables=())), "MACHINE AND SET-UP"))
    assert "NONE for d50-r100: springback is estimated from material data" in without


def test_hand_and_end(example_program: BendProgram) -> None:
    other = replace(example_program.part, mirrored=True, from_rear=True)
    text = section_of(sheet_of(replace(example_program, part=other)), "PART")
    assert "OPPOSITE HAND" in text
    assert "the LAST end of the part's file" in text
    assert "OPPOSITE" not in section_of(sheet_of(example_program), "PART")


def test_unit_of_cautions_is_told_where_it_differs(example_program: BendProgram, inch_program: BendProgram) -> None:
    assert "cautions and cures in millimetres, as" in section_of(sheet_of(inch_program), "PART")
    assert "cautions and cures" not in section_of(sheet_of(example_program), "PART")


def test_marks_of_the_part(example_program: BendProgram) -> None:
    program = replace(example_program, marks=(Mark(straight=2, from_front=412.34),))
    assert re.search(r"1 +straight 2 +412\.3 mm", section_of(sheet_of(program), "MARKS THE PART ASKS FOR"))
    assert "MARKS THE PART ASKS FOR" not in sheet_of(example_program)


def test_cautions_of_the_part_come_with_their_cures(example_program: BendProgram) -> None:
    text = one_line(section_of(sheet_of(example_program), "CAUTIONS FOR THIS PART"))
    assert example_program.findings[0].text in text
    assert "cure: lengthen the last straight by 143.0 mm (centreline.vertices = [[0, 0, 0], [300, 360, 403]])" in text


def test_a_part_without_bends_is_a_length_to_saw(blank_program: BendProgram) -> None:
    sheet = sheet_of(blank_program)
    assert "12  x  450.0 mm" in section_of(sheet, "BLANK AND SAW LIST")
    assert "none: the blank is the part, nothing is cut off" in sheet
    for title in ("MACHINE STEPS", "NEUTRAL STEPS", "ROOM TO KEEP CLEAR", "WHERE THE VALUES COME FROM", "MARKS ON"):
        assert title not in sheet


def test_long_die_names_stay_within_the_frame(example_program: BendProgram) -> None:
    name = "d50-r75-" * 15
    die = example_program.dies[0]
    steps = (example_program.steps[0], replace(example_program.steps[1], die=name))
    dies = (die, replace(die, id=name, stack=None))
    sheet = sheet_of(replace(example_program, dies=dies, steps=steps))
    assert max(map(display_width, sheet.splitlines())) == WIDTH
    assert all(display_width(line) == WIDTH for line in sheet.splitlines() if line.startswith("|"))
