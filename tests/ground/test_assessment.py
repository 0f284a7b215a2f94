"""Assessment of every undercarriage state."""

import math
from dataclasses import replace

import pytest

from calc.ground.assessment import assessment, assessment_chart
from calc.ground.criterion import damping_product
from calc.ground.model.aircraft import HubDirection
from calc.ground.model.gear_state import NOMINAL_SPEED
from calc.ground.stability import unstable_bands, worst_speed
from calc.ground.undercarriage import STATES, UndercarriageState, in_state
from calc.units import RPM
from tests.ground.example import HUB, ROTOR, SUPPORT, SWEEP

INPUTS = (ROTOR, HUB, *SWEEP)


def test_each_state_is_a_sweep_of_its_own() -> None:
    """Factors on stiffness and damping, swept one by one, give the same verdicts.

    A state with a fraction L of the weight on its rotor is swept from the root of L of nominal.
    """
    found = assessment(*INPUTS, STATES.example)

    for state, verdict in zip(STATES.example, found.states, strict=True):
        changed = in_state(SUPPORT, state)
        sweep = (max(SWEEP[0], RPM.si(360.0) * math.sqrt(state.lift_share)), SWEEP[1])
        assert (verdict.from_speed, verdict.to_speed) == sweep
        assert (verdict.worst_speed, verdict.growth_rate) == worst_speed(ROTOR, changed, *sweep)
        bands = [(b.lower_speed, b.upper_speed) for b in found.bands if b.name == state.name]
        assert bands == list(unstable_bands(ROTOR, changed, *sweep))
        assert verdict.verdict.startswith("Unstable" if bands else "Stable")


def test_thrust_in_hand_is_looked_at_from_lower_speeds() -> None:
    """Light on the wheels with 1.44 of the weight as most thrust: from the root of 0.5 / 1.44."""
    found = assessment(*INPUTS, STATES.example, thrust_ratio=1.44)
    (light,) = (state for state in found.states if state.name == "light on the wheels")

    assert RPM.reading(light.from_speed) == pytest.approx(360.0 * math.sqrt(0.5 / 1.44))


def test_the_worst_state_is_named() -> None:
    """The worst state has the largest growth rate and is in the sentence."""
    found = assessment(*INPUTS, STATES.example)
    worst = max(found.states, key=lambda state: state.growth_rate)

    assert found.worst_state == worst.name
    assert found.growth_rate == worst.growth_rate
    assert found.verdict.endswith(f"worst: {worst.name}")
    unstable = {band.name for band in found.bands}
    assert found.verdict.startswith(f"Unstable in {len(unstable)} of 6 states")


def test_softer_and_stiffer_gear_can_both_be_unstable() -> None:
    """An aircraft that is stable on its gear fails on a softer one and on a stiffer one."""
    damped = replace(ROTOR, lag_damping=6000.0)
    states = (
        UndercarriageState("as built", 1.0, 1.0, 1.0, 1.0),
        UndercarriageState("half airborne", 0.5, 0.4, 0.4, 0.3),
        UndercarriageState("over-serviced strut", 1.3, 1.5, 0.3, 0.3),
    )
    built, soft, stiff = assessment(damped, HUB, *SWEEP, states).states

    assert built.growth_rate < 0.0
    assert soft.growth_rate > 0.0
    assert stiff.growth_rate > 0.0


def test_product_margin_is_that_of_the_criterion() -> None:
    """Double damping of the hub doubles the margin of the product criterion."""
    states = (
        UndercarriageState("once", 1.0, 1.0, 1.0, 1.0),
        UndercarriageState("twice", 1.0, 1.0, 2.0, 2.0),
    )
    once, twice = assessment(*INPUTS, states).states

    assert twice.product_margin == pytest.approx(2.0 * once.product_margin)


def test_a_stiff_in_plane_rotor_has_no_coalescence() -> None:
    """Infinite coalescence speeds and margin, and a stable verdict."""
    stiff = replace(ROTOR, hinge_offset=4.0)
    (state,) = assessment(stiff, HUB, *SWEEP, STATES.example[:1]).states

    assert state.coalescence_x == state.coalescence_y == state.product_margin == float("inf")
    assert state.growth_rate < 0.0


def test_hub_mass_with_blades_is_the_same_aircraft() -> None:
    """The switch takes off the mass of the blades, 200 kg."""
    heavy = replace(HUB, mass_x=3200.0, mass_y=1600.0, hub_mass="with_blades")

    assert assessment(ROTOR, heavy, *SWEEP, STATES.example) == assessment(*INPUTS, STATES.example)


def test_chart_has_a_line_a_state_and_hatches_the_worst() -> None:
    """The table behind the chart names every state."""
    chart = assessment_chart(
        *INPUTS, STATES.example, NOMINAL_SPEED.example, assessment(*INPUTS, STATES.example)
    )
    headings = " ".join(chart.table()[0])

    assert all(state.name in headings for state in STATES.example)
    assert "unstable" in chart.svg("growth")


def test_factors_that_cannot_be_are_named() -> None:
    """A stiffness factor of zero is refused."""
    states = (UndercarriageState("none", 1.0, 0.0, 1.0, 1.0),)
    with pytest.raises(ValueError, match="Stiffness factor, lateral must be above 0"):
        assessment(*INPUTS, states)


def test_margin_is_the_lower_of_both_directions() -> None:
    """The Deutsch criterion with one mode, x and y by the form of the criterion itself."""
    (state,) = assessment(*INPUTS, STATES.example[:1]).states
    margins = []
    for mass, stiffness, damping in (
        (HUB.mass_x, HUB.stiffness_x, HUB.damping_x),
        (HUB.mass_y, HUB.stiffness_y, HUB.damping_y),
    ):
        found = damping_product(ROTOR, HubDirection(mass, stiffness, damping))
        assert found is not None
        margins.append(found.actual_product / found.single_product)

    assert state.product_margin == pytest.approx(min(margins))
