"""The page by itself: what stands on it, and what cannot get onto it."""

import base64
import hashlib
import json
import re
from collections.abc import Iterator
from dataclasses import replace
from html.parser import HTMLParser

import pytest

from bendgen.bending.comparison import compare_piece
from bendgen.bending.foretold import foretold_of_program
from bendgen.records.bend_program import BendProgram
from bendgen.records.machine_cells import machine_cells
from bendgen.records.measured import MeasuredPiece, Reading
from bendgen.reports.blocks import BOX, Bullets, Fields, Running, Section, Table
from bendgen.reports.cautions import LICENSED_WORK, NEVER_CHECKED, NOT_CHECKED, USUAL_CAUTIONS
from bendgen.reports.check_sheet import bench_sections, operator_sections
from bendgen.reports.sheet.checks import doubt_words, out_words, predicted_words, wanted_words
from bendgen.reports.sheet.job import OPPOSITE_HAND, RELEASE_FIELDS, TRIAL_WORDS
from bendgen.reports.sheet.neutral import WARNING
from bendgen.reports.sheet.numbers import numbers_of_machine
from tests.hostile_text import HOSTILE
from tests.pages import ID, bare_page_of, corrected, page_of, sample_program, text_of, wanted_of

SHEETS = ("At the machine", "At the bench")


