"""``turnercalc match``: which of my motors, behind which stage, with which crank."""

from __future__ import annotations

import click

from turnercalc.cli import options
from turnercalc.cli.inputs import read_motor_file, read_one_design
from turnercalc.cli.saying import hand_over, style_of


@click.command(
    "match",
    epilog=options.example(
        "turnercalc match my-rack.toml -m motors.csv",
        "turnercalc match my-rack.toml -m motors.csv --stage spur --as-drawn",
    ),
)
@options.design_file
@options.motors
@click.option(
    "--stage",
    "kind",
    default="chain",
    show_default=True,
    help="What may be put behind a motor: chain, toothed belt or spur.",
)
@click.option("--as-drawn", is_flag=True, help="Keep the lengths of the design as they are.")
@options.page
@options.as_json
@options.to_file
def command(
    design: str,
    motor_file: str | None,
    kind: str,
    as_drawn: bool,
    settings: tuple[str, ...],
    safety_factor: str | None,
    system: str,
    plain: bool,
    as_json: bool,
    out: str | None,
    replace: bool,
) -> int:
    """Find which of your motors does, and how.

    Every motor of the file, behind every stock stage, with the crank as drawn and
    with others: each in the best way it can be used, best first, with the settings
    that make it so.

    Exit code: 0 when a motor does, 1 when none does.
    """
    if motor_file is None:
        raise click.UsageError("Name your motor file with -m, such as -m motors.csv.")
    from turnercalc.advice.which_motor import which_motor
    from turnercalc.handover import match_page

    motors = read_motor_file(motor_file)
    assert motors is not None
    read = read_one_design(design, settings, safety_factor)
    found = which_motor(read, motors, kind=kind, other_lengths=not as_drawn)
    if as_json:
        text = match_page.match_json(found)
    else:
        text = match_page.match_page(found, motors, style_of(system, plain=plain))
    hand_over(text, out, replace=replace, plain=plain)
    return 0 if found.works else 1
