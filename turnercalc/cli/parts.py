"""``turnercalc parts``: pieces, holes and fasteners."""

from __future__ import annotations

import click

from turnercalc.cli import options
from turnercalc.cli.inputs import read_motor_file, read_one_design
from turnercalc.cli.saying import hand_over, style_of


@click.command(
    "parts",
    epilog=options.example(
        "turnercalc parts my-rack.toml",
        "turnercalc parts my-rack.toml --units us --corner right",
        "turnercalc parts my-rack.toml --csv -o holes.csv",
    ),
)
@options.design_file
@options.motors
@options.corner
@options.page
@options.as_csv
@options.as_json
@options.to_file
def command(
    design: str,
    motor_file: str | None,
    corner: str,
    settings: tuple[str, ...],
    safety_factor: str | None,
    system: str,
    plain: bool,
    as_csv: bool,
    as_json: bool,
    out: str | None,
    replace: bool,
) -> int:
    """List pieces, holes and fasteners to make and buy.

    Every length is rounded to what can be marked: half millimetres, or 1/32 inch
    with --units us. Lengths that decide the swing say how exact they must be.
    """
    from turnercalc.advice.workshop import plan
    from turnercalc.handover import parts_list
    from turnercalc.sizing import size

    motors = read_motor_file(motor_file)
    sizing = size(read_one_design(design, settings, safety_factor), motors)
    found = plan(sizing, motors, system=system, corner=corner)
    if as_json:
        text = parts_list.as_json(found)
    elif as_csv:
        text = parts_list.as_csv(found)
    else:
        text = parts_list.page(found, style_of(system, plain=plain))
    hand_over(text, out, replace=replace, plain=plain and not as_csv)
    return 0
