"""A group whose commands load when they are asked for, so that nobody waits for the ones that are not."""

from collections.abc import Mapping
from importlib import import_module
from typing import Any, ClassVar

import typer
from typer.core import TyperGroup
from typer.main import get_command as built_command


class LoadedWhenAsked(TyperGroup):
    """Group of commands.

    modules : of each command, by name, where a function or group of that name is
    """

    modules: ClassVar[Mapping[str, str]]

    def list_commands(self, ctx: Any) -> list[str]:  # noqa: ANN401, ARG002 - the type of a context is private to typer
        """Names of the commands, in the order of the help."""
        return list(self.modules)

    def get_command(self, ctx: Any, cmd_name: str) -> Any:  # noqa: ANN401 - the same
        """Command of that name; for a name that is none all are loaded, as the message about it proposes others."""
        for name in [cmd_name] if cmd_name in self.modules else self.modules:
            if name not in self.commands:
                self.add_command(_loaded(name, self.modules[name]), name)
        return super().get_command(ctx, cmd_name)


def _loaded(name: str, module: str) -> Any:  # noqa: ANN401 - the type of a command is private to typer
    command = getattr(import_module(module), name)
    if not isinstance(command, typer.Typer):
        app = typer.Typer(rich_markup_mode=None, add_completion=False)
        app.command(name)(command)
        command = app
    return built_command(command)
