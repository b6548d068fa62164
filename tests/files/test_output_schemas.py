"""The schemas kept in the package are those of the output models."""

import json

from bendgen.files.output_schemas import FOLDER, format_schemas


def test_kept_schemas_are_current() -> None:
    kept = {path.name: path.read_text(encoding="utf-8") for path in FOLDER.glob("*.json")}
    assert kept == format_schemas(), "write them anew: python -m bendgen.files.output_schemas"


def test_schemas_name_format_and_version() -> None:
    for name in ("bendgen-steps", "bendgen-findings", "bendgen-offset", "bendgen-routes", "bendgen-tube"):
        properties = json.loads((FOLDER / f"{name}.json").read_text(encoding="utf-8"))["properties"]
        assert properties["format"]["const"] == name
        assert properties["version"]["const"] == 1


def test_schemas_let_unknown_keys_pass() -> None:
    for text in format_schemas().values():
        assert "additionalProperties" not in text
