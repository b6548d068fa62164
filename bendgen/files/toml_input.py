"""From a TOML file to a plain mapping; whatever goes wrong on the way is one clear line."""

import re
import tomllib
from pathlib import Path

from bendgen.errors import InputError, mistaken
from bendgen.files.text_files import read_content, utf_8_text

# A dotted key of 20 parts; the parser's memory grows with the square of their number.
_DEEP_KEY = re.compile(r"""(?<![\w-])(?:(?:[\w-]+|"[^"\n]*"|'[^'\n]*')[ \t]*\.[ \t]*){20}""")

LONGEST_LINE = 1000  # that a person writes; in longer ones no slip is looked for beyond it
_USUAL_SLIPS = {
    re.compile(r"=[ \t]*([+-]?[0-9]{1,9},[0-9]{1,9})(?![\w.])"): "a decimal point, not a comma",
    re.compile(r"=[ \t]*(?!(?:true|false|inf|nan)\b)([A-Za-z][\w ./-]{0,40})[ \t\r]*(?:#.*)?$"): (
        "text between quotation marks"
    ),
    re.compile(r"""=[ \t]*("[\w ./-]{0,40})[ \t\r]*(?:#.*)?$"""): "a quotation mark at both ends of a text",
    re.compile(r"^[ \t]*([\w.-]{1,40}[ \t]*=)[ \t\r]*(?:#.*)?$"): "a value behind the equals sign",
}


def load_toml(path: Path) -> dict[str, object]:
    """Tables and keys in a TOML file.

    Raises
    ------
    InputError
        One mistake: no such file, a folder, not readable, more than 1 MB, not UTF-8, or no TOML.
    """
    return parse_toml(read_content(path, str(path), expected="a TOML file"), str(path))


def parse_toml(content: bytes, file: str) -> dict[str, object]:
    """Tables and keys in the bytes of a TOML file; a byte order mark, which some editors write first, is skipped."""
    text = utf_8_text(content, file)
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


def _lines(content: bytes) -> int:
    """Return the number of the last line with content."""
    return content.rstrip(b"\n").count(b"\n") + 1


def _nested_too_deep(file: str) -> InputError:
    return mistaken(file, "TOML", "tables or lists nested too deep")
