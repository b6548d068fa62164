"""JSON as this tool writes it: numbers as they are, never NaN, infinity or -0; and as it reads it."""

import json
from collections.abc import Mapping

from bendgen.errors import mistaken


def format_json(data: Mapping[str, object]) -> str:
    """Text of a file: indented, letters of all scripts as they are, a line end last."""
    return json.dumps(without_minus_zero(data), indent=1, ensure_ascii=False, allow_nan=False) + "\n"


def canonical_json(data: Mapping[str, object]) -> bytes:
    """One spelling for equal contents, to take a checksum of: keys in order, no spaces, ASCII."""
    return json.dumps(without_minus_zero(data), sort_keys=True, separators=(",", ":"), allow_nan=False).encode("ascii")


def without_minus_zero(value: object) -> object:
    """Copy data with every -0.0 as 0.0."""
    if isinstance(value, float):
        return value + 0.0
    if isinstance(value, Mapping):
        return {key: without_minus_zero(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [without_minus_zero(item) for item in value]
    return value


def without_nulls(data: dict[str, object]) -> dict[str, object]:
    """Copy an object without keys whose value is null, at any depth: null says the same as an absent key."""
    return {key: _each_without_nulls(value) for key, value in data.items() if value is not None}


def _each_without_nulls(value: object) -> object:
    if isinstance(value, list):
        return [_each_without_nulls(item) for item in value]
    return without_nulls(value) if isinstance(value, dict) else value


def parse_json(text: str, file: str, *, file_format: str, version: int) -> dict[str, object]:
    """Read the mapping in a JSON file of the given format, of this version or an older one.

    Raises
    ------
    InputError    one mistake: no JSON, another format, a newer version
    """
    data = _parse_object(text, file)
    if data.get("format") != file_format:
        raise mistaken(file, f"'{file_format}'", _shown(data.get("format")), place="format")
    found = data.get("version")
    if isinstance(found, bool) or not isinstance(found, int) or found < 1:
        raise mistaken(file, "a whole number from 1", _shown(found), place="version")
    if found > version:
        raise mistaken(file, f"at most {version}, the newest this program reads", _shown(found), place="version")
    return data


def _parse_object(text: str, file: str) -> dict[str, object]:
    try:
        data = json.loads(text.removeprefix("\ufeff"), parse_constant=_refuse_constant)
    except json.JSONDecodeError as error:
        raise mistaken(file, "JSON", f"a syntax error: {error.msg}", place=f"line {error.lineno}") from None
    except RecursionError:
        raise mistaken(file, "JSON", "objects or lists nested too deep") from None
    except ValueError as error:  # NaN and infinity; Python reads no integer of more than 4,300 digits
        raise mistaken(file, "JSON", str(error).partition(":")[0]) from None
    if not isinstance(data, dict):
        raise mistaken(file, "a JSON object", "another value")
    return data


def _refuse_constant(constant: str) -> float:
    raise ValueError(f"{constant}, which is no number")


def _shown(value: object) -> str:
    text = "" if value is None else repr(value)
    return text if len(text) <= 60 else f"{text[:57]}…"
