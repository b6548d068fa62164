"""Solids damaged in thousands of ways are read or refused in one line, each quickly; on demand, as the others here.

    .venv/bin/pytest -m benchmark tests/benchmarks/test_solids_fuzz.py -n 0

`python -m tests.benchmarks.test_solids_fuzz SECONDS` goes on for that long. What it finds becomes a test of its own.
"""

import random
import re
import sys
import time
import warnings
from collections.abc import Iterator, Sequence
from functools import partial
from pathlib import Path

import pytest

from bendgen.errors import InputError
from bendgen.files.solids.exchange import Exchange
from bendgen.files.solids.exchange_text import parse_exchange_text
from bendgen.files.solids.solid_file import solid_file_of
from bendgen.records.solid_tube import OtherSolid
from tests.solid_writer import TubeMaker, Writer, fitted_surface, tube_text

pytestmark = pytest.mark.benchmark

DAMAGES = 1000
SLOWEST = 2.0  # s of the processor
MADE = Path(__file__).parents[1] / "files" / "solids" / "made"
TOKEN = re.compile(rb"#\d+|-?\d+\.\d*(?:E[-+]?\d+)?|[A-Z_]{4,}|\.[A-Z]+\.|[(),;']")
PIECES = (
    *(b"(" * 5000, b"#1", b"#999999999", b"$", b"*", b"''", b"()", b"1.E308", b"-0.", b"9" * 400, b"nan", b".F."),
    *(b"/*", b"'", b";", b"\\X2\\D8\\X0\\", b"\x00", b"\xff", b"ENDSEC;DATA;", b"#1=A();", b" " * 5000),
)


def seeds() -> Iterator[bytes]:
    """Small files with much of what a file may hold."""
    short = ((30.0, 0.0, 90.0, 40.0),)
    makers = (
        TubeMaker(Writer(unit="in"), parts=2, rounded=0.5),
        TubeMaker(Writer(), radii=(19.05,), surface=partial(fitted_surface, around=13)),
        TubeMaker(Writer(decimals=3, direction_decimals=4)),
    )
    yield from (tube_text(short, 20.0, maker=maker).encode() for maker in makers)
    yield from ((MADE / f"{name}.step").read_bytes() for name in ("three_quarters", "no_straights", "nested", "capped"))


def damaged(content: bytes, generator: random.Random) -> bytes:
    """Content with a few bytes, or a few of its references, numbers, names and marks, others than they were."""
    tokens = [found.span() for found in TOKEN.finditer(content)]
    for _ in range(generator.choice((1, 1, 2, 4))):
        start, end = generator.choice(tokens)
        other = generator.choice(tokens)
        match generator.randrange(6):
            case 0:  # a token in place of another
                new = content[slice(*other)]
            case 1:
                new = generator.choice(PIECES)
            case 2:  # another token of its kind: a reference elsewhere, another type
                new = generator.choice(_alike(content, tokens, content[start:end], generator))
            case 3:
                new = b""
            case 4:  # some text twice
                new = content[start : start + generator.randint(1, 300)] * 2
            case _:
                new, end = b"", start + generator.randint(1, 300)
        content = content[:start] + new + content[end:]
    return content[: generator.randrange(len(content))] if generator.random() < 0.02 else content


def _alike(content: bytes, tokens: Sequence[tuple[int, int]], token: bytes, generator: random.Random) -> list[bytes]:
    some = [content[slice(*generator.choice(tokens))] for _ in range(50)]
    return [other for other in some if other[:1].isalpha() == token[:1].isalpha()] or [token]


def check(content: bytes) -> str:
    """Read whatever it is; what came of it."""
    start = time.process_time()
    lines = []
    try:
        file = solid_file_of(Exchange(source=parse_exchange_text(content, "f.step")))
        found = [file.tube([number]) for number in range(1, len(file.solids) + 1)]
        lines = [solid.reason for solid in found if isinstance(solid, OtherSolid)]
    except InputError as error:
        lines = [str(error)]
    assert time.process_time() - start < SLOWEST
    assert all(line.isprintable() and len(line) <= 600 for line in lines), lines
    return "refused" if lines else "read"


@pytest.mark.parametrize("content", list(seeds()), ids=lambda content: f"{len(content)}")
def test_damaged_solids(content: bytes) -> None:
    generator = random.Random(len(content))  # noqa: S311 - no secret
    for _ in range(DAMAGES):
        check(damaged(content, generator))


def main(seconds: float) -> None:
    """Go on until time is up; each file that breaks the reader is kept in the working folder."""
    warnings.simplefilter("error")
    counts = {"read": 0, "refused": 0, "broken": 0}
    end = time.monotonic() + seconds
    contents = list(seeds())
    generator = random.Random()  # noqa: S311 - no secret
    while time.monotonic() < end:
        broken = damaged(generator.choice(contents), generator)
        try:
            counts[check(broken)] += 1
        except Exception as error:  # any is a find
            counts["broken"] += 1
            Path(f"find{counts['broken']}.step").write_bytes(broken)
            print(f"find{counts['broken']}.step: {error!r:.300}")  # noqa: T201 - what one runs it for
    print(counts)  # noqa: T201 - what one runs it for


if __name__ == "__main__":
    main(float(sys.argv[1]))
