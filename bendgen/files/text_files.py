"""Text of an input file; whatever goes wrong on the way is one clear line."""

from pathlib import Path

from bendgen.errors import mistaken
from bendgen.files.toml_input import MOST_BYTES, read_content

LARGE_FILE = 20_000_000  # bytes; a hundred thousand points with all their digits take 6 MB
UTF_16 = (b"\xff\xfe", b"\xfe\xff")  # the marks with which such a text begins


def read_text_file(path: Path, expected: str, *, most_bytes: int = MOST_BYTES) -> str:
    """Text in a UTF-8 file of at most 1 MB or `most_bytes`; `expected` says what should be there where there is none.

    Raises
    ------
    InputError    one mistake: no such file, a folder, not readable, too large, not UTF-8
    """
    file = str(path)
    if path.is_dir() or not path.exists():
        found = "a folder" if path.is_dir() else ""
        raise mistaken(file, expected, found)
    content = read_content(path, file, most_bytes=most_bytes)
    try:
        return content.decode("utf-8")
    except UnicodeDecodeError as error:
        line = content[: error.start].count(b"\n") + 1
        found = "UTF-16 text" if content.startswith(UTF_16) else f"a byte that is none, at line {line}"
        raise mistaken(file, "UTF-8 text", found) from None
