"""A new proof.toml; apart from its reader, which every command needs and which needs no writer of TOML."""

from datetime import date
from pathlib import Path

from bendgen.files.new_file import write_new_file
from bendgen.files.proof_file import PROOF, signs_digest
from bendgen.records.machine import MachineProfile


def write_proof(profile: MachineProfile, folder: Path, *, proved: date, force: bool = False) -> Path:
    """Write down that the signs were proved; raises OutputError where they already were, unless forced."""
    path = folder / PROOF
    write_new_file(path, {"proved": proved, "signs": signs_digest(profile)}, force=force)
    return path
