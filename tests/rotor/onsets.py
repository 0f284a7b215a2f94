"""Rotorcraft, flights and their stall onsets, for the tests of the onset and of its search."""

import math
from dataclasses import asdict, replace

from calc.rotor.examples import CURLEW, PLOVER
from calc.rotor.rotorcraft import Flight, Rotorcraft
from calc.rotor.stall_onset import (
    STATION,
    StallOnset,
    StallOnsets,
    stall_onset_airspeed,
    stall_onsets,
)

LIMIT = math.radians(12.0)
STATIONS = list(STATION.options)
CRAFT = {"Plover": PLOVER, "Curlew": CURLEW}
LOADED = replace(PLOVER, chord=0.40)
"""Narrower blades, more heavily loaded: the corners of the search are reached in plain flights."""
FLIGHTS = {
    "level": Flight(),
    "hot and high": Flight(3000.0, 20.0),
    "turn": Flight(load_factor=1.5),
    "propellers push": Flight(propeller_thrust_share=1.0),
    "propellers push, wing": Flight(propeller_thrust_share=1.0, wing_lift_share=0.5),
    "disc tilted back": Flight(propeller_thrust_share=1.3),
    "wing alone": Flight(wing_lift_share=0.8),
}


def onset(craft: Rotorcraft, flight: Flight, station: str, limit: float = LIMIT) -> StallOnset:
    """Return the onset at a station, which there must be."""
    found = stall_onset_airspeed(
        **asdict(craft), **asdict(flight), angle_limit=limit, station=station
    )
    assert found is not None
    return found


def onsets(craft: Rotorcraft, flight: Flight) -> StallOnsets:
    """Return the onsets at both stations, of which there must be one."""
    found = stall_onsets(craft, flight)
    assert found is not None
    return found
