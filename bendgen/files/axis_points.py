"""From points along a tube's axis to its straights and bends."""

from collections.abc import Mapping, Sequence
from itertools import pairwise

import numpy as np

from bendgen.errors import mistaken
from bendgen.geometry.axis_fit import fitted_axis
from bendgen.geometry.axis_residuals import AxisFit
from bendgen.geometry.polylines import segments, turning_angles
from bendgen.geometry.vectors import Array
from bendgen.records.found_tube import Answers, FoundAxis
from bendgen.records.part import Centreline, Vertex, WantedBend, WantedSteps
from bendgen.units import DEGREES_PER_RADIAN, format_length

FARTHEST = 0.3  # mm; common practice, no source: beyond it points follow no tube, or not this one
LARGEST_VERTEX_DEG = 170.0  # a vertex of a larger bend lies so far out that a part is better given as steps
SMALLEST_CLR = 1.0  # mm; no die bends tighter: what turns so is a corner
SHOWN = 0.2  # share of a CLR; common practice, no source: what points leave open by more, they do not show
SLOW_TURNS_DEG = (0.001, 20.0)  # three turns of this size in a row may be a bend that was broken up
WIDER = (3.0, 10.0)  # times as far off as points may lie: there a tube is looked for to tell how far off they are
MISFIT_DECIMALS = 4
DIGITS = 6  # of mm and degrees, finer than any file of points


def may_follow_axis(points: Array) -> bool:
    """Whether points (n, 3), no two neighbours equal, turn slowly somewhere, as vertices seldom do."""
    if len(points) < 5:
        return False
    turns_deg = turning_angles(segments(points)[1]) * DEGREES_PER_RADIAN
    slow = (turns_deg > SLOW_TURNS_DEG[0]) & (turns_deg < SLOW_TURNS_DEG[1])
    return bool((slow[:-2] & slow[1:-1] & slow[2:]).any())


def axis_of_points(
    points: Mapping[int, Sequence[float]], file: str, answers: Answers, *, counted: str = "line"
) -> FoundAxis:
    """Axis that the points follow, and how well.

    Parameters
    ----------
    points : [x, y, z] in mm by their number; the first is the front end
    counted : what those numbers count

    Raises
    ------
    InputError    points that follow no straights and arcs, or turn at a corner
    """
    places = np.array([point[:3] for point in points.values()])
    farthest = answers.within or FARTHEST
    names = [f"{counted} {number}" for number in points]
    fit = fitted_axis(places, farthest)
    if fit is None:
        allowed = format_length(farthest, "mm")
        expected = f"points that follow straights and arcs to within {allowed}, or to within more by --within"
        raise mistaken(file, expected, _how_far_off(places, farthest, names))
    _refuse_corners(fit, file)
    return FoundAxis(
        wish=_wish_of_fit(fit, with_clr=not answers.leave_clr),
        understood=_fit_words(fit, names),
        clr_within=() if answers.leave_clr else tuple(fit.clr_within.tolist()),
    )


def _how_far_off(places: Array, farthest: float, names: Sequence[str]) -> str:
    """What a reader has to know of points that follow no tube as nearly as they have to: how nearly they do."""
    for nearest, times in pairwise((1.0, *WIDER)):
        fit = fitted_axis(places, times * farthest, nearest=nearest * farthest)
        if fit is not None:
            worst = int(np.argmax(fit.distances))
            return f"points up to {format_length(float(fit.distances[worst]), 'mm')} off, the worst in {names[worst]}"
    return "points that do not"


def _refuse_corners(fit: AxisFit, file: str) -> None:
    """Raise InputError where points turn at one place; a bend too small to show its CLR is none."""
    corners = np.flatnonzero(fit.clr + fit.clr_within < SMALLEST_CLR)
    for bend in corners[:1].tolist():
        expected = f"an arc at bend {bend + 1}, or corners by --points vertices"
        turn = f"a corner of {fit.angles[bend] * DEGREES_PER_RADIAN:.2f}°"
        raise mistaken(file, expected, turn)


def _wish_of_fit(fit: AxisFit, *, with_clr: bool) -> Centreline | WantedSteps:
    """Vertices, or steps where a bend is so large that its vertex lies far out; without a CLR that nothing shows."""
    shown = fit.clr_within <= SHOWN * fit.clr
    clr = [round(r, DIGITS) if with_clr and s else None for r, s in zip(fit.clr.tolist(), shown, strict=True)]
    angles_deg = (fit.angles * DEGREES_PER_RADIAN).tolist()
    if max(angles_deg, default=0.0) <= LARGEST_VERTEX_DEG:
        vertices = np.round(fit.vertices(), DIGITS).tolist()
        return Centreline(
            vertices=tuple(
                Vertex(x=x, y=y, z=z, clr=radius)
                for (x, y, z), radius in zip(vertices, [None, *clr, None], strict=True)
            )
        )
    straights = np.maximum(np.round(fit.straights, DIGITS), 0.0).tolist()
    rotations_deg = np.round(fit.rotations * DEGREES_PER_RADIAN, DIGITS).tolist()
    return WantedSteps(
        bends=tuple(
            WantedBend(straight=straight, rotation_deg=rotation, angle_deg=round(angle, DIGITS), clr=radius)
            for straight, rotation, angle, radius in zip(straights, rotations_deg, angles_deg, clr, strict=False)
        ),
        rear=straights[-1],
    )


def _fit_words(fit: AxisFit, names: Sequence[str]) -> tuple[tuple[str, str], ...]:
    worst = int(np.argmax(fit.distances))
    largest = format_length(float(fit.distances[worst]), "mm", MISFIT_DECIMALS)
    mean = format_length(float(np.sqrt(np.mean(fit.distances**2))), "mm", MISFIT_DECIMALS)
    return (
        ("points", f"{len(names):,} along the axis, fitted with straights and arcs"),
        ("misfit", f"{largest} at the worst, in {names[worst]}; {mean} root mean square"),
    )
