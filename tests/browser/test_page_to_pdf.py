"""`bendgen program --pdf`: the page on the paper of the shop's country."""

import subprocess
import sys
from pathlib import Path

import pypdfium2
import pytest

from tests.pages import ROOT


@pytest.mark.usefixtures("browser")  # only where there is one
def test_pdf_on_the_paper_of_the_shop(tmp_path: Path) -> None:
    for sample, machine, size in (("dryer_inlet", "bay2", (595, 842)), ("diffuser_drop", "bay5_inch", (612, 792))):
        part, profile = (str(ROOT / kind) for kind in (f"samples/{sample}.toml", f"machine_profiles/{machine}"))
        command = [sys.executable, "-m", "bendgen", "program", part, "--machine", profile, "--out", str(tmp_path)]
        subprocess.run([*command, "--pdf", "--no-html", "--quiet"], check=True)
        (file,) = tmp_path.glob("*.sheet.pdf")
        with pypdfium2.PdfDocument(file) as document:
            assert document[0].get_size() == pytest.approx(size, abs=1.0)
            text = document[0].get_textpage().get_text_range()
            assert f"sheet 1 of {len(document)}" in " ".join(text.split())
        assert not list(tmp_path.glob("*.html"))
        file.unlink()
