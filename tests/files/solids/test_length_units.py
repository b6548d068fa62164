"""Units of lengths: chains of conversions, down to the metre."""

import pytest

from bendgen.errors import InputError
from bendgen.files.solids.length_units import LengthUnit, length_unit
from tests.files.solids.reading import exchange_of

HEAD = "ISO-10303-21;HEADER;FILE_SCHEMA(('AP242_MANAGED_MODEL_BASED_3D_ENGINEERING_MIM_LF'));ENDSEC;DATA;"
CONTEXT = "#1=(GLOBAL_UNIT_ASSIGNED_CONTEXT((#9,#2)));#9=(PLANE_ANGLE_UNIT()SI_UNIT($,.RADIAN.));"


def unit_of(data: str) -> LengthUnit:
    return length_unit(exchange_of(f"{HEAD}{CONTEXT}{data}ENDSEC;END-ISO-10303-21;"), 1)


@pytest.mark.parametrize(
    ("data", "mm"),
    [
        ("#2=(LENGTH_UNIT()NAMED_UNIT(*)SI_UNIT(.MILLI.,.METRE.));", 1.0),
        ("#2=(LENGTH_UNIT()NAMED_UNIT(*)SI_UNIT($,.METRE.));", 1000.0),
        ("#2=(LENGTH_UNIT()NAMED_UNIT(*)SI_UNIT(.MICRO.,.METRE.));", 0.001),
        (
            "#2=(CONVERSION_BASED_UNIT('FOOT',#3)LENGTH_UNIT()NAMED_UNIT(#8));#3=LENGTH_MEASURE_WITH_UNIT(12.,#4);"
            "#4=(CONVERSION_BASED_UNIT('INCH',#5)LENGTH_UNIT()NAMED_UNIT(#8));"
            "#5=(LENGTH_MEASURE_WITH_UNIT()MEASURE_WITH_UNIT(LENGTH_MEASURE(2.54),#6));"
            "#6=(LENGTH_UNIT()NAMED_UNIT(*)SI_UNIT(.CENTI.,.METRE.));",
            304.8,
        ),
    ],
)
def test_the_size_of_a_unit(data: str, mm: float) -> None:
    assert unit_of(data).mm == pytest.approx(mm, rel=1e-15)
    assert unit_of(data).uncertainty == 0.0


@pytest.mark.parametrize(
    ("data", "message"),
    [
        (
            "#2=(CONVERSION_BASED_UNIT('A',#3)LENGTH_UNIT());#3=LENGTH_MEASURE_WITH_UNIT(2.,#2);",
            "#2: expected a unit that leads to the metre, found a chain of units without end",
        ),
        (
            "#2=(CONVERSION_BASED_UNIT('A',#3)LENGTH_UNIT());#3=LENGTH_MEASURE_WITH_UNIT(-1.,#2);",
            "#3: expected a length greater than 0, found -1",
        ),
        ("#2=(LENGTH_UNIT()SI_UNIT(.MILLI.,.GRAM.));", "#2: expected a length, found MILLI GRAM"),
        ("#2=(MASS_UNIT()SI_UNIT($,.GRAM.));", "#1: expected a LENGTH_UNIT, found none"),
        ("", "expected an instance #2, as others refer to it, found nothing"),
    ],
)
def test_chains_that_lead_nowhere(data: str, message: str) -> None:
    with pytest.raises(InputError) as caught:
        unit_of(data)
    assert str(caught.value) == f"f.step: {message}"
