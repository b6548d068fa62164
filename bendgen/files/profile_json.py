"""A machine profile, and what was found in its folder, as JSON."""

from collections.abc import Mapping
from dataclasses import asdict
from datetime import date

from bendgen.files.json_text import format_json
from bendgen.files.profile_folder import ProfileCheck
from bendgen.records.machine import MachineProfile

PROFILE_FORMAT = "bendgen-machine"
CHECK_FORMAT = "bendgen-machine-check"
VERSION = 1


def format_profile_json(profile: MachineProfile) -> str:
    """The profile under the keys of its files, lengths in mm whatever unit those are written in."""
    content = _file_keys(asdict(profile))
    return format_json({"format": PROFILE_FORMAT, "version": VERSION} | content | {"units": "mm"})


def _file_keys(record: Mapping[str, object]) -> dict[str, object]:
    return {key.removesuffix("_deg").removesuffix("_percent"): _file_value(value) for key, value in record.items()}


def _file_value(value: object) -> object:
    if isinstance(value, Mapping):
        return _file_keys(value)
    if isinstance(value, list | tuple):
        return [_file_value(item) for item in value]
    return value.isoformat() if isinstance(value, date) else value


def format_check_json(check: ProfileCheck) -> str:
    """Mistakes, cautions and numbers of files."""
    return format_json(
        {
            "format": CHECK_FORMAT,
            "version": VERSION,
            "mistakes": [asdict(mistake) for mistake in check.mistakes],
            "cautions": [asdict(caution) for caution in check.cautions],
            "dies": check.dies,
            "tables": check.tables,
            "materials": check.materials,
        }
    )
