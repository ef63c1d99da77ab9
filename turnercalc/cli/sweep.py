"""``turnercalc sweep``: any fields over any values."""

from __future__ import annotations

import sys

import click

from turnercalc.cli import options
from turnercalc.cli.inputs import read_motor_file, read_one_design
from turnercalc.cli.saying import hand_over


@click.command(
    "sweep",
    epilog=options.example(
        "turnercalc sweep my-rack.toml --vary crank.radius=40..60mm:1mm",
        "turnercalc sweep my-rack.toml --vary link.length=180..240mm:5mm",
        '    --vary trays.filled="in any order|in mirror pairs" -o sweep.csv',
        "turnercalc sweep my-rack.toml --vary crank.radius=40..60mm",
        "    --vary link.length=180..240mm --plot map.png",
    ),
)
@options.design_file
@click.option(
    "--vary",
    metavar="FIELD=LOW..HIGH:STEP",
    multiple=True,
    required=True,
    help="Values of one field: a range, with a step, or words with | between. The side of a place "
    "once, at the end: 150..170mm below pivot:5mm. Repeat for a grid.",
)
@click.option(
    "--friction",
    type=click.Choice(["none", "low", "middle", "high"]),
    default="middle",
    show_default=True,
    help="None is many times faster and leaves out the weight of the link.",
)
@click.option("--full", is_flag=True, help="Size every design in full, with its verdict. Slow.")
@click.option(
    "--plot",
    "picture",
    metavar="FILE",
    type=click.Path(dir_okay=False, path_type=str),
    help="Draw one field as a plot or two as a map: .png, .svg or .pdf.",
)
@click.option(
    "--show",
    type=click.Choice(["peak", "ends"]),
    default="peak",
    show_default=True,
    help="What the plot or map shows.",
)
@options.motors
@options.settings
@options.safety_factor
@options.as_json
@options.to_file
def command(
    design: str,
    vary: tuple[str, ...],
    friction: str,
    full: bool,
    picture: str | None,
    show: str,
    motor_file: str | None,
    settings: tuple[str, ...],
    safety_factor: str | None,
    as_json: bool,
    out: str | None,
    replace: bool,
) -> int:
    """Vary any fields and write what comes out.

    CSV with a line for each design: both ends, the hardest planned turn, also in
    either direction, and why a design does not go through. The grid of all values is
    swept.
    """
    from turnercalc.advice.ranges import read_range
    from turnercalc.advice.sweep import sweep
    from turnercalc.handover import sweep_table
    from turnercalc.handover.writing import check_target

    if picture is not None:
        check_target(picture, replace=replace)
    found = read_one_design(design, settings, safety_factor)
    ranges = [read_range(found, text) for text in vary]
    names = [one.field for one in ranges]
    for twice in (name for name in names if names.count(name) > 1):
        raise click.UsageError(f"{twice} is varied twice. Say all its values in one --vary.")
    with click.progressbar(
        length=1, label="Sweeping", file=sys.stderr, hidden=not sys.stderr.isatty()
    ) as bar:
        done = 0

        def progress(so_far: int, total: int) -> None:
            nonlocal done
            bar.length = total
            bar.update(so_far - done)
            done = so_far

        swept = sweep(
            found,
            {one.field: one.values for one in ranges},
            friction=friction,
            full=full,
            motor_file=read_motor_file(motor_file),
            progress=progress,
        )
    if picture is not None:
        sheet = sweep_table.figure(found, swept, show)
        click.echo(f"Written: {sweep_table.save(sheet, picture, replace=replace)}", err=True)
        if out is None and not as_json:
            return 0
    text = sweep_table.as_json(found, swept) if as_json else sweep_table.as_csv(found, swept)
    hand_over(text, out, replace=replace)
    return 0
