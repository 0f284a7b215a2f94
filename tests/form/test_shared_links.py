"""Links once shared keep their meaning; this list is a freeze, its results are worked by hand."""

import pytest

from calc.form.calculation import calculate, start
from tests.form.scripts import entries_of_link

SHARED_LINKS = {
    # 4 × 395 / 60
    (
        "harmonics.blade_passage.blade_passage_frequency",
        "#blades=4&rotor_speed=395_rpm",
    ): ("blade_passage_frequency", 26.333333333333332),
    # 2π × 395 / 60 × 5.5
    (
        "rotor.tip_speed.tip_state",
        "#radius=5.5_m&rotor_speed=395_rpm&airspeed=0_kt",
    ): ("tip_speed", 227.50366799746084),
    # 70 / 200
    (
        "rotor.advance_ratio.reverse_flow",
        "#reverse_flow.radius=5_m&reverse_flow.rotor_speed=40_rad/s&reverse_flow.airspeed=252_km/h",
    ): ("advance_ratio", 0.35),
}


@pytest.mark.parametrize(("link", "result"), SHARED_LINKS.items())
def test_shared_link_keeps_its_answer(link: tuple[str, str], result: tuple[str, float]) -> None:
    """An input is never renamed, and a new one has a default that reproduces the old answer."""
    name, fragment = link
    found = calculate(name, start(name) | entries_of_link(name, fragment))
    values = {f.name: value for f, value in found.results}
    assert found.problems == ()
    assert values[result[0]] == pytest.approx(result[1], rel=1e-12)
