"""What trial bends taught, as JSON."""

import math
from collections.abc import Sequence
from dataclasses import asdict

from bendgen.files.json_text import format_json
from bendgen.files.table_file import table_data
from bendgen.records.trials import LearnedRow, Lesson, NextBend, SpringbackFit

TRIALS_FORMAT = "bendgen-trials"
TRIALS_VERSION = 1


def format_trials_json(lessons: Sequence[Lesson]) -> str:
    """Text of the lessons, format "bendgen-trials": mm and degrees, null where nothing is known."""
    content = [_lesson_content(lesson) for lesson in lessons]
    return format_json({"format": TRIALS_FORMAT, "version": TRIALS_VERSION, "lessons": content})


def _lesson_content(lesson: Lesson) -> dict[str, object]:
    table = lesson.table
    issued = {} if table is None else {"issued": table.issued.isoformat()}
    return {
        **asdict(lesson.kind),
        "lot": lesson.lot,
        "bends": lesson.bends,
        "rows": [_row_content(row) for row in lesson.rows],
        "left_out": [asdict(left_out) for left_out in lesson.left_out],
        "cautions": lesson.cautions,
        "refusal": lesson.refusal,
        "file": None if table is None else table.file,
        "table": None if table is None else table_data(table, "mm") | issued,
        "fit": None if lesson.fit is None else _fit_content(lesson.fit),
        "shift": None
        if lesson.shift is None
        else {
            "base": lesson.shift.base,
            "angle": lesson.shift.angle_deg,
            "springback": lesson.shift.shift_deg,
        },
        "next_bend": None if lesson.next_bend is None else _next_content(lesson.next_bend),
    }


def _row_content(row: LearnedRow) -> dict[str, object]:
    return {key.removesuffix("_deg"): value for key, value in asdict(row).items()}


def _fit_content(fit: SpringbackFit) -> dict[str, object]:
    scattered = math.isfinite(fit.sd_deg)
    return {
        "coefficients": fit.coefficients,
        "covariance": fit.covariance if scattered else None,
        "scatter": fit.sd_deg if scattered else None,
        "degrees_of_freedom": fit.degrees_of_freedom,
    }


def _next_content(bend: NextBend) -> dict[str, object]:
    return {key.removesuffix("_deg"): value for key, value in asdict(bend).items()}
