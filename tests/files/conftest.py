"""A machine profile as files; all values invented."""

import pytest

MACHINE = """
units = "mm"
name = "Bay 2 mandrel bender"
[bend]
side = "left"
largest = 195.0
resolution = 0.1
repeatability = 0.05
[rotation]
resolution = 0.1
repeatability = 0.05
[feed]
resolution = 0.1
repeatability = 0.1
[carriage]
travel = 3100.0
closest = 240.0
grip = 60.0
[blank]
shortest = 0.0
longest = 6000.0
[output]
units = "mm"
feed = "incremental"
rotation = "incremental"
rotation_positive = "clockwise_from_carriage"
columns = ["number", "feed", "rotation", "bend"]
"""

DIE = """
units = "mm"
id = "d50-r100"
tube_od = 50.0
clr = 100.0
clamp = 110.0
largest_bend = 184.0
"""

TABLE = """
units = "mm"
die = "d50-r100"
material = "304L"
wall = 1.5
perforated = false
source = "invented trial bends"
issued = 2026-03-14
[[row]]
angle = 30.0
springback = 1.62
elongation = 0.9
[[row]]
angle = 90.0
springback = 2.70
elongation = 4.0
[[row]]
angle = 120.0
springback = 3.5
elongation = 5.3
"""

MATERIAL = """
units = "mm"
material = "304L"
source = "invented"
issued = 2026-01-05
youngs_modulus_mpa = 193000.0
strength_coefficient_mpa = 1250.0
hardening_exponent = 0.43
"""


@pytest.fixture
def profile_texts() -> dict[str, str]:
    """Texts of a sound profile's files by relative path."""
    return {
        "machine.toml": MACHINE,
        "dies/d50-r100.toml": DIE,
        "tables/d50-r100_304l.toml": TABLE,
        "materials/304l.toml": MATERIAL,
    }
