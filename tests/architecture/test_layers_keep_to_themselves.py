"""What import contracts cannot see: printing, exiting, hidden inputs, cycles between modules."""

import ast
from graphlib import TopologicalSorter
from pathlib import Path

import pytest

from tests.architecture.source_tree import imports_of, is_cli, modules, name_of, tree_of

BELONGS_TO_CLI = {"print", "input", "exit", "quit", "typer.echo", "sys.exit", "sys.argv", "os.environ", "os.getenv"}


@pytest.mark.parametrize("module", [module for module in modules() if not is_cli(module)], ids=str)
def test_only_the_command_line_prints_exits_or_reads_the_environment(module: Path) -> None:
    used = {ast.unparse(node) for node in ast.walk(tree_of(module)) if isinstance(node, ast.Name | ast.Attribute)}
    assert used & BELONGS_TO_CLI == set()


def test_no_modules_import_each_other_in_a_circle() -> None:
    names = {name_of(module): module for module in modules()}
    graph = {name: imports_of(module) & names.keys() - {name} for name, module in names.items()}
    order = list(TopologicalSorter(graph).static_order())  # a circle raises CycleError, which names it
    assert set(order) == set(names)
