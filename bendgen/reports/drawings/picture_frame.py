"""Where the two views of a step's picture stand, and how much there is room to say; all in paper millimetres."""

from dataclasses import dataclass

from bendgen.reports.drawings.labels import Box

USUAL_SIZE = (88.0, 40.0)
CAPTIONED_FROM, NUMBERED_FROM = 34.0, 17.0  # heights
CAPTION = 5.0  # of the height, above the views
EDGE = 0.5
CARRIAGE_SHARE, BETWEEN = 0.4, 3.0  # of the width, for the view from the carriage; then a gap
OPERATOR_STRIP, NARROW_OPERATOR_STRIP = 5.0, 4.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureFrame:
    """Paper of one picture.

    carriage, plan : panels of the views from the carriage and from above
    captioned : there is room for words that only explain, and for the numbers of all bends; else whoever places
        pictures says once which view is which
    numbered : there is room for a few numbers of bends made, and for a word at the operator's place
    operator_strip : kept free where the operator stands
    """

    width: float
    height: float
    carriage: Box
    plan: Box
    captioned: bool
    numbered: bool
    operator_strip: float


def picture_frame(width: float, height: float) -> PictureFrame:
    """Frame of a picture of that size."""
    captioned, numbered = height >= CAPTIONED_FROM, height >= NUMBERED_FROM
    middle = CARRIAGE_SHARE * width
    top, bottom = EDGE + CAPTION * captioned, height - EDGE
    return PictureFrame(
        width=width,
        height=height,
        carriage=Box(left=EDGE, top=top, right=middle, bottom=bottom),
        plan=Box(left=middle + BETWEEN, top=top, right=width - EDGE, bottom=bottom),
        captioned=captioned,
        numbered=numbered,
        operator_strip=OPERATOR_STRIP if numbered else NARROW_OPERATOR_STRIP,
    )
