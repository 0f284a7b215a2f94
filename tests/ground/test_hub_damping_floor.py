"""Hub damping floor against eigenvalues with very heavy lag dampers."""

from dataclasses import replace

import numpy as np
import pytest

from calc.ground.hub_damping_floor import hub_damping_floor
from calc.ground.model.aircraft import HubDirection, Rotor, Support
from calc.ground.stability import growth_rate


@pytest.mark.parametrize("offset", [0.1, 0.3, 0.8])
@pytest.mark.parametrize("mass", [900.0, 4000.0])
def test_floor_is_the_edge_of_stability_of_heavy_dampers(offset: float, mass: float) -> None:
    """Eigenvalues with a lag damper 100000 times critical: unstable below the floor, not above."""
    rotor = Rotor(5, 40.0, 100.0, 320.0, offset, 0.0, 320.0 * 2e6)
    floor = hub_damping_floor(rotor, HubDirection(mass, 4e5, 0.0))
    support = Support(mass, mass, 4e5, 4e5, floor.hub_damping, floor.hub_damping)

    for share, is_unstable in ((0.999, True), (1.001, False)):
        damping = share * floor.hub_damping
        tried = replace(support, damping_x=damping, damping_y=damping)
        speeds = np.linspace(0.97, 1.03, 61) * floor.rotor_speed
        assert any(growth_rate(rotor, tried, speed) > 0.0 for speed in speeds) == is_unstable


def test_light_coupling_becomes_a_ratio() -> None:
    """For light coupling the ratio is the coupling parameter over four times nu squared."""
    rotor = Rotor(4, 40.0, 1.0, 320.0, 0.3, 0.0, 0.0)
    floor = hub_damping_floor(rotor, HubDirection(4000.0, 4e5, 0.0))

    light = floor.coupling_parameter / (4.0 * floor.frequency_ratio**2)
    assert floor.damping_ratio == pytest.approx(light, rel=1e-2)
