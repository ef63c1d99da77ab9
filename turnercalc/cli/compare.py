"""``turnercalc compare``: designs side by side."""

from __future__ import annotations

import click

from turnercalc.cli import options
from turnercalc.cli.inputs import read_motor_file, read_one_design
from turnercalc.cli.saying import hand_over, style_of


@click.command(
    "compare",
    epilog=options.example(
        "turnercalc compare my-rack.toml other-rack.toml",
        "turnercalc compare *.toml -m motors.csv",
    ),
)
@click.argument(
    "designs",
    metavar="DESIGN DESIGN...",
    nargs=-1,
    required=True,
    type=click.Path(exists=True, dir_okay=False, path_type=str),
)
@options.motors
@options.page
@options.as_json
@options.to_file
def command(
    designs: tuple[str, ...],
    motor_file: str | None,
    settings: tuple[str, ...],
    safety_factor: str | None,
    system: str,
    plain: bool,
    as_json: bool,
    out: str | None,
    replace: bool,
) -> int:
    """Put two or more designs side by side.

    What comes out first, then what is answered otherwise, then what the files say
    otherwise. What is alike is only counted.
    """
    if len(designs) < 2:
        raise click.UsageError("Name two design files or more.")
    from pathlib import Path

    from turnercalc.advice.compare import compare
    from turnercalc.handover import comparison_page

    read = [read_one_design(path, settings, safety_factor) for path in designs]
    found = compare(read, read_motor_file(motor_file))
    names = [Path(path).name for path in designs]
    if as_json:
        text = comparison_page.compare_json(found, names)
    else:
        style = style_of(system, plain=plain)
        text = comparison_page.compare_page(found, names, style)
    hand_over(text, out, replace=replace, plain=plain)
    return 0
