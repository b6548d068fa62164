"""What a reader of a tube found in a solid should know: what is a matter of definition, what was left out."""

from collections.abc import Iterator

import numpy as np

from bendgen.files.solids.faces import Face
from bendgen.files.solids.tube_of_faces import TubeOfFaces
from bendgen.files.solids.wall_checks import ALL_ROUND
from bendgen.geometry.spine_distances import spine_distances
from bendgen.geometry.tube_axes import LineAxis
from bendgen.geometry.vectors import lengths
from bendgen.units import FINE_DECIMALS, Units, counted, format_length

SEEN = 0.005  # mm; smaller unevenness is arithmetic, or rounding of the file
MOST_NAMED = 6
STRAIGHT_GOES = "the straight goes to the farthest, bends are not affected"
LONGEST_CHAMFER = 3.0  # of the wall


def definitions(tube: TubeOfFaces, units: Units) -> Iterator[tuple[str, str]]:
    """Subject and sentence of whatever may be measured in more than one way; lengths in `units`."""

    def seen(length: float) -> str:
        return format_length(length, units, FINE_DECIMALS[units])

    straights = tube.axis.straights()[[0, -1]].tolist()
    for end, reach, straight in zip(("front", "rear"), tube.reaches, straights, strict=True):
        if reach.uneven > SEEN:
            is_bend = straight <= reach.beyond + SEEN and len(tube.axis.angles)
            goes = "the bend there goes to the farthest" if is_bend else STRAIGHT_GOES
            yield f"{end} cut", f"not square, {seen(reach.uneven)} from its nearest to its farthest point: {goes}"
        elif reach.beyond > SEEN:
            shaped = (
                "chamfered or rounded" if reach.beyond <= LONGEST_CHAMFER * (tube.radius - tube.bore) else "narrower"
            )
            yield f"{end} edge", f"{shaped} over {seen(reach.beyond)}, which the straight includes"
    if not tube.bore:
        yield "bore", "none: a solid bar, or a tube drawn without its inside"
    if tube.misfit > 1e-4:
        yield (
            "surfaces",
            f"approximated, up to {format_length(tube.misfit, units, FINE_DECIMALS[units] + 2)} off the tube",
        )


def left_out(tube: TubeOfFaces, units: Units) -> Iterator[str]:
    """What the tube has and a centreline has not; lengths in `units`."""
    radii = {
        face.surface.radius
        for face in tube.others
        if face.surface and not face.convex and isinstance(face.surface.axis, LineAxis)
    }
    diameters = list(
        dict.fromkeys(format_length(2.0 * radius, units).removesuffix(f" {units}") for radius in sorted(radii))
    )
    if diameters:
        more = ", …" if len(diameters) > MOST_NAMED else ""
        yield f"round holes and cuts, Ø {', '.join(diameters[:MOST_NAMED])}{more} {units}"
    away = [face for face in tube.others if face.surface is None and _is_away_from_ends(face, tube)]
    across = sum(_is_across(face, tube) for face in away)
    if across:
        yield f"faces across the tube, between its ends: {across}"
    if len(away) > across:
        yield f"holes and cuts that are not round: {counted(len(away) - across, 'face')}"


def _is_across(face: Face, tube: TubeOfFaces) -> bool:
    """Whether a face goes all round the axis, as that of a hole never does."""
    middle = face.points().mean(axis=0)
    return bool(spine_distances(middle[None], tube.axis.spine())[0] <= ALL_ROUND * tube.radius)


def _is_away_from_ends(face: Face, tube: TubeOfFaces) -> bool:
    """Whether a face is neither an end of the tube nor a chamfer, round or saddle there."""
    ends = np.array([tube.axis.starts[0], tube.axis.ends[-1]])
    near = [tube.radius + SEEN + reach.beyond + reach.uneven for reach in tube.reaches]
    return all(lengths(face.points() - end).max(initial=0.0) > within for end, within in zip(ends, near, strict=True))
