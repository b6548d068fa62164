"""Files of ISO 10303-21 as text: where instances begin, and files that are none."""

from pathlib import Path

import pytest

from bendgen.errors import InputError
from bendgen.files.solids.exchange_text import (
    MOST_BYTES,
    is_exchange_text,
    parse_exchange_text,
    read_exchange_text,
)

HEADER = "ISO-10303-21;HEADER;FILE_SCHEMA(('CONFIG_CONTROL_DESIGN'));ENDSEC;"
END = "ENDSEC;END-ISO-10303-21;"


def parsed(data: str) -> dict[int, str | None]:
    """Bodies of the instances in a DATA section, by number."""
    text = parse_exchange_text(f"{HEADER}DATA;{data}{END}".encode("latin-1"), "f")
    return {number: text.body(number) for number in text.index.numbers}


def fault(content: str | bytes) -> str:
    raw = content if isinstance(content, bytes) else content.encode("latin-1")
    with pytest.raises(InputError) as caught:
        parse_exchange_text(raw, "f")
    return str(caught.value)


def test_instances_by_number() -> None:
    assert parsed("#1=A(1);\n#20 = B('x;y',#1);") == {1: "A(1)", 20: "B('x;y',#1)"}


def test_comments_are_left_out_and_quoted_ones_kept() -> None:
    assert parsed("/* a; 'b */#1=A('/* no */'/* ' */);") == {1: "A('/* no */')"}


def test_blanks_wherever_they_may_stand() -> None:
    """More of them than are looked for at once, too."""
    blanks = " \t\r\n" * 10
    assert parsed(f"{blanks}#1{blanks}={blanks}A();#002=B();{blanks}") == {1: "A()", 2: "B()"}


def test_a_number_of_eighteen_digits_and_no_more() -> None:
    assert parsed("#123456789012345678=A();") == {123456789012345678: "A()"}
    assert "expected an instance" in fault(f"{HEADER}DATA;#1234567890123456789=A();{END}")


def test_types_by_a_word_in_them() -> None:
    data = "#1=SHAPE_A('SHAPE');#2=A('SHAPE_A');#4=B_SHAPE();#3=SHAPE_A();#5=( SHAPE_A() B() );"
    text = parse_exchange_text(f"{HEADER}DATA;{data}{END}".encode(), "f")
    assert text.types_with("SHAPE") == {"SHAPE_A": [1, 3], "B_SHAPE": [4]}
    assert list(text.numbers_of("SHAPE_A(")) == [1, 3]


def test_two_data_sections() -> None:
    assert parsed("#1=A();ENDSEC;DATA('second',('X'));#2=B();") == {1: "A()", 2: "B()"}


def test_a_byte_order_mark_and_blanks_before_the_beginning() -> None:
    assert is_exchange_text(b"\xef\xbb\xbf\n ISO-10303-21;")
    assert not is_exchange_text(b"PK\x03\x04")


@pytest.mark.parametrize(
    ("content", "message"),
    [
        ("", "expected a solid model, ISO 10303-21, which begins with ISO-10303-21;, found something else"),
        (b"PK\x03\x04", "expected a solid model, ISO 10303-21, which begins with ISO-10303-21;, found something else"),
        (HEADER + "DATA;#1=A();", "expected END-ISO-10303-21; at its end, found a file cut short"),
        (HEADER + "END-ISO-10303-21;", "expected a DATA section, found nothing"),
        (
            "ISO-10303-21;FILE_SCHEMA(('IFC4'));DATA;" + END,
            "FILE_SCHEMA: expected a schema for mechanical parts (AP203, AP214 or AP242), found 'IFC4'",
        ),
        (
            "ISO-10303-21;DATA;" + END,
            "FILE_SCHEMA: expected a schema for mechanical parts (AP203, AP214 or AP242), found nothing",
        ),
        (
            HEADER + "DATA;\n#1=A();\n\nrubbish;" + END,
            "line 4: expected an instance, #12 = NAME(…);, found 'rubbish;ENDSEC;END-ISO-10303-21;'",
        ),
        (
            HEADER + "DATA;\n#1=A('open);" + END,
            "line 2: expected an instance, #12 = NAME(…);, found '#1=A('open);ENDSEC;END-ISO-10303-21;'",
        ),
        (HEADER + "DATA;#1=A();#1=B();" + END, "line 1: expected #1 once, found it twice"),
        (HEADER + "DATA;;" + END, "line 1: expected an instance, #12 = NAME(…);, found ';ENDSEC;END-ISO-10303-21;'"),
        (HEADER + "DATA;/* #1=A();" + END, "line 1: expected */ at the end of a comment, found nothing"),
    ],
)  # fmt: skip
def test_what_is_no_such_file(content: str | bytes, message: str) -> None:
    assert fault(content) == f"f: {message}"


@pytest.mark.parametrize(("mark", "what"), [(";", "2000000 instances"), ("'" * 4, "8000000 quotation marks")])
def test_bombs_of_marks(mark: str, what: str) -> None:
    """A file of nothing else would take many times its size in memory."""
    assert fault(HEADER + "DATA;" + mark * 2_000_001 + END) == f"f: expected at most {what}, found more"


def test_a_file_that_is_too_large_is_not_read(tmp_path: Path) -> None:
    path = tmp_path / "large.step"
    with path.open("wb") as stream:
        stream.truncate(100_000_000)  # no byte of it is on the disk
    assert path.stat().st_size > MOST_BYTES
    with pytest.raises(InputError) as caught:
        read_exchange_text(path)
    assert str(caught.value) == f"{path}: expected at most 64 MB, found 100 MB"


def test_no_file_and_a_folder(tmp_path: Path) -> None:
    for path, found in ((tmp_path / "none.step", "nothing"), (tmp_path, "'Is a directory'")):
        with pytest.raises(InputError) as caught:
            read_exchange_text(path)
        assert str(caught.value) == f"{path}: expected a solid model, ISO 10303-21, found {found}"
