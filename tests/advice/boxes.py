"""Random boxes and racks, as builders might have them."""

import numpy as np


def rack_text(rng: np.random.Generator) -> str:
    """Return a design file of a rack in a box, some of which cannot work."""
    rows, per_row = int(rng.integers(2, 8)), int(rng.integers(2, 9))
    spacing = int(rng.integers(46, 58))
    count = int(rng.integers(1, 6))
    width = rows * spacing + 12
    tilt = int(rng.choice([35, 40, 45, 45, 45, 50, 60]))
    floor = int(rng.integers(-40, 30))
    pitch = int(rng.integers(90, 190))
    lowest = int(rng.integers(120, 420))
    arm = int(rng.integers(40, 120))
    points = rng.choice(["right", "left", "right", "down"])
    height = int(lowest + (count - 1) * pitch + rng.integers(60, 300))
    side = "below" if floor <= 0 else "above"
    leans = rng.choice(["0 deg", "0 deg", "1 deg", "-2 deg"])
    return f"""
turnercalc = 1
name       = "Sorrel Row allotments: a rack of {count}"
turner     = "tilting trays"
drive      = "crank and link"
drawn_from = "the door side"

[box]
width  = "{max(110, width + int(rng.integers(-20, 260)))} mm"
height = "{height} mm"
depth  = "450 mm"
leans  = "{leans}"

[eggs]
kind      = "chicken"
weighed   = "12 eggs = 720 g"
typical   = "57 x 43 mm"
largest   = "61 x 45 mm"
lie       = "big end up"
held_by   = "cells"
cell_room = "46 mm"
cell_wall = "30 mm"

[turning]
tilt          = "{tilt} deg each side"
turns_per_day = 24
last_day      = 18

[trays]
count        = {count}
pitch        = "{pitch} mm"
lowest_pivot = "{lowest} mm above the box floor"
rows         = {rows}
eggs_per_row = {per_row}
row_spacing  = "{spacing} mm"
width        = "{width} mm"
empty_weight = "{int(rng.integers(300, 1400))} g"
egg_floor    = "{abs(floor)} mm {side} pivot"
filled       = "{rng.choice(["in any order", "in mirror pairs"])}"

[pivots]
diameter = "8 mm"
bearing  = "steel in nylon"

[crank]
radius = "50 mm"
runs   = "round and round"
across = "50 mm right of pivot"
height = "200 mm below pivot"

[link]
length       = "200 mm"
weight       = "80 g"
pin_diameter = "6 mm"

[arm]
length = "{arm} mm"
points = "{points}"

[motor]
supply     = "12 V"
stands     = "outside the box"
stopped_by = "park switch"
"""
