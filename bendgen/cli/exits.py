"""Exit statuses, and the one place where an error becomes lines on stderr."""

import io
import os
import sys
from typing import Any, NoReturn

import typer
from typer.core import TyperGroup

from bendgen.errors import BendgenError

DONE = 0  # also with cautions
LIMIT_BROKEN = 1  # a part cannot be bent as wanted, or a comparison is out of tolerance
BAD_INPUT = 2  # also: bad usage, a file that cannot be read or written
STOPPED = 130  # by Ctrl-C or Ctrl-D, as shells count it
READER_GONE = 141  # whoever reads the output has closed it, as shells count it


class PlainErrors(TyperGroup):
    """The root of all commands: what they raise ends as plain lines and an exit status, never as a traceback."""

    def invoke(self, ctx: Any) -> Any:  # noqa: ANN401 - the type of a context is private to typer
        """Run the command."""
        _show_what_the_terminal_cannot()
        try:
            return super().invoke(ctx)
        except BendgenError as error:
            leave(BAD_INPUT, str(error))
        except BrokenPipeError:
            _close_output()
            leave(READER_GONE)
        except OSError as error:
            leave(BAD_INPUT, f"{error.filename}: {error.strerror}" if error.filename else str(error))
        except typer.Abort:
            leave(STOPPED, "\nstopped")  # the line of the question is still open


def leave(status: int, message: str = "") -> NoReturn:
    """End the command with a status, after a message on stderr."""
    if message:
        typer.echo(message, err=True)
    raise typer.Exit(status)


def end_at_once(ended: SystemExit) -> NoReturn:
    """End the process as `ended` says, without the interpreter taking its modules apart one object after the other.

    That would be a seventh of the time of a whole program, for memory that the system takes back at once. Files are
    written and closed by then.
    """
    sys.stdout.flush()
    sys.stderr.flush()
    os._exit(int(ended.code or DONE))


def _show_what_the_terminal_cannot() -> None:
    """Let a terminal that lacks a character show its code instead of failing; stderr does so by itself."""
    if isinstance(sys.stdout, io.TextIOWrapper):
        sys.stdout.reconfigure(errors="backslashreplace")


def _close_output() -> None:
    """Send the rest nowhere, or Python complains about the closed pipe once more when it ends."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
