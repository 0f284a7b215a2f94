"""Compare with a printed number to the last digit it was printed with."""

from decimal import Decimal
from typing import Any

import pytest


def published(number: str) -> Any:
    """Return an approximation that allows half a unit in the last printed digit."""
    exponent = Decimal(number).as_tuple().exponent
    assert isinstance(exponent, int), f"{number} is not a finite number"
    return pytest.approx(float(number), rel=0.0, abs=0.5 * 10.0**exponent * (1.0 + 1e-9))
