"""``turnercalc motors``: how each row of a motor file was read."""

from __future__ import annotations

import click

from turnercalc.cli import options
from turnercalc.cli.inputs import read_motor_file
from turnercalc.cli.saying import colours, hand_over, style_of


@click.command(
    "motors",
    epilog=options.example(
        "turnercalc motors motors.csv",
        "turnercalc motors -",
        "turnercalc motors shop-page.txt --csv -o motors.csv",
    ),
)
@click.argument(
    "motor_file",
    metavar="FILE",
    type=click.Path(exists=True, dir_okay=False, allow_dash=True, path_type=str),
)
@options.units
@options.plain
@options.as_json
@options.as_csv
@options.to_file
def command(
    motor_file: str,
    system: str,
    plain: bool,
    as_json: bool,
    as_csv: bool,
    out: str | None,
    replace: bool,
) -> int:
    """Show how each row of a motor file was read.

    FILE is a CSV file, a spreadsheet or a table copied from a shop page; - reads
    a table pasted on standard input. For each row: what was taken, what is doubted,
    what is refused and why. No design is needed. With --csv it writes a clean
    copy: one figure a cell, with its unit, and reading it gives the same motors.
    """
    from turnercalc.handover import motor_list

    found = read_motor_file(motor_file)
    assert found is not None
    if as_json and as_csv:
        raise click.UsageError("Either --json or --csv, not both.")
    if as_csv:
        from turnercalc.motors import to_csv

        text = to_csv(found)
    elif as_json:
        text = motor_list.as_json(found)
    else:
        text = motor_list.page(found, style_of(system, plain=plain, colour=colours(out)))
    hand_over(text, out, replace=replace, plain=plain and not as_csv)
    return 0
