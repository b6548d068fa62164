"""`python -m bendgen` and the installed command."""

from bendgen.cli.app import app


def main() -> None:
    """Run the command line."""
    app(prog_name="bendgen")


if __name__ == "__main__":
    main()
