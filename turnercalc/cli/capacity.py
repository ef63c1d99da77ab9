"""``turnercalc capacity``: how many eggs each motor carries."""

from __future__ import annotations

import sys

import click

from turnercalc.cli import options
from turnercalc.cli.inputs import read_motor_file, read_one_design
from turnercalc.cli.saying import hand_over, style_of


@click.command(
    "capacity",
    epilog=options.example(
        "turnercalc capacity my-rack.toml -m motors.csv",
        "turnercalc capacity *.toml -m motors.csv --csv -o capacity.csv",
        "turnercalc capacity my-rack.toml -m motors.csv --chart capacity.png",
    ),
)
@click.argument(
    "designs",
    metavar="DESIGN...",
    nargs=-1,
    required=True,
    type=click.Path(exists=True, dir_okay=False, path_type=str),
)
@options.motors
@click.option(
    "--most",
    type=click.IntRange(1, 60),
    default=12,
    show_default=True,
    help="How far motors are looked at; always up to what the box holds.",
)
@click.option(
    "--of",
    metavar="WORD",
    default="",
    help="What is counted, where there is a choice: shelves, or eggs on each shelf.",
)
@click.option(
    "--chart",
    "picture",
    metavar="FILE",
    type=click.Path(dir_okay=False, path_type=str),
    help="Draw it as bars: .png, .svg or .pdf.",
)
@options.page
@options.as_csv
@options.as_json
@options.to_file
def command(
    designs: tuple[str, ...],
    motor_file: str | None,
    most: int,
    of: str,
    picture: str | None,
    settings: tuple[str, ...],
    safety_factor: str | None,
    system: str,
    plain: bool,
    as_csv: bool,
    as_json: bool,
    out: str | None,
    replace: bool,
) -> int:
    """Count the eggs that each motor carries.

    For each design and each motor of your file: how many trays, rows, cells, bars,
    shelves or eggs on a shelf it turns with the wanted factor and the box has room
    for, filled in any order or in pairs, and what limits it. Several designs get a
    line each.
    """
    if motor_file is None:
        raise click.UsageError("Name your motor file with -m, such as -m motors.csv.")
    from pathlib import Path

    from turnercalc.advice.capacity import capacity
    from turnercalc.handover import capacity_page
    from turnercalc.handover.writing import check_target

    if picture is not None:
        check_target(picture, replace=replace)
    motors = read_motor_file(motor_file)
    assert motors is not None
    read = [read_one_design(path, settings, safety_factor) for path in designs]
    show = sys.stderr.isatty()

    def progress(done: int) -> None:
        if show:
            click.echo(f"\rSizing {done}", err=True, nl=False)

    found = [capacity(design, motors, most=most, of=of, progress=progress) for design in read]
    if show:
        click.echo("\r", err=True, nl=False)
    names = [Path(path).name for path in designs]
    if picture is not None:
        from turnercalc.handover.plots import save

        sheet = capacity_page.chart(found)
        click.echo(f"Written: {save(sheet, picture, replace=replace)}", err=True)
    if as_csv:
        text = capacity_page.capacity_csv(found, names)
    elif as_json:
        text = capacity_page.capacity_json(found, names)
    else:
        text = capacity_page.capacity_page(found, names, motors, style_of(system, plain=plain))
    hand_over(text, out, replace=replace, plain=plain and not as_csv)
    return 0
