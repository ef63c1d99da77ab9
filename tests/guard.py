"""A guard against reading without end: patterns that try every way of cutting a text up.

It measures no speed (that is for `tests/benchmarks`): the bound is a hundred times and more what
is ever needed, in processor time, which a busy machine does not change.
"""

import time
from collections.abc import Iterator
from contextlib import contextmanager

WITHOUT_END = 60.0  # s of processor time


@contextmanager
def comes_to_an_end() -> Iterator[None]:
    started = time.process_time()
    yield
    assert time.process_time() - started < WITHOUT_END
