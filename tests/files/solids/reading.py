"""Helpers of the tests in this folder."""

from pathlib import Path

from bendgen.files.solids.exchange import Exchange
from bendgen.files.solids.exchange_text import parse_exchange_text
from bendgen.files.solids.solid_file import SolidFile, read_solid_file, solid_file_of
from bendgen.records.solid_tube import OtherSolid, SolidTube


def exchange_of(text: str) -> Exchange:
    """Instances of a file's text, which messages call f.step."""
    return Exchange(source=parse_exchange_text(text.encode(), "f.step"))


def file_of(text: str) -> SolidFile:
    """Solids of a file's text."""
    return solid_file_of(exchange_of(text))


def solids_in(path: Path) -> tuple[SolidTube | OtherSolid, ...]:
    """Every solid of a file, as the tube that it is or why it is none."""
    file = read_solid_file(path)
    return tuple(file.tube([number]) for number in range(1, len(file.solids) + 1))


def tube_of(text: str, *numbers: int, mitre_clr: float | None = None) -> SolidTube:
    """Tube in a file's text, the first unless numbered."""
    found = file_of(text).tube(numbers or (1,), mitre_clr)
    assert isinstance(found, SolidTube), found
    return found


def refusal_of(text: str, *numbers: int) -> str:
    """Why a solid in a file's text is no tube."""
    found = file_of(text).tube(numbers or (1,))
    assert isinstance(found, OtherSolid), found
    return found.reason


def numbers_of(tube: SolidTube) -> tuple[list[float], list[float], list[float], list[float | None]]:
    """Straights, angles, rotations after the first bend, CLR."""
    assert tube.steps is not None
    bends = tube.steps.bends
    return (
        [*(bend.straight for bend in bends), tube.steps.rear],
        [bend.angle_deg for bend in bends],
        [bend.rotation_deg for bend in bends[1:]],
        [bend.clr for bend in bends],
    )