class Reader(HTMLParser):
    """Elements with their attributes, and the text of each sheet."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.elements: list[tuple[str, dict[str, str | None]]] = []
        self.texts: dict[str, list[str]] = {"article": [], "style": [], "script": []}
        self.open: list[str] = []
        self.rows: list[list[str]] = []
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, dict(attrs)))
        if tag == "tr":
            self.rows.append([])
        if tag in {"td", "th"}:
            self.rows[-1].append("")
        if tag in self.texts:
            self.open.append(tag)
            self.texts[tag].append("")

    def handle_endtag(self, tag: str) -> None:
        if tag in self.texts:
            self.open.remove(tag)

    def handle_data(self, data: str) -> None:
        for tag in self.open:
            self.texts[tag][-1] += data
        if self.rows and self.rows[-1]:
            self.rows[-1][-1] += data

    def cells(self) -> set[tuple[str, str, str]]:
        """Of every check its name, what is accepted and what is predicted."""
        return {(row[0], row[2], row[3]) for row in self.rows if len(row) == 6}

    def sheet(self, name: str) -> str:
        """Text of one sheet."""
        return self.texts["article"][SHEETS.index(name)]


@pytest.fixture(scope="module")
def duct() -> BendProgram:
    return sample_program("six_bend_duct")


def test_steps_stand_on_the_machines_sheet_and_neutral_ones_at_the_bench(duct: BendProgram) -> None:
    read = Reader(page_of(duct))
    for step in duct.machine_steps:
        for cell in machine_cells(step, duct.profile):
            assert cell in read.sheet("At the machine")
    assert WARNING in read.sheet("At the bench")
    assert WARNING not in read.sheet("At the machine")


def test_machine_sheet_of_another_form_shows_no_neutral_number() -> None:
    """The inch bender counts along the blank: the straights that a neutral list feeds stand only at the bench."""
    program = sample_program("diffuser_drop", "bay5_inch")
    read = Reader(page_of(program))
    for step in program.steps[1:]:
        neutral = f"{step.feed:.3f}"
        assert neutral in read.sheet("At the bench")
        assert neutral not in read.sheet("At the machine")


def test_cautions_and_what_was_not_checked(duct: BendProgram) -> None:
    sheet = Reader(page_of(duct)).sheet("At the machine")
    for text in (*USUAL_CAUTIONS, LICENSED_WORK, NOT_CHECKED, NEVER_CHECKED, *(f.text for f in duct.findings)):
        assert text in sheet


@pytest.mark.parametrize("sheet", SHEETS)
def test_every_sheet_says_whose_it_is(duct: BendProgram, sheet: str) -> None:
    part = replace(duct.part, mirrored=True)
    text = Reader(page_of(replace(duct, part=part, trial_piece=("bend 1: nobody has measured it",)))).sheet(sheet)
    for word in (part.number, part.name, duct.profile.name, ID, TRIAL_WORDS, OPPOSITE_HAND):
        assert word in text


def test_a_corrected_program_names_the_sheet_to_destroy(duct: BendProgram) -> None:
    read = Reader(page_of(corrected(duct)))
    for sheet in SHEETS:
        assert "DESTROY ISSUE 2, SHEET ID 0ddba11d" in read.sheet(sheet)
    assert "Corrected after piece 7" in read.sheet("At the bench")


@pytest.mark.parametrize("sample", ["six_bend_duct", "bearing_jog", "guard_hoop", "dryer_inlet"])
def test_the_page_says_all_that_the_text_says(sample: str) -> None:
    program = sample_program(sample)
    page = " ".join("".join(Reader(page_of(program)).texts["article"]).split())
    for section in filter(None, (*operator_sections(program), *bench_sections(program, wanted_of(program)))):
        for text in texts_of(section):
            for piece in text.split(BOX):
                assert " ".join(piece.split()) in page


def texts_of(section: Section) -> Iterator[str]:
    """Every text of a section but what is laid out for a fixed width."""
    for block in (block for passage in section.passages for block in passage):
        match block:
            case Fields():
                yield from (text for row in block.rows for text in row)
            case Running():
                yield block.text
            case Bullets():
                yield from block.texts
            case Table():
                yield from (cell for row in block.rows for cell in row)


@pytest.mark.parametrize(("sample", "machine"), [("six_bend_duct", "bay2"), ("diffuser_drop", "bay5_inch")])
def test_page_text_and_compare_accept_the_same(sample: str, machine: str) -> None:
    """What is wanted and what is predicted differ in these parts, if only by the rounding of the commands."""
    program = sample_program(sample, machine)
    wanted, text, cells = wanted_of(program), " ".join(text_of(program).split()), Reader(page_of(program)).cells()
    numbers = numbers_of_machine(program.profile)
    piece = MeasuredPiece(
        piece="1", lot=None, readings=tuple(Reading(line=1, check=c.id, value=c.predicted) for c in program.checks)
    )
    compared = compare_piece(foretold_of_program(program), piece).deviations
    assert [deviation.wanted for deviation in compared] == list(wanted)
    for check, value in zip(program.checks, wanted, strict=True):
        accepted, predicted = wanted_words(check, value, numbers), predicted_words(check, numbers)
        assert (check.id + check.quantity, accepted, predicted + out_words(check, value) + doubt_words(check)) in cells
        row = rf" {check.id} \w[^±]* {re.escape(accepted)} \[_+\] [^±]* predicted {re.escape(predicted)} "
        assert re.search(row, text)
    assert any(f"{value:.2f}" != f"{check.predicted:.2f}" for check, value in zip(program.checks, wanted, strict=True))


def test_the_sheet_s_own_numbers_are_wanted_as_they_are_predicted(duct: BendProgram) -> None:
    """The page judges them as compare does: no part asks for a blank, nor for what is sawn off again."""
    wanted = dict(zip((check.id for check in duct.checks), wanted_of(duct), strict=True))
    for check in duct.checks:
        if check.id in {"blank", "rear-cut"}:
            assert wanted[check.id] == check.predicted
    assert {"blank", "rear-cut"} <= set(wanted)


def test_why_one_piece_only(duct: BendProgram) -> None:
    reason = "bend 1: nobody has measured it"
    assert reason in Reader(page_of(replace(duct, trial_piece=(reason,)))).sheet("At the bench")


def test_the_text_has_the_same_fields_for_a_pen(duct: BendProgram) -> None:
    for name in RELEASE_FIELDS:
        assert name in Reader(page_of(duct)).sheet("At the machine")
        assert re.search(rf"^  {name} +_+$", text_of(duct), re.MULTILINE)


def test_no_trial_where_every_bend_was_measured(duct: BendProgram) -> None:
    assert duct.trial_piece == ()
    assert TRIAL_WORDS not in page_of(duct)


def test_policy_lets_in_nothing_but_what_the_page_brings(duct: BendProgram) -> None:
    read = Reader(page_of(duct))
    policy = next(a["content"] for tag, a in read.elements if a.get("http-equiv") == "Content-Security-Policy")
    assert policy is not None
    rules = dict(rule.split(" ", 1) for rule in policy.split("; "))
    assert rules["default-src"] == "'none'"
    assert rules["style-src"] == digest(read.texts["style"][0])
    _, *scripts = read.texts["script"]
    assert rules["script-src"].split() == [digest(script) for script in scripts]
    assert set(rules) == {"default-src", "style-src", "script-src", "base-uri", "form-action"}


def digest(text: str) -> str:
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"


def test_no_handler_no_style_attribute_no_address(duct: BendProgram) -> None:
    for tag, attributes in Reader(page_of(duct)).elements:
        assert not [
            name for name in attributes if name.startswith("on") or name in {"style", "src", "href", "xmlns"}
        ], tag


@pytest.mark.parametrize("hostile", HOSTILE)
def test_hostile_text_is_text(duct: BendProgram, hostile: str) -> None:
    harmless = "x" * len(hostile)  # as long: how much is said decides how large the pictures are
    clean, read = Reader(page_of(with_text(duct, harmless))), Reader(page_of(with_text(duct, hostile)))
    assert [tag for tag, _ in read.elements] == [tag for tag, _ in clean.elements]
    assert [sorted(names) for _, names in read.elements] == [sorted(names) for _, names in clean.elements]
    assert read.sheet("At the machine").count(hostile) >= 8
    data, *scripts = read.texts["script"]
    assert json.loads(data)["part"] == hostile
    assert scripts == clean.texts["script"][1:]


def with_text(program: BendProgram, text: str) -> BendProgram:
    """The program with that text in every field that a file may fill freely."""
    part, profile = program.part, program.profile
    tube = replace(part.tube, material=text, lot=text, temper=text)
    dies = tuple(replace(die, set_up=text) for die in program.dies)
    output = replace(profile.output, headings=tuple(text for _ in profile.output.headings))
    return replace(
        program,
        part=replace(part, name=text, number=text, revision=text, tube=tube),
        profile=replace(profile, name=text, dies=dies, output=output),
        dies=dies,
        tables=tuple(replace(table, file=text, source=text, lot=text) for table in program.tables),
        findings=tuple(replace(finding, text=text, rule=text) for finding in program.findings),
        trial_piece=program.trial_piece and (text,),
    )


def test_no_box_of_the_text_is_left_over(duct: BendProgram) -> None:
    """Boxes for a pen replace the text's own."""
    assert not re.search(r"\[_+\]", page_of(duct))


def test_a_part_without_bends_is_a_length_to_saw(blank_program: BendProgram) -> None:
    sheet = Reader(bare_page_of(blank_program)).sheet("At the machine")
    assert "450.0 mm" in sheet
    assert "Machine steps" not in sheet
