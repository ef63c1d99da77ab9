"""``turnercalc gears``: stock teeth nearest to a ratio."""

from __future__ import annotations

import math
import re

import click

from turnercalc.cli import options
from turnercalc.cli.saying import hand_over, style_of


class Gears(click.Command):
    """A ratio may be written with a minus: it is refused as a ratio, not taken for an option."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Set a blank before a negative number; reading takes it away again."""
        return super().parse_args(ctx, [f" {a}" if _NEGATIVE.match(a) else a for a in args])


_NEGATIVE = re.compile(r"-[\d.]")


@click.command(
    "gears",
    cls=Gears,
    epilog=options.example(
        "turnercalc gears 2.4",
        "turnercalc gears 7.5 --kind chain --stages 2",
        "turnercalc gears 60/7 --teeth 12,15,20,36,60",
    ),
)
@click.argument("ratio", metavar="RATIO")
@click.option(
    "--kind",
    default="spur",
    show_default=True,
    help="spur, chain or toothed belt.",
)
@click.option(
    "--stages", type=click.IntRange(1, 3), help="Only so many stages; else 1, 2 and 3 are shown."
)
@click.option(
    "--teeth", "own", metavar="N,N,N", help="Your own wheels in place of what shops usually keep."
)
@click.option(
    "--best", type=click.IntRange(1, 50), default=3, show_default=True, help="How many of each."
)
@options.plain
@options.as_json
@options.to_file
def command(
    ratio: str,
    kind: str,
    stages: int | None,
    own: str | None,
    best: int,
    plain: bool,
    as_json: bool,
    out: str | None,
    replace: bool,
) -> int:
    """Find stock teeth nearest to a ratio.

    RATIO is turns of the motor for one turn behind the gears: 2.4, 12:5 or 60/7.
    Every train of one to three stages is compared.
    """
    from turnercalc.advice.gears import nearest_trains
    from turnercalc.handover import gears_page

    wanted, teeth = gear_ratio(ratio), own_teeth(own)
    trains = nearest_trains(wanted, kind, stages=stages, count=best, teeth=teeth)
    if as_json:
        text = gears_page.as_json(trains)
    else:
        text = gears_page.page(trains, style_of("metric", plain=plain))
    hand_over(text, out, replace=replace, plain=plain)
    return 0 if trains.near else 1


def gear_ratio(text: str) -> float:
    """Return a ratio of gears as people write it; they know no percent."""
    from turnercalc.errors import UnitError
    from turnercalc.units import parse

    text = text.strip()
    such = "Write how many turns of the motor make one behind the gears, such as 2.4, 12:5 or 60/7."
    try:
        found = parse(text, "ratio")
    except UnitError:
        found = math.nan
    if math.isnan(found) or "%" in text:
        raise UnitError(f'"{text}" is no ratio of gears. {such}', text=text)
    if not found > 0.0:
        raise UnitError(f"{text} is no ratio of gears: it has to be above 0. {such}", text=text)
    return found


def own_teeth(text: str | None) -> list[int] | None:
    """Return the builder's own numbers of teeth."""
    if text is None:
        return None
    parts = [part for part in text.replace(";", ",").replace(" ", ",").split(",") if part]
    if not parts or not all(part.isdigit() and 3 <= int(part) <= 1000 for part in parts):
        raise click.UsageError(f'"{text}" is no list of teeth. Write it like   --teeth 12,20,36')
    return [int(part) for part in parts]
