"""What bendgen makes of each sample part: regression values, never proof."""

from collections.abc import Mapping
from pathlib import Path

from typer.testing import CliRunner

from bendgen.cli.app import app

ROOT = Path(__file__).parents[2]
SAMPLES = ROOT / "samples"
EXPECTED = SAMPLES / "expected"
MACHINES: Mapping[str, str] = {
    "bearing_jog": "bay2",
    "diffuser_drop": "bay5_inch",
    "dryer_inlet": "bay2",
    "guard_hoop": "bay2",
    "six_bend_duct": "bay2",
    "too_tight_offset": "bay2",
}


def texts_of_sample(sample: str, folder: Path) -> dict[str, str]:
    """Text of every file but the page that the sample's program writes, or the findings of a refused one."""
    arguments = ["program", f"{SAMPLES / sample}.toml", "--machine", str(ROOT / "machine_profiles" / MACHINES[sample])]
    result = CliRunner().invoke(app, [*arguments, "--out", str(folder), "--no-html", "--json"])
    if result.exit_code == 1:
        return {f"{sample}.findings.json": result.stdout}
    assert result.exit_code == 0, result.output
    return {path.name: path.read_bytes().decode("utf-8") for path in sorted(folder.iterdir())}


def files_expected(sample: str) -> dict[str, str]:
    """Text of every file kept for a sample."""
    return {path.name: path.read_bytes().decode("utf-8") for path in sorted((EXPECTED / sample).iterdir())}
