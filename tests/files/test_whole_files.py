"""Each file is whole or absent, whatever happens while it is written."""

import os
import subprocess
import sys
import time
from pathlib import Path

import pytest

from bendgen.errors import OutputError
from bendgen.files import whole_files
from bendgen.files.whole_files import UNFINISHED, write_whole_files


def test_writes_utf8_with_the_line_ends_given(tmp_path: Path) -> None:
    write_whole_files({tmp_path / "new" / "deeper" / "ä.txt": "90°\nÖl\r\n"})
    assert (tmp_path / "new" / "deeper" / "ä.txt").read_bytes() == b"90\xc2\xb0\n\xc3\x96l\r\n"


def test_leaves_nothing_else_behind(tmp_path: Path) -> None:
    write_whole_files({tmp_path / "a.txt": "a", tmp_path / "b.txt": "b"})
    assert sorted(path.name for path in tmp_path.iterdir()) == ["a.txt", "b.txt"]


def test_others_may_read_what_the_umask_allows(tmp_path: Path) -> None:
    (tmp_path / "plain.txt").write_text("made the usual way", encoding="utf-8")
    write_whole_files({tmp_path / "whole.txt": "made beside and renamed"})
    assert (tmp_path / "whole.txt").stat().st_mode == (tmp_path / "plain.txt").stat().st_mode


def test_names_every_existing_file_and_writes_none(tmp_path: Path) -> None:
    one, two, three = (tmp_path / name for name in ("1.txt", "2.txt", "3.txt"))
    write_whole_files({one: "old", three: "old"})
    with pytest.raises(OutputError) as caught:
        write_whole_files({one: "new", two: "new", three: "new"})
    assert str(caught.value) == f"would overwrite {one}, {three}; nothing was written"
    assert not two.exists()
    assert one.read_text(encoding="utf-8") == "old"


def test_a_link_that_points_nowhere_is_an_existing_file(tmp_path: Path) -> None:
    (tmp_path / "link.txt").symlink_to(tmp_path / "nowhere.txt")
    with pytest.raises(OutputError, match="would overwrite"):
        write_whole_files({tmp_path / "link.txt": "new"})


def test_force_replaces(tmp_path: Path) -> None:
    write_whole_files({tmp_path / "a.txt": "old"})
    write_whole_files({tmp_path / "a.txt": "new"}, force=True)
    assert (tmp_path / "a.txt").read_text(encoding="utf-8") == "new"


def test_a_folder_that_is_a_file(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("a file", encoding="utf-8")
    for folder in (tmp_path / "out", tmp_path / "out" / "below"):
        with pytest.raises(OutputError) as caught:
            write_whole_files({folder / "a.txt": "a"})
        assert str(caught.value) == f"{folder}: is a file or lies below one, a folder is needed"


def test_a_folder_in_the_place_of_the_file(tmp_path: Path) -> None:
    (tmp_path / "a.txt").mkdir()
    with pytest.raises(OutputError) as caught:
        write_whole_files({tmp_path / "a.txt": "a"}, force=True)
    assert str(caught.value) == f"{tmp_path / 'a.txt'}: cannot be written: Is a directory"
    assert [path.name for path in tmp_path.iterdir()] == ["a.txt"]


def test_a_full_disk_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    flushed: list[int] = []

    def fill_up_at_the_second_file(descriptor: int) -> None:
        flushed.append(descriptor)
        if len(flushed) == 2:
            raise OSError(28, os.strerror(28))

    monkeypatch.setattr(os, "fsync", fill_up_at_the_second_file)
    with pytest.raises(OutputError) as caught:
        write_whole_files({tmp_path / "a.txt": "a", tmp_path / "b.txt": "b"})
    assert str(caught.value) == f"{tmp_path}: cannot be written: No space left on device"
    assert list(tmp_path.iterdir()) == []


def test_another_run_that_takes_the_name_meanwhile_is_not_overwritten(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    taken = tmp_path / "a.txt"
    monkeypatch.setattr(whole_files, "refuse_existing", lambda _: taken.write_text("theirs", encoding="utf-8"))
    with pytest.raises(OutputError) as caught:
        write_whole_files({taken: "ours"})
    assert str(caught.value) == f"would overwrite {taken}, which another run has written meanwhile"
    assert taken.read_text(encoding="utf-8") == "theirs"


def test_a_disk_without_links_is_written_all_the_same(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(_self: Path, _target: Path) -> None:
        raise PermissionError(1, "Operation not permitted")

    monkeypatch.setattr(Path, "hardlink_to", refuse)
    write_whole_files({tmp_path / "a.txt": "a"})
    assert (tmp_path / "a.txt").read_text(encoding="utf-8") == "a"


WRITE_WITHOUT_END = """
import itertools, sys
from pathlib import Path
from bendgen.files.whole_files import write_whole_files

folder = Path(sys.argv[1])
for round in itertools.count():
    text = f"{round}\\n" * 60_000
    write_whole_files({folder / f"{suffix}.out": text for suffix in ("a", "b", "c")}, force=True)
    print(flush=True)
"""


@pytest.mark.parametrize("delay", [0.001 * step for step in range(12)])
def test_a_kill_leaves_each_file_whole_or_absent(tmp_path: Path, delay: float) -> None:
    writer = subprocess.Popen([sys.executable, "-c", WRITE_WITHOUT_END, tmp_path], stdout=subprocess.PIPE)
    with writer:
        assert writer.stdout is not None
        writer.stdout.readline()
        time.sleep(delay)
        writer.kill()
    rounds = []
    for path in tmp_path.iterdir():
        if path.suffix == UNFINISHED:
            continue
        assert path.suffix == ".out"
        lines = path.read_text(encoding="utf-8").splitlines()
        assert lines == [lines[0]] * 60_000
        rounds.append((path.name, int(lines[0])))
    numbers = [number for _, number in sorted(rounds)]
    assert len(numbers) == 3
    assert numbers == sorted(numbers, reverse=True), "files are not renamed in the order given"
    assert numbers[0] - numbers[-1] <= 1
