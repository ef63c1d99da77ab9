"""The command line: each command parses, makes one library call and prints.

``main`` is the only place where an error becomes a message and an exit code:
0 an answer (fine or marginal), 1 the answer is no, 2 nothing usable came out.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence

import click

from turnercalc.cli.group import turnercalc

__all__ = ["main", "turnercalc"]


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code; no error ever leaves as a traceback.

    Parameters
    ----------
    arguments : sequence of str, optional
        What stands after ``turnercalc``; the process's own by default.
    """
    try:
        code = turnercalc.main(
            args=None if arguments is None else list(arguments),
            prog_name="turnercalc",
            standalone_mode=False,
        )
        sys.stdout.flush()
    except click.exceptions.Exit as stop:
        return stop.exit_code
    except (Exception, KeyboardInterrupt) as error:
        # Read only when something went wrong: start-up stays quick.
        from turnercalc.cli.failing import say_why

        return say_why(error)
    return code if isinstance(code, int) else 0
