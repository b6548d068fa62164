"""DEVELOPERS.md against the code: its map names every module, its bibliography every work cited."""

import re
from collections import defaultdict
from collections.abc import Iterator

from tests.architecture.source_tree import PACKAGE, ROOT, modules

PAGE = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
RULE_OF_FINDING = re.compile(r'(?:(?:limit_in_mm|limit_in_deg|remark)\(|\brule=)\s*"([a-z ]+)"')
CITATION = re.compile(r"(?<![\w\])])\[([A-Z][A-Za-z]*\d{3,4}[a-z]?)\]")
ENTRY = re.compile(r"^- \[(\w+)\] ", re.MULTILINE)


def test_the_map_names_every_module_and_nothing_else() -> None:
    written = [path for path in paths_of_map() if path.endswith(".py")]
    packages = {path.relative_to(ROOT).as_posix() for path in PACKAGE.rglob("__init__.py")} - {"bendgen/__init__.py"}
    assert sorted(written) == sorted({module.as_posix() for module in modules()} - packages)


def test_each_folder_of_the_map_is_in_order() -> None:
    by_folder: defaultdict[str, list[str]] = defaultdict(list)
    for path in paths_of_map():
        if path.startswith("bendgen/") and not path.endswith("/"):
            folder, _, name = path.rpartition("/")
            by_folder[folder].append(name)
    del by_folder["bendgen"]  # from the package's own names down to its foundations
    assert {folder: names for folder, names in by_folder.items() if names != sorted(names)} == {}


def test_the_map_names_every_folder_of_the_package() -> None:
    folders = {f"{path.parent.relative_to(ROOT).as_posix()}/" for path in PACKAGE.rglob("__init__.py")}
    assert {path for path in paths_of_map() if path.startswith("bendgen") and path.endswith("/")} == folders


def test_every_work_cited_has_an_entry_and_every_entry_is_cited() -> None:
    sources = [*PACKAGE.rglob("*.py"), *(ROOT / "tests").rglob("*.py")]
    cited = {key for path in sources for key in CITATION.findall(path.read_text(encoding="utf-8"))}
    entries = ENTRY.findall(PAGE)
    assert set(entries) == cited
    assert entries == sorted(entries), "in order of their keys, each once"


def test_every_rule_stands_in_the_table_of_limits_and_no_other() -> None:
    table = PAGE.partition("| rule | what is compared |")[2].partition("\n\n")[0]
    rows = [line.split("|")[1].strip() for line in table.splitlines()[2:]]
    sources = "\n".join(path.read_text(encoding="utf-8") for path in (PACKAGE / "bending").glob("*.py"))
    assert sorted(rows) == sorted(set(RULE_OF_FINDING.findall(sources)))


def test_works_cited_on_the_page_have_an_entry() -> None:
    assert set(CITATION.findall(PAGE)) == set(ENTRY.findall(PAGE))


def paths_of_map() -> Iterator[str]:
    """Paths in the map, relative to the repository; a folder ends in a slash."""
    lines = PAGE.split("## The map", 1)[1].split("```", 2)[1].strip("\n").splitlines()
    folders: list[str] = []
    for line in lines:
        name = line.split()[0]
        depth = (len(line) - len(line.lstrip())) // 2
        folders = folders[:depth]
        yield "".join([*folders, name])
        folders.append(name)
