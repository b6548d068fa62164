"""The README's examples: console blocks hold commands after `$ ` and what each prints; `…` stands for lines left out.

`python -m tests.readme.examples` runs them and writes anew what they print; an example with lines left out is for a
person to renew.
"""

import os
import re
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parents[2]
README = ROOT / "README.md"
CONSOLE = re.compile(r"^```console\n(.*?)^```$", re.MULTILINE | re.DOTALL)
LEFT_OUT = "…"
# The id of a program hangs on the last digit of its numbers, which may differ from processor to processor.
PROGRAM_ID = re.compile(r"(?<=\(id )[0-9a-f]{8}(?=\))|(?<=,)[0-9a-f]{8}$")


@dataclass(frozen=True, kw_only=True)
class Example:
    """One command and the lines it prints."""

    command: str
    printed: tuple[str, ...]


def examples() -> list[Example]:
    """Every example of the page, in order; later ones may use the files of earlier ones."""
    return [example for block in CONSOLE.findall(README.read_text(encoding="utf-8")) for example in _of_block(block)]


def _of_block(block: str) -> Iterator[Example]:
    for text in block.removeprefix("$ ").split("\n$ "):
        command, *printed = text.rstrip("\n").split("\n")
        yield Example(command=command, printed=tuple(printed))


def shop(folder: Path) -> Path:
    """Folder with a copy of samples and machines, in which examples may write."""
    for name in ("samples", "machine_profiles"):
        shutil.copytree(ROOT / name, folder / name)
    return folder


def lines_printed(command: str, folder: Path) -> tuple[str, ...]:
    """What a command prints in that folder; blank lines at its end are not shown on the page."""
    path = os.pathsep.join([str(Path(sys.executable).parent), os.environ["PATH"]])
    done = subprocess.run(
        ["bash", "-c", command],  # noqa: S607 - whichever bash the reader has
        cwd=folder,
        env={**os.environ, "PATH": path, "PYTHONUTF8": "1"},
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        encoding="utf-8",
        check=False,
    )
    return tuple(line.rstrip() for line in done.stdout.rstrip("\n").split("\n"))


def without_ids(lines: tuple[str, ...]) -> tuple[str, ...]:
    """The lines with every program's id masked."""
    return tuple(PROGRAM_ID.sub("(some id)", line) for line in lines)


def agrees(shown: tuple[str, ...], printed: tuple[str, ...]) -> bool:
    """Whether the page shows what was printed, line by line, with any number of lines where it leaves some out."""
    if LEFT_OUT not in shown:
        return shown == printed
    at = shown.index(LEFT_OUT)
    if shown[:at] != printed[:at]:
        return False
    rest = shown[at + 1 :]
    return not rest or any(agrees(rest, printed[start:]) for start in range(at, len(printed)))


def renew() -> None:
    """Write what the examples print into the page."""
    page = README.read_text(encoding="utf-8")
    with tempfile.TemporaryDirectory() as folder:
        shop(Path(folder))
        for example in examples():
            printed = lines_printed(example.command, Path(folder))
            if LEFT_OUT not in example.printed:
                old, new = ("\n".join([f"$ {example.command}", *lines, ""]) for lines in (example.printed, printed))
                page = page.replace(old, new)
    README.write_text(page, encoding="utf-8")


if __name__ == "__main__":
    renew()
