import errno
import os
import subprocess
import sys
from pathlib import Path

import pytest
import typer
from typer.testing import CliRunner

from bendgen.cli.exits import BAD_INPUT, LIMIT_BROKEN, READER_GONE, STOPPED, PlainErrors, leave
from bendgen.errors import InputError, Mistake, OutputError

SAMPLES = Path(__file__).parents[2] / "machine_profiles"
MISTAKES = [
    Mistake(file="a.toml", place="clr", expected="a number", found="'x'"),
    Mistake(file="b", place="", expected="a file", found=""),
]


def app_that_raises(error: BaseException) -> typer.Typer:
    app = typer.Typer(cls=PlainErrors, rich_markup_mode=None, pretty_exceptions_enable=False, add_completion=False)

    @app.callback()
    def root() -> None:
        """Make the command a sub-command, as all commands are."""

    @app.command()
    def fail() -> None:
        raise error

    return app


@pytest.mark.parametrize(
    ("error", "status", "message"),
    [
        (
            InputError(MISTAKES),
            BAD_INPUT,
            "a.toml: clr: expected a number, found 'x'\nb: expected a file, found nothing\n",
        ),
        (OutputError("would overwrite a"), BAD_INPUT, "would overwrite a\n"),
        (PermissionError(errno.EACCES, "Permission denied", "out/a"), BAD_INPUT, "out/a: Permission denied\n"),
        (OSError("the disk is gone"), BAD_INPUT, "the disk is gone\n"),
        (typer.Abort(), STOPPED, "\nstopped\n"),
        (KeyboardInterrupt(), STOPPED, ""),
        (typer.Exit(LIMIT_BROKEN), LIMIT_BROKEN, ""),
    ],
    ids=lambda value: type(value).__name__,
)
def test_what_a_command_raises_is_lines_and_a_status(error: BaseException, status: int, message: str) -> None:
    result = CliRunner().invoke(app_that_raises(error), ["fail"])
    assert (result.exit_code, result.stdout, result.stderr) == (status, "", message)


def test_a_fault_of_the_program_itself_is_not_hidden() -> None:
    result = CliRunner().invoke(app_that_raises(ZeroDivisionError()), ["fail"])
    assert isinstance(result.exception, ZeroDivisionError)


def test_leaving_with_a_message(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(typer.Exit) as left:
        leave(LIMIT_BROKEN, "too short")
    assert left.value.exit_code == LIMIT_BROKEN
    assert capsys.readouterr() == ("", "too short\n")


def bendgen(*arguments: str) -> list[str]:
    return [sys.executable, "-m", "bendgen", *arguments]


def test_a_reader_who_leaves_early_sees_no_traceback() -> None:
    with subprocess.Popen(
        bendgen("machine", "show", str(SAMPLES / "bay2")), stdout=subprocess.PIPE, stderr=subprocess.PIPE
    ) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.close()
        errors = process.stderr.read()
    assert (process.returncode, errors) == (READER_GONE, b"")


def test_a_terminal_without_the_characters_shows_their_codes() -> None:
    done = subprocess.run(
        bendgen("machine", "show", str(SAMPLES / "bay2")),
        env={"PYTHONIOENCODING": "iso8859-5", "PATH": ""},
        capture_output=True,
        check=False,
    )
    assert (done.returncode, done.stderr) == (0, b"")
    assert rb"0.5\xb0 to 195\xb0" in done.stdout


@pytest.mark.parametrize(("code", "status"), [(LIMIT_BROKEN, LIMIT_BROKEN), (0, 0), (None, 0)])
def test_an_end_at_once_loses_no_line_and_no_status(code: int | None, status: int) -> None:
    lines = "import sys; from bendgen.cli.exits import end_at_once; sys.stdout.write('out'); sys.stderr.write('err')"
    done = subprocess.run(
        [sys.executable, "-c", f"{lines}; end_at_once(SystemExit({code}))"], capture_output=True, text=True, check=False
    )
    assert (done.returncode, done.stdout, done.stderr) == (status, "out", "err")


@pytest.mark.skipif(not Path("/proc/self/task").exists(), reason="counts threads where the kernel lists them")
def test_a_command_keeps_no_threads_that_wait_for_one_another() -> None:
    lines = (
        "import os, bendgen.__main__ as command, bendgen.cli.app as commands",
        "commands.app = lambda **_: print(__import__('numpy') and len(os.listdir('/proc/self/task')))",
        "command.main()",
    )
    environment = {name: value for name, value in os.environ.items() if name != "OPENBLAS_NUM_THREADS"}
    done = subprocess.run(
        [sys.executable, "-c", "\n".join(lines)], env=environment, capture_output=True, text=True, check=False
    )
    assert (done.stdout, done.stderr) == ("1\n", "")


@pytest.mark.parametrize("arguments", [[], ["machine"], ["nothing"], ["machine", "check"], ["machine", "show", "--no"]])
def test_bad_usage_is_status_2(arguments: list[str]) -> None:
    done = subprocess.run(bendgen(*arguments), capture_output=True, text=True, check=False)
    assert done.returncode == BAD_INPUT
    assert "Traceback" not in done.stderr
    assert "Usage: " in done.stdout + done.stderr
