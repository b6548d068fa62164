"""proof.toml of a profile folder: when a proof piece showed its signs to be right, and of which signs that holds."""

import hashlib
from datetime import date
from pathlib import Path

from bendgen.files.field_types import Text
from bendgen.files.toml_input import load_toml
from bendgen.files.validation import Table, sound_table
from bendgen.records.machine import MachineProfile

PROOF = "proof.toml"


class ProofFile(Table):
    """The whole file."""

    proved: date
    signs: Text


def signs_digest(profile: MachineProfile) -> str:
    """Digest of what a proof piece shows: the side the die draws to, and how rotations and feeds are counted.

    Columns and headings are left out: no part comes out wrong by the name of a column.
    """
    output = profile.output
    signs = (profile.bend.side, output.units, output.feed, output.rotation, output.rotation_positive)
    return hashlib.sha256("\n".join(signs).encode()).hexdigest()


def read_proof(profile: MachineProfile, folder: Path) -> date | None:
    """Day of the proof; None where there is none or the signs have changed since.

    Raises
    ------
    InputError
        the file is not as `new_proof.write_proof` leaves it
    """
    path = folder / PROOF
    if not path.exists():
        return None
    data = load_toml(path)
    proof = sound_table(ProofFile, data, PROOF, None)
    return proof.proved if proof.signs == signs_digest(profile) else None
