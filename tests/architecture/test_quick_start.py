"""What the quick paths must not load: a library that takes as long to import as the whole job takes to run."""

import subprocess
import sys
from pathlib import Path

import pytest

from tests.architecture.source_tree import ROOT

MAIN_JOB = ("program", "samples/six_bend_duct.toml", "--machine", "machine_profiles/bay2", "--out")


@pytest.mark.parametrize("command", [("--help",), MAIN_JOB], ids=["help", "program"])
def test_scipy_is_not_imported(command: tuple[str, ...], tmp_path: Path) -> None:
    arguments = [*command, str(tmp_path)] if command == MAIN_JOB else [*command]
    timed = [sys.executable, "-X", "importtime", "-m", "bendgen", *arguments]
    done = subprocess.run(timed, capture_output=True, text=True, check=True, cwd=ROOT)
    imported = {line.rsplit("|", 1)[1].strip() for line in done.stderr.splitlines() if "|" in line}
    assert "bendgen" in imported
    assert [name for name in imported if name.split(".")[0] == "scipy"] == []
