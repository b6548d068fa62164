"""What a step list would make, as JSON."""

from dataclasses import asdict

from bendgen.files.json_text import format_json
from bendgen.records.replay import Replayed

REPLAY_FORMAT = "bendgen-replay"
REPLAY_VERSION = 1


def format_replay_json(replayed: Replayed) -> str:
    """Text of the replay, format "bendgen-replay": mm and degrees, numbers in full."""
    tube = replayed.tube
    return format_json(
        {
            "format": REPLAY_FORMAT,
            "version": REPLAY_VERSION,
            "blank": replayed.blank,
            "box": replayed.box,
            "straights": tube.straights,
            "bends": [
                {"rotation": bend.rotation_deg, "finished_angle": bend.angle_deg, "formed_clr": bend.clr}
                for bend in tube.bends
            ],
            **asdict(replayed.shape),
        }
    )
