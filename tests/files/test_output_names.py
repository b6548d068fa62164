"""File names: NUMBER_REVISION_ISSUE, whatever a shop writes into number and revision."""

import unicodedata
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bendgen.bending.hands import mirror_part
from bendgen.errors import OutputError
from bendgen.files.output_names import SUFFIXES, next_issue, output_stem, refuse_shared_names
from bendgen.records.part import Part

A_LONG_NUMBER = "GD-" + "1234567890" * 12


@pytest.mark.parametrize(
    ("number", "revision", "stem"),
    [
        ("GD-118", "B", "GD-118_B_3"),
        ("GD 118/2", "B", "GD_118_2_B_3"),
        ("../../etc/passwd", "B", "_._.._etc_passwd_B_3"),
        (".hidden", "B", "_hidden_B_3"),
        ("-rf", "B", "-rf_B_3"),
        ("C:\\dryer", "a*?", "C__dryer_a___3"),
        ("Rohr Größe Ä", "ß", "Rohr_Größe_Ä_ß_3"),
        (unicodedata.normalize("NFD", "Größe"), "A", "Größe_A_3"),
        ("مجفف-٣", "ב", "مجفف-٣_ב_3"),
        ("乾燥機１", "B", "乾燥機１_B_3"),
        ("GD\u202e811", "B", "GD_811_B_3"),
        ("GD\x00\n\t118", "B", "GD___118_B_3"),
        ("50²", "½", "50____3"),
        ("CON", "B", "_CON_B_3"),
        ("CON.1", "B", "_CON.1_B_3"),
        ("nul.txt", "B", "_nul.txt_B_3"),
        ("Com9.", "B", "_Com9._B_3"),
        ("console.1", "B", "console.1_B_3"),
        ("", "", "__3"),
    ],
)
def test_safe_stem(dryer_part: Part, number: str, revision: str, stem: str) -> None:
    assert output_stem(replace(dryer_part, number=number, revision=revision), 3) == stem


def test_long_numbers_keep_revision_and_issue_and_stay_apart(dryer_part: Part) -> None:
    stems = {output_stem(replace(dryer_part, number=A_LONG_NUMBER + end, revision="C"), 12) for end in ("a", "b")}
    assert len(stems) == 2
    for stem in stems:
        assert stem.startswith("GD-1234567890")
        assert stem.endswith("_C_12")


def test_a_long_revision_leaves_most_of_the_number(dryer_part: Part) -> None:
    stem = output_stem(replace(dryer_part, revision="rev " * 50), 1)
    assert stem.startswith("GD-118_rev_rev_rev_")


@settings(max_examples=200, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(number=st.text(max_size=150), revision=st.text(max_size=150), issue=st.integers(1, 999_999))
def test_every_name_is_safe(dryer_part: Part, number: str, revision: str, issue: int) -> None:
    stem = output_stem(replace(dryer_part, number=number, revision=revision), issue)
    assert max(len(f"{stem}{suffix}".encode()) for suffix in SUFFIXES) <= 120
    assert not stem.startswith(".")
    assert all(c in "._-" or unicodedata.category(c)[0] == "L" or unicodedata.category(c) == "Nd" for c in stem)
    devices = {"con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in range(10))}
    assert f"{stem}{SUFFIXES[0]}".split(".")[0].lower() not in devices


@pytest.mark.parametrize("issue", [0, -1, 1_000_000])
def test_an_issue_out_of_range(dryer_part: Part, issue: int) -> None:
    with pytest.raises(OutputError) as caught:
        output_stem(dryer_part, issue)
    assert str(caught.value) == f"issue {issue} cannot be written: issues go from 1 to 999999"


def test_issues_count_from_1(tmp_path: Path, dryer_part: Part) -> None:
    assert next_issue(tmp_path / "not made yet", dryer_part) == 1
    assert next_issue(tmp_path, dryer_part) == 1


def test_the_next_issue_is_beyond_the_highest(tmp_path: Path, dryer_part: Part) -> None:
    for name in (
        "GD-118_B_2.steps.json",
        "gd-118_b_10.steps.csv",  # written on a system that has no case
        "GD-118_C_50.steps.json",  # another revision
        "GD-1180_B_51.steps.json",  # another part
        "GD-118_B_52.pdf",  # not ours
        "GD-118_B_53.steps.json.bak",
        "GD-118_B_x.steps.json",
        ".54.unfinished",
    ):
        (tmp_path / name).touch()
    assert next_issue(tmp_path, dryer_part) == 11


def test_one_file_of_an_issue_takes_its_number(tmp_path: Path, dryer_part: Part) -> None:
    (tmp_path / "GD-118_B_1.machine.csv").touch()
    assert next_issue(tmp_path, dryer_part) == 2


def test_long_names_are_found_again(tmp_path: Path, dryer_part: Part) -> None:
    part = replace(dryer_part, number=A_LONG_NUMBER)
    for issue in (9, 10):
        (tmp_path / f"{output_stem(part, issue)}.steps.json").touch()
    assert next_issue(tmp_path, part) == 11


def test_names_that_the_disk_keeps_decomposed_are_found(tmp_path: Path, dryer_part: Part) -> None:
    (tmp_path / unicodedata.normalize("NFD", "Größe_B_4.steps.json")).touch()
    assert next_issue(tmp_path, replace(dryer_part, number="Größe")) == 5


def test_a_file_in_place_of_the_folder(tmp_path: Path, dryer_part: Part) -> None:
    (tmp_path / "out").touch()
    with pytest.raises(OutputError) as caught:
        next_issue(tmp_path / "out", dryer_part)
    assert str(caught.value) == f"{tmp_path / 'out'}: cannot be read as a folder: Not a directory"


def test_parts_with_names_of_their_own_pass(dryer_part: Part) -> None:
    refuse_shared_names([("a.toml", dryer_part), ("b.toml", replace(dryer_part, revision="C"))])


def test_parts_with_one_name_are_refused(dryer_part: Part) -> None:
    parts = [
        ("a.toml", dryer_part),
        ("b.toml", replace(dryer_part, number="gd-118")),
        ("c.toml", replace(dryer_part, number="GD 7")),
        ("d.toml", replace(dryer_part, number="GD/7")),
        ("e.toml", replace(dryer_part, revision="b")),
        ("f.toml", replace(dryer_part, revision="C")),
    ]
    with pytest.raises(OutputError) as caught:
        refuse_shared_names(parts)
    assert str(caught.value).splitlines() == [
        "a.toml, b.toml and e.toml would all be written as GD-118_B; give each a number or revision of its own",
        "c.toml and d.toml would all be written as GD_7_B; give each a number or revision of its own",
    ]


def test_a_part_named_twice_is_refused_as_that(dryer_part: Part) -> None:
    with pytest.raises(OutputError) as caught:
        refuse_shared_names([("a.toml", dryer_part), ("a.toml", dryer_part)])
    assert str(caught.value) == "a.toml is named 2 times; name it once"


def test_the_opposite_hand_has_names_and_issues_of_its_own(tmp_path: Path, dryer_part: Part) -> None:
    hand = mirror_part(dryer_part)
    (tmp_path / "GD-118_B_3.steps.json").touch()
    assert output_stem(hand, 1) == "GD-118_B_mirrored_1"
    assert next_issue(tmp_path, hand) == 1
    assert next_issue(tmp_path, dryer_part) == 4
    (tmp_path / "GD-118_B_mirrored_1.steps.json").touch()
    assert next_issue(tmp_path, hand) == 2
    assert next_issue(tmp_path, dryer_part) == 4
