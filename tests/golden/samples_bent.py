"""What bendgen makes of each sample part: regression values, never proof."""

from collections.abc import Mapping
from pathlib import Path

from typer.testing import CliRunner

from bendgen.cli.app import app
from tests.golden.page_digest import page_digest

ROOT = Path(__file__).parents[2]
SAMPLES = ROOT / "samples"
EXPECTED = SAMPLES / "expected"
PAGE_DIGEST = ".txt"  # behind the name of a page
MACHINES: Mapping[str, str] = {
    "bearing_jog": "bay2",
    "cooler_link": "bay2",
    "diffuser_drop": "bay5_inch",
    "dryer_inlet": "bay2",
    "fan_link": "bay2",
    "guard_hoop": "bay2",
    "six_bend_duct": "bay2",
    "too_tight_offset": "bay2",
}


PAGE_OF = "dryer_inlet"  # the sample whose page is kept, as a digest: pages are long, and alike in all but their words


def texts_of_sample(sample: str, folder: Path) -> dict[str, str]:
    """Text of every file that the sample's program writes, or the findings of a refused one; of one sample its page."""
    arguments = ["program", f"{SAMPLES / sample}.toml", "--machine", str(ROOT / "machine_profiles" / MACHINES[sample])]
    without_page = [] if sample == PAGE_OF else ["--no-html"]
    result = CliRunner().invoke(app, [*arguments, "--out", str(folder), *without_page, "--json"])
    if result.exit_code == 1:
        return {f"{sample}.findings.json": result.stdout}
    assert result.exit_code == 0, result.output
    texts = {path.name: path.read_bytes().decode("utf-8") for path in sorted(folder.iterdir())}
    return {_kept_name(name): page_digest(text) if name.endswith(".html") else text for name, text in texts.items()}


def _kept_name(name: str) -> str:
    return f"{name}{PAGE_DIGEST}" if name.endswith(".html") else name


def files_expected(sample: str) -> dict[str, str]:
    """Text of every file kept for a sample."""
    return {path.name: path.read_bytes().decode("utf-8") for path in sorted((EXPECTED / sample).iterdir())}
