"""``turnercalc explain``: a word, a check or a formula."""

from __future__ import annotations

import click

from turnercalc.cli import options
from turnercalc.cli.inputs import read_one_design
from turnercalc.cli.saying import say


@click.command(
    "explain",
    epilog=options.example(
        "turnercalc explain rest point",
        'turnercalc explain "crank and link" --design my.toml',
    ),
)
@click.argument("words", nargs=-1)
@click.option(
    "--design",
    "design_path",
    metavar="DESIGN",
    type=click.Path(exists=True, dir_okay=False, path_type=str),
    help="Put the numbers of this design into the formula.",
)
@options.settings
@options.plain
def command(
    words: tuple[str, ...], design_path: str | None, settings: tuple[str, ...], plain: bool
) -> int:
    """Explain a word, a check or a formula.

    WORDS is any word on a page of turnercalc, a class of motor, a field of the
    design file, or a formula. Without WORDS everything there is gets listed.
    """
    from turnercalc.handover import explain

    if not words:
        say(explain.contents(), plain=plain)
        return 0
    design = read_one_design(design_path, settings) if design_path else None
    say(explain.explain(" ".join(words), design, ascii_only=plain), plain=plain)
    return 0
