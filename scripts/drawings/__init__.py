"""Drawings of what the symbols mean, by the names under which pages ask for them."""

from collections.abc import Callable

from scripts.drawings.avoid import avoid_band
from scripts.drawings.azimuth import azimuth, tip_speeds
from scripts.drawings.blade import articulated_blade, rigid_blade
from scripts.drawings.blade_tests import blade_tests
from scripts.drawings.coleman import annotated_coleman
from scripts.drawings.controls import pitch_link
from scripts.drawings.danger_area import danger_area
from scripts.drawings.disc import disc_planes
from scripts.drawings.drawing import Drawing
from scripts.drawings.gear import aircraft_on_gear, gear_modes
from scripts.drawings.hub import hub_axes
from scripts.drawings.lag import bunched_blades, damper_places, lag_patterns
from scripts.drawings.machine import machine
from scripts.drawings.planetary import planetary_stage
from scripts.drawings.shake import shake_test
from scripts.drawings.stations import stations

DRAWINGS: dict[str, Callable[[], Drawing]] = {
    "aircraft_on_gear": aircraft_on_gear,
    "annotated_coleman": annotated_coleman,
    "articulated_blade": articulated_blade,
    "avoid_band": avoid_band,
    "azimuth": azimuth,
    "blade_tests": blade_tests,
    "bunched_blades": bunched_blades,
    "damper_places": damper_places,
    "danger_area": danger_area,
    "disc_planes": disc_planes,
    "gear_modes": gear_modes,
    "hub_axes": hub_axes,
    "lag_patterns": lag_patterns,
    "machine": machine,
    "pitch_link": pitch_link,
    "planetary_stage": planetary_stage,
    "rigid_blade": rigid_blade,
    "shake_test": shake_test,
    "stations": stations,
    "tip_speeds": tip_speeds,
}
