"""Wing: lift share, drag and airspeed, against lifting-line theory and balances."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.catalogue import FORMULAS, formula
from calc.declaration import inputs
from calc.flight.craft import Condition, Wing
from calc.flight.examples import CURLEW_WING
from calc.flight.wing import (
    AT_MAXIMUM,
    airspeed_of_lift_share,
    airspeed_of_share,
    wing_at_airspeed,
    wing_chart,
    wing_lift_slope,
    wing_state,
)
from scripts import page

GRAVITY = 9.80665


def lifting_line(aspect_ratio: float, angle: float) -> tuple[float, float]:
    """Return lift and induced drag coefficient of an elliptic wing, by Prandtl's equation.

    The circulation is a series of sines over the span, each term solved for at one station.
    """
    count = 21
    theta = np.pi * np.arange(1, count + 1) / (count + 1)
    order = np.arange(1, count + 1)
    span = 1.0
    chord = 4.0 * span / (np.pi * aspect_ratio) * np.sin(theta)  # area = span² / aspect ratio
    mu = 2.0 * np.pi * chord / (4.0 * span)
    matrix = np.sin(np.outer(theta, order)) * (
        np.sin(theta)[:, None] + mu[:, None] * order[None, :]
    )
    terms = np.linalg.solve(matrix, mu * angle * np.sin(theta))
    lift = np.pi * aspect_ratio * terms[0]
    drag = np.pi * aspect_ratio * float(order @ terms**2)
    return float(lift), drag


@pytest.mark.parametrize("aspect_ratio", [4.0, 6.5, 12.0])
def test_slope_and_induced_drag_are_those_of_the_lifting_line(aspect_ratio: float) -> None:
    """Prandtl's equation for an elliptic wing gives the slope and the induced drag."""
    angle = math.radians(4.0)
    lift, drag = lifting_line(aspect_ratio, angle)

    slope = wing_lift_slope(2.0 * math.pi, aspect_ratio)
    assert slope * angle == pytest.approx(lift, rel=1e-12)
    state = wing_state(50.0, 1.2, 3000.0, 1.0, angle, 10.0, aspect_ratio, slope, 1.0, 0.0)
    assert state.induced_drag / (0.5 * 1.2 * 50.0**2 * 10.0) == pytest.approx(drag, rel=1e-12)


def test_wing_by_hand() -> None:
    """A wing of 10 m² at a lift coefficient of 0.5 and 40 m/s, worked out by hand.

    Dynamic pressure 0.5 x 1.25 x 1600 = 1000 Pa; lift 5000 N of 2000 kg x 9.80665 = 19613.3 N;
    induced drag 10000 x 0.25 / (pi x 0.8 x 5), profile drag 10000 x 0.01 = 100 N.
    """
    state = wing_state(40.0, 1.25, 2000.0, 1.0, 0.1, 10.0, 5.0, 5.0, 0.8, 0.01)

    assert state.lift == pytest.approx(5000.0)
    assert state.lift_share == pytest.approx(5000.0 / 19613.3)
    assert state.rotor_lift == pytest.approx(14613.3)
    assert state.induced_drag == pytest.approx(2500.0 / (4.0 * math.pi))
    assert state.profile_drag == pytest.approx(100.0)


@given(
    st.floats(0.01, 1.5),
    st.floats(300.0, 30000.0),
    st.floats(0.3, 1.4),
    st.floats(0.5, 3.0),
    st.floats(0.01, 0.3),
)
def test_airspeed_gives_the_share_back(
    share: float, mass: float, density: float, load_factor: float, angle: float
) -> None:
    """The airspeed of a share, put into the wing, gives the share."""
    airspeed = airspeed_of_lift_share(share, density, mass, load_factor, angle, 15.0, 4.6)
    assert airspeed is not None
    state = wing_state(airspeed, density, mass, load_factor, angle, 15.0, 7.0, 4.6, 0.8, 0.01)

    assert state.lift_share == pytest.approx(share, rel=1e-12)
    assert state.lift + state.rotor_lift == pytest.approx(load_factor * mass * GRAVITY, rel=1e-12)


def test_lift_is_capped_in_both_directions() -> None:
    """Past its maximum lift coefficient the wing holds it, and says that it is stalled."""
    for sign in 1.0, -1.0:
        steep = Wing(10.0, 6.0, sign * math.radians(30.0), 5.0, 0.8, 0.01, 1.3)
        state = wing_at_airspeed(steep, Condition(40.0, 1.2), 3000.0)
        assert state.lift_coefficient == sign * 1.3
        assert state.state == AT_MAXIMUM
    airspeed = airspeed_of_share(
        Wing(10.0, 6.0, math.radians(30.0), 5.0, 0.8, 0.01, 1.3), 0.5, 3000.0, 1.2
    )
    assert airspeed == pytest.approx(math.sqrt(3000.0 * GRAVITY / (1.2 * 10.0 * 1.3)))


def test_wing_that_does_not_lift_has_no_airspeed() -> None:
    """At zero lift or below, or without area, no airspeed gives a share, and None says so."""
    assert airspeed_of_lift_share(0.3, 1.2, 3000.0, 1.0, 0.1, 0.0, 5.0) is None
    for angle in 0.0, -0.05:
        assert airspeed_of_lift_share(0.3, 1.2, 3000.0, 1.0, angle, 10.0, 5.0) is None


def test_figure_passes_through_the_point() -> None:
    """The share in the figure at the airspeed asked for is that of the form."""
    flight = Condition(60.0, 1.225)
    drawn = wing_chart(CURLEW_WING, flight, 8600.0)
    share = wing_at_airspeed(CURLEW_WING, flight, 8600.0).lift_share
    line, point = drawn.marks[0], drawn.marks[1]

    assert point.points == [(60.0, share)]  # type: ignore[union-attr]
    below, above = (
        next(p for p in line.points if (p[0] > 60.0) is later)  # type: ignore[union-attr]
        for later in (False, True)
    )
    assert below[1] < share < above[1]


def test_forms_that_ask_for_a_share_offer_it() -> None:
    """Each form of the rotor chapter with a share links to the form that works it out."""
    asked = 0
    for name in filter(lambda name: name.startswith("rotor."), FORMULAS):
        keys = {field.name for field in inputs(formula(name))}
        html = page.form(name)
        asked += "wing_lift_share" in keys
        for key, link in (
            ("wing_lift_share", "../flight/wing.html#wing_state"),
            ("propeller_thrust_share", "../flight/level_power.html#level_flight_power"),
        ):
            assert (f'href="{link}"' in html) == (key in keys), name

    assert asked >= 4


def test_record_refuses_what_cannot_exist() -> None:
    """A wing with less than no area is named by its label."""
    with pytest.raises(ValueError, match="Wing area must be at least 0"):
        wing_state(50.0, 1.2, 3000.0, 1.0, 0.1, -1.0, 6.0, 5.0, 0.8, 0.01)
