"""Text of an ISO 10303-21 file: what it is, and where each instance begins."""

import re
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from bendgen.errors import InputError, mistaken
from bendgen.files.solids.instance_index import InstanceIndex, NoInstanceError, index_of_instances

MOST_BYTES = 64_000_000
MOST_MARKS = (("instances", ";", 2_000_000), ("quotation marks", "'", 8_000_000))  # each takes some 100 bytes of memory
EXPECTED = "a solid model, ISO 10303-21"
SCHEMAS = ("AUTOMOTIVE_DESIGN", "CONFIG_CONTROL_DESIGN", "AP203", "AP214", "AP242")

_SCHEMA = re.compile(r"FILE_SCHEMA\s*\(\s*\(\s*'([^']*)'", re.IGNORECASE)
_NAME = re.compile(r"[A-Z0-9_]*")
_DATA = re.compile(r"\bDATA\s*(?:\([^;]{0,1000}\)\s*)?;")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ExchangeText:
    """The text, one character for each byte, without comments, and its instances."""

    file: str
    text: str
    index: InstanceIndex

    def numbers_of(self, kind: str) -> Iterator[int]:
        """Numbers of the simple instances whose type begins with `kind`, in the order of the file."""
        places = zip(self.index.numbers, self.index.starts, strict=True)
        return (number for number, start in places if self.text.startswith(kind, start))

    def types_with(self, word: str) -> dict[str, list[int]]:
        """Numbers of the simple instances whose type has a word in it, by type, in the order of the file."""
        numbers: dict[str, list[int]] = {}
        position = self.text.find(word)
        while position >= 0:
            row = bisect_right(self.index.starts, position) - 1
            name = _NAME.match(self.text, self.index.starts[row]) if row >= 0 else None
            if name and name.end() > position:
                numbers.setdefault(name[0], []).append(self.index.numbers[row])
            position = self.text.find(word, position + len(word))
        return numbers

    def bodies(self, numbers: Sequence[int]) -> list[str]:
        """What stands behind each `#number =`; nothing where there is no such instance."""
        index, text = self.index, self.text
        rows = [index.rows.get(number) for number in numbers]
        return ["" if row is None else text[index.starts[row] : index.ends[row]] for row in rows]

    def body(self, number: int) -> str | None:
        """What stands behind `#number =`, or None."""
        row = self.index.rows.get(number)
        return None if row is None else self.text[self.index.starts[row] : self.index.ends[row]]


def is_exchange_text(content: bytes) -> bool:
    """Whether a file that begins so is one of ISO 10303-21."""
    return content.removeprefix(b"\xef\xbb\xbf").lstrip()[:13].upper() == b"ISO-10303-21;"


def read_exchange_text(path: Path) -> ExchangeText:
    """Text in a file of at most 64 MB; raises InputError with one mistake."""
    file = str(path)
    try:
        if path.stat().st_size > MOST_BYTES:
            raise mistaken(file, f"at most {MOST_BYTES / 1e6:.0f} MB", f"{path.stat().st_size / 1e6:.0f} MB")
        content = path.read_bytes()
    except (OSError, ValueError) as error:  # ValueError: a name that no file can have
        if isinstance(error, InputError):
            raise
        found = "" if isinstance(error, FileNotFoundError) else f"'{getattr(error, 'strerror', None) or error}'"
        raise mistaken(file, EXPECTED, found) from None
    return parse_exchange_text(content, file)


def parse_exchange_text(content: bytes, file: str) -> ExchangeText:
    """Text in the bytes of a file; raises InputError: another format or schema, cut short, no syntax."""
    if not is_exchange_text(content):
        raise mistaken(file, f"{EXPECTED}, which begins with ISO-10303-21;", "something else")
    text = _without_comments(content.decode("latin-1"), file)
    for what, mark, most in MOST_MARKS:
        if text.count(mark) > most:
            raise mistaken(file, f"at most {most} {what}", "more")
    if text.rfind("END-ISO-10303-21") < 0:
        raise mistaken(file, "END-ISO-10303-21; at its end", "a file cut short")
    first = _DATA.search(text)
    if not first:
        raise mistaken(file, "a DATA section")
    _check_schema(text[: first.start()], file)
    return _indexed(text, first.end(), file)


def _check_schema(header: str, file: str) -> None:
    schema = _SCHEMA.search(header)
    if not schema or not schema[1].strip().upper().startswith(SCHEMAS):
        expected = "a schema for mechanical parts (AP203, AP214 or AP242)"
        raise mistaken(file, expected, f"'{one_line(schema[1])}'" if schema else "", place="FILE_SCHEMA")


def _without_comments(text: str, file: str) -> str:
    """Text without what stands between /* and */, unless that is itself quoted."""
    kept: list[str] = []
    taken = position = quotes = 0
    while (start := text.find("/*", position)) >= 0:
        quotes += text.count("'", position, start)
        position = start + 1
        if quotes % 2:
            continue
        end = text.find("*/", start + 2)
        if end < 0:
            raise mistaken(file, "*/ at the end of a comment", place=_line(text, start))
        kept.append(text[taken:start])
        taken = position = end + 2
    return "".join([*kept, text[taken:]])


def _indexed(text: str, position: int, file: str) -> ExchangeText:
    try:
        return ExchangeText(file=file, text=text, index=index_of_instances(text, position))
    except NoInstanceError as error:
        place = _line(text, error.position)
        if error.twice is not None:
            raise mistaken(file, f"#{error.twice} once", "it twice", place=place) from None
        start = one_line(text[error.position : error.position + 400], 40)
        raise mistaken(file, "an instance, #12 = NAME(…);", f"'{start}'", place=place) from None


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
