"""What the README shows is what the tool does."""

import re
from pathlib import Path

import pytest
import typer.main

from bendgen.cli.app import app
from tests.readme.examples import README, ROOT, agrees, examples, lines_printed, shop, without_ids
from tests.readme.pictures import FOLDER, PAPERS

PAGE = README.read_text(encoding="utf-8")


def test_examples_print_what_the_page_shows(tmp_path: Path) -> None:
    folder = shop(tmp_path)
    for example in examples():
        printed = lines_printed(example.command, folder)
        if not agrees(without_ids(example.printed), without_ids(printed)):
            texts = "\n".join([f"$ {example.command}", "", "shown:", *example.printed, "", "printed:", *printed])
            pytest.fail(f"{texts}\n\n`python -m tests.readme.examples` renews what is shown in full", pytrace=False)


@pytest.mark.parametrize(
    ("shown", "printed", "expected"),
    [
        ("a b", "a b", True),
        ("a", "a b", False),
        ("a …", "a b c", True),
        ("… c", "a b c", True),
        ("… b …", "a b c", True),
        ("a … c", "a b", False),
        ("… c … b", "b c", False),
    ],
)
def test_lines_left_out(shown: str, printed: str, *, expected: bool) -> None:
    assert agrees(tuple(shown.split()), tuple(printed.split())) is expected


def test_part_shown_is_the_sample() -> None:
    shown = re.findall(r"^```toml\n(.*?)^```$", PAGE, re.MULTILINE | re.DOTALL)
    sample = (ROOT / "samples" / "dryer_inlet.toml").read_text(encoding="utf-8")
    assert len(shown) == 1
    assert shown[0] in sample


def test_every_command_has_an_example() -> None:
    root = typer.main.get_command(app)
    commands = {f"{name} {sub}" if sub else name for name, command in root.commands.items()  # type: ignore[attr-defined]
                for sub in getattr(command, "commands", {"": None})}  # fmt: skip
    used = " \n".join(example.command for example in examples())
    assert sorted(name for name in commands if f"bendgen {name} " not in used) == []


def test_two_commands_set_up_run_and_test() -> None:
    first = "python3 -m venv .venv && .venv/bin/pip install -q . && .venv/bin/bendgen program"
    setups = re.findall(r"^```sh\n(.*?)\n```$", PAGE, re.MULTILINE | re.DOTALL)
    assert len(setups) == 2
    assert setups[0].startswith(first)
    assert setups[1] == "./check"


def test_sample_set_up_command_runs(tmp_path: Path) -> None:
    command = re.search(r"bendgen program samples.*", PAGE)
    assert command is not None
    lines_printed(command[0], shop(tmp_path))
    assert sorted(path.name for path in (tmp_path / "out").iterdir()) == [
        f"GD-118_B_1.{suffix}" for suffix in ("machine.csv", "sheet.html", "sheet.txt", "steps.csv", "steps.json")
    ]


def test_ids_are_masked_and_numbers_are_not() -> None:
    lines = ("1,226.7,c70f380b", "GD-118 B issue 1 (id 12345678): 2 bends", "344.356394061, 86.6138364368, 0")
    masked = ("1,226.7,(some id)", "GD-118 B issue 1 (id (some id)): 2 bends", "344.356394061, 86.6138364368, 0")
    assert without_ids(lines) == masked


def test_files_named_on_the_page_exist() -> None:
    text = re.sub(r"^```.*?^```$", "", PAGE, flags=re.MULTILINE | re.DOTALL)
    named = set(re.findall(r"(?:samples|machine_profiles)/[\w/.-]+", text))
    assert "machine_profiles/bay2" in named
    assert sorted(name for name in named if not (ROOT / name).exists()) == []


def test_pictures_shown_are_those_kept() -> None:
    shown = re.findall(r"^!\[.+\]\((.+)\)$", PAGE, re.MULTILINE)
    assert sorted(shown) == sorted(path.relative_to(ROOT).as_posix() for path in FOLDER.iterdir())
    made = {f"{sample}_{number}" for sample, numbers in PAPERS.items() for number in numbers}
    assert {Path(picture).stem for picture in shown} == made
