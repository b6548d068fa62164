"""From a TOML file to a plain mapping; whatever goes wrong on the way is one clear line."""

import tomllib
from pathlib import Path

from bendgen.errors import InputError, Mistake

MOST_BYTES = 1_000_000


def load_toml(path: Path) -> dict[str, object]:
    """Tables and keys in a TOML file.

    Raises
    ------
    InputError
        One mistake: no such file, a folder, not readable, more than 1 MB, not UTF-8, or no TOML.
    """
    return parse_toml(read_content(path, str(path)), str(path))


def read_content(path: Path, file: str) -> bytes:
    """Bytes of an input file, named `file` in mistakes; raises InputError as `load_toml` does."""
    if path.is_dir():
        raise _mistaken(file, "a TOML file", "a folder")
    try:
        with path.open("rb") as stream:
            content = stream.read(MOST_BYTES + 1)
    except FileNotFoundError:
        raise _mistaken(file, "a TOML file", "") from None
    except (OSError, ValueError) as error:  # ValueError: a name that no file can have
        reason = error.strerror if isinstance(error, OSError) else str(error)
        raise _mistaken(file, "a file that can be read", f"'{reason}'") from None
    if len(content) > MOST_BYTES:
        raise _mistaken(file, "at most 1 MB", "a larger file")
    return content


def parse_toml(content: bytes, file: str) -> dict[str, object]:
    """Tables and keys in the bytes of a TOML file; a byte order mark, which some editors write first, is skipped."""
    try:
        return tomllib.loads(content.decode("utf-8-sig"))
    except UnicodeDecodeError as error:
        place = f"line {_lines(content[: error.start])}"
        raise _mistaken(file, "UTF-8 text", "a byte that is none", place=place) from None
    except tomllib.TOMLDecodeError as error:
        reason, _, column = str(error).partition(" (at ")
        line = column.removeprefix("line ").partition(",")[0] if column.startswith("line ") else str(_lines(content))
        raise _mistaken(file, "TOML", f"a syntax error: {reason}", place=f"line {line}") from None
    except RecursionError:
        raise _mistaken(file, "TOML", "tables or lists nested too deep") from None
    except ValueError:  # Python reads no integer of more than 4,300 digits, and no date such as 2026-02-30
        raise _mistaken(file, "TOML", "a number or date that is none") from None


def _lines(content: bytes) -> int:
    return content.rstrip(b"\n").count(b"\n") + 1


def _mistaken(file: str, expected: str, found: str, *, place: str = "") -> InputError:
    return InputError([Mistake(file=file, place=place, expected=expected, found=found)])
