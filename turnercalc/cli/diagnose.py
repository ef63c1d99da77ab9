"""``turnercalc diagnose``: what single error explains what was measured."""

from __future__ import annotations

from pathlib import Path

import click

from turnercalc.cli import options
from turnercalc.cli.inputs import read_motor_file, read_one_design
from turnercalc.cli.saying import hand_over, style_of


@click.command(
    "diagnose",
    epilog=options.example(
        'turnercalc diagnose my-rack.toml --ends "50 deg left, 40 deg right"',
        'turnercalc diagnose my-rack.toml -m motors.csv --move "7.9 s"',
        "turnercalc diagnose my-rack.toml -m motors.csv --log run-log.csv",
    ),
)
@options.design_file
@options.motors
@click.option(
    "--ends",
    metavar="TEXT",
    help='How far it goes: "50 deg left, 40 deg right", or "52 mm in all".',
)
@click.option("--move", metavar="TIME", help='One move from end to end: "6.2 s".')
@click.option("--count", metavar="TEXT", help='What the counter showed: "21 in 24 h".')
@click.option("--current", metavar="CURRENT", help='While it moves: "0.8 A".')
@click.option("--log", metavar="FILE", help="Run log: a CSV with columns as on the trial sheet.")
@options.page
@options.as_json
@options.to_file
def command(
    design: str,
    motor_file: str | None,
    ends: str | None,
    move: str | None,
    count: str | None,
    current: str | None,
    log: str | None,
    settings: tuple[str, ...],
    safety_factor: str | None,
    system: str,
    plain: bool,
    as_json: bool,
    out: str | None,
    replace: bool,
) -> int:
    """Find the one error that explains what you measured.

    Give the measured ends, the time of a move, a count or a current of the
    finished turner. Every single error that explains them is listed with its size,
    and what to adjust first.
    """
    from turnercalc.advice.diagnose import diagnose, gather
    from turnercalc.handover import diagnosis_page
    from turnercalc.sizing import size

    motors = read_motor_file(motor_file)
    sizing = size(read_one_design(design, settings, safety_factor), motors)
    text = None if log is None else Path(log).read_text(encoding="utf-8-sig")
    measured = gather(sizing, ends=ends, move=move, count=count, current=current, log=text)
    found = diagnose(sizing, measured)
    if as_json:
        hand_over(diagnosis_page.as_json(sizing, found), out, replace=replace)
    else:
        shown = diagnosis_page.page(sizing, found, style_of(system, plain=plain))
        hand_over(shown, out, replace=replace, plain=plain)
    return 1 if found.off else 0
