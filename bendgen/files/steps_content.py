"""From a bend program to the contents of its JSON file, key by key."""

from typing import Final

from bendgen.files.correction_content import correction_item
from bendgen.files.findings_content import finding_items, machine_item
from bendgen.files.offset_content import offset_item
from bendgen.files.output_items import FitItem, PartItem, PerforationItem, TableItem, ToleranceItem, TubeItem
from bendgen.files.output_models import (
    STEPS_FORMAT,
    STEPS_VERSION,
    BendabilityItem,
    BlankItem,
    CheckItem,
    ConventionsItem,
    EndItem,
    EstimateItem,
    MachineStepsItem,
    ShapeItem,
    StepItem,
    StepsFile,
    UncertaintyItem,
)
from bendgen.records.allowances import AllowanceTable, MaterialData
from bendgen.records.bend_program import Bendability, BendProgram, BendStep, Blank, Check, EndLeft, Uncertainty
from bendgen.records.bent_tube import BentTube, Point, Shape
from bendgen.records.part import EndFit, Part, Tolerance
from bendgen.records.tube import Perforation, Tube

CONVENTIONS: Final[ConventionsItem] = {
    "length": "mm",
    "angle": "degrees",
    "feed": "incremental: straight from the end of the last bend to the start of this one, front trim included",
    "rotation": "turn of the tube before the bend, positive clockwise seen from the carriage, looking at the die",
    "bend": "commanded: finished angle plus springback",
    "frame": "right-handed: +X along the feed from the carriage to the die, tangent line at x = 0, +Z up; "
    "the front end passes the die first",
}


def steps_content(program: BendProgram, *, program_id: str, issue: int) -> StepsFile:
    """Whole contents of the JSON file."""
    return {
        "format": STEPS_FORMAT,
        "version": STEPS_VERSION,
        "id": program_id,
        "part": _part_item(program.part, issue),
        "machine": machine_item(program.profile),
        "dies": [{"id": die.id, "tube_od": die.tube_od, "clr": die.clr} for die in program.dies],
        "tables": [table_item(table) for table in program.tables],
        "estimated_from": None if program.estimated_from is None else _estimate_item(program.estimated_from),
        "conventions": CONVENTIONS,
        "blank": _blank_item(program.blank),
        "steps": [_step_item(step) for step in program.steps],
        "machine_steps": _machine_steps_item(program),
        "wanted": _shape_item(program.wanted, program.wanted_tube),
        "predicted": {
            **_shape_item(program.predicted, program.finished),
            "largest_deviation": program.largest_deviation,
        },
        "marks": [{"straight": mark.straight, "from_front": mark.from_front} for mark in program.marks],
        "tolerance": _tolerance_item(program.part.tolerance),
        "offset": None if program.offset is None else offset_item(program.offset),
        "checks": [_check_item(check) for check in program.checks],
        "ends": [_end_item(end) for end in program.ends],
        "bendability": [_bendability_item(figures) for figures in program.bendability],
        "trial_piece": list(program.trial_piece),
        "findings": finding_items(program.findings),
    }


def _part_item(part: Part, issue: int) -> PartItem:
    return {
        "name": part.name,
        "number": part.number,
        "revision": part.revision,
        "issue": issue,
        "quantity": part.quantity,
        "units": part.units,
        "tube": tube_item(part.tube),
        "die": part.die,
        "trim": part.trim,
        "front_trim": part.front_trim,
        "rear_trim": part.rear_trim,
        "blank": part.blank,
        "limits": {"thinning": part.limits.thinning_percent, "wall_factor": part.limits.wall_factor},
        "mirrored": part.mirrored,
        "from_rear": part.from_rear,
        "front_fit": None if part.front_fit is None else _fit_item(part.front_fit),
        "rear_fit": None if part.rear_fit is None else _fit_item(part.rear_fit),
        "code": None if part.code is None else {"rule": part.code.rule, "minimum_wall": part.code.minimum_wall},
        "correction": None if part.correction is None else correction_item(part.correction),
    }


def _fit_item(fit: EndFit) -> FitItem:
    return {"kind": fit.kind, "straight": fit.straight}


def tube_item(tube: Tube) -> TubeItem:
    """Contents of a tube."""
    return {
        "od": tube.od,
        "wall": tube.wall,
        "material": tube.material,
        "perforated": tube.perforated,
        "temper": tube.temper,
        "lot": tube.lot,
        "seam": tube.seam_deg,
        "perforation": _perforation_item(tube.perforation) if tube.perforation else None,
    }


