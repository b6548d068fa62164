"""`bendgen machine show`."""

import typer

from bendgen.cli.options import Json, ProfileFolder


def show(folder: ProfileFolder, json: Json = False) -> None:
    """Print what an operator needs to recognise a machine and its set-up.

    Which way the die draws and the tube turns as seen from where you stand, what the feed number means, the limits,
    die sets and tables.
    """
    from bendgen.errors import InputError
    from bendgen.files.profile_folder import check_profile
    from bendgen.files.profile_json import format_profile_json
    from bendgen.reports.machine_card import machine_card

    found = check_profile(folder)
    if found.profile is None:
        raise InputError(found.mistakes)
    text = format_profile_json(found.profile) if json else machine_card(found.profile, [str(c) for c in found.cautions])
    typer.echo(text, nl=False)
