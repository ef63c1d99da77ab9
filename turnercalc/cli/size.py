"""``turnercalc size``: the verdict page."""

from __future__ import annotations

import click

from turnercalc.cli import options
from turnercalc.cli.inputs import read_motor_file, read_one_design
from turnercalc.cli.saying import colours, hand_over, style_of


@click.command(
    "size",
    epilog=options.example(
        "turnercalc size my-rack.toml",
        "turnercalc size my-rack.toml -m motors.csv",
        'turnercalc size my-rack.toml -m motors.csv --set link.length="205 mm"',
    ),
)
@options.design_file
@options.motors
@options.page
@options.brief
@options.strict
@options.as_json
@click.option("--cycle", "with_cycle", is_flag=True, help="With --json: every load's turn cycle.")
@options.to_file
def command(
    design: str,
    motor_file: str | None,
    settings: tuple[str, ...],
    safety_factor: str | None,
    system: str,
    plain: bool,
    brief: bool,
    strict: bool,
    as_json: bool,
    with_cycle: bool,
    out: str | None,
    replace: bool,
) -> int:
    """Say whether a design works, and what helps most.

    Prints the verdict, its reason and the best change first, then the turn, the
    torque for every load, your motors, the timer, and what was taken for granted.

    Exit code: 0 fine or marginal, 1 no (with --strict also marginal), 2 when the
    file cannot be used.
    """
    from turnercalc.advice import advise
    from turnercalc.errors import NotTurnedError
    from turnercalc.handover import record
    from turnercalc.sizing import size

    motors = read_motor_file(motor_file)
    try:
        sizing = size(read_one_design(design, settings, safety_factor), motors)
    except NotTurnedError as answer:
        if not as_json:
            raise
        hand_over(record.no_turner_as_json(str(answer), file=design), out, replace=replace)
        return 1
    advice = advise(sizing, motors)
    if as_json:
        text = record.as_json(sizing, advice, file=design, with_cycle=with_cycle, strict=strict)
    else:
        from turnercalc.handover import screen

        style = style_of(system, plain=plain, colour=colours(out))
        files = screen.Files(design, motor_file)
        text = screen.page(sizing, advice, files, style, brief=brief)
    hand_over(text, out, replace=replace, plain=plain)
    return record.exit_code(sizing, strict=strict)
