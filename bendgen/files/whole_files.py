"""Files that are whole or absent: written beside their place, flushed to disk, then renamed.

A crash, a kill or a full disk leaves at most files ending in `.unfinished`, which nothing reads and anyone may delete.
"""

import contextlib
import os
from collections.abc import Iterable, Mapping
from pathlib import Path

from bendgen.errors import OutputError

UNFINISHED = ".unfinished"


def write_whole_files(files: Mapping[Path, str | bytes], *, force: bool = False) -> None:
    """Write each text to its path, in the order given; folders are made where they are missing.

    All texts reach the disk before the first file appears under its own name, so that a full disk leaves none.

    Parameters
    ----------
    files : path -> text, written as UTF-8 with the line ends it has, or bytes
    force : replace files that exist

    Raises
    ------
    OutputError    files exist and may not be replaced (none is written then), or one cannot be written
    """
    if not force:
        refuse_existing(files)
    unfinished: dict[Path, Path] = {}
    try:
        for path, text in files.items():
            unfinished[path] = _unfinished_beside(path)
            _write_to_disk(unfinished[path], text)
        for path, beside in unfinished.items():
            _give_name(beside, path, force=force)
        _settle_folders({path.parent for path in files})
    finally:
        for beside in unfinished.values():
            with contextlib.suppress(OSError):
                beside.unlink(missing_ok=True)


def refuse_existing(paths: Iterable[Path], *, cure: str = "") -> None:
    """Raise OutputError naming every path that exists, links included; cure: what would help."""
    existing = [str(path) for path in paths if os.path.lexists(path)]
    if existing:
        raise OutputError(f"would overwrite {', '.join(existing)}; nothing was written{cure and f': {cure}'}")


def _unfinished_beside(path: Path) -> Path:
    """Name in the same folder, so that renaming is one step; short, so that a long name has room for it."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except (FileExistsError, NotADirectoryError) as error:
        raise OutputError(f"{path.parent}: is a file or lies below one, a folder is needed") from error
    except OSError as error:
        raise _not_written(path.parent, error) from error
    return path.parent / f".{os.urandom(8).hex()}{UNFINISHED}"


def _write_to_disk(path: Path, text: str | bytes) -> None:
    # A file name from disk that is no UTF-8 reaches a text as lone surrogates; they are written as escapes.
    content = text if isinstance(text, bytes) else text.encode("utf-8", errors="backslashreplace")
    try:
        with path.open("xb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
    except OSError as error:
        raise _not_written(path.parent, error) from error


def _give_name(beside: Path, path: Path, *, force: bool) -> None:
    """Rename; without `force` by a link first, which fails where another run has taken the name meanwhile."""
    try:
        if force or not _linked(beside, path):
            beside.replace(path)
    except FileExistsError as error:
        raise OutputError(f"would overwrite {path}, which another run has written meanwhile") from error
    except OSError as error:
        raise _not_written(path, error) from error


def _linked(beside: Path, path: Path) -> bool:
    """Whether `path` now names the file `beside`; False on disks without hard links (memory sticks, some shares)."""
    try:
        path.hardlink_to(beside)
    except FileExistsError:
        raise
    except OSError:
        return False
    return True


def _settle_folders(folders: Iterable[Path]) -> None:
    """Flush the folders' lists of names; a system that cannot open a folder does this by itself."""
    for folder in folders:
        with contextlib.suppress(OSError):
            opened = os.open(folder, os.O_RDONLY)
            try:
                os.fsync(opened)
            finally:
                os.close(opened)


def _not_written(path: Path, error: OSError) -> OutputError:
    return OutputError(f"{path}: cannot be written: {error.strerror or error}")
