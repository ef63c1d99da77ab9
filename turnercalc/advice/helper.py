"""``python -m turnercalc.advice.helper``: does to all tasks it is sent what it was sent first.

It talks pickles on standard input and output with the Python that started it, see `cores`, and
ends when that one stops sending.
"""

import pickle
import sys


def serve() -> None:
    """Read the work and then lists of tasks; write a list of what comes out of each."""
    errands, found = sys.stdin.buffer, sys.stdout.buffer
    work = pickle.load(errands)
    while True:
        try:
            tasks = pickle.load(errands)
        except EOFError:
            return
        found.write(pickle.dumps([work(task) for task in tasks], pickle.HIGHEST_PROTOCOL))
        found.flush()


if __name__ == "__main__":
    serve()