def _perforation_item(perforation: Perforation) -> PerforationItem:
    return {
        "hole": perforation.hole,
        "pitch": perforation.pitch,
        "pattern": perforation.pattern,
        "plain_front": perforation.plain_front,
        "plain_rear": perforation.plain_rear,
    }


def table_item(table: AllowanceTable) -> TableItem:
    """Contents that name a table."""
    return {"file": table.file, "issued": table.issued.isoformat(), "lot": table.lot}


def _estimate_item(data: MaterialData) -> EstimateItem:
    return {"file": data.file, "issued": data.issued.isoformat()}


def _blank_item(blank: Blank) -> BlankItem:
    return {
        "length": blank.length,
        "front_trim": blank.front_trim,
        "rear_trim": blank.rear_trim,
        "cut_marks": [
            {"end": mark.end, "distance": mark.distance, "when": mark.when, "measured_from": mark.measured_from}
            for mark in blank.cut_marks
        ],
    }


def _step_item(step: BendStep) -> StepItem:
    basis, swing = step.basis, step.swing
    return {
        "number": step.number,
        "die": step.die,
        "feed": step.feed,
        "rotation": step.rotation_deg,
        "bend": step.bend_deg,
        "carriage_before": step.carriage_before,
        "carriage_after": step.carriage_after,
        "passed": step.passed,
        "straight_ahead": step.straight_ahead,
        "finished_angle": step.finished_angle_deg,
        "formed_clr": step.formed_clr,
        "springback": step.springback_deg,
        "elongation": step.elongation,
        "slope": step.slope,
        "basis": {
            "springback": basis.springback,
            "formed_clr": basis.formed_clr,
            "elongation": basis.elongation,
        },
        "swing": {"radius": swing.radius, "lowest": swing.lowest, "reach": swing.reach},
        "width_change": step.width_change,
        "collet_open": step.collet_open,
        "seam": step.seam_deg,
    }


def _machine_steps_item(program: BendProgram) -> MachineStepsItem:
    output = program.profile.output
    return {
        "units": output.units,
        "feed": output.feed,
        "rotation": output.rotation,
        "rotation_positive": output.rotation_positive,
        "columns": list(output.columns),
        "headings": list(output.headings),
        "steps": [
            {"number": step.number, "die": step.die, "feed": step.feed, "rotation": step.rotation, "bend": step.bend}
            for step in program.machine_steps
        ],
    }


def _shape_item(shape: Shape, tube: BentTube) -> ShapeItem:
    return {
        "points": _points(shape.points),
        "vertices": None if shape.vertices is None else _points(shape.vertices),
        "straights": list(tube.straights),
        "bends": [{"angle": bend.angle_deg, "rotation": bend.rotation_deg, "clr": bend.clr} for bend in tube.bends],
    }


def _points(points: tuple[Point, ...]) -> list[list[float]]:
    return [list(point) for point in points]


def _tolerance_item(tolerance: Tolerance) -> ToleranceItem:
    return {
        "length": tolerance.length,
        "angle": tolerance.angle_deg,
        "offset": tolerance.offset,
        "iso2768": tolerance.iso2768,
        "source": tolerance.source,
    }


def _check_item(check: Check) -> CheckItem:
    return {
        "id": check.id,
        "quantity": check.quantity,
        "from": check.start,
        "to": check.end,
        "when": check.when,
        "predicted": check.predicted,
        "tolerance": check.tolerance,
        "unit": check.unit,
        "band": None if check.band is None else list(check.band),
        "uncertainty": None if check.uncertainty is None else _uncertainty_item(check.uncertainty),
    }


def _uncertainty_item(uncertainty: Uncertainty) -> UncertaintyItem:
    return {"expanded": uncertainty.expanded, "shares": list(uncertainty.shares)}


def _end_item(end: EndLeft) -> EndItem:
    return {"end": end.end, "kind": end.kind, "needed": end.needed, "left": end.left}


def _bendability_item(figures: Bendability) -> BendabilityItem:
    return {
        "die": figures.die,
        "bend_ratio": figures.bend_ratio,
        "wall_factor": figures.wall_factor,
        "outer_strain": figures.outer_strain,
        "thinning_percent": figures.thinning_percent,
        "code_wall": figures.code_wall,
        "code_factors": None if figures.code_factors is None else list(figures.code_factors),
        "outer_pitch": figures.outer_pitch,
    }
