"""`bendgen machine check`."""

import typer

from bendgen.cli.options import Json, ProfileFolder, Quiet


def check(folder: ProfileFolder, json: Json = False, quiet: Quiet = False) -> None:
    """Read every file of a machine and name every mistake in it.

    Mistakes (exit status 2) must be mended before the machine can be used. Cautions are odd but usable: look at them.
    """
    from bendgen.errors import InputError
    from bendgen.files.profile_folder import check_profile
    from bendgen.files.profile_json import format_check_json
    from bendgen.reports.profile_summary import profile_summary

    found = check_profile(folder)
    if json:
        typer.echo(format_check_json(found), nl=False)
    elif not quiet:
        for caution in found.cautions:
            typer.echo(f"caution: {caution}")
    if found.profile is None:
        raise InputError(found.mistakes)
    if not json and not quiet:
        typer.echo(profile_summary(found.profile, cautions=len(found.cautions)))
