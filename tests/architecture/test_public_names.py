"""The public interface: complete, documented, typed, and light to import."""

import ast
import subprocess
import sys
from pathlib import Path

import pytest

import bendgen
from tests.architecture.source_tree import Function, functions_of, modules, public_definitions, tree_of

HEAVY = ("numpy", "pydantic", "scipy", "typer")


def test_every_public_name_resolves() -> None:
    for name in bendgen.__all__:
        assert getattr(bendgen, name).__name__ == name


def test_names_for_the_type_checker_are_the_public_names() -> None:
    checked = next(node for node in tree_of(Path("bendgen/__init__.py")).body if isinstance(node, ast.If))
    imported = [(node.module, alias.name) for node in checked.body if isinstance(node, ast.ImportFrom)
                for alias in node.names]  # fmt: skip
    assert imported == sorted(imported)
    assert {name: module for module, name in imported} == {
        name: getattr(bendgen, name).__module__ for name in bendgen.__all__
    }


def test_dir_lists_the_public_names() -> None:
    assert set(bendgen.__all__) <= set(dir(bendgen))


def test_an_unknown_name_is_an_attribute_error() -> None:
    with pytest.raises(AttributeError, match="module 'bendgen' has no attribute 'bend_it'"):
        bendgen.bend_it  # noqa: B018 - looking it up is the test


def test_import_is_light() -> None:
    script = f"import sys, bendgen; print([name for name in {HEAVY} if name in sys.modules])"
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert done.stdout == "[]\n"


@pytest.mark.parametrize("module", modules(), ids=str)
def test_modules_and_public_definitions_have_docstrings(module: Path) -> None:
    nodes = [tree_of(module), *public_definitions(module)]
    assert [getattr(node, "name", str(module)) for node in nodes if not ast.get_docstring(node)] == []


@pytest.mark.parametrize("module", modules(), ids=str)
def test_functions_have_annotations(module: Path) -> None:
    assert [function.name for function in functions_of(module) if not is_annotated(function)] == []


def is_annotated(function: Function) -> bool:
    """Whether a function says the types of what it takes and gives; self and cls need none."""
    arguments = (*function.args.posonlyargs, *function.args.args, *function.args.kwonlyargs)
    return function.returns is not None and all(
        argument.annotation or argument.arg in ("self", "cls") for argument in arguments
    )
