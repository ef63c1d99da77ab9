"""``python -m turnercalc`` is the same as ``turnercalc``."""

import sys

from turnercalc.cli import main

if __name__ == "__main__":
    sys.exit(main())
