"""The unit of a representation, through the whole chain of conversions, and how exact it says it is."""

import math
from dataclasses import dataclass

from bendgen.files.solids.exchange import Exchange
from bendgen.units import INCHES_PER_FOOT, MM_PER_INCH, Units

PREFIXES = {
    "": 1.0, "EXA": 1e18, "PETA": 1e15, "TERA": 1e12, "GIGA": 1e9, "MEGA": 1e6, "KILO": 1e3, "HECTO": 1e2, "DECA": 1e1,
    "DECI": 1e-1, "CENTI": 1e-2, "MILLI": 1e-3, "MICRO": 1e-6, "NANO": 1e-9, "PICO": 1e-12, "FEMTO": 1e-15,
}  # fmt: skip
MM_PER_METRE = 1000.0
LONGEST_CHAIN = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthUnit:
    """Length of one unit [mm], and the uncertainty of the file's lengths [mm], 0 if it states none."""

    mm: float
    uncertainty: float

    @property
    def shop_units(self) -> Units:
        """Unit in which a shop writes down the lengths of such a file."""
        inches = (MM_PER_INCH, INCHES_PER_FOOT * MM_PER_INCH)
        return "in" if any(math.isclose(self.mm, size, rel_tol=1e-9) for size in inches) else "mm"


def length_unit(exchange: Exchange, context: int) -> LengthUnit:
    """Unit of lengths in a representation's context; raises InputError where it has none."""
    instance = exchange.instance(context)
    if "GLOBAL_UNIT_ASSIGNED_CONTEXT" not in instance:
        raise exchange.mistaken(f"#{context}", "the unit of its lengths", "a context without units")
    for unit in exchange.arguments(context, "GLOBAL_UNIT_ASSIGNED_CONTEXT").references(0):
        if "LENGTH_UNIT" in exchange.instance(unit):
            return LengthUnit(mm=_size(exchange, unit, 0), uncertainty=_uncertainty(exchange, context))
    raise exchange.mistaken(f"#{context}", "a LENGTH_UNIT", "none")


def _size(exchange: Exchange, unit: int, depth: int) -> float:
    """Length of one unit [mm]."""
    instance = exchange.instance(unit)
    if "SI_UNIT" in instance:
        si = exchange.arguments(unit, "SI_UNIT")
        if si.choice(-1) != "METRE" or si.choice(-2) not in PREFIXES:
            si.fail("a length", f"{si.choice(-2)} {si.choice(-1)}".strip())
        return PREFIXES[si.choice(-2)] * MM_PER_METRE
    conversion = exchange.arguments(unit, "CONVERSION_BASED_UNIT")
    if depth > LONGEST_CHAIN:
        conversion.fail("a unit that leads to the metre", "a chain of units without end")
    measure = exchange.arguments(conversion.reference(1), "MEASURE_WITH_UNIT", "LENGTH_MEASURE_WITH_UNIT")
    if not measure.real(0) > 0.0:
        measure.fail("a length greater than 0", f"{measure.real(0):g}")
    return measure.real(0) * _size(exchange, measure.reference(1), depth + 1)


def _uncertainty(exchange: Exchange, context: int) -> float:
    """Uncertainty of lengths [mm]: the largest that the context states, or 0."""
    if "GLOBAL_UNCERTAINTY_ASSIGNED_CONTEXT" not in exchange.instance(context):
        return 0.0
    largest = 0.0
    for number in exchange.arguments(context, "GLOBAL_UNCERTAINTY_ASSIGNED_CONTEXT").references(0):
        measure = exchange.arguments(number, "MEASURE_WITH_UNIT", "UNCERTAINTY_MEASURE_WITH_UNIT")
        if "LENGTH_UNIT" in exchange.instance(measure.reference(1)):
            largest = max(largest, measure.real(0) * _size(exchange, measure.reference(1), 0))
    return largest
