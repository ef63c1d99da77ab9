"""Options that several commands share: the same letters and the same words everywhere."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

import click

Command = TypeVar("Command", bound=Callable[..., Any])
Decorator = Callable[[Command], Command]


def example(*lines: str) -> str:
    """Return the end of a command's help: one or more lines to copy."""
    head = "Example:" if len(lines) == 1 else "Examples:"
    return "\b\n" + "\n".join([head, *(f"  {line}" for line in lines)])


design_file: Decorator[Any] = click.argument(
    "design", metavar="DESIGN", type=click.Path(exists=True, dir_okay=False, path_type=str)
)

motors: Decorator[Any] = click.option(
    "-m",
    "--motors",
    "motor_file",
    metavar="FILE",
    type=click.Path(exists=True, dir_okay=False, allow_dash=True, path_type=str),
    help="Motor file; - reads a table pasted on standard input.",
)

settings: Decorator[Any] = click.option(
    "--set",
    "settings",
    metavar='FIELD="VALUE"',
    multiple=True,
    help='Use another value, such as --set link.length="205 mm". Repeat for more.',
)

safety_factor: Decorator[Any] = click.option(
    "--safety-factor",
    metavar="NUMBER",
    help="Times enough that you want, in place of the file's.",
)

load: Decorator[Any] = click.option(
    "--load", "load_name", metavar="NAME", help="Only this load, by its name or part of it."
)

units: Decorator[Any] = click.option(
    "--units",
    "system",
    type=click.Choice(["metric", "us", "both"]),
    default="metric",
    show_default=True,
    help="Units on the page; the calculation is the same.",
)

as_json: Decorator[Any] = click.option(
    "--json", "as_json", is_flag=True, help="Print JSON for scripts."
)

as_csv: Decorator[Any] = click.option("--csv", "as_csv", is_flag=True, help="Print CSV.")

out: Decorator[Any] = click.option(
    "-o",
    "--out",
    metavar="FILE",
    type=click.Path(path_type=str),
    help="Write to this file instead of the screen.",
)

corner: Decorator[Any] = click.option(
    "--corner",
    type=click.Choice(["left", "right"]),
    default="left",
    show_default=True,
    help="Lower corner of the box that holes are measured from.",
)

replace: Decorator[Any] = click.option(
    "--replace", is_flag=True, help="Overwrite a file that is there already."
)

strict: Decorator[Any] = click.option(
    "--strict", is_flag=True, help="Exit with 1 when the verdict is marginal."
)

brief: Decorator[Any] = click.option(
    "--brief", is_flag=True, help="Only the verdict and what to do."
)

plain: Decorator[Any] = click.option(
    "--plain", is_flag=True, help="No colour, and ASCII letters only."
)


def page(command: Command) -> Command:
    """Add the options of every command that prints a page about a design."""
    for option in reversed((settings, safety_factor, units, plain)):
        command = option(command)
    return command


def to_file(command: Command) -> Command:
    """Add the options of every command that can write a file."""
    for option in reversed((out, replace)):
        command = option(command)
    return command
