"""Demands for the tests: a made-up shaft torque with the peaks of a lopsided rack."""

import math
from dataclasses import replace

import numpy as np

from turnercalc.fields import Supply
from turnercalc.motors import Demand

RPM = math.tau / 60.0
POINTS = 361  # a degree each, so that the peaks stand on the grid


def demand(**changes) -> Demand:
    """Return a rack's demand: hardest 1.94 N·m one way, 2.04 the other, 1.98 and 2.09 to start."""
    angle = np.linspace(0.0, math.tau, POINTS)
    wave = np.sin(2.0 * angle)
    peaks = np.array([[0.46, 0.40], [1.92, 1.67], [1.94, 2.04]])
    starts = np.array([[0.50, 0.43], [2.00, 1.74], [1.98, 2.09]])
    plain = Demand(
        angle=angle,
        torque=peaks[:, :, None] * wave,
        corner_torque=starts[:, :, None] * wave,
        inertia_torque=np.zeros((2, POINTS)),
        load_names=("full", "left rows only", "right rows only"),
        better_direction=0,
        both_directions_needed=False,
        moves_per_cycle=2,
        move_spans=((0, POINTS // 2), (POINTS // 2, POINTS - 1)),
        holding_torque=0.0,
        holding_anywhere=1.0,
        speed_min=1.0 * RPM,
        speed_max=15.0 * RPM,
        safety_factor=2.0,
        interval_s=3600.0,
        supply=Supply((12.0,), (230.0,), 50.0),
        stands="outside the box",
        box_temperature=37.5,
        stopped_by="park switch",
        stages_ratio=1.0,
        side_load=40.0,
    )
    return replace(plain, **changes)
