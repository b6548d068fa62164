"""The JSON of a tube that was read from a file of others."""

import math
from collections.abc import Iterator, Sequence

from bendgen.files.found_items import TUBE_FORMAT, TUBE_VERSION, FoundBendItem, TubeFile
from bendgen.files.json_text import format_json
from bendgen.records.found_bends import FoundBends
from bendgen.records.found_tube import FoundTube
from bendgen.records.part import Centreline


def format_found_json(
    file: str, found: FoundTube, bends: FoundBends, *, turned: bool, remarks: Sequence[str] = ()
) -> str:
    """Text of a tube as it was understood, format "bendgen-tube".

    turned : its ends were swapped
    remarks : what a machine has to say of it
    """
    wish = found.wish
    content: TubeFile = {
        "format": TUBE_FORMAT,
        "version": TUBE_VERSION,
        "file": file,
        "kind": found.kind,
        "units": found.units,
        "name": found.name or None,
        "quantity": found.quantity,
        "od": found.od,
        "wall": found.wall,
        "turned": turned,
        "front": found.front or None,
        "vertices": [[v.x, v.y, v.z] for v in wish.vertices] if isinstance(wish, Centreline) else None,
        "legs": None if bends.legs is None else list(bends.legs),
        "straights": None if bends.straights is None else list(bends.straights),
        "bends": list(_bend_items(bends)),
        "marks": list(bends.merged),
        "understood": [{"subject": subject, "text": text} for subject, text in found.understood],
        "ignored": list(found.ignored),
        "remarks": list(remarks),
    }
    return format_json(content)


def _bend_items(bends: FoundBends) -> Iterator[FoundBendItem]:
    open_by = bends.clr_within or (math.inf,) * len(bends.clr)
    for angle, rotation, clr, within in zip(bends.angles_deg, bends.rotations_deg, bends.clr, open_by, strict=True):
        yield {
            "angle": angle,
            "rotation": rotation,
            "clr": clr,
            "clr_within": within if math.isfinite(within) else None,
        }
