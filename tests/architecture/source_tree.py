"""The package as text and syntax trees, for tests that hold it against its own rules."""

import ast
from collections.abc import Iterator
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "bendgen"
Function = ast.FunctionDef | ast.AsyncFunctionDef


@cache
def modules() -> tuple[Path, ...]:
    """Every module of the package, relative to the repository."""
    return tuple(sorted(path.relative_to(ROOT) for path in PACKAGE.rglob("*.py")))


@cache
def tree_of(module: Path) -> ast.Module:
    """Syntax tree of a module."""
    return ast.parse((ROOT / module).read_text(encoding="utf-8"))


def is_cli(module: Path) -> bool:
    """Whether a module belongs to the layer that may print and exit."""
    return module.parts[1] in ("cli", "__main__.py")


def functions_of(module: Path) -> Iterator[Function]:
    """Every function of a module, however deep."""
    return (node for node in ast.walk(tree_of(module)) if isinstance(node, Function))


def public_definitions(module: Path) -> Iterator[Function | ast.ClassDef]:
    """Functions and classes of a module that others may use, and the public methods of those classes."""
    for node in tree_of(module).body:
        if isinstance(node, Function | ast.ClassDef) and not node.name.startswith("_"):
            yield node
            if isinstance(node, ast.ClassDef):
                yield from (f for f in node.body if isinstance(f, Function) and not f.name.startswith("_"))


def without_docstring(function: Function) -> list[ast.stmt]:
    """Statements of a function's body after its docstring."""
    return function.body[1:] if ast.get_docstring(function) is not None else function.body


def imports_of(module: Path) -> set[str]:
    """Modules that a module imports when it is itself imported, each by its full name; type-checking blocks aside."""
    return set(_imported(tree_of(module).body))


def _imported(body: list[ast.stmt]) -> Iterator[str]:
    for node in body:
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            yield node.module
            yield from (f"{node.module}.{alias.name}" for alias in node.names)
        elif isinstance(node, ast.If) and not _is_type_checking(node):
            yield from _imported([*node.body, *node.orelse])
        elif isinstance(node, ast.Try):
            yield from _imported([*node.body, *node.orelse, *node.finalbody])


def _is_type_checking(node: ast.If) -> bool:
    return isinstance(node.test, ast.Name) and node.test.id == "TYPE_CHECKING"


def name_of(module: Path) -> str:
    """Name by which a module is imported."""
    parts = module.with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)
