"""Names of what a program writes: `NUMBER_REVISION_ISSUE` and a suffix, safe on every system the files may reach.

The opposite hand has names and issues of its own, `NUMBER_REVISION_mirrored_ISSUE`: it replaces nothing.

Letters and digits of any script stay; a space, a slash, a control or bidirectional character becomes `_`.
"""

import hashlib
import re
import unicodedata
from collections import defaultdict
from collections.abc import Iterable, Sequence
from pathlib import Path

from bendgen.errors import OutputError
from bendgen.records.part import Part

STEPS_CSV = ".steps.csv"
MACHINE_CSV = ".machine.csv"
SHEET_TEXT = ".sheet.txt"
SHEET_PAGE = ".sheet.html"
SHEET_PDF = ".sheet.pdf"
AXIS_CSV = ".axis.csv"
AXIS_DXF = ".axis.dxf"
STEPS_JSON = ".steps.json"
SUFFIXES = (STEPS_CSV, MACHINE_CSV, SHEET_TEXT, SHEET_PAGE, SHEET_PDF, AXIS_CSV, AXIS_DXF, STEPS_JSON)

MOST_BYTES = 120  # of a whole file name
LARGEST_ISSUE = 999_999
MIRRORED = "_mirrored"
MOST_BASE_BYTES = MOST_BYTES - max(len(suffix) for suffix in SUFFIXES) - len(f"{MIRRORED}_{LARGEST_ISSUE}")
MOST_REVISION_BYTES = 30

# Names that Windows keeps for devices, whatever follows the first dot.
DEVICE = re.compile(r"(CON|PRN|AUX|NUL|COM[0-9]|LPT[0-9])(?![^.])", re.IGNORECASE)


def output_stem(part: Part, issue: int) -> str:
    """File name of an issue without its suffix; raises OutputError for an issue below 1 or beyond six digits."""
    if not 1 <= issue <= LARGEST_ISSUE:
        raise OutputError(f"issue {issue} cannot be written: issues go from 1 to {LARGEST_ISSUE}")
    return f"{_base(part)}_{issue}"


def next_issue(folder: Path, part: Part) -> int:
    """One more than the highest issue of this number and revision in a folder, 1 if there is none."""
    pattern = re.compile(re.escape(_apart_from_case(_base(part))) + r"_([0-9]{1,6})(\.[a-z]+\.[a-z]+)")
    found = (pattern.fullmatch(_apart_from_case(name)) for name in _names_in(folder))
    return 1 + max((int(match[1]) for match in found if match and match[2] in SUFFIXES), default=0)


def refuse_shared_names(parts: Iterable[tuple[str, Part]]) -> None:
    """Raise OutputError where files of two parts (file, part) would have one name, upper and lower case being one."""
    files: defaultdict[str, list[str]] = defaultdict(list)
    bases: dict[str, str] = {}
    for file, part in parts:
        base = bases.setdefault(_apart_from_case(_base(part)), _base(part))
        files[base].append(file)
    shared = [_shared_name(base, sharers) for base, sharers in files.items() if sharers[1:]]
    if shared:
        raise OutputError("\n".join(shared))


def _shared_name(base: str, sharers: Sequence[str]) -> str:
    if len(set(sharers)) == 1:
        return f"{sharers[0]} is named {len(sharers)} times; name it once"
    return f"{_listed(sharers)} would all be written as {base}; give each a number or revision of its own"


def safe_name(stem: str, ending: str) -> str:
    """File name from any text and an ending that is safe as it is."""
    return f"{_shortened(_safe_start(_safe_text(stem)), MOST_BYTES - len(ending.encode()))}{ending}"


def _base(part: Part) -> str:
    """NUMBER_REVISION and the hand, shortened to leave room for issue and suffix, the number first of all."""
    revision = _shortened(_safe_text(part.revision), MOST_REVISION_BYTES)
    number = _shortened(_safe_start(_safe_text(part.number)), MOST_BASE_BYTES - len(f"_{revision}".encode()))
    return f"{number}_{revision}{MIRRORED if part.mirrored else ''}"


def _safe_text(text: str) -> str:
    characters = unicodedata.normalize("NFC", text)
    return "".join(c if c.isalpha() or c.isdecimal() or c in "._-" else "_" for c in characters)


def _safe_start(text: str) -> str:
    """Neither a hidden file nor a device."""
    if text.startswith("."):
        return f"_{text[1:]}"
    return f"_{text}" if DEVICE.match(text) else text


def _shortened(text: str, most_bytes: int) -> str:
    """Shorten to the beginning and eight hex digits of the whole, so that long texts differ in their ends."""
    content = text.encode()
    if len(content) <= most_bytes:
        return text
    digest = hashlib.sha256(content).hexdigest()[:8]
    return f"{content[: most_bytes - 9].decode(errors='ignore')}-{digest}"


def _apart_from_case(text: str) -> str:
    return unicodedata.normalize("NFC", text).casefold()


def _names_in(folder: Path) -> list[str]:
    try:
        return [path.name for path in folder.iterdir()]
    except FileNotFoundError:
        return []
    except OSError as error:
        raise OutputError(f"{folder}: cannot be read as a folder: {error.strerror}") from error


def _listed(files: Sequence[str]) -> str:
    return f"{', '.join(files[:-1])} and {files[-1]}"
