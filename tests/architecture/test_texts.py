"""What no file of the repository may hold, and what every sample must say."""

import re
from pathlib import Path

import pytest

from tests.architecture.source_tree import ROOT

# One letter of each stands in brackets, so that this file does not hold them itself.
NOT_OF_THIS_JOB = re.compile(
    r"transcr[i]pt|seed[ ]document|recorded[ ]talk|\b(silenc[e]r|exhaus[t]|vehicl[e])s?\b"
    r"|\b(TO[D]O|FIXM[E]|XX[X])\b|NotImplemented[E]rror",
    re.IGNORECASE,
)
TEXT_SUFFIXES = {".py", ".md", ".toml", ".json", ".csv", ".txt", ".html", ".cfg", ".ini", ".css", ".js", ""}
BUILT = {"build", "dist", "out", "__pycache__"}


def texts() -> list[Path]:
    """Every text of the repository, relative to it; what tools leave behind is passed over."""
    paths = (path.relative_to(ROOT) for path in ROOT.rglob("*") if path.is_file() and path.suffix in TEXT_SUFFIXES)
    return sorted(path for path in paths if not any(is_left_behind(part) for part in path.parts))


def is_left_behind(name: str) -> bool:
    return name in BUILT or name.endswith(".egg-info") or (name.startswith(".") and name != ".ci")


def test_texts_are_about_this_job() -> None:
    found = [
        f"{path}:{number}: {line.strip()[:100]}"
        for path in texts()
        for number, line in enumerate((ROOT / path).read_text(encoding="utf-8").splitlines(), start=1)
        if NOT_OF_THIS_JOB.search(line)
    ]
    assert found == []


@pytest.mark.parametrize(
    "path",
    [path for path in texts() if path.parts[0] in ("samples", "machine_profiles") and path.suffix == ".toml"],
    ids=str,
)
def test_samples_say_that_they_are_invented(path: Path) -> None:
    assert "invented" in (ROOT / path).read_text(encoding="utf-8").lower()
