"""The group of commands. Each is loaded when it is run, so that ``--help`` starts at once."""

from __future__ import annotations

from collections.abc import Mapping
from importlib import import_module
from types import MappingProxyType

import click

from turnercalc import __version__

#: Name -> the line that ``--help`` shows; the command itself is `command` in the module of this
#: name. A test compares the line with the command's own help.
COMMANDS: Mapping[str, str] = MappingProxyType(
    {
        "start": "Write a commented design file to fill in.",
        "size": "Say whether a design works, and what helps most.",
        "motors": "Show how each row of a motor file was read.",
        "cycle": "Print the turn cycle as a table or CSV.",
        "plot": "Draw torque, tilt, motors, drift and other plots.",
        "lengths": "Find lengths and the motor's place.",
        "parts": "List pieces, holes and fasteners to make and buy.",
        "draw": "Draw side view, holes, templates and lists to print.",
        "sheet": "Write the report as one page that moves and prints.",
        "tolerance": "Judge how it comes out when it is built.",
        "trial": "Write the sheet for the 48-hour trial.",
        "diagnose": "Find the one error that explains what you measured.",
        "sweep": "Vary any fields and write what comes out.",
        "sensitivity": "Show what a millimetre or a gram does.",
        "compare": "Put two or more designs side by side.",
        "gears": "Find stock teeth nearest to a ratio.",
        "match": "Find which of your motors does, and how.",
        "capacity": "Count the eggs that each motor carries.",
        "convert": "Show one quantity in all the units of listings.",
        "explain": "Explain a word, a check or a formula.",
    }
)


class LazyGroup(click.Group):
    """A group that knows its commands by name and imports one only when it is run."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the names in the order a builder needs them."""
        del ctx
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Import and return one command."""
        del ctx
        if cmd_name not in COMMANDS:
            return None
        command: click.Command = import_module(f"turnercalc.cli.{cmd_name}").command
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Find the command, or say which name is nearest."""
        name = args[0]
        if name not in COMMANDS and not name.startswith("-"):
            from difflib import get_close_matches

            near = get_close_matches(name, COMMANDS, n=1)
            hint = f'Did you mean "{near[0]}"?' if near else f"There are {', '.join(COMMANDS)}."
            if name.endswith(".toml"):
                hint = f"To judge a design file write: turnercalc size {name}"
            raise click.UsageError(f'"{name}" is no command. {hint}', ctx)
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the list of commands without importing any."""
        del ctx
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))


@click.group(
    cls=LazyGroup,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 80},
    epilog="Begin with:  turnercalc start rack my-rack.toml",
)
@click.version_option(__version__, prog_name="turnercalc", message="%(prog)s %(version)s")
def turnercalc() -> None:
    """Design the mechanism that turns the eggs in a home-built incubator.

    From eggs, box, lengths and a motor listing to a verdict: does it tilt far
    enough, how hard does it turn, and which motor will do.
    """
