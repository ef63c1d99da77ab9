"""``turnercalc sheet``: the one-page report that moves."""

from __future__ import annotations

from pathlib import Path

import click

from turnercalc.cli import options
from turnercalc.cli.inputs import read_motor_file, read_one_design


@click.command(
    "sheet",
    epilog=options.example(
        "turnercalc sheet my-rack.toml -m motors.csv",
        "turnercalc sheet my-rack.toml -m motors.csv -o rack.html --units us",
    ),
)
@options.design_file
@options.motors
@options.settings
@options.safety_factor
@options.units
@options.out
@options.replace
def command(
    design: str,
    motor_file: str | None,
    settings: tuple[str, ...],
    safety_factor: str | None,
    system: str,
    out: str | None,
    replace: bool,
) -> int:
    """Write the report as one page that moves and prints.

    A single HTML file for any browser: verdict, moving picture, torque, motors,
    timer, cautions. It needs no network. Without -o it is named after the design.
    """
    from turnercalc.handover.writing import check_target

    target = Path(out) if out else Path(f"{Path(design).stem}.html")
    check_target(target, replace=replace)

    from turnercalc.advice import advise
    from turnercalc.cli.saying import style_of
    from turnercalc.handover.page import sheet
    from turnercalc.handover.record import exit_code
    from turnercalc.handover.writing import write_whole
    from turnercalc.sizing import size

    motors = read_motor_file(motor_file)
    sizing = size(read_one_design(design, settings, safety_factor), motors)
    write_whole(target, sheet(sizing, advise(sizing, motors), style_of(system)), replace=replace)
    click.echo(f"Written: {target}", err=True)
    return exit_code(sizing)
