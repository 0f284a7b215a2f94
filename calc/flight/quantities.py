"""Quantities that the topics of the flight chapter share."""

import math
from dataclasses import replace

from calc.examples import CURLEW, CURLEW_WING
from calc.quantity import Quantity
from calc.rotor import level_flight, retreating_tip
from calc.rotor import quantities as rotor
from calc.rotor.tip_speed import DIAMETER
from calc.units import ANGLE, AREA, FORCE, LIFT_SLOPE, SHARE

AIRSPEED = replace(rotor.AIRSPEED, above=0.0, at_least=-math.inf, example=77.0)
DENSITY = rotor.AIR_DENSITY
LOAD_FACTOR = rotor.LOAD_FACTOR
MASS = replace(rotor.MASS_OF_ROTORCRAFT, example=CURLEW.mass)
DRAG_AREA = replace(rotor.DRAG_AREA, example=CURLEW.drag_area)

RADIUS = replace(rotor.RADIUS, example=CURLEW.radius)
CHORD = replace(rotor.CHORD, example=CURLEW.chord)
BLADES = replace(rotor.BLADES, example=CURLEW.blades)
ROTOR_SPEED = replace(rotor.ROTOR_SPEED, example=CURLEW.rotor_speed)
TWIST = replace(rotor.TWIST, example=CURLEW.twist)
LIFT_SLOPE_OF_BLADE = replace(rotor.LIFT_SLOPE_OF_BLADE, example=CURLEW.lift_slope)
PROFILE_DRAG_COEFFICIENT = Quantity(
    "c_{d0}",
    "Mean profile drag coefficient of the blades",
    above=0.0,
    below=1.0,
    covered=(0.006, 0.02),
    covered_by="common practice, no source: 0.008 to 0.012 for unstalled blades",
    example=0.010,
)
INDUCED_FACTOR = Quantity(
    r"\kappa",
    "Induced power factor",
    at_least=1.0,
    below=10.0,
    covered=(1.0, 1.5),
    covered_by="common practice, no source: 1.1 to 1.2 in forward flight",
    example=1.15,
)

WING_AREA = Quantity("S", "Wing area", AREA, at_least=0.0, example=CURLEW_WING.area)
WING_ASPECT_RATIO = Quantity(
    "A_R",
    "Wing aspect ratio",
    above=0.0,
    covered=(4.0, math.inf),
    covered_by="lifting-line theory fails for wings of small aspect ratio",
    example=CURLEW_WING.aspect_ratio,
)
WING_ANGLE = Quantity(
    r"\alpha_w",
    "Wing angle from zero lift to the flight path",
    ANGLE,
    above=-math.pi / 2,
    below=math.pi / 2,
    example=CURLEW_WING.angle,
)
WING_LIFT_SLOPE = Quantity(
    r"C_{L\alpha}",
    "Wing lift slope",
    LIFT_SLOPE,
    above=0.0,
    covered=(0.0, 2.0 * math.pi),
    covered_by="a thin wing of infinite span has 2 pi per radian",
    example=CURLEW_WING.lift_slope,
)
WING_SPAN_EFFICIENCY = Quantity(
    "e",
    "Wing span efficiency",
    above=0.0,
    at_most=1.0,
    example=CURLEW_WING.span_efficiency,
)
WING_PROFILE_DRAG_COEFFICIENT = Quantity(
    "C_{D0}",
    "Wing profile drag coefficient",
    at_least=0.0,
    below=1.0,
    example=CURLEW_WING.profile_drag_coefficient,
)
WING_MAXIMUM_LIFT_COEFFICIENT = Quantity(
    "C_{L,max}",
    "Wing maximum lift coefficient",
    above=0.0,
    covered=(0.0, 3.0),
    covered_by="common practice, no source: about 1.2 to 1.5 without flaps",
    example=CURLEW_WING.maximum_lift_coefficient,
)
MOST_LOADING = 0.12
STALLS_ABOVE = "common practice, no source: above about 0.12 blades stall in forward flight"
PROPELLERS = Quantity("n_p", "Number of propellers", at_least=0, at_most=100, whole=True, example=2)
PUSHING_PROPELLERS = replace(PROPELLERS, at_least=1)
PROPELLER_DIAMETER = DIAMETER
PROPELLER_QUALITY = Quantity(
    r"\eta_q",
    "Propeller quality",
    SHARE,
    above=0.0,
    at_most=1.0,
    covered=(0.5, 0.95),
    covered_by="common practice, no source: 0.8 to 0.9 near the design point",
    example=0.87,
)
PROPELLER_THRUST = Quantity("T_p", "Propeller thrust, all propellers", FORCE)
TRANSMISSION_EFFICIENCY = Quantity(
    r"\eta_m", "Transmission efficiency", SHARE, above=0.0, at_most=1.0, example=0.96
)
ANTITORQUE_SHARE = Quantity(
    "k_t",
    "Antitorque power over rotor power",
    SHARE,
    at_least=0.0,
    below=1.0,
    covered=(0.0, 0.3),
    covered_by="common practice, no source: 0 to 0.15",
    example=0.03,
)
PROPELLER_THRUST_SHARE = rotor.PROPELLER_THRUST_SHARE

WING_LIFT_SHARE = replace(
    rotor.WING_LIFT_SHARE,
    at_least=-math.inf,
    below=math.inf,
    covered=(-math.inf, 0.9),
    covered_by="the rotor is nearly unloaded: keep a least rotor lift",
)
BELOW_ONE = replace(
    retreating_tip.BELOW_ONE,
    covered_by="above it stall, reverse flow and the flow along the blade rule, "
    "which a mean drag coefficient does not know",
)
ROTOR_LIFT = replace(level_flight.ROTOR_LIFT, above=0.0, example=50000.0)
WING_LIFT = Quantity("L_w", "Lift of the wing", FORCE)
