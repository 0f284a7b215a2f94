"""Rotorcraft vibration: formulas in SI units, and the machinery that puts them on a page."""

VERSION = "0.2.0"
