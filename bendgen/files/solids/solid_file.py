"""Tubes in a file of solids, ISO 10303-21."""

import gc
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path

from bendgen.files.solids.exchange import Exchange
from bendgen.files.solids.exchange_text import read_exchange_text
from bendgen.files.solids.faces import Face, faces_of_solid, moved_faces
from bendgen.files.solids.instances import PlacedSolid, placed_solids
from bendgen.files.solids.pieces import NoTubeError
from bendgen.files.solids.tolerances import tolerances
from bendgen.files.solids.tube_of_faces import tube_of_faces
from bendgen.files.solids.tube_record import tube_record
from bendgen.records.solid_tube import OtherSolid, SolidTube

NO_SOLIDS = (
    "SHELL_BASED_SURFACE_MODEL",
    "OPEN_SHELL",
    "FACETED_BREP",
    "TESSELLATED_SOLID",
    "TESSELLATED_SHELL",
    "GEOMETRIC_SET",
    "GEOMETRIC_CURVE_SET",
)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SolidFile:
    """A file and the solids in it, in the order by which they are numbered."""

    exchange: Exchange
    solids: tuple[PlacedSolid, ...]

    def tube(self, numbers: Sequence[int], mitre_clr: float | None = None) -> SolidTube | OtherSolid:
        """Tube that one solid is, or several that meet end to end.

        Parameters
        ----------
        numbers : of solids, counted from 1
        mitre_clr : CLR [mm] of the bends that are to take the place of mitres
        """
        chosen = [self.solids[number - 1] for number in numbers]
        first = chosen[0]
        name = " + ".join(solid.name or f"solid {number}" for number, solid in zip(numbers, chosen, strict=True))
        try:
            found = tube_of_faces(self._faces(chosen), tolerances(self.exchange, first.unit, first.frame.scale))
        except NoTubeError as error:
            return OtherSolid(number=numbers[0], name=name, reason=str(error))
        return tube_record(found, mitre_clr, number=numbers[0], solid=first, name=name)

    def _faces(self, chosen: Sequence[PlacedSolid]) -> list[Face]:
        faces: list[Face] = []
        with _nothing_collected():
            for solid in chosen:
                at_size = faces_of_solid(self.exchange, solid.number, solid.unit.mm * solid.frame.scale)
                faces.extend(moved_faces(at_size, replace(solid.frame, scale=1.0)))
        return faces


@contextmanager
def _nothing_collected() -> Iterator[None]:
    """No search for garbage: among instances by the hundred thousand it takes a sixth of the time and finds none."""
    before = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if before:
            gc.enable()


def read_solid_file(path: Path) -> SolidFile:
    """Solids in a file of at most 64 MB; raises InputError with one mistake."""
    return solid_file_of(Exchange(source=read_exchange_text(path)))


def solid_file_of(exchange: Exchange) -> SolidFile:
    """Solids among the instances of a file; raises InputError where there is none."""
    solids = placed_solids(exchange)
    if not solids:
        others = [name for name in NO_SOLIDS if next(exchange.source.numbers_of(name), None) is not None]
        raise exchange.mistaken("", "a solid with exact faces", f"only {', '.join(others)}" if others else "none")
    return SolidFile(exchange=exchange, solids=tuple(solids))
