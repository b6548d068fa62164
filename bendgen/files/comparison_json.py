"""Measured pieces against their program, as JSON."""

from collections.abc import Sequence
from dataclasses import asdict

from bendgen.files.json_text import format_json
from bendgen.records.comparison import Comparison, Deviation
from bendgen.records.foretold import Foretold
from bendgen.records.series import CheckSeries

COMPARISON_FORMAT = "bendgen-comparison"
COMPARISON_VERSION = 1


def format_comparison_json(foretold: Foretold, comparisons: Sequence[Comparison], series: Sequence[CheckSeries]) -> str:
    """Text of a comparison, format "bendgen-comparison": mm and degrees, null where nothing is known."""
    return format_json(
        {
            "format": COMPARISON_FORMAT,
            "version": COMPARISON_VERSION,
            "id": foretold.program_id,
            "part": {"number": foretold.number, "revision": foretold.revision, "issue": foretold.issue},
            "in_tolerance": _all_in_tolerance([_in_tolerance(comparison) for comparison in comparisons]),
            "pieces": [_piece_content(comparison) for comparison in comparisons],
            "series": [asdict(of_check) for of_check in series],
        }
    )


def _in_tolerance(comparison: Comparison) -> bool | None:
    """Whether a piece is; None for one of which nothing was read that has a tolerance."""
    return comparison.in_tolerance if comparison.deviations else None


def _all_in_tolerance(verdicts: Sequence[bool | None]) -> bool | None:
    """Whether all pieces are; None where none is out, but not all were judged."""
    if False in verdicts:
        return False
    return None if None in verdicts else True


def _piece_content(comparison: Comparison) -> dict[str, object]:
    return {
        "piece": comparison.piece,
        "lot": comparison.lot,
        "in_tolerance": _in_tolerance(comparison),
        "checks": [_deviation_content(deviation) for deviation in comparison.deviations],
        "fit": None if comparison.fit is None else asdict(comparison.fit),
        "ovality": [asdict(ovality) for ovality in comparison.ovality],
        "causes": [asdict(cause) for cause in comparison.causes],
        "explained": comparison.explained,
        "slips": [asdict(slip) for slip in comparison.slips],
    }


def _deviation_content(deviation: Deviation) -> dict[str, object]:
    return {
        "id": deviation.check,
        "line": deviation.line,
        "measured": deviation.measured,
        "predicted": deviation.predicted,
        "wanted": deviation.wanted,
        "from_predicted": deviation.from_predicted,
        "from_wanted": deviation.from_wanted,
        "tolerance": deviation.tolerance,
        "unit": deviation.unit,
        "in_tolerance": deviation.in_tolerance,
    }
