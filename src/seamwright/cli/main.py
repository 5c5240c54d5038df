"""The entry point: the list of commands, and what happens when something goes wrong."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from importlib import import_module
from io import TextIOWrapper
from typing import Annotated, Any

import typer
from typer.core import TyperCommand, TyperGroup

import seamwright
from seamwright.cli.say import tell_problems
from seamwright.cli.status import FAULT, READER_GONE, UNUSABLE
from seamwright.errors import InputError, Problem, SeamwrightError

COMMANDS = {
    "demo": "Run the main job on the built-in houses and write every packet.",
    "check": "Read a plan and say whether its panels and joints close.",
    "climate": "Tell the climate of a house: zone, stations, months, design figures.",
    "joints": "List every joint and node of a house.",
    "seals": "List the seal of every joint, with its arithmetic.",
    "dryness": "Say which face to seal, how tight, and whether each joint stays dry.",
    "order": "Say what to buy and how to cut it.",
    "forecast": "Forecast the fan test, with its uncertainty and the chance to pass.",
    "fan": "Work out a fan test: tightness, rules of the standard, verdict.",
    "days": "Plan the days: tasks, hold points, dates.",
    "tape-now": "Say GO, WAIT or STOP for taping a seam now, and why.",
    "hunt": "Say where to look for the leak next, and when to stop.",
    "report": "Write the whole packet: PDF, drawings, order, data.",
    "serve": "Keep houses and show them in the browser, on this machine.",
}
"""Every command, in the order of the work, with the first line of its help. A command's module is
read only when it runs, so that help and a mistyped word answer at once."""


class Commands(TyperGroup):
    """The commands by name; the module behind a name is imported when the name is used."""

    def __init__(self, **attributes: Any) -> None:  # noqa: ANN401 typer hands its own settings on
        super().__init__(**attributes)
        self.commands = {n: TyperCommand(name=n, help=text) for n, text in COMMANDS.items()}

    def resolve_command(self, ctx: Any, args: list[str]) -> Any:  # noqa: ANN401 typer's own types
        """Return the name, the loaded command and the arguments left."""
        name, command, rest = super().resolve_command(ctx, args)
        return name, command if name is None else load(name), rest

    def invoke(self, ctx: Any) -> Any:  # noqa: ANN401 see above
        """Run the command; what the input did wrong is told in sentences, with status 2."""
        try:
            return self._invoke_and_flush(ctx)
        except BrokenPipeError:
            # Python flushes standard output once more on its way out; give it somewhere to go.
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
            raise typer.Exit(READER_GONE) from None
        except InputError as error:
            tell_problems(error.problems)
        except SeamwrightError as error:
            tell_problems([Problem(subject="house", sentence=str(error), remedy="")])
        except OSError as error:
            tell_problems([problem_of(error)])
        raise typer.Exit(UNUSABLE)

    def _invoke_and_flush(self, ctx: Any) -> Any:  # noqa: ANN401 see above
        try:
            return super().invoke(ctx)
        finally:
            sys.stdout.flush()


app = typer.Typer(
    cls=Commands,
    name="seamwright",
    help="Every joint of a panel-built house, the seal it needs, and what to buy for it.",
    epilog="PLAN is a .yaml plan, a .csv panel list, an .ifc model or the name of a built-in "
    "house. Exit status: 0 done, 1 something found that needs attention, 2 unusable input.",
    add_completion=False,
    no_args_is_help=True,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
)


def tell_version(asked: bool) -> None:
    """Print the version and leave, when asked."""
    if asked:
        typer.echo(f"seamwright {seamwright.__version__}")
        raise typer.Exit


@app.callback()
def options(
    *,
    version: Annotated[
        bool,
        typer.Option("--version", help="Print the version.", is_eager=True, callback=tell_version),
    ] = False,
) -> None:
    """Every joint of a panel-built house, the seal it needs, and what to buy for it."""
    del version  # told by its callback, before any command is looked for


def load(name: str) -> Any:  # noqa: ANN401 typer does not export its command type
    """Return the command of that name, importing its module."""
    run: Callable[..., None] = import_module(f"seamwright.cli.{name.replace('-', '_')}").run
    single = typer.Typer(add_completion=False, rich_markup_mode=None)
    single.command(name)(run)
    return typer.main.get_command(single)


def problem_of(error: OSError) -> Problem:
    """Return what the operating system refused, as a sentence."""
    name = None if error.filename is None else str(error.filename)
    reason = "the disk or system refused" if error.strerror is None else error.strerror.lower()
    return Problem(
        subject=name if name is not None else "file",
        sentence=f"cannot use {name if name is not None else 'a file'}: {reason}",
        remedy="check the name, the folder and its permissions",
    )


def main() -> None:
    """Run the command line and leave with its exit status."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):  # an old terminal shows an escape
            stream.reconfigure(errors="backslashreplace")
    try:
        app(prog_name="seamwright")
    except Exception as error:
        if "SEAMWRIGHT_TRACE" in os.environ:
            raise
        typer.echo(
            f"Seamwright has a fault of its own here ({type(error).__name__}: {error}). "
            "Set SEAMWRIGHT_TRACE=1 and run again to see where, and report it with the plan.",
            err=True,
        )
        sys.exit(FAULT)
