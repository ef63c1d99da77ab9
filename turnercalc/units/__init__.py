"""Text to SI and back: every form in which builders and listings write a quantity.

Our code reads the forms people write; pint, loaded on the first quantity, knows the units.
"""

from turnercalc.units.listing import Conversion, convert, likely_units, readings
from turnercalc.units.lookup import find_unit, to_si
from turnercalc.units.numbers import NUMBER, read_number, tidy
from turnercalc.units.ranges import parse_range
from turnercalc.units.reading import Reading, mains_pair, parse, read
from turnercalc.units.showing import in_unit, inch_fraction, plain, show
from turnercalc.units.spellings import KIND_NAMES, KINDS, SPELLINGS, Unit, key

__all__ = [
    "KINDS",
    "KIND_NAMES",
    "NUMBER",
    "SPELLINGS",
    "Conversion",
    "Reading",
    "Unit",
    "convert",
    "find_unit",
    "in_unit",
    "inch_fraction",
    "key",
    "likely_units",
    "mains_pair",
    "parse",
    "parse_range",
    "plain",
    "read",
    "read_number",
    "readings",
    "show",
    "tidy",
    "to_si",
]
