"""B-spline curves and surfaces in the forms an ISO 10303-21 file may give them."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from bendgen.files.solids.exchange import Arguments, Exchange
from bendgen.files.solids.exchange_values import Instance
from bendgen.geometry.b_splines import basis_functions, curve_points, parameter_range, surface_points
from bendgen.geometry.vectors import Array

HIGHEST_DEGREE = 25
MOST_CONTROL_POINTS = 100_000
RIMS_ALIKE = 64  # knots that are kept, as the rims of a row of holes have the same ones

KINDS = ("B_SPLINE_{}_WITH_KNOTS", "BEZIER_{}", "QUASI_UNIFORM_{}", "UNIFORM_{}")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SplineCurve:
    """A curve: (n, 3) control points [mm], (n,) weights, degree, knots."""

    control: Array
    weights: Array
    degree: int
    knots: Array

    def sampled(self, count: int) -> Array:
        """Points at even parameters, (count, 3)."""
        return curve_points(self.control, self.weights, _even_basis(self.knots.tobytes(), self.degree, count))


@lru_cache(maxsize=RIMS_ALIKE)
def _even_basis(knots: bytes, degree: int, count: int) -> Array:
    """Basis functions at even parameters, (count, n)."""
    vector = np.frombuffer(knots)
    basis = basis_functions(vector, degree, np.linspace(*parameter_range(vector, degree), count))
    basis.flags.writeable = False  # as in `_repeated`
    return basis


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SplineSurface:
    """A surface: (a, b, 3) control points [mm], (a, b) weights, two degrees, two knot vectors."""

    control: Array
    weights: Array
    degrees: tuple[int, int]
    knots: tuple[Array, Array]

    def ranges(self) -> tuple[tuple[float, float], tuple[float, float]]:
        """Range of each parameter."""
        u, v = (parameter_range(knots, degree) for knots, degree in zip(self.knots, self.degrees, strict=True))
        return u, v

    def points(self, u: Array, v: Array) -> Array:
        """Points at every pair of parameters, (m, k, 3)."""
        bases = (basis_functions(*item) for item in zip(self.knots, self.degrees, (u, v), strict=True))
        return surface_points(self.control, self.weights, *bases)


def is_spline_curve(instance: Instance) -> bool:
    """Whether an instance is a B-spline curve."""
    return _kind(instance, "CURVE") is not None


def is_spline_surface(instance: Instance) -> bool:
    """Whether an instance is a B-spline surface."""
    return _kind(instance, "SURFACE") is not None


def _kind(instance: Instance, form: str) -> str | None:
    return next((name for name in (kind.format(form) for kind in KINDS) if name in instance), None)


def spline_curve(exchange: Exchange, number: int, mm: float) -> SplineCurve:
    """Curve of an instance, simple or complex."""
    shape, knots = _shape_and_knots(exchange, number, "CURVE", 5)
    degree = _degree(shape, 0)
    _check_size(shape, len(shape.references(1)))
    control = exchange.triples(shape.references(1)) * mm
    weights = np.ones(len(control))
    if "RATIONAL_B_SPLINE_CURVE" in exchange.instance(number):
        weights = np.array(exchange.arguments(number, "RATIONAL_B_SPLINE_CURVE").reals(0))
    if len(weights) != len(control) or not np.all(weights > 0.0):
        shape.fail("a weight greater than 0 for each control point")
    vector = _knot_vector(knots, (0, 1), degree, len(control))
    return SplineCurve(control=control, weights=weights, degree=degree, knots=vector)


def spline_surface(exchange: Exchange, number: int, mm: float) -> SplineSurface:
    """Surface of an instance, simple or complex."""
    shape, knots = _shape_and_knots(exchange, number, "SURFACE", 7)
    degrees = (_degree(shape, 0), _degree(shape, 1))
    rows = [row.references_of_row() for row in shape.rows(2)]
    if len({len(row) for row in rows}) != 1:
        shape.fail("rows of control points of one length")
    _check_size(shape, len(rows) * len(rows[0]))
    control = exchange.triples([item for row in rows for item in row]).reshape(len(rows), -1, 3) * mm
    weights = np.ones(control.shape[:2])
    if "RATIONAL_B_SPLINE_SURFACE" in exchange.instance(number):
        listed = [row.reals_of_row() for row in exchange.arguments(number, "RATIONAL_B_SPLINE_SURFACE").rows(0)]
        suits = [len(row) for row in listed] == [len(row) for row in rows]
        weights = np.array(listed) if suits else np.zeros_like(weights)
    if not np.all(weights > 0.0):
        shape.fail("a weight greater than 0 for each control point")
    vectors = (
        _knot_vector(knots, (0, 2), degrees[0], len(rows)),
        _knot_vector(knots, (1, 3), degrees[1], len(rows[0])),
    )
    return SplineSurface(control=control, weights=weights, degrees=degrees, knots=vectors)


def _shape_and_knots(exchange: Exchange, number: int, form: str, count: int) -> tuple[Arguments, Arguments]:
    """Degrees and control points, and what follows them: in a simple instance one list, behind a name of its own."""
    instance = exchange.instance(number)
    kind = str(_kind(instance, form))
    described = exchange.arguments(number, kind)
    if f"B_SPLINE_{form}" in instance:
        return exchange.arguments(number, f"B_SPLINE_{form}"), described
    return described.part(1, count + 1), described.part(count + 1, None)


def _check_size(shape: Arguments, count: int) -> None:
    if count > MOST_CONTROL_POINTS:
        shape.fail(f"at most {MOST_CONTROL_POINTS} control points", str(count))


def _degree(shape: Arguments, index: int) -> int:
    degree = shape.real(index)
    if degree != int(degree) or not 1 <= degree <= HIGHEST_DEGREE:
        shape.fail(f"a degree from 1 to {HIGHEST_DEGREE}", f"{degree:g}")
    return int(degree)


def _knot_vector(knots: Arguments, where: tuple[int, int], degree: int, count: int) -> Array:
    """Knots, each as often as it counts; where: indexes of the multiplicities and of the knots."""
    vector = _repeated(tuple(knots.reals(where[0])), tuple(knots.reals(where[1])))
    if vector is None or len(vector) != count + degree + 1 or count <= degree:
        knots.fail("knots that suit the degree and the control points")
    if not vector[count] > vector[degree]:
        knots.fail("a range of parameters", "none")
    return vector


@lru_cache(maxsize=RIMS_ALIKE)
def _repeated(multiplicities: tuple[float, ...], distinct: tuple[float, ...]) -> Array | None:
    """Each knot as often as it counts; None where they do not rise, or one counts more than any degree allows."""
    times = np.array(multiplicities).astype(int)
    counted = len(times) == len(distinct) and np.all((times > 0) & (times <= HIGHEST_DEGREE + 1))
    if not counted or not np.all(np.diff(distinct) > 0.0):
        return None
    vector = np.repeat(distinct, times)
    vector.flags.writeable = False  # every curve with these knots is given the same array
    return vector
