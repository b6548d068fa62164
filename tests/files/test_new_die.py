"""Whatever is typed for a new die set: a file that reads back as it was meant, or mistakes and no file."""

import tempfile
from collections.abc import Mapping
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bendgen.errors import InputError
from bendgen.files.new_die import KnownDies, die_data, read_known_dies, write_new_die
from bendgen.files.profile_folder import read_profile
from bendgen.units import Units

SAMPLES = Path(__file__).parents[2] / "machine_profiles"
MACHINE_TEXT = (SAMPLES / "bay5_inch" / "machine.toml").read_text(encoding="utf-8")

NO_DIES = KnownDies(units="in", files={})
LENGTHS = st.one_of(
    st.floats(0.01, 500.0).map(lambda length: f"{length:.4f}"),
    st.tuples(st.integers(1, 40), st.integers(1, 15)).map(lambda inch: f"{inch[0]} {inch[1]}/16"),
    st.integers(1, 900).map(lambda length: f"{length} mm"),
)
NAMES = st.text(st.sampled_from("abcZ059._-éß管"), min_size=1, max_size=20)
TYPED = st.one_of(st.text(max_size=12), LENGTHS, st.sampled_from(["nan", "inf", "1e400", "9" * 5000, "-1", "", "1_0"]))
KEYS = ("id", "tube_od", "clr", "clamp", "largest_bend", "walls", "sleeve", "stack", "set_up")


def path_or_mistaken_places(folder: Path, answers: Mapping[str, str], units: str) -> Path | list[str]:
    try:
        return write_new_die(folder, die_data(answers, units), NO_DIES)
    except InputError as error:
        return [mistake.place for mistake in error.mistakes]


@settings(max_examples=100, deadline=None)
@given(answers=st.dictionaries(st.sampled_from(KEYS), TYPED), units=st.sampled_from(["mm", "in", "ft"]))
def test_any_answers_make_a_file_or_mistakes(answers: dict[str, str], units: str) -> None:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        outcome = path_or_mistaken_places(folder, answers, units)
        files = [path for path in folder.rglob("*") if path.is_file()]
        assert files == ([outcome] if isinstance(outcome, Path) else [])
        assert outcome


@settings(max_examples=50, deadline=None)
@given(
    die_id=NAMES,
    clr=LENGTHS,
    clamp=LENGTHS,
    note=st.text(st.characters(codec="utf-8", categories=["L", "P", "S"]), min_size=1),
)
def test_what_is_written_reads_back(die_id: str, clr: str, clamp: str, note: str) -> None:
    answers = {"id": die_id, "tube_od": "2", "clr": clr, "clamp": clamp, "largest_bend": "180", "set_up": note}
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        (folder / "machine.toml").write_text(MACHINE_TEXT, encoding="utf-8")
        outcome = path_or_mistaken_places(folder, answers, "in")
        if die_id.startswith("."):
            assert outcome == ["id"]
            return
        assert outcome == folder / "dies" / f"{die_id}.toml"
        die = read_profile(folder).die(die_id)
        assert (die.tube_od, die.set_up) == (50.8, note)
        assert min(die.clr, die.clamp) > 0.0


@pytest.mark.parametrize(("sample", "units"), [("bay2", "mm"), ("bay5_inch", "in")])
def test_known_dies_of_a_sample(sample: str, units: Units) -> None:
    known = read_known_dies(SAMPLES / sample)
    assert known.units == units
    assert set(known.files) == {die.id for die in read_profile(SAMPLES / sample).dies}
    assert all((SAMPLES / sample / file).is_file() for file in known.files.values())
