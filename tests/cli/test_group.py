"""The list of commands, their help, and a quick start."""

import re
import subprocess
import sys
from importlib import import_module

import click
import pytest

from turnercalc import __version__
from turnercalc.cli.group import COMMANDS

from .conftest import Run

HEAVY = ("numpy", "pydantic", "pint", "sympy", "matplotlib", "scipy", "jinja2")


def loaded_after(*arguments: str) -> set[str]:
    """Return the heavy packages in memory after a command in a process of its own."""
    code = (
        "import sys; from turnercalc.cli import main; "
        f"main({list(arguments)!r}); "
        f"print('\\nloaded:', *(m for m in {HEAVY!r} if m in sys.modules))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    return set(done.stdout.rpartition("loaded:")[2].split())


@pytest.mark.parametrize("arguments", [("--help",), ("--version",), (), ("size", "--help")])
def test_help_loads_nothing_heavy(arguments: tuple[str, ...]) -> None:
    assert loaded_after(*arguments) == set()


@pytest.mark.parametrize("name", COMMANDS)
def test_the_list_says_what_the_command_says(name: str) -> None:
    command = import_module(f"turnercalc.cli.{name}").command
    assert isinstance(command, click.Command)
    assert command.name == name
    assert command.get_short_help_str(200) == COMMANDS[name]


@pytest.mark.parametrize("name", COMMANDS)
@pytest.mark.parametrize("flag", ["-h", "--help"])
def test_every_command_has_help_with_an_example(run: Run, name: str, flag: str) -> None:
    outcome = run(name, flag)
    assert outcome.code == 0
    assert outcome.err == ""
    assert re.search(rf"Examples?:\n  +turnercalc {name}", outcome.out)
    assert all(len(line) <= 80 for line in outcome.out.splitlines())


@pytest.mark.parametrize("name", COMMANDS)
def test_every_option_is_explained(name: str) -> None:
    command = import_module(f"turnercalc.cli.{name}").command
    unexplained = [
        parameter.name
        for parameter in command.params
        if isinstance(parameter, click.Option) and not parameter.help
    ]
    assert unexplained == []


def test_an_option_means_the_same_in_every_command() -> None:
    meaning: dict[str, str] = {}
    for name in COMMANDS:
        for parameter in import_module(f"turnercalc.cli.{name}").command.params:
            for flag in parameter.opts if isinstance(parameter, click.Option) else ():
                told = meaning.setdefault(flag, parameter.help)
                assert told == parameter.help, f"{name} {flag}"


def test_help_lists_every_command(run: Run) -> None:
    outcome = run("--help")
    assert outcome.code == 0
    for name, line in COMMANDS.items():
        assert re.search(rf"^  {name} +{re.escape(line)}$", outcome.out, re.M)


def test_version(run: Run) -> None:
    assert run("--version").out == f"turnercalc {__version__}\n"


def test_a_misspelt_command_names_the_nearest(run: Run) -> None:
    outcome = run("siez", "my.toml")
    assert outcome.code == 2
    assert outcome.out == ""
    assert 'Error: "siez" is no command. Did you mean "size"?' in outcome.err


def test_a_design_file_in_place_of_a_command_names_the_command(run: Run) -> None:
    outcome = run("my.toml")
    assert outcome.code == 2
    assert "To judge a design file write: turnercalc size my.toml" in outcome.err


def test_a_misspelt_option_is_refused(run: Run) -> None:
    outcome = run("convert", "--plian", "3 mm")
    assert outcome.code == 2
    assert "No such option '--plian'" in outcome.err
