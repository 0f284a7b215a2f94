"""Quantities that the topics of the measurement chapter share."""

from calc.declaration import Choice
from calc.quantity import Quantity
from calc.units import FREQUENCY, PER_REV, SHARE, TIME

SAMPLE_RATE = Quantity("f_s", "Sample rate", FREQUENCY, above=0.0, example=200.0)
RECORD_LENGTH = Quantity("T", "Record length", TIME, above=0.0, example=20.0)
LINE_SPACING = Quantity(r"\Delta f", "Line spacing", FREQUENCY, above=0.0, example=0.05)
ORDER = Quantity("k", "Order", (PER_REV,), above=0.0, example=4.0)
OVERLAP = Quantity("o", "Overlap of the blocks", SHARE, at_least=0.0, at_most=0.99, example=0.5)

WINDOWS = {
    "hann": "Hann",
    "rectangular": "rectangular",
    "hamming": "Hamming",
    "blackman": "Blackman",
    "blackman_harris": "Blackman-Harris",
    "flat_top": "flat top",
}
"""The windows by their name in Python and in links, with what a page calls them."""

WINDOW = Choice("Window", WINDOWS)
