"""The README's pictures: papers of three samples' sheets as Chromium prints them.

`python -m tests.readme.pictures` makes them anew; it needs Debian's package chromium.
"""

import shutil
import struct
import tempfile
import zlib
from pathlib import Path

import pypdfium2
from playwright.sync_api import sync_playwright

from bendgen.geometry.vectors import Array
from tests.golden.samples_bent import MACHINES
from tests.pages import ROOT, page_of, sample_program

FOLDER = ROOT / "samples" / "pictures"
PAPERS = {"dryer_inlet": (1,), "six_bend_duct": (1, 2), "diffuser_drop": (1,)}  # of each sample, from 1
DOTS_PER_INCH = 100


def renew() -> None:
    """Print every sample and keep the papers wanted as PNGs."""
    FOLDER.mkdir(exist_ok=True)
    with sync_playwright() as playwright, tempfile.TemporaryDirectory() as folder:
        browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=["--no-sandbox"])
        for sample, papers in PAPERS.items():
            file = Path(folder) / "sheet.html"
            file.write_text(page_of(sample_program(sample, MACHINES[sample])), encoding="utf-8")
            page = browser.new_page()
            page.goto(file.as_uri())
            with pypdfium2.PdfDocument(page.pdf(format="A4")) as document:
                for number in papers:
                    bitmap = document[number - 1].render(scale=DOTS_PER_INCH / 72, grayscale=True)
                    (FOLDER / f"{sample}_{number}.png").write_bytes(png_of_greys(bitmap.to_numpy()))


def png_of_greys(greys: Array) -> bytes:
    """PNG of a (height, width) array of bytes, after ISO/IEC 15948."""
    height, width = greys.shape
    rows = b"".join(b"\0" + row.tobytes() for row in greys)
    head = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    chunks = ((b"IHDR", head), (b"IDAT", zlib.compress(rows, 9)), (b"IEND", b""))
    return b"\x89PNG\r\n\x1a\n" + b"".join(
        struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data)) for kind, data in chunks
    )


if __name__ == "__main__":
    renew()
