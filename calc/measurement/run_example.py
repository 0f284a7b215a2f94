"""A ground run of the invented Plover, up to its end: readings of two modes.

Mode A moves the hub forward and aft, mode B sideways with the blades in regressing lag.

Rotor speed in rpm, mode, frequency in the airframe in Hz, damping ratio, its standard uncertainty
and amplitude in millimetres at the hub.  Damping ratios and frequencies are those of the
ground-resonance model of the Plover, with a scatter that is the stated uncertainty, and 0.3 % of
the frequency; nobody has measured them.
"""

PLOVER_RUN: tuple[tuple[float, str, float, float, float, float], ...] = (
    (150.0, "A", 2.10, 0.0166, 0.0015, 2.0),
    (150.0, "B", 2.77, 0.0783, 0.0020, 1.5),
    (160.0, "A", 2.13, 0.0167, 0.0015, 2.0),
    (160.0, "B", 2.83, 0.0647, 0.0020, 1.5),
    (170.0, "A", 2.16, 0.0204, 0.0015, 2.0),
    (170.0, "B", 2.85, 0.0568, 0.0020, 1.5),
    (180.0, "A", 2.19, 0.0228, 0.0015, 2.0),
    (180.0, "B", 2.89, 0.0451, 0.0020, 1.5),
    (190.0, "A", 2.21, 0.0340, 0.0015, 2.0),
    (190.0, "B", 2.89, 0.0380, 0.0020, 1.5),
    (200.0, "A", 2.24, 0.0438, 0.0015, 2.0),
    (200.0, "B", 2.92, 0.0297, 0.0020, 1.5),
    (202.5, "A", 2.23, 0.0486, 0.0015, 2.0),
    (202.5, "B", 2.91, 0.0261, 0.0020, 1.5),
)
