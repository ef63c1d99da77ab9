"""``turnercalc sensitivity``: what a millimetre, a gram or a part does."""

from __future__ import annotations

import click

from turnercalc.cli import options
from turnercalc.cli.inputs import read_one_design
from turnercalc.cli.saying import hand_over, style_of


@click.command("sensitivity", epilog=options.example("turnercalc sensitivity my-rack.toml"))
@options.design_file
@options.page
@options.as_json
@options.to_file
def command(
    design: str,
    settings: tuple[str, ...],
    safety_factor: str | None,
    system: str,
    plain: bool,
    as_json: bool,
    out: str | None,
    replace: bool,
) -> int:
    """Show what a millimetre or a gram does.

    For every length a millimetre more (1/32 inch in US units), for every weight and
    friction a tenth more: what it does to both ends and to the hardest planned
    turn, part by part, the strongest first.
    """
    from turnercalc.advice.sensitivity import sensitivity
    from turnercalc.handover import sensitivity_page
    from turnercalc.sizing import size

    read = read_one_design(design, settings, safety_factor)
    found, sizing = sensitivity(read), size(read)
    if as_json:
        text = sensitivity_page.sensitivity_json(found, read, sizing)
    else:
        style = style_of(system, plain=plain)
        text = sensitivity_page.sensitivity_page(found, read, sizing, style)
    hand_over(text, out, replace=replace, plain=plain)
    return 0
