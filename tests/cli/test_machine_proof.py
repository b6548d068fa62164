import re
import shutil
from pathlib import Path

import pytest
from typer.testing import CliRunner

from bendgen.cli.app import app

BAY2 = Path(__file__).parents[2] / "machine_profiles" / "bay2"
run = CliRunner()


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return Path(shutil.copytree(BAY2, tmp_path / "bay2"))


def one_line(text: str) -> str:
    return " ".join(text.split())


def test_piece_words_and_proof(folder: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    tube = ["--die", "d50-r100", "--material", "304L", "--wall", "1.5"]
    made = run.invoke(app, ["machine", "proof", str(folder), *tube, "--out", str(out)])
    assert (made.exit_code, made.stderr) == (0, "")
    words = one_line(made.stdout)
    assert re.search(r"RIGHT: the other end stands [0-9.]+ mm UP, end to end [0-9.]+ mm", words)
    assert re.search(r"WRONG, mirrored: the other end stands [0-9.]+ mm DOWN", words)
    assert "WRONG, not turned: the other end lies flat too" in words
    assert "the bend die is on your left and draws the tube to your left" in words
    assert "RIGHT FEED: 130 mm, 170 mm, 210 mm of straight" in words
    sheet = next(out.glob("PROOF-*.sheet.txt"))
    assert "NEVER PROVED by a proof piece" in one_line(sheet.read_text(encoding="utf-8"))

    passed = run.invoke(app, ["machine", "proof", str(folder), "--passed", "--date", "2026-03-20"])
    assert (passed.exit_code, passed.stdout) == (0, f"{folder / 'proof.toml'}: written\n")
    card = run.invoke(app, ["machine", "show", str(folder)])
    assert "Signs: proved by a proof piece on 2026-03-20." in one_line(card.stdout)
    run.invoke(app, ["machine", "proof", str(folder), *tube, "--out", str(out)])
    sheet = next(out.glob("PROOF-*_2.sheet.txt"))
    assert "signs proved by a proof piece on 2026-03-20" in one_line(sheet.read_text(encoding="utf-8"))


@pytest.mark.parametrize(
    ("options", "words"),
    [
        ([], "--die: one of d38-r57, d42-r65, d50-r100, d50-r75, d60-r120"),
        (["--die", "d50"], "--die: one of d38-r57, d42-r65, d50-r100, d50-r75, d60-r120"),
        (["--die", "d50-r100", "--wall", "1.5"], "the scrap tube's --material and --wall"),
        (["--die", "d50-r100", "--material", "304L", "--wall", "thin"], "--wall: "),
    ],
)
def test_what_is_left_open_is_asked_for(folder: Path, options: list[str], words: str) -> None:
    result = run.invoke(app, ["machine", "proof", str(folder), *options])
    assert (result.exit_code, result.stdout) == (2, "")
    assert words in one_line(result.stderr)


def test_a_piece_that_cannot_be_bent_gets_its_limits(folder: Path, tmp_path: Path) -> None:
    machine = folder / "machine.toml"
    text = machine.read_text(encoding="utf-8")
    assert "longest = 3100.0" in text
    machine.write_text(text.replace("longest = 3100.0", "longest = 500.0"), encoding="utf-8")
    options = ["--die", "d50-r100", "--material", "304L", "--wall", "1.5", "--out", str(tmp_path / "out")]
    result = run.invoke(app, ["machine", "proof", str(folder), *options])
    assert result.exit_code == 1
    assert "LIMIT blank" in result.stdout
    assert not (tmp_path / "out").exists()
