"""Writes samples/expected anew: `python -m tests.golden.regenerate`. Read the difference before you commit it."""

import shutil
import tempfile
from pathlib import Path

from tests.golden.samples_bent import EXPECTED, MACHINES, texts_of_sample


def regenerate() -> None:
    """Replace all that is kept."""
    shutil.rmtree(EXPECTED, ignore_errors=True)
    for sample in MACHINES:
        with tempfile.TemporaryDirectory() as folder:
            texts = texts_of_sample(sample, Path(folder))
        (EXPECTED / sample).mkdir(parents=True)
        for name, text in texts.items():
            (EXPECTED / sample / name).write_bytes(text.encode("utf-8"))


if __name__ == "__main__":
    regenerate()
