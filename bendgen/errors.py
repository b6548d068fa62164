"""What can be wrong with the input.

A part that cannot be bent is not an error but a finding (`bendgen.records.findings`). An error is something the
program cannot compute with; the command line turns each into lines on stderr and exit status 2.

    BendgenError (also a ValueError)
    ├── InputError        one or more mistakes in files: each with file, place, what was expected, what was found
    ├── GeometryError     points or angles that describe no tube
    ├── ToolingError      no die set or no table of the profile serves the part, or more than one does
    └── OutputError       a file that would be overwritten or cannot be written
"""

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Mistake:
    """One mistake in an input file.

    file : name of the file as the user gave it, or relative to the profile folder
    place : path to the value, `row[2].angle`, or `line 7`; empty for the file as a whole
    expected, found : in words; `found` is empty where nothing was there
    """

    file: str
    place: str
    expected: str
    found: str

    def __str__(self) -> str:
        where = f"{self.file}: {self.place}" if self.place else self.file
        return f"{where}: expected {self.expected}, found {self.found or 'nothing'}"


class BendgenError(ValueError):
    """Root of all errors of this package."""


class InputError(BendgenError):
    """Mistakes in input files, all of them at once, in the order of the files."""

    def __init__(self, mistakes: Sequence[Mistake]) -> None:
        self.mistakes = tuple(mistakes)
        super().__init__("\n".join(str(mistake) for mistake in self.mistakes))


def mistaken(file: str, expected: str, found: str = "", *, place: str = "") -> InputError:
    """Error of one mistake, its parts as in `Mistake`."""
    return InputError([Mistake(file=file, place=place, expected=expected, found=found)])


class GeometryError(BendgenError):
    """Points that describe no tube; `vertex` is the number of the first bad one, counted from 1."""

    def __init__(self, message: str, vertex: int | None = None) -> None:
        self.vertex = vertex
        super().__init__(message)


class ToolingError(BendgenError):
    """No die set or table of the profile serves the part, or more than one does."""


class OutputError(BendgenError):
    """A file that would be overwritten, or cannot be written."""
