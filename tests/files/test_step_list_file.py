"""Step lists by file: which kind it is, and files that are none."""

from pathlib import Path

import pytest

from bendgen.errors import InputError
from bendgen.files.step_list_file import read_step_list


def test_a_csv_with_byte_order_mark(tmp_path: Path) -> None:
    (tmp_path / "list.csv").write_bytes(b"\xef\xbb\xbffeed_mm,rotation_deg,bend_deg\r\n120,0,90\r\n")
    assert read_step_list(tmp_path / "list.csv").steps[0].feed == 120.0


def test_json_by_the_end_of_its_name(tmp_path: Path) -> None:
    (tmp_path / "LIST.JSON").write_text("{}", encoding="utf-8")
    with pytest.raises(InputError, match="format: expected 'bendgen-steps', found nothing"):
        read_step_list(tmp_path / "LIST.JSON")


@pytest.mark.parametrize(
    ("content", "message"),
    [
        (None, "expected a step list, JSON or CSV, found nothing"),
        (b"feed_mm\n\xff", "expected UTF-8 text, found a byte that is none, at line 2"),
        (b"x" * 1_000_001, "expected at most 1 MB, found a larger file"),
    ],
)
def test_files_that_are_no_list(tmp_path: Path, content: bytes | None, message: str) -> None:
    path = tmp_path / "list.csv"
    if content is not None:
        path.write_bytes(content)
    with pytest.raises(InputError) as caught:
        read_step_list(path)
    assert str(caught.value) == f"{path}: {message}"


def test_a_folder(tmp_path: Path) -> None:
    with pytest.raises(InputError) as caught:
        read_step_list(tmp_path)
    assert str(caught.value) == f"{tmp_path}: expected a step list, JSON or CSV, found a folder"
