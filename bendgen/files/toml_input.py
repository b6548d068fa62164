"""From a TOML file to a plain mapping; whatever goes wrong on the way is one clear line."""

import re
import tomllib
from pathlib import Path

from bendgen.errors import InputError, mistaken

MOST_BYTES = 1_000_000

# A dotted key of 20 parts; the parser's memory grows with the square of their number.
_DEEP_KEY = re.compile(r"""(?<![\w-])(?:(?:[\w-]+|"[^"\n]*"|'[^'\n]*')[ \t]*\.[ \t]*){20}""")

LONGEST_LINE = 1000  # that a person writes; in longer ones no slip is looked for beyond it
_USUAL_SLIPS = {
    re.compile(r"=[ \t]*([+-]?[0-9]{1,9},[0-9]{1,9})(?![\w.])"): "a decimal point, not a comma",
    re.compile(r"=[ \t]*(?!(?:true|false|inf|nan)\b)([A-Za-z][\w ./-]{0,40})[ \t\r]*(?:#.*)?$"): (
        "text between quotation marks"
    ),
    re.compile(r"""=[ \t]*("[\w ./-]{0,40})[ \t\r]*(?:#.*)?$"""): "a quotation mark at both ends of a text",
}


def load_toml(path: Path) -> dict[str, object]:
    """Tables and keys in a TOML file.

    Raises
    ------
    InputError
        One mistake: no such file, a folder, not readable, more than 1 MB, not UTF-8, or no TOML.
    """
    return parse_toml(read_content(path, str(path)), str(path))


def read_content(path: Path, file: str, *, most_bytes: int = MOST_BYTES) -> bytes:
    """Bytes of an input file, named `file` in mistakes; raises InputError as `load_toml` does."""
    if path.is_dir():
        raise mistaken(file, "a TOML file", "a folder")
    try:
        with path.open("rb") as stream:
            content = stream.read(most_bytes + 1)
    except FileNotFoundError:
        raise mistaken(file, "a TOML file") from None
    except (OSError, ValueError) as error:  # ValueError: a name that no file can have
        reason = error.strerror if isinstance(error, OSError) else str(error)
        raise mistaken(file, "a file that can be read", f"'{reason}'") from None
    if len(content) > most_bytes:
        raise mistaken(file, f"at most {most_bytes // 1_000_000} MB", "a larger file")
    return content


def parse_toml(content: bytes, file: str) -> dict[str, object]:
    """Tables and keys in the bytes of a TOML file; a byte order mark, which some editors write first, is skipped."""
    text = _decoded(content, file)
    if _DEEP_KEY.search(text):
        raise _nested_too_deep(file)
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        reason, _, where = str(error).partition(" (at ")  # "line 2, column 5)" or "end of document)"
        line = re.match(r"line (\d+)", where)
        number = int(line[1]) if line else _lines(content)
        expected, found = _usual_slip(text.split("\n")[number - 1]) or ("TOML", f"a syntax error: {reason}")
        raise mistaken(file, expected, found, place=f"line {number}") from None
    except RecursionError:
        raise _nested_too_deep(file) from None
    except ValueError:  # Python reads no integer of more than 4,300 digits
        raise mistaken(file, "TOML", "a number of far too many digits") from None


def _usual_slip(line: str) -> tuple[str, str] | None:
    """What a line that is no TOML should have and has, where it is one of the slips that shops make."""
    for slip, expected in _USUAL_SLIPS.items():
        if made := slip.search(line[:LONGEST_LINE]):
            return expected, f"'{made[1].strip()}'"
    return None


def _decoded(content: bytes, file: str) -> str:
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        place = f"line {_lines(content[: error.start])}"
        raise mistaken(file, "UTF-8 text", "a byte that is none", place=place) from None


def _lines(content: bytes) -> int:
    """Return the number of the last line with content."""
    return content.rstrip(b"\n").count(b"\n") + 1


def _nested_too_deep(file: str) -> InputError:
    return mistaken(file, "TOML", "tables or lists nested too deep")
