"""From a wanted tube to feed, rotate and bend steps and a check sheet for a rotary-draw bender.

The names in `__all__` do what the commands do: they read, plan, replay, learn and write.

    profile = bendgen.read_profile(Path("machine_profiles/bay2"))
    plan = bendgen.plan_part(bendgen.read_part(Path("samples/dryer_inlet.toml")), profile)
    print(bendgen.findings_text(plan.findings))

Each is loaded when it is first used, so that `import bendgen` and `bendgen --help` wait for no library.
"""

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from bendgen.bending.hands import mirror_part as mirror_part
    from bendgen.bending.hands import reverse_part as reverse_part
    from bendgen.bending.learning import learn_trials as learn_trials
    from bendgen.bending.planning import plan_part as plan_part
    from bendgen.bending.replay import replay_steps as replay_steps
    from bendgen.bending.route import routes_of_part as routes_of_part
    from bendgen.bending.uncertainty import with_uncertainty as with_uncertainty
    from bendgen.errors import BendgenError as BendgenError
    from bendgen.errors import GeometryError as GeometryError
    from bendgen.errors import InputError as InputError
    from bendgen.errors import Mistake as Mistake
    from bendgen.errors import OutputError as OutputError
    from bendgen.errors import ToolingError as ToolingError
    from bendgen.files.findings_json import format_findings_json as format_findings_json
    from bendgen.files.output_names import next_issue as next_issue
    from bendgen.files.part_file import parse_part as parse_part
    from bendgen.files.part_file import read_part as read_part
    from bendgen.files.profile_folder import ProfileCheck as ProfileCheck
    from bendgen.files.profile_folder import check_profile as check_profile
    from bendgen.files.profile_folder import read_profile as read_profile
    from bendgen.files.program_files import write_program as write_program
    from bendgen.files.step_list_file import read_step_list as read_step_list
    from bendgen.files.steps_json import format_steps_json as format_steps_json
    from bendgen.files.steps_json import program_id as program_id
    from bendgen.files.table_file import with_file as with_file
    from bendgen.files.table_file import write_tables as write_tables
    from bendgen.files.trials_csv import read_trials as read_trials
    from bendgen.files.tube_source import read_tube as read_tube
    from bendgen.records.bend_program import BendProgram as BendProgram
    from bendgen.records.bend_program import Plan as Plan
    from bendgen.records.findings import Finding as Finding
    from bendgen.records.found_tube import Answers as Answers
    from bendgen.records.found_tube import FoundTube as FoundTube
    from bendgen.records.machine import MachineProfile as MachineProfile
    from bendgen.records.part import Part as Part
    from bendgen.records.replay import Replayed as Replayed
    from bendgen.records.route import Route as Route
    from bendgen.records.route import RouteWish as RouteWish
    from bendgen.records.step_list import StepList as StepList
    from bendgen.records.trials import TrialSource as TrialSource
    from bendgen.reports.check_sheet import check_sheet as check_sheet
    from bendgen.reports.findings_text import findings_text as findings_text
    from bendgen.reports.machine_card import machine_card as machine_card
    from bendgen.reports.replay_text import replay_text as replay_text
    from bendgen.reports.trials_report import trials_text as trials_text

__version__ = "0.1.0"

_NAMES_OF_MODULES = {
    "bending.hands": ("mirror_part", "reverse_part"),
    "bending.learning": ("learn_trials",),
    "bending.planning": ("plan_part",),
    "bending.replay": ("replay_steps",),
    "bending.route": ("routes_of_part",),
    "bending.uncertainty": ("with_uncertainty",),
    "errors": ("BendgenError", "GeometryError", "InputError", "Mistake", "OutputError", "ToolingError"),
    "files.findings_json": ("format_findings_json",),
    "files.output_names": ("next_issue",),
    "files.part_file": ("parse_part", "read_part"),
    "files.profile_folder": ("ProfileCheck", "check_profile", "read_profile"),
    "files.program_files": ("write_program",),
    "files.step_list_file": ("read_step_list",),
    "files.steps_json": ("format_steps_json", "program_id"),
    "files.table_file": ("with_file", "write_tables"),
    "files.trials_csv": ("read_trials",),
    "files.tube_source": ("read_tube",),
    "records.bend_program": ("BendProgram", "Plan"),
    "records.findings": ("Finding",),
    "records.found_tube": ("Answers", "FoundTube"),
    "records.machine": ("MachineProfile",),
    "records.part": ("Part",),
    "records.replay": ("Replayed",),
    "records.route": ("Route", "RouteWish"),
    "records.step_list": ("StepList",),
    "records.trials": ("TrialSource",),
    "reports.check_sheet": ("check_sheet",),
    "reports.findings_text": ("findings_text",),
    "reports.machine_card": ("machine_card",),
    "reports.replay_text": ("replay_text",),
    "reports.trials_report": ("trials_text",),
}
_MODULES = {name: f"{__name__}.{module}" for module, names in _NAMES_OF_MODULES.items() for name in names}

__all__ = list(_MODULES)


def __getattr__(name: str) -> object:
    """Load a public name from its module when it is first asked for (PEP 562)."""
    if name not in _MODULES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    value = getattr(import_module(_MODULES[name]), name)
    globals()[name] = value
    return value


def __dir__() -> list[str]:
    """Names of the public interface and of the module itself."""
    return sorted({*globals(), *__all__})
