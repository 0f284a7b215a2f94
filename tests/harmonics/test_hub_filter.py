"""Hub filter against the closed rules and a sampled sum over the blades."""

import math
from itertools import product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.harmonics.hub_filter import (
    hub_filter,
    hub_filter_chart,
    hub_harmonics,
    uneven_hub_harmonics,
)
from calc.harmonics.hub_loads import IN_PLANE, VERTICAL, Blade

Loads = dict[tuple[str, int], float]


def _loads(found: object) -> Loads:
    assert isinstance(found, tuple)
    return {(load.component, load.multiple): load.factor for load in found}


def _sampled(blades: list[Blade], harmonic: int) -> Loads:
    """Return the amplitudes of the sums over the blades, by Fourier transform of a revolution."""
    psi = np.arange(256) * 2.0 * math.pi / 256
    sums = {VERTICAL: np.zeros(256), IN_PLANE: np.zeros(256)}
    for blade in blades:
        load = blade.strength * np.cos(harmonic * (psi + blade.azimuth))
        sums[VERTICAL] += load
        sums[IN_PLANE] += load * np.cos(psi + blade.azimuth)
    found: Loads = {}
    for component, total in sums.items():
        lines = np.abs(np.fft.rfft(total)) / 128
        lines[0] /= 2.0
        found |= {(component, p): float(a) for p, a in enumerate(lines) if a > 1e-9}
    return found


def _even(blades: int) -> list[Blade]:
    return [Blade(2.0 * math.pi * k / blades) for k in range(blades)]


@pytest.mark.parametrize(("blades", "harmonic"), [*product(range(1, 9), range(25))])
def test_rule_for_identical_blades(blades: int, harmonic: int) -> None:
    """Multiples of the blade count pass vertically, their neighbours in the plane; else nothing."""
    expected: Loads = {}
    if harmonic % blades == 0:
        expected[VERTICAL, harmonic] = blades
    for multiple in (harmonic - 1, harmonic + 1):
        if multiple % blades == 0:
            key = (IN_PLANE, abs(multiple))
            expected[key] = expected.get(key, 0.0) + blades / 2

    assert _loads(hub_harmonics(blades, harmonic)) == expected


@pytest.mark.parametrize(("blades", "harmonic"), [*product(range(2, 6), range(13))])
def test_identical_blades_sampled(blades: int, harmonic: int) -> None:
    """A sampled revolution, transformed by numpy, has the same lines."""
    assert _loads(hub_harmonics(blades, harmonic)) == pytest.approx(
        _sampled(_even(blades), harmonic)
    )


@pytest.mark.parametrize("harmonic", range(13))
def test_uneven_blades_sampled(harmonic: int) -> None:
    """Blades that differ in place and load, against a sampled revolution.

    The amplitude along one axis is compared; a steady force is the part along that axis.
    """
    blades = [Blade(0.0, 1.0), Blade(1.1, 0.9), Blade(math.pi, 1.0), Blade(math.pi + 1.1, 1.1)]
    found = _loads(uneven_hub_harmonics(tuple(blades), harmonic))
    sampled = _sampled(blades, harmonic)

    assert found == pytest.approx(sampled)


def test_two_blades_pass_once_per_revolution() -> None:
    """Two blades turn a once-per-revolution load into a steady one and twice per revolution."""
    assert _loads(hub_harmonics(2, 1)) == {(IN_PLANE, 0): 1.0, (IN_PLANE, 2): 1.0}


def test_one_odd_blade() -> None:
    """One blade in four with 5 per cent more load adds 0.05 vertically and 0.025 in the plane."""
    steady = _loads(hub_filter(4, 0, 0.05).loads)
    first = _loads(hub_filter(4, 1, 0.05).loads)
    second = _loads(hub_filter(4, 2, 0.05).loads)

    assert steady == pytest.approx({(VERTICAL, 0): 4.05, (IN_PLANE, 1): 0.05})
    assert first[VERTICAL, 1] == pytest.approx(0.05)
    assert second == pytest.approx(
        {(VERTICAL, 2): 0.05, (IN_PLANE, 1): 0.025, (IN_PLANE, 3): 0.025}
    )


