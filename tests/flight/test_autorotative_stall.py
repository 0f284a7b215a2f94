"""Stall onset in autorotation against a sweep by blade elements."""

import math
from dataclasses import replace

import pytest
from scipy.optimize import brentq

from calc.flight.autorotative_stall import (
    autorotative_stall_chart,
    autorotative_stall_onset,
    stall_in_autorotation,
)
from calc.flight.craft import Rotor
from calc.flight.examples import CURLEW_ROTOR
from tests.flight import wind

LIMIT = math.radians(12.0)
CASES = [
    (CURLEW_ROTOR, 1.225, 70000.0),
    (replace(CURLEW_ROTOR, rotor_speed=23.0, twist=-0.17), 1.0, 45000.0),
    (Rotor(5.0, 0.3, 3, 38.0, -0.14, 5.7, 0.011, 1.1), 1.1, 18000.0),
]


def onset(rotor: Rotor, density: float, lift: float, station: str) -> float:
    """Return the airspeed at the limit by a sweep in steps of 1 m/s and SciPy's root finder."""

    def excess(airspeed: float) -> float:
        blade = wind.free(rotor, airspeed, density, lift)[1]
        return (blade.tip if station == "tip" else blade.inboard) - LIMIT

    slow = 40.0
    while excess(slow + 4.0) < 0.0:
        slow += 4.0
    return float(brentq(excess, slow, slow + 4.0, rtol=1e-10))


@pytest.mark.parametrize(("rotor", "density", "lift"), CASES)
def test_onsets_by_blade_elements(rotor: Rotor, density: float, lift: float) -> None:
    """Both airspeeds are those of blade elements summed over the disc."""
    found = stall_in_autorotation(rotor, density, lift, 40.0)

    assert found is not None
    assert found.inboard_airspeed == pytest.approx(onset(rotor, density, lift, "inboard"), rel=1e-6)
    assert found.tip_airspeed == pytest.approx(onset(rotor, density, lift, "tip"), rel=1e-6)
    assert found.limiting.startswith("inboard station")


def test_heavier_rotor_stalls_earlier() -> None:
    """More lift on the rotor lowers the onset at both stations."""
    light = stall_in_autorotation(CURLEW_ROTOR, 1.225, 70000.0)
    heavy = stall_in_autorotation(CURLEW_ROTOR, 1.225, 80000.0)

    assert light is not None
    assert heavy is not None
    assert light.inboard_airspeed is not None
    assert heavy.inboard_airspeed is not None
    assert heavy.inboard_airspeed < light.inboard_airspeed
    assert heavy.tip_airspeed < light.tip_airspeed  # type: ignore[operator]


def test_limit_met_at_the_first_airspeed() -> None:
    """A rotor that is past the limit where the search begins is given that airspeed."""
    rotor = replace(CURLEW_ROTOR, rotor_speed=18.0)
    found = stall_in_autorotation(rotor, 1.225, 84000.0, 40.0)

    assert found is not None
    assert found.inboard_airspeed == 40.0


def test_flat_names_pick_the_station() -> None:
    """The function without records gives the airspeed of the station asked for."""
    found = stall_in_autorotation(CURLEW_ROTOR, 1.225, 75000.0)
    assert found is not None
    r = CURLEW_ROTOR
    for station, expected in (("tip", found.tip_airspeed), ("inboard", found.inboard_airspeed)):
        assert (
            autorotative_stall_onset(
                1.225,
                75000.0,
                r.rotor_speed,
                35.0,
                LIMIT,
                station,
                r.radius,
                r.chord,
                r.blades,
                r.twist,
                r.lift_slope,
            )
            == expected
        )


def test_search_that_begins_too_high_is_refused() -> None:
    """An airspeed above an advance ratio of 0.8 is named."""
    with pytest.raises(ValueError, match=r"above an advance ratio of 0\.8"):
        stall_in_autorotation(CURLEW_ROTOR, 1.225, 70000.0, 190.0)


def test_figure_has_both_onsets() -> None:
    """Both onsets are points at the limit."""
    found = stall_in_autorotation(CURLEW_ROTOR, 1.225, 75000.0)
    drawn = autorotative_stall_chart(CURLEW_ROTOR, 1.225, 75000.0, 35.0, LIMIT, found)

    assert found is not None
    points = drawn.marks[-1].points  # type: ignore[union-attr]
    assert points == [(found.inboard_airspeed, LIMIT), (found.tip_airspeed, LIMIT)]
