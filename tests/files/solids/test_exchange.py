"""Points of a file, one by one and many at once."""

import pytest

from bendgen.errors import InputError
from tests.files.solids.reading import exchange_of

HEADER = "ISO-10303-21;HEADER;FILE_SCHEMA(('AUTOMOTIVE_DESIGN'));ENDSEC;DATA;"
FIRST = "#1=CARTESIAN_POINT('',(1.,-2.5E-1,3.));"


def points_in(data: str) -> list[list[float]]:
    exchange = exchange_of(f"{HEADER}{FIRST}{data}ENDSEC;END-ISO-10303-21;")
    points: list[list[float]] = exchange.triples([1, 2]).tolist()
    return points


@pytest.mark.parametrize(
    "body",
    [
        "CARTESIAN_POINT('',(4,5.,+6.))",
        "CARTESIAN_POINT ( 'a, (b' ,\n( 4., 5. , 6. ) )",
        "CARTESIAN_POINT($,(4.,5.,6.))",
    ],
)
def test_points_however_they_are_written(body: str) -> None:
    assert points_in(f"#2={body};") == [[1.0, -0.25, 3.0], [4.0, 5.0, 6.0]]


@pytest.mark.parametrize(
    "body",
    [
        "CARTESIAN_POINT('',(4.,5.))",
        "CARTESIAN_POINT('',(4.,5.,6.,7.))",
        "CARTESIAN_POINT('',(4.,5.,NAN))",
        "CARTESIAN_POINT('',(4.,5.,1.E999))",
        "CARTESIAN_POINT('',(4.,5.,1_0.))",
        "CARTESIAN_POINT('',(4.,5.,))",
        "VERTEX_POINT('',#1)",
    ],
)
def test_the_one_of_many_that_is_no_point_is_named(body: str) -> None:
    with pytest.raises(InputError) as caught:
        points_in(f"#2={body};")
    assert str(caught.value) == f"f.step: #2: expected a point or direction of three numbers, found {body}"
