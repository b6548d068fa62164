"""What a program foretells, read back from its step list in JSON."""

from collections.abc import Iterator
from pathlib import Path

from bendgen.errors import InputError, Mistake
from bendgen.files.field_types import context_from_data
from bendgen.files.foretold_models import ToldProgram
from bendgen.files.json_text import parse_json, without_nulls
from bendgen.files.other_files import refuse_other_kinds, refuse_siblings
from bendgen.files.output_models import STEPS_FORMAT, STEPS_VERSION
from bendgen.files.output_names import STEPS_JSON
from bendgen.files.text_files import read_text_file
from bendgen.files.validation import sound_table
from bendgen.records.foretold import Foretold


def read_foretold(path: Path) -> Foretold:
    """Program in a .steps.json of at most 1 MB; raises InputError with every mistake."""
    expected = "a .steps.json"
    refuse_siblings(path, expected, STEPS_JSON)
    text = read_text_file(path, expected)
    refuse_other_kinds(text, path, expected, "steps")
    return parse_foretold(text, str(path))


def parse_foretold(text: str, file: str) -> Foretold:
    """Program in a JSON file of format "bendgen-steps", which mistakes call `file`.

    Raises
    ------
    InputError    every mistake; one for another format, or for a version newer than this program
    """
    data = parse_json(text, file, file_format=STEPS_FORMAT, version=STEPS_VERSION)
    foretold = sound_table(ToldProgram, without_nulls(data), file, context_from_data({})).record()
    mistakes = list(_mismatches(foretold, file))
    if mistakes:
        raise InputError(mistakes)
    return foretold


def _mismatches(foretold: Foretold, file: str) -> Iterator[Mistake]:
    """Lists that are not as long as the number of steps asks for."""
    bends = len(foretold.steps)
    vertices = [shape.vertices for shape in (foretold.wanted, foretold.predicted)]
    sizes = {
        "part.correction.bends": (len(foretold.corrections) or bends, bends),
        "wanted.bends": (len(foretold.wanted_tube.bends), bends),
        "wanted.straights": (len(foretold.wanted_tube.straights), bends + 1),
        "wanted.points": (len(foretold.wanted.points), 2 * bends + 2),
        "wanted.vertices": (bends + 2 if vertices[0] is None else len(vertices[0]), bends + 2),
        "predicted.bends": (len(foretold.finished.bends), bends),
        "predicted.straights": (len(foretold.finished.straights), bends + 1),
        "predicted.points": (len(foretold.predicted.points), 2 * bends + 2),
        "predicted.vertices": (bends + 2 if vertices[1] is None else len(vertices[1]), bends + 2),
    }
    for place, (found, expected) in sizes.items():
        if found != expected:
            yield Mistake(file=file, place=place, expected=f"{expected} items for {bends} steps", found=str(found))
