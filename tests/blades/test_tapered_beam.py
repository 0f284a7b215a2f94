"""Tapered beam: no taper is the uniform blade, and many steps come near a taper."""

import pytest

from calc.blades.rotating_beam import beam_frequencies, uniform_beam
from calc.blades.tapered_beam import tapered_beam


@pytest.mark.parametrize("speed", [0.0, 4.0])
@pytest.mark.parametrize("root", ["clamped", "hinged"])
@pytest.mark.parametrize("plane", ["flap", "lag"])
def test_without_taper_it_is_the_uniform_blade(speed: float, root: str, plane: str) -> None:
    """A ratio of one leaves a uniform blade."""
    offset = 0.1 if plane == "lag" else 0.0
    tapered = tapered_beam(speed, 1.0, 1.0, offset, root, plane)

    assert tapered == uniform_beam(speed, offset, root, plane)


def test_taper_is_the_limit_of_many_steps() -> None:
    """Segments that follow a taper come near the tapered blade as the square of their length."""

    def steps(count: int) -> float:
        middles = [(i + 0.5) / count for i in range(count)]
        ends = [(i + 1) / count for i in range(count)]
        mass = [(end, 1.0 - 0.5 * z) for end, z in zip(ends, middles, strict=True)]
        stiffness = [(end, 1.0 - 0.7 * z) for end, z in zip(ends, middles, strict=True)]
        return beam_frequencies(1.0, 0.1, mass, stiffness, 3.0)[1]

    smooth = tapered_beam(3.0, 0.5, 0.3, 0.1).second
    few, many = (abs(steps(count) / smooth - 1.0) for count in (5, 20))

    assert few < 0.02
    assert many < few / 10.0


def test_impossible_tapers_are_named() -> None:
    """A tip without mass or stiffness is refused."""
    with pytest.raises(ValueError, match="Mass per length at the tip over that at the root must"):
        tapered_beam(0.0, 0.0, 0.5)
