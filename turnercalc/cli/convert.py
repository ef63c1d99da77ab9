"""``turnercalc convert``: one quantity in all the units of listings."""

from __future__ import annotations

import click

from turnercalc.cli import options
from turnercalc.cli.saying import say


@click.command("convert", epilog=options.example('turnercalc convert "46 kg/cm"'))
@click.argument("quantity", nargs=-1, required=True)
@options.plain
@options.as_json
def command(quantity: tuple[str, ...], plain: bool, as_json: bool) -> int:
    """Show one quantity in all the units of listings.

    QUANTITY is a number with its unit, in any spelling: "46 kg/cm", "18-1/2in",
    "0.16 s/60deg". Anything odd about the spelling is told.
    """
    from turnercalc import units
    from turnercalc.handover import conversion

    found = units.convert(" ".join(quantity))
    say(conversion.as_json(found) if as_json else conversion.page(found), plain=plain)
    return 0
