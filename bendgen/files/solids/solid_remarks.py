"""What a reader of a tube found in a solid should know: what was left out, what is a matter of definition."""

from collections.abc import Iterator

from bendgen.files.solids.tube_of_faces import FoundTube
from bendgen.geometry.tube_axes import LineAxis

SEEN = 0.005  # mm; smaller unevenness is arithmetic, or rounding of the file


def solid_remarks(tube: FoundTube) -> Iterator[str]:
    """Remarks, each one sentence."""
    if tube.bore == 0.0:
        yield "it has no bore: its wall is not in the file"
    for end, reach in zip(("front", "rear"), tube.reaches, strict=True):
        if reach.uneven > SEEN:
            yield (
                f"the {end} end is not cut square ({reach.uneven:.2f} mm from its nearest to its farthest point): the "
                "straight is given to the farthest point, the bends are not affected"
            )
        elif reach.beyond > SEEN:
            yield f"the {end} end is chamfered or rounded over {reach.beyond:.2f} mm, which the straight includes"
    yield from _cuts(tube)
    if tube.misfit > 1e-4:
        yield f"its faces are approximated surfaces, up to {tube.misfit:.4f} mm off"


def _cuts(tube: FoundTube) -> Iterator[str]:
    """Remark on holes and saddles, by diameter."""
    diameters = sorted(
        {
            f"{2.0 * face.surface.radius:.2f}".rstrip("0").rstrip(".")
            for face in tube.others
            if face.surface and not face.convex and isinstance(face.surface.axis, LineAxis)
        },
        key=float,
    )
    if diameters:
        named = ", ".join(diameters[:6]) + (", …" if len(diameters) > 6 else "")
        yield f"round holes or cuts, left out: Ø {named} mm"
