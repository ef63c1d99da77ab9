"""``turnercalc lengths``: find crank, link, arm and motor place."""

from __future__ import annotations

import click

from turnercalc.cli import options
from turnercalc.cli.inputs import read_one_design
from turnercalc.cli.saying import hand_over, style_of


@click.command(
    "lengths",
    epilog=options.example(
        "turnercalc lengths my-rack.toml",
        '    --within crank.height="180..260mm below pivot"',
        "turnercalc lengths my-rack.toml --write . --trays",
    ),
)
@options.design_file
@click.option(
    "--within",
    metavar="FIELD=LOW..HIGH",
    multiple=True,
    help="Only values of a field in this range: where the motor may stand, say. Repeat for more.",
)
@click.option(
    "--step", metavar="LENGTH", help="Lengths in whole steps of this; 1 mm, or 1/16 in with us."
)
@click.option(
    "--beside",
    is_flag=True,
    help="Shaft and crank stand before or behind what is turned, not under it.",
)
@click.option(
    "--trays",
    "with_trays",
    is_flag=True,
    help="Find how many trays fit the box, and lengths for just these.",
)
@click.option(
    "--write",
    "folder",
    metavar="FOLDER",
    type=click.Path(file_okay=False, path_type=str),
    help="Write each suggestion as a design file into this folder, made where there is none.",
)
@options.page
@options.as_json
@options.to_file
def command(
    design: str,
    within: tuple[str, ...],
    step: str | None,
    beside: bool,
    with_trays: bool,
    folder: str | None,
    settings: tuple[str, ...],
    safety_factor: str | None,
    system: str,
    plain: bool,
    as_json: bool,
    out: str | None,
    replace: bool,
) -> int:
    """Find lengths and the motor's place.

    From box, trays and wanted tilt: lengths that go through, tip alike to both
    sides, fit the box and can be marked with a rule. Several suggestions, each
    sized in full; what one gives and what it costs. Places are written as in the
    file, such as 180..260mm below pivot, or with a sign: below and left are negative.

    Exit code: 0 with suggestions, 1 when there is none, 2 when the file cannot be
    used.
    """
    from pathlib import Path

    from turnercalc.advice.fit_trays import arrange, fit_trays
    from turnercalc.advice.lengths import Wish, find_lengths
    from turnercalc.advice.ranges import read_range
    from turnercalc.handover import lengths_page
    from turnercalc.units import parse

    found_design = read_one_design(design, settings, safety_factor)
    ranges = [read_range(found_design, text) for text in within]
    us = system == "us"
    mark = parse(step or ("1/16 in" if us else "1 mm"), "length")
    if not mark > 0.0:
        raise click.UsageError(f"--step {step}: a step is above 0, such as 0.5 mm.")
    wish = Wish(
        within={one.field: (one.low, one.high) for one in ranges},
        step=mark,
        beside=beside,
        system="us" if us else "metric",
    )
    rack = found_design.get("trays") is not None
    if with_trays and not rack:
        raise click.UsageError("--trays is for racks: this design has no trays on pivots.")
    trays, told = None, ""
    if with_trays:
        arranged = arrange(found_design, wish)
        found, trays, told = arranged.lengths, arranged.fit, arranged.text
    else:
        found = find_lengths(found_design, wish)
        if found.too_big and rack:
            trays = fit_trays(found_design, step=mark, system=wish.system)
            told = "Add --trays for lengths that go with the most trays." if trays.count else ""
    if as_json:
        text = lengths_page.as_json(found, found_design, trays=trays, told=told)
    else:
        style = style_of(system, plain=plain)
        text = lengths_page.page(found, found_design, style, trays=trays, told=told)
    if folder is not None:
        stem = Path(design).stem
        for path in lengths_page.write_designs(found, folder, stem, replace=replace):
            click.echo(f"Written: {path}", err=True)
    hand_over(text, out, replace=replace, plain=plain)
    return 0 if found.suggestions else 1
