"""``turnercalc draw``: drawings, templates and lists for the workshop."""

from __future__ import annotations

import click

from turnercalc.cli import options
from turnercalc.cli.inputs import read_motor_file, read_one_design

#: As `turnercalc.handover.drawings.bundle` has them; a test compares the two.
WHAT = ("side", "holes", "templates", "lists")
KINDS = ("pdf", "svg", "dxf")


@click.command(
    "draw",
    epilog=options.example(
        "turnercalc draw my-rack.toml",
        "turnercalc draw my-rack.toml --paper letter --units us -o rack.pdf",
        "turnercalc draw my-rack.toml --what templates --as dxf -o drawings/",
    ),
)
@options.design_file
@click.option(
    "--what",
    "what",
    multiple=True,
    type=click.Choice(WHAT),
    help="Only this: side view, holes, templates or lists. Repeat for more.",
)
@click.option(
    "--as",
    "kind",
    type=click.Choice(KINDS),
    help="Kind of file, where -o does not say it by its ending: one pdf, or a file for each.",
)
@click.option(
    "--paper",
    type=click.Choice(["a4", "letter"]),
    default="a4",
    show_default=True,
    help="Size of the sheets.",
)
@options.corner
@click.option(
    "--behind",
    is_flag=True,
    help="Holes and templates as seen from the other side.",
)
@options.motors
@options.settings
@options.safety_factor
@options.units
@options.to_file
def command(
    design: str,
    what: tuple[str, ...],
    kind: str | None,
    paper: str,
    corner: str,
    behind: bool,
    motor_file: str | None,
    settings: tuple[str, ...],
    safety_factor: str | None,
    system: str,
    out: str | None,
    replace: bool,
) -> int:
    """Draw side view, holes, templates and lists to print.

    Every length is rounded to what can be marked, and the design sized again as
    it is drawn. Without -o the file is named after the design; -o may name a
    folder.
    """
    from pathlib import Path

    from turnercalc.advice.workshop import plan
    from turnercalc.handover.drawings.bundle import files
    from turnercalc.handover.drawings.sheets import PAPERS
    from turnercalc.handover.ends_words import ends_told
    from turnercalc.handover.writing import make_folder, write_all
    from turnercalc.sizing import size

    motors = read_motor_file(motor_file)
    sizing = size(read_one_design(design, settings, safety_factor), motors)
    target = Path(out) if out else Path(f"{Path(design).stem}-drawings.{kind or 'pdf'}")
    is_folder = target.is_dir() or bool(out and out.endswith(("/", "\\")))
    ending = "" if is_folder else target.suffix.lower().removeprefix(".")
    chosen = kind or ending or "pdf"
    if chosen not in KINDS or ending not in ("", chosen):
        raise click.UsageError(f"-o {out}: drawings are written as {', '.join(KINDS)}.")
    stem = f"{Path(design).stem}-drawings" if is_folder else target.stem
    drawn = plan(sizing, motors, system=system, corner=corner)
    made = files(
        drawn,
        chosen,
        what or WHAT,
        stem=stem,
        paper=PAPERS[paper],
        system=system,
        behind=behind,
    )
    folder = target if is_folder else target.parent
    if is_folder:
        make_folder(folder)
    if len(made) == 1 and not is_folder:
        made = {target.name if ending else f"{target.name}.{chosen}": next(iter(made.values()))}
    written = write_all({folder / name: text for name, text in made.items()}, replace=replace)
    verdict = drawn.sizing.verdict.value
    click.echo(f"As marked, {verdict}: {ends_told(drawn.sizing)}.", err=True)
    for path in written:
        click.echo(f"Written: {path}", err=True)
    return 0
