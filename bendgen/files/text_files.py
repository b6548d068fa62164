"""Bytes and text of an input file; whatever goes wrong on the way is one clear line."""

from pathlib import Path

from bendgen.errors import InputError, mistaken

MOST_BYTES = 1_000_000
LARGE_FILE = 20_000_000  # bytes; a hundred thousand points with all their digits take 6 MB
UTF_16_MARKS = (b"\xff\xfe", b"\xfe\xff")  # with which such a text begins
ARCHIVE_MARK = b"PK\x03\x04"
SAVE_ANEW = "save the file anew with the encoding UTF-8"


def read_content(path: Path, file: str, *, expected: str, most_bytes: int = MOST_BYTES) -> bytes:
    """Bytes of an input file, named `file` in mistakes; `expected` says what should be there where there is none.

    Raises
    ------
    InputError    one mistake: no such file, a folder, not readable, too large
    """
    if path.is_dir():
        raise mistaken(file, expected, "a folder")
    try:
        with path.open("rb") as stream:
            content = stream.read(most_bytes + 1)
    except FileNotFoundError:
        raise mistaken(file, expected) from None
    except (OSError, ValueError) as error:  # ValueError: a name that no file can have
        reason = error.strerror if isinstance(error, OSError) else str(error)
        raise mistaken(file, "a file that can be read", f"'{reason}'") from None
    if len(content) > most_bytes:
        raise mistaken(file, f"at most {most_bytes // 1_000_000} MB", "a larger file")
    return content


def read_text_file(path: Path, expected: str, *, most_bytes: int = MOST_BYTES) -> str:
    """Text in a file, UTF-8 or, behind its mark, UTF-16 as spreadsheets save it; raises as `read_content` does."""
    file = str(path)
    content = read_content(path, file, expected=expected, most_bytes=most_bytes)
    if not content.startswith(UTF_16_MARKS):
        return utf_8_text(content, file)
    try:
        return content.decode("utf-16")
    except UnicodeDecodeError:
        raise mistaken(file, "UTF-16 text, whose mark it begins with", "bytes that are none") from None


def utf_8_text(content: bytes, file: str) -> str:
    """Text in bytes; a byte order mark, which some editors write first, is skipped; raises InputError for others."""
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise _no_utf_8(content, error.start, file) from None


def _no_utf_8(content: bytes, at: int, file: str) -> InputError:
    """What such bytes are likely to be, and how to make text of them."""
    if content.startswith(ARCHIVE_MARK):
        return mistaken(file, "text", "a spreadsheet or another archive: save what it shows as CSV")
    if content.startswith(UTF_16_MARKS):
        return mistaken(file, "UTF-8 text", f"UTF-16 text: {SAVE_ANEW}")
    line = content[:at].count(b"\n") + 1
    letter = content[at : at + 1].decode("cp1252", errors="replace")
    found = f"a byte that is none, '{letter}' in a code page of Windows: {SAVE_ANEW}"
    return mistaken(file, "UTF-8 text", found, place=f"line {line}")
