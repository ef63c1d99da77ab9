"""Units that the tests reckon with, from their definitions (international yard and pound, 1959)."""

import math

INCH = 0.0254
POUND = 0.45359237
KGF_CM = 0.0980665
OZF_IN = POUND / 16 * 9.80665 * INCH
RPM = math.pi / 30

NINE = [
    "1.5 Nm",
    "15.3 kgf·cm",
    "15.3 kg/cm",
    "212.4 oz-in",
    "13.28 in-lb",
    "1.106 lb·ft",
    "150 N·cm",
    "15 300 g·cm",
    "1,5 N.m",
]
