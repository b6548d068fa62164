"""Sizes beyond which a module or a function is no longer read in one go."""

from pathlib import Path

import pytest

from tests.architecture.source_tree import ROOT, Function, functions_of, is_cli, modules, without_docstring

LINES_OF_MODULE = 250
LINES_OF_BODY = 40
ARGUMENTS = 5

every_module = pytest.mark.parametrize("module", modules(), ids=str)


@every_module
def test_module_is_short(module: Path) -> None:
    assert len((ROOT / module).read_text(encoding="utf-8").splitlines()) <= LINES_OF_MODULE


@every_module
def test_function_bodies_are_short(module: Path) -> None:
    long = {
        function.name: lines for function in functions_of(module) if (lines := lines_of_body(function)) > LINES_OF_BODY
    }
    assert long == {}


@pytest.mark.parametrize("module", [module for module in modules() if not is_cli(module)], ids=str)
def test_few_arguments(module: Path) -> None:
    many = {function.name: count for function in functions_of(module) if (count := arguments_of(function)) > ARGUMENTS}
    assert many == {}


def lines_of_body(function: Function) -> int:
    """Lines from the first statement after the docstring to the last, blank lines and comments included."""
    body = without_docstring(function)
    return (body[-1].end_lineno or body[-1].lineno) - body[0].lineno + 1 if body else 0


def arguments_of(function: Function) -> int:
    """Arguments by position or name, apart from self and cls; a command's options are no arguments of this kind."""
    names = [argument.arg for argument in (*function.args.posonlyargs, *function.args.args)]
    return len(names) - (names[:1] in (["self"], ["cls"]))
