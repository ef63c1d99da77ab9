"""Work on every core: other Pythons of our own take tasks from the same heap.

Threads gain nothing on arrays of this size: numpy hands the interpreter over at every step, and
waiting for it costs as much as the other core wins. A helper is a program of this package, so
that a script of the caller's needs no guard against being imported anew.
"""

from __future__ import annotations

import os
import pickle
import subprocess
import sys
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from queue import SimpleQueue
from threading import Thread
from time import perf_counter
from typing import Any, TypeVar

Task = TypeVar("Task")
Found = TypeVar("Found")

#: Work left that is worth starting helpers for: each takes most of a second to start [s].
WORTH = 2.0
#: A helper takes one in so many of what is left with it.
SHARE = 16
#: What goes wrong where another Python cannot be had or goes away, or something does not pickle.
GONE = (OSError, EOFError, pickle.PickleError, AttributeError, TypeError)


def on_cores(
    work: Callable[[Task], Found], tasks: Sequence[Task], cores: int | None = None
) -> Iterator[tuple[int, Found]]:
    """Yield the place of each task and what `work` makes of it, as they are finished.

    Parameters
    ----------
    work : callable
        A function or an object of this package that pickles: helpers are sent it.
    tasks : sequence
        Things that pickle.
    cores : int, optional
        At most so many; all by default. Helpers start only where enough is left to do. What one
        that goes away has not brought back is done here.
    """
    left = deque(enumerate(tasks))
    others = (cores or os.cpu_count() or 1) - 1
    start = perf_counter()
    while task := _next(left):
        yield task[0], work(task[1])
        each = (perf_counter() - start) / (len(tasks) - len(left))
        if others and each * len(left) > WORTH:
            yield from _together(work, left, others)


def _together(
    work: Callable[[Task], Found], left: deque[tuple[int, Task]], others: int
) -> Iterator[tuple[int, Found]]:
    """Yield what comes out of all that is left, worked on here and by so many helpers."""
    back: SimpleQueue[tuple[int, Found] | None] = SimpleQueue()
    helpers = [_Helper() for _ in range(others)]
    threads = [Thread(target=_feed, args=(one, work, left, back)) for one in helpers]
    try:
        for thread in threads:
            thread.start()
        running = others
        while running or left or not back.empty():
            task = _next(left)
            if task is not None:
                yield task[0], work(task[1])
            while (running and task is None) or not back.empty():
                found = back.get()
                if found is not None:
                    yield found
                else:
                    running -= 1
                    break
    finally:
        for one in helpers:
            one.stop()
        for thread in threads:
            thread.join()


def _feed(
    helper: _Helper,
    work: Callable[[Task], Found],
    left: deque[tuple[int, Task]],
    back: SimpleQueue[tuple[int, Found] | None],
) -> None:
    """Have a helper work until nothing is left; give back the tasks of one that goes away."""
    taken: list[tuple[int, Task]] = []
    try:
        helper.send(work)
        while taken := _some(left):
            helper.send([task for _, task in taken])
            for (at, _), found in zip(taken, helper.receive(), strict=True):
                back.put((at, found))
    except GONE:
        left.extend(taken)
    finally:
        helper.close()
        back.put(None)


def _next(left: deque[tuple[int, Task]]) -> tuple[int, Task] | None:
    try:
        return left.popleft()
    except IndexError:
        return None


def _some(left: deque[tuple[int, Task]]) -> list[tuple[int, Task]]:
    """Return a share of what is left, fewer towards the end: each errand takes its time."""
    wanted = 1 + len(left) // SHARE
    return [task for task in (_next(left) for _ in range(wanted)) if task is not None]


class _Helper:
    """Another Python that does one thing to whatever it is sent; of one thread but for `stop`."""

    def __init__(self) -> None:
        self.process: subprocess.Popen[bytes] | None = None
        self.stopped = False

    def send(self, what: Any) -> None:
        if self.stopped:
            raise EOFError
        if self.process is None:
            self.process = subprocess.Popen(
                [sys.executable, "-m", "turnercalc.advice.helper"],
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=subprocess.DEVNULL,
                env=os.environ | {"PYTHONPATH": os.pathsep.join(filter(None, sys.path))},
            )
        assert self.process.stdin is not None
        self.process.stdin.write(pickle.dumps(what, protocol=pickle.HIGHEST_PROTOCOL))
        self.process.stdin.flush()

    def receive(self) -> Any:
        assert self.process is not None
        assert self.process.stdout is not None
        return pickle.load(self.process.stdout)

    def stop(self) -> None:
        """Have it end now, from any thread: whoever waits for it gets an end of file."""
        self.stopped = True
        if self.process is not None:
            self.process.kill()

    def close(self) -> None:
        self.stop()
        if self.process is None:
            return
        for pipe in (self.process.stdin, self.process.stdout):
            # What could not be written any more is not written when it closes either.
            with suppress(OSError):
                pipe.close()  # type: ignore[union-attr]
        self.process.wait()
