"""JSON Schemas of the files that leave the tool, kept in `bendgen/schemas`.

`python -m bendgen.files.output_schemas` writes them anew after a change of the output models.
"""

from pathlib import Path

from pydantic import TypeAdapter

from bendgen.files.found_items import TUBE_FORMAT, TubeFile
from bendgen.files.json_text import format_json
from bendgen.files.offset_items import OFFSET_FORMAT, OffsetFile
from bendgen.files.output_models import FINDINGS_FORMAT, STEPS_FORMAT, FindingsFile, StepsFile
from bendgen.files.route_items import ROUTES_FORMAT, RoutesFile
from bendgen.files.whole_files import write_whole_files

FOLDER = Path(__file__).parent.parent / "schemas"
DIALECT = "https://json-schema.org/draft/2020-12/schema"


def format_schemas() -> dict[str, str]:
    """Text of each schema by its file name."""
    adapters: dict[str, TypeAdapter[object]] = {
        STEPS_FORMAT: TypeAdapter(StepsFile),
        FINDINGS_FORMAT: TypeAdapter(FindingsFile),
        OFFSET_FORMAT: TypeAdapter(OffsetFile),
        ROUTES_FORMAT: TypeAdapter(RoutesFile),
        TUBE_FORMAT: TypeAdapter(TubeFile),
    }
    return {
        f"{name}.json": format_json({"$schema": DIALECT, **adapter.json_schema()}) for name, adapter in adapters.items()
    }


if __name__ == "__main__":
    write_whole_files({FOLDER / name: text for name, text in format_schemas().items()}, force=True)
