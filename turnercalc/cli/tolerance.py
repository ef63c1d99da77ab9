"""``turnercalc tolerance``: how a design comes out when it is built."""

from __future__ import annotations

import sys

import click

from turnercalc.cli import options
from turnercalc.cli.inputs import read_motor_file, read_one_design
from turnercalc.cli.saying import hand_over, style_of


@click.command(
    "tolerance",
    epilog=options.example(
        "turnercalc tolerance my-rack.toml -m motors.csv",
        'turnercalc tolerance my-rack.toml --half-known crank.radius="35 mm +/- 5 mm"',
        'turnercalc tolerance my-rack.toml --marking "0.5 mm" --builds 100000',
    ),
)
@options.design_file
@options.motors
@click.option(
    "--builds",
    type=click.IntRange(100, 10_000_000),
    help="How many builds are drawn; as many as take some seconds where you do not say.",
)
@click.option("--seed", type=int, default=1, show_default=True, help="Same seed, same answer.")
@click.option(
    "--half-known",
    metavar='FIELD="35 mm +/- 5 mm"',
    multiple=True,
    help="A number that is known only so far. Repeat for more.",
)
@click.option(
    "--marking", metavar="LENGTH", help="Error of every marked length, 95 of 100 within it."
)
@options.page
@options.as_json
@options.to_file
def command(
    design: str,
    motor_file: str | None,
    builds: int | None,
    seed: int,
    half_known: tuple[str, ...],
    marking: str | None,
    settings: tuple[str, ...],
    safety_factor: str | None,
    system: str,
    plain: bool,
    as_json: bool,
    out: str | None,
    replace: bool,
) -> int:
    """Judge how it comes out when it is built.

    Marking errors, pin play, weights, single eggs, friction and half-known numbers
    are drawn together, thousands of times: how many builds tip right, or turn their
    eggs far enough, and have motor enough; how far the ends, the egg's turn and the
    hardest turn spread; which length matters most.

    A number may stand half known in the file itself: radius = "35 mm +/- 5 mm".
    """
    from turnercalc.advice.tolerance import judge_build, read_half_known
    from turnercalc.handover import tolerance_page
    from turnercalc.units import parse

    motors = read_motor_file(motor_file)
    found = read_one_design(design, settings, safety_factor)
    known = dict(read_half_known(found, text) for text in half_known)
    mark = None if marking is None else parse(marking, "length")
    if mark is not None and mark < 0.0:
        raise click.UsageError(f"--marking {marking}: an error is 0 or more, such as 0.5 mm.")
    with click.progressbar(
        length=builds or 1, label="Building", file=sys.stderr, hidden=not sys.stderr.isatty()
    ) as bar:
        done = 0

        def progress(so_far: int, total: int) -> None:
            nonlocal done
            bar.length = total
            bar.update(so_far - done)
            done = so_far

        judged = judge_build(
            found,
            motors,
            count=builds,
            seed=seed,
            half_known=known,
            marking=mark,
            progress=progress,
        )
    if as_json:
        text = tolerance_page.as_json(judged)
    else:
        text = tolerance_page.page(judged, style_of(system, plain=plain))
    hand_over(text, out, replace=replace, plain=plain)
    return 0
