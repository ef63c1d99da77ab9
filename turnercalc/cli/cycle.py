"""``turnercalc cycle``: the turn cycle as a table or CSV."""

from __future__ import annotations

import click

from turnercalc.cli import options
from turnercalc.cli.inputs import read_one_design
from turnercalc.cli.saying import hand_over, style_of


@click.command(
    "cycle",
    epilog=options.example(
        "turnercalc cycle my-rack.toml",
        'turnercalc cycle my-rack.toml --load "all trays full"',
        "turnercalc cycle my-rack.toml --csv -o cycle.csv",
    ),
)
@options.design_file
@options.load
@options.page
@options.as_csv
@options.as_json
@options.to_file
def command(
    design: str,
    load_name: str | None,
    settings: tuple[str, ...],
    safety_factor: str | None,
    system: str,
    plain: bool,
    as_csv: bool,
    as_json: bool,
    out: str | None,
    replace: bool,
) -> int:
    """Print the turn cycle as a table or CSV.

    Every 30 degrees of crank on the screen, every degree with --csv and --json;
    without --load the hardest planned load.
    """
    from turnercalc.handover import cycle_record, cycle_table
    from turnercalc.sizing import size

    sizing = size(read_one_design(design, settings, safety_factor), None)
    if as_json:
        text = cycle_record.as_json(sizing, load_name)
    elif as_csv:
        text = cycle_record.as_csv(sizing, load_name)
    else:
        text = cycle_table.page(sizing, load_name, style_of(system, plain=plain))
    hand_over(text, out, replace=replace, plain=plain and not as_csv)
    return 0
