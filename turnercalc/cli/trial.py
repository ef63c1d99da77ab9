"""``turnercalc trial``: the sheet for the 48-hour trial."""

from __future__ import annotations

import click

from turnercalc.cli import options
from turnercalc.cli.inputs import read_motor_file, read_one_design
from turnercalc.cli.saying import hand_over, style_of


@click.command(
    "trial",
    epilog=options.example(
        "turnercalc trial my-rack.toml -m motors.csv",
        "turnercalc trial my-rack.toml -m motors.csv -o trial.txt",
        "turnercalc trial my-rack.toml --run-log -o run-log.csv",
    ),
)
@options.design_file
@options.motors
@click.option("--run-log", is_flag=True, help="The run log as a CSV to fill in, not the sheet.")
@options.page
@options.to_file
def command(
    design: str,
    motor_file: str | None,
    run_log: bool,
    settings: tuple[str, ...],
    safety_factor: str | None,
    system: str,
    plain: bool,
    out: str | None,
    replace: bool,
) -> int:
    """Write the sheet for the 48-hour trial.

    Dummy loads, home tests, pass limits, counter targets and a service card, to
    print and fill in. The build runs 48 hours before eggs go in.
    """
    from turnercalc.advice.trial_plan import trial_plan
    from turnercalc.handover import trial_sheet
    from turnercalc.sizing import size

    motors = read_motor_file(motor_file)
    sizing = size(read_one_design(design, settings, safety_factor), motors)
    plan = trial_plan(sizing)
    if run_log:
        text = trial_sheet.run_log(sizing, plan)
    else:
        text = trial_sheet.page(sizing, plan, style_of(system, plain=plain))
    hand_over(text, out, replace=replace, plain=plain)
    return 0
