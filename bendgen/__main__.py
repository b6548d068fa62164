"""`python -m bendgen` and the installed command."""

import gc
import os


def main() -> None:
    """Run the command line.

    Somebody waits while modules load: the interpreter need not search them again and again for garbage that is not
    there, nor pydantic ask every installed package whether it changes how input is checked, nor numpy's linear algebra
    keep a thread for each processor, which for matrices as small as ours do nothing but wait for one another.
    """
    gc.set_threshold(200_000)
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

    from bendgen.cli.app import app  # noqa: PLC0415
    from bendgen.cli.exits import end_at_once  # noqa: PLC0415

    try:
        app(prog_name="bendgen")
    except SystemExit as ended:
        end_at_once(ended)


if __name__ == "__main__":
    main()
