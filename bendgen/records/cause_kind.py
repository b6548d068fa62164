"""What a cause can be: named by the files that tell of one, too."""

from typing import Literal

CauseKind = Literal[
    "springback",
    "elongation",
    "mirror image",
    "other end",
    "bend",
    "rotation",
    "feed",
    "end",
    "misread",
    "exchanged",
]
