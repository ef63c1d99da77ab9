"""Constants of nature and of convention."""

STANDARD_GRAVITY = 9.80665  # m/s2, conventional value of the 3rd CGPM (1901)
