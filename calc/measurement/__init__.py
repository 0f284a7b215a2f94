"""Measurement: from a record to lines, orders, damping, a named cause and a corrected rotor."""
