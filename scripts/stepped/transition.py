"""The transition of the Curlew into autorotation: in which order thrust, disc and torque change."""

import math
from collections.abc import Sequence
from itertools import pairwise

from calc.chart import Axis, Chart, Line, Panels, Rule
from calc.flight.curlew_flight import OUT
from calc.flight.examples import CURLEW_ROTOR, CURLEW_WING
from calc.flight.history import Instant
from calc.flight.stages import STAGES, TransitionLimits
from calc.flight.transition import flown
from calc.rotor.retreating_tip import SMALL_INCIDENCE
from calc.units import DEGREE, KNOT, PERCENT, RPM
from calc.units import SECOND as SECONDS
from scripts.stepped.figure import Stepped

STEPS = STAGES.example
LAST = 210.0
"""Height of the lower panel, in units of the drawing."""


def transition() -> Stepped:
    """Return the figure: one quantity in each step."""
    past = flown(CURLEW_ROTOR, CURLEW_WING, OUT, TransitionLimits(), STEPS).instants
    ends = past[-1].time
    largest = max(OUT.thrust, *(stage.thrust for stage in STEPS))
    off = ends - STEPS[-1].duration
    time = Axis("Time", SECONDS, 0.0, ends)
    fractions = Chart(
        title="Thrust, torque and lift of the wing",
        description="Thrust of the propellers over its largest, shaft torque over its first, and "
        "share of the lift on the wing.",
        x=time,
        y=Axis("Fraction", PERCENT, 0.0, 1.05),
        marks=[
            Line(_thrust(largest), "propeller thrust", 3),
            Line(_torque(), "shaft torque", 4),
            Line([(at.time, at.wing.lift_share) for at in past], "lift on the wing", 1),
        ],
        steps=[1, 3, 4],
    )
    disc = Chart(
        title="Disc incidence",
        description="Incidence of the disc, nose down positive.",
        x=time,
        y=Axis.of(SMALL_INCIDENCE),
        marks=[
            Rule(0.0, "y"),
            Line([(at.time, at.rotor.disc_incidence) for at in past], "disc incidence", 2),
            Rule(off, "x", "all drives off"),
        ],
        steps=[2, 2, 5],
    )
    panels = Panels(
        title="Transition of the Curlew into autorotation, one quantity at a time",
        description="Two panels over one time: thrust, torque and lift of the wing as fractions, "
        "and the incidence of the disc.",
        charts=(fractions, disc),
        last_height=LAST,
    )
    return Stepped(panels.title, panels.svg, _captions(past, off))


def _thrust(largest: float) -> list[tuple[float, float]]:
    """Return the thrust of all propellers over its largest, which changes evenly in a stage."""
    points, time = [(0.0, OUT.thrust / largest)], 0.0
    for stage in STEPS:
        time += stage.duration
        points.append((time, stage.thrust / largest))
    return points


def _torque() -> list[tuple[float, float]]:
    """Return the shaft torque over its first, which holds in a stage."""
    points: list[tuple[float, float]] = []
    time = 0.0
    for stage in STEPS:
        share = stage.shaft_torque / STEPS[0].shaft_torque
        points += [(time, share), (time + stage.duration, share)]
        time += stage.duration
    return points


def _captions(past: Sequence[Instant], off: float) -> tuple[str, ...]:
    """Return what is new in each step."""
    first, last = past[0], past[-1]
    back = min(past, key=_incidence)
    drops = _drops()
    level = next(at for at in reversed(past) if at.time <= drops[0] and at.stage == STEPS[0])
    speeds = [RPM.reading(at.rotor_speed) for at in past]
    *earlier, latest = [f"{time:.0f}" for time in drops]
    captions = (
        (
            f"Propeller thrust leads: it rises from {OUT.thrust / 1000:.1f} kN to "
            f"{STEPS[-2].thrust / 1000:.1f} kN before the last drives are taken off."
        ),
        (
            f"The disc leans back (minus: nose up) from {_incidence(first):+.1f}° to "
            f"{_incidence(back):+.1f}° at {back.time:.0f} s; from {_upward(past):.0f} s on the "
            "mean flow through it is upward."
        ),
        (
            f"The drives come off at {', '.join(earlier)} and {latest} s, from "
            f"{STEPS[0].shaft_torque / 1000:.0f} kN·m of torque to none; at the first the disc is "
            f"still at {_incidence(level):+.1f}°."
        ),
        (
            f"The wing takes load as airspeed rises from {KNOT.reading(first.airspeed):.0f} to "
            f"{KNOT.reading(last.airspeed):.0f} kt: {first.wing.lift_share:.0%} of the lift "
            f"becomes {last.wing.lift_share:.0%}."
        ),
        (
            f"From {off:.0f} s the air alone turns the rotor; over the whole transition its speed "
            f"stays between {min(speeds):.0f} and {max(speeds):.0f} rpm."
        ),
    )
    return tuple(caption.replace("-", "−") for caption in captions)


def _incidence(at: Instant) -> float:
    """Return the incidence of the disc in degrees, nose down positive."""
    return DEGREE.reading(at.rotor.disc_incidence)


def _upward(past: Sequence[Instant]) -> float:
    """Return the time from which the mean flow through the disc stays upward.

    It is the part of the airspeed across the disc, and the induced speed, which is downward.
    """
    later = past[-1].time
    for at in reversed(past):
        if at.airspeed * math.sin(at.rotor.disc_incidence) + at.rotor.induced_speed >= 0.0:
            break
        later = at.time
    return later


def _drops() -> list[float]:
    """Return the times at which shaft torque is taken off: the ends of stages before less."""
    times, time = [], 0.0
    for stage, after in pairwise(STEPS):
        time += stage.duration
        if after.shaft_torque < stage.shaft_torque:
            times.append(time)
    return times
