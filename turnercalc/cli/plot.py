"""``turnercalc plot``: pictures of a result."""

from __future__ import annotations

from pathlib import Path

import click

from turnercalc.cli import options
from turnercalc.cli.inputs import read_motor_file, read_one_design

#: One file each; their names are read without loading what draws them.
_FOLDER = Path(__file__).parents[1] / "handover" / "plots" / "kinds"
NAMES = tuple(sorted(file.stem for file in _FOLDER.glob("[a-z]*.py")))

HELP = f"""Draw torque, tilt, motors, drift and other plots.

A NAME is {", ".join(NAMES[:-1])} or {NAMES[-1]}. Several make one sheet; none draws torque. The
ending of the file decides what it is: .png, .svg or .pdf. Without -o the file is named after the
design.
"""


@click.command(
    "plot",
    help=HELP,
    epilog=options.example(
        "turnercalc plot my-rack.toml torque -m motors.csv",
        "turnercalc plot my-rack.toml torque tilt force -o rack.pdf",
    ),
)
@options.design_file
@click.argument("names", metavar="[NAME]...", nargs=-1, type=click.Choice(NAMES))
@options.motors
@options.settings
@options.safety_factor
@options.units
@options.out
@options.replace
def command(
    design: str,
    names: tuple[str, ...],
    motor_file: str | None,
    settings: tuple[str, ...],
    safety_factor: str | None,
    system: str,
    out: str | None,
    replace: bool,
) -> int:
    """Draw plots on one sheet; see `HELP`."""
    from turnercalc.handover.writing import check_target
    from turnercalc.sizing import size

    wanted = names or ("torque",)
    target = Path(out) if out else Path(f"{Path(design).stem}-{'-'.join(wanted)}.png")
    check_target(target, replace=replace)
    motors = read_motor_file(motor_file)
    sizing = size(read_one_design(design, settings, safety_factor), motors)

    from turnercalc.handover import plots

    plots.save(plots.figure(sizing, wanted, system=system), target, replace=replace)
    click.echo(f"Written: {target}", err=True)
    return 0
