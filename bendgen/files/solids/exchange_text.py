"""Text of an ISO 10303-21 file: what it is, and where each instance begins."""

import re
from collections import defaultdict
from dataclasses import dataclass
from pathlib import Path

from bendgen.errors import InputError, Mistake

MOST_BYTES = 64_000_000
EXPECTED = "a solid model, ISO 10303-21"
SCHEMAS = ("AUTOMOTIVE_DESIGN", "CONFIG_CONTROL_DESIGN", "AP203", "AP214", "AP242")

_STATEMENT = re.compile(
    r"\s*+#(?P<number>[0-9]{1,18})\s*+=\s*+(?P<body>(?P<type>[A-Z0-9_]*+)(?:[^;']++|'[^']*+')*+);", re.IGNORECASE
)
_COMMENT_OR_TEXT = re.compile(r"'[^']*+'|/\*")
_SCHEMA = re.compile(r"FILE_SCHEMA\s*\(\s*\(\s*'([^']*)'", re.IGNORECASE)
_END_OF_SECTION = re.compile(r"\s*ENDSEC\s*;\s*")
_DATA = re.compile(r"\bDATA\s*(?:\([^;]{0,1000}\)\s*)?;")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ExchangeText:
    """The text, one character for each byte, without comments.

    starts : where each instance begins, by its number
    numbers : instances by type; complex ones under ""
    """

    file: str
    text: str
    starts: dict[int, int]
    numbers: dict[str, list[int]]

    def body(self, number: int) -> str | None:
        """What stands behind `#number =`, or None."""
        start = self.starts.get(number)
        found = None if start is None else _STATEMENT.match(self.text, start)
        return found["body"] if found else None


def is_exchange_text(content: bytes) -> bool:
    """Whether a file that begins so is one of ISO 10303-21."""
    return content.removeprefix(b"\xef\xbb\xbf").lstrip()[:13].upper() == b"ISO-10303-21;"


def read_exchange_text(path: Path) -> ExchangeText:
    """Text in a file of at most 64 MB; raises InputError with one mistake."""
    file = str(path)
    try:
        if path.stat().st_size > MOST_BYTES:
            raise _mistaken(file, f"at most {MOST_BYTES / 1e6:.0f} MB", f"{path.stat().st_size / 1e6:.0f} MB")
        content = path.read_bytes()
    except (OSError, ValueError) as error:  # ValueError: a name that no file can have
        if isinstance(error, InputError):
            raise
        found = "" if isinstance(error, FileNotFoundError) else f"'{getattr(error, 'strerror', None) or error}'"
        raise _mistaken(file, EXPECTED, found) from None
    return parse_exchange_text(content, file)


def parse_exchange_text(content: bytes, file: str) -> ExchangeText:
    """Text in the bytes of a file; raises InputError: another format or schema, cut short, no syntax."""
    if not is_exchange_text(content):
        raise _mistaken(file, f"{EXPECTED}, which begins with ISO-10303-21;", "something else")
    text = _without_comments(content.decode("latin-1"), file)
    if text.rfind("END-ISO-10303-21") < 0:
        raise _mistaken(file, "END-ISO-10303-21; at its end", "a file cut short")
    first = _DATA.search(text)
    if not first:
        raise _mistaken(file, "a DATA section", "")
    _check_schema(text[: first.start()], file)
    return _indexed(text, first.end(), file)


def _check_schema(header: str, file: str) -> None:
    schema = _SCHEMA.search(header)
    if not schema or not schema[1].strip().upper().startswith(SCHEMAS):
        expected = "a schema for mechanical parts (AP203, AP214 or AP242)"
        raise _mistaken(file, expected, f"'{one_line(schema[1])}'" if schema else "", place="FILE_SCHEMA")


def _without_comments(text: str, file: str) -> str:
    """Text without what stands between /* and */, quoted texts left as they are."""
    if "/*" not in text:
        return text
    kept, position = [], 0
    while found := _COMMENT_OR_TEXT.search(text, position):
        if found[0] != "/*":
            kept.append(text[position : found.end()])
            position = found.end()
            continue
        kept.append(text[position : found.start()])
        position = text.find("*/", found.end()) + 2
        if position == 1:
            raise _mistaken(file, "*/ at the end of a comment", "", place=_line(text, found.start()))
    return "".join([*kept, text[position:]])


def _indexed(text: str, position: int, file: str) -> ExchangeText:
    starts: dict[int, int] = {}
    numbers: dict[str, list[int]] = defaultdict(list)
    while True:
        while found := _STATEMENT.match(text, position):
            number = int(found["number"])
            if number in starts:
                raise _mistaken(file, f"#{number} once", "it twice", place=_line(text, found.start()))
            starts[number] = position
            numbers[found["type"].upper()].append(number)
            position = found.end()
        ended = _END_OF_SECTION.match(text, position)
        if not ended:
            start = one_line(text[position : position + 400], 40)
            raise _mistaken(file, "an instance, #12 = NAME(…);", f"'{start}'", place=_line(text, position))
        another = _DATA.match(text, ended.end())
        if not another:
            return ExchangeText(file=file, text=text, starts=starts, numbers=dict(numbers))
        position = another.end()


def one_line(text: str, most: int = 60) -> str:
    """Text of a file as a message or a name may show it: no control or bidirectional characters, not too long."""
    plain = "".join(character if character.isprintable() else " " for character in text[: 10 * most])
    plain = " ".join(plain.split())
    return plain if len(plain) <= most else f"{plain[: most - 1]}…"


def _line(text: str, position: int) -> str:
    """Place of the first visible character from `position` on."""
    while position < len(text) and text[position].isspace():
        position += 1
    return f"line {text.count(chr(10), 0, position) + 1}"


def _mistaken(file: str, expected: str, found: str, *, place: str = "") -> InputError:
    return InputError([Mistake(file=file, place=place, expected=expected, found=found)])
