"""Routes between two ports in the JSON that leaves the tool: lengths in mm, angles in degrees."""

from typing import Final, Literal

from typing_extensions import TypedDict  # as in `output_items`

from bendgen.files.output_items import CureItem, MachineItem, TubeItem

ROUTES_FORMAT: Final = "bendgen-routes"
ROUTES_VERSION: Final = 1


class RouteItem(TypedDict):
    """One way from port to port on one die set: finished angles, straights between bends, developed length.

    short_by is 0 where it fits, else all that is missing added up, and missing says what. length is null and straights
    are empty for a single bend between axes that never meet.
    """

    die: str
    vertices: list[list[float]]
    angles: list[float]
    straights: list[float]
    length: float | None
    short_by: float
    missing: list[str]


class RoutesFile(TypedDict):
    """Routes that were looked for: those that fit first, the best of them first, then those that come nearest.

    Where none fits, each of the cures lets one; its key is that of a part's file.
    """

    format: Literal["bendgen-routes"]
    version: Literal[1]
    tube: TubeItem
    machine: MachineItem
    routes: list[RouteItem]
    cures: list[CureItem]
