"""``turnercalc start``: a commented design file to fill in, or one by question and answer."""

from __future__ import annotations

import click

from turnercalc.cli import options


@click.command(
    "start",
    epilog=options.example(
        "turnercalc start rack my-rack.toml",
        "turnercalc start rack --all",
        "turnercalc start rack my-rack.toml --ask",
    ),
)
@click.argument("kind", required=False)
@click.argument("file", required=False, metavar="[FILE]", type=click.Path(path_type=str))
@click.option("--ask", is_flag=True, help="Ask question by question, and write the answers.")
@click.option(
    "--all", "everything", is_flag=True, help="Every optional line too, with its default."
)
@options.out
@options.replace
def command(
    kind: str | None, file: str | None, ask: bool, everything: bool, out: str | None, replace: bool
) -> int:
    """Write a commented design file to fill in.

    KIND is the way of turning, such as rack; without it they are listed. FILE is
    written and then yours to edit in any text editor; without FILE the text is
    printed.
    """
    from turnercalc.cli.saying import hand_over, say
    from turnercalc.handover.writing import check_target

    file = file or out
    if kind is None and not ask:
        say(_kinds())
        return 0
    if file is not None:
        # Nobody should answer forty questions to hear that the file cannot be written.
        check_target(file, replace=replace)
    hand_over(
        _asked(kind or "") if ask else _starter(kind or "", everything), file, replace=replace
    )
    if file is not None:
        click.echo(f"Then:    turnercalc size {file}", err=True)
    return 0


def _starter(kind: str, everything: bool) -> str:
    from turnercalc.design.starter import starter_text

    return starter_text(kind, everything=everything)


def _asked(kind: str) -> str:
    from turnercalc.design.ask import ask_for_design

    click.echo("An empty answer leaves a question open, where it can be. Ctrl-C stops.", err=True)
    return ask_for_design(_answer, lambda text: click.echo(text, err=True), kind)


def _answer(prompt: str) -> str:
    """Show a prompt beside the questions, on standard error, and return the line that is typed."""
    import sys

    click.echo(prompt, nl=False, err=True)
    line = sys.stdin.readline()
    if not line:
        raise click.Abort
    return line.rstrip("\r\n")


def _kinds() -> str:
    """Return the ways of turning that have a starter, one a line."""
    from turnercalc import turners
    from turnercalc.design.starter import starter_names
    from turnercalc.handover.layout import labelled

    says = {kind.starter: kind.says for kind in turners.kinds().values()}
    lines = ["Ways of turning eggs:", ""]
    for name in starter_names():
        lines += labelled(name, says.get(name, ""), margin=2, column=12)
    return "\n".join([*lines, "", f"For example: turnercalc start {starter_names()[0]} my.toml"])
