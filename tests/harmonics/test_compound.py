"""The invented compound: its parts fit one another."""

import pytest

from calc.examples import HEAVY_COMPOUND
from calc.harmonics.compound import SOURCES, STAGES, TRAIN
from calc.harmonics.drive_train import turning


def test_gears_give_the_propeller_its_speed() -> None:
    """Through its teeth the turbine turns the propeller at the speed of the example."""
    speed = turning(TRAIN)["Propeller"].speed

    assert speed == pytest.approx(HEAVY_COMPOUND.propellers[0].propeller_speed)


def test_the_run_ends_at_the_design_speeds() -> None:
    """The last stage ends at the speeds of the example."""
    assert STAGES[-1].rotor_speed == HEAVY_COMPOUND.rotor_speed
    assert STAGES[-1].second_speed == HEAVY_COMPOUND.propellers[0].propeller_speed


def test_sources_have_the_blades_of_the_aircraft() -> None:
    """Blade passage is among the sources of the rotor and of the propeller."""
    multiples = {(source.follows, source.multiple) for source in SOURCES}

    assert ("rotor", float(HEAVY_COMPOUND.blades)) in multiples
    assert ("second", float(HEAVY_COMPOUND.propellers[0].blades)) in multiples
