"""Any text at all is read or explained, and comes to an end."""

import math
import subprocess
import sys

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.guard import comes_to_an_end
from turnercalc.errors import UnitError
from turnercalc.units import (
    KINDS,
    convert,
    parse,
    parse_range,
)

WRITTEN = "1 2.5 1,500 3/4 60 ½ e9 - / : ± % ° · ( ) ' \" in ft kg cm N m s rpm per dozen to max"
_PIECES = st.sampled_from([*WRITTEN.split(" "), " ", "about "])
_TEXTS = st.one_of(st.text(max_size=40), st.lists(_PIECES, max_size=12).map("".join))


def _read_or_explained(function, *arguments):
    try:
        return function(*arguments), None
    except UnitError as error:
        return None, error


@given(_TEXTS, st.sampled_from(KINDS))
@settings(max_examples=400)
def test_any_text_is_read_or_explained(text, kind):
    with comes_to_an_end():
        value, error = _read_or_explained(parse, text, kind)
        assert str(error) if value is None else math.isfinite(value)
        for choice in error.choices if error else ():
            assert math.isfinite(parse(choice, kind))
        ends, error = _read_or_explained(parse_range, text, kind)
        assert str(error) if ends is None else -math.inf < ends[0] <= ends[1]
        conversion, error = _read_or_explained(convert, text)
        assert str(error) if conversion is None else conversion.readings


@pytest.mark.parametrize(
    "piece",
    ["1 ", "1/", "1-", "(", "about ", "1 in ", "1,", "1 000", "per ", "1'", "~", "± ", "x ", "a "],
)
def test_awkward_texts_come_to_an_end(piece):
    text = (piece * 120)[:119]
    with comes_to_an_end():
        for kind in KINDS:
            with pytest.raises(UnitError):
                parse(text, kind)
            with pytest.raises(UnitError):
                parse_range(text, kind)


def test_importing_loads_neither_pint_nor_numpy():
    code = (
        "import sys, turnercalc.units; "
        "print(sorted(m for m in ('pint', 'numpy', 'pydantic') if m in sys.modules))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_a_hundred_thousand_cells_are_read():
    units = ("kg.cm", "N·m", "oz-in", "kgf·cm", "g·cm", "mN·m", "lb·in", "kg/cm", "Nm", "KGF.CM")
    cells = [f"{i / 7:.3f} {unit}" for i in range(1, 10001) for unit in units]
    with comes_to_an_end():
        for cell in cells:
            parse(cell, "torque")