@given(st.integers(1, 8), st.integers(0, 30))
def test_no_difference_is_the_even_rotor(blades: int, harmonic: int) -> None:
    """Without an odd blade the sum over the blades gives the closed rule."""
    assert _loads(hub_filter(blades, harmonic).loads) == pytest.approx(
        _loads(hub_harmonics(blades, harmonic))
    )


@given(st.floats(-math.pi, math.pi), st.integers(2, 12))
def test_turning_the_hub_changes_no_amplitude(turn: float, harmonic: int) -> None:
    """Amplitudes do not depend on which way the first blade points."""
    blades = (Blade(0.0), Blade(1.0, 0.8), Blade(3.0, 1.3))
    turned = tuple(Blade(blade.azimuth + turn, blade.strength) for blade in blades)

    assert _loads(uneven_hub_harmonics(turned, harmonic)) == pytest.approx(
        _loads(uneven_hub_harmonics(blades, harmonic)), abs=1e-8
    )


@pytest.mark.parametrize(("blades", "harmonic"), [(5, 2), (5, 8), (4, 2), (3, 1)])
def test_what_cancels_is_said_to_cancel(blades: int, harmonic: int) -> None:
    """A harmonic that the blades cancel is never said to reach the airframe."""
    found = hub_filter(blades, harmonic)
    cancels = harmonic % blades not in (0, 1, blades - 1)

    assert (found.loads == ()) == cancels
    assert found.verdict.endswith(
        "cancels at the hub and is not transmitted to the airframe"
        if cancels
        else "in the airframe"
    )
    assert "nothing" not in found.verdict
    assert ("becomes" in found.verdict) != cancels


@pytest.mark.parametrize("harmonic", range(9))
def test_vector_in_the_plane_of_the_disc(harmonic: int) -> None:
    """The in-plane vector, put together from size, phase and direction, is the sampled sum."""
    blades = (Blade(0.0, 1.0), Blade(1.1, 0.9), Blade(math.pi, 1.0), Blade(4.3, 1.1))
    psi = np.arange(64) * 2.0 * math.pi / 64
    sampled = sum(
        b.strength * np.cos(harmonic * (psi + b.azimuth)) * np.exp(1j * (psi + b.azimuth))
        for b in blades
    )
    signs = {"turns with the rotor": 1.0, "turns against the rotor": -1.0}
    signs["fixed in the airframe"] = -1.0
    made = sum(
        load.factor * np.exp(1j * signs[load.direction] * (load.multiple * psi + load.phase))
        for load in uneven_hub_harmonics(blades, harmonic)
        if load.component == IN_PLANE
    )

    assert np.abs(made - sampled).max() < 1e-9


def test_whirl_of_equal_blades_by_hand() -> None:
    """3/rev in each of four blades turns with the rotor at 4/rev, 5/rev against it.

    By hand: the sum of cos n psi e^(i psi) over the blades is half of N_b e^(i (n + 1) psi) or of
    N_b e^(-i (n - 1) psi), whichever exponent is a multiple of the number of blades.
    """
    assert [(load.multiple, load.direction) for load in hub_harmonics(4, 3)] == [
        (4, "turns with the rotor")
    ]
    assert [(load.multiple, load.direction) for load in hub_harmonics(4, 5)] == [
        (4, "turns against the rotor")
    ]


def test_chart_marks_what_survives() -> None:
    """The map of four blades has a cell for 3/rev in the blade and 4/rev in the airframe."""
    svg = hub_filter_chart(4, 3).svg("hub")

    assert IN_PLANE in svg


def test_impossible_rotors_are_named() -> None:
    """A rotor without blades, half a harmonic and no rows are refused."""
    with pytest.raises(ValueError, match="Number of blades must be at least 1"):
        hub_harmonics(0, 1)
    with pytest.raises(ValueError, match="Harmonic of the blade load must be a whole number"):
        hub_harmonics(4, 1.5)  # type: ignore[arg-type] # wrong on purpose
    with pytest.raises(ValueError, match="Blades must have 1 to 16 rows, not 0"):
        uneven_hub_harmonics((), 1)
