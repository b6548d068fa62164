import subprocess
import sys

import pytest
from typer.testing import CliRunner

from bendgen.cli.app import app

COMMANDS = [["trials"], ["machine"], ["machine", "check"], ["machine", "show"], ["machine", "add-die"]]


@pytest.mark.parametrize("command", [[], *COMMANDS], ids=" ".join)
def test_help_explains(command: list[str]) -> None:
    result = CliRunner().invoke(app, [*command, "--help"])
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout.startswith(f"Usage: {' '.join(['bendgen', *command])} ")


def test_help_loads_nothing_heavy() -> None:
    script = (
        "import sys; from bendgen.cli.app import app\n"
        "try: app(['--help'], prog_name='bendgen')\n"
        "except SystemExit: pass\n"
        "print([name for name in ('numpy', 'pydantic', 'scipy', 'rich') if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert done.stdout.splitlines()[-1] == "[]"
