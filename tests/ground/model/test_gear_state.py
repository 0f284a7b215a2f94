"""Landing-gear states: where they can exist and in which order they are run."""

import math

import pytest

from calc.form.reading import EntryError, read
from calc.ground.model.gear_state import (
    STATES,
    UndercarriageState,
    in_order,
    lift_speed,
    speed_range,
)

PLAIN = UndercarriageState("plain", 1.0, 1.0, 1.0, 1.0)


@pytest.mark.parametrize(("share", "speed"), [(0.0, 0.0), (0.25, 18.0), (0.64, 28.8)])
def test_lift_goes_with_the_square_of_rotor_speed(share: float, speed: float) -> None:
    """A quarter of the weight at half of 36 rad/s, 0.64 of it at 0.8."""
    assert lift_speed(share, 36.0) == pytest.approx(speed, rel=1e-15)


def test_thrust_in_hand_carries_the_weight_at_lower_speed() -> None:
    """Twice the weight as most thrust: a quarter of it at the root of an eighth of 36 rad/s."""
    light = UndercarriageState("light", 1.0, 1.0, 1.0, 1.0, 0.25)

    assert speed_range(light, 4.0, 40.0, 36.0, 2.0)[0] == pytest.approx(36.0 / math.sqrt(8.0))


def test_the_range_of_a_state_is_cut_three_ways() -> None:
    """By the sweep, by the state's own range, and by the speed that can carry its lift."""
    assert speed_range(PLAIN, 4.0, 40.0, 36.0) == (4.0, 40.0)
    own = UndercarriageState("own", 1.0, 1.0, 1.0, 1.0, 0.0, 0.2, 0.9)
    assert speed_range(own, 4.0, 40.0, 36.0) == pytest.approx((8.0, 36.0))
    light = UndercarriageState("light", 1.0, 1.0, 1.0, 1.0, 0.25, 0.2, 0.9)
    assert speed_range(light, 4.0, 40.0, 36.0) == pytest.approx((18.0, 36.0))


def test_a_state_at_no_speed_is_refused() -> None:
    """A range that does not rise, and a lift that no speed of the range can carry."""
    with pytest.raises(ValueError, match="plain: the range of rotor speed must rise"):
        speed_range(PLAIN, 40.0, 40.0, 36.0)
    heavy = UndercarriageState("heavy lift", 1.0, 1.0, 1.0, 1.0, 0.9, 0.0, 0.5)
    with pytest.raises(ValueError, match="heavy lift: 90% of the weight on the rotor"):
        speed_range(heavy, 4.0, 40.0, 36.0)


def test_the_first_row_is_nominal_where_none_says_so() -> None:
    """Rows of an old link have no kind: their first stays first, the order of the others too."""
    rows = tuple(UndercarriageState(name, 1.0, 1.0, 1.0, 1.0) for name in "cab")
    known = UndercarriageState("d", 1.0, 1.0, 1.0, 1.0, data="measured")

    assert [state.name for state in in_order(rows)] == ["c", "a", "b"]
    assert [state.name for state in in_order((*rows, known))] == ["c", "d", "a", "b"]


def test_rows_of_before_the_ranges_are_read() -> None:
    """Five cells are a row of all speeds, heavy on its wheels; four cells are no row."""
    row = read(STATES, "full weight,1,1,1,1").value
    assert row == (UndercarriageState("full weight", 1.0, 1.0, 1.0, 1.0),)
    with pytest.raises(EntryError, match="row 1: 10 cells, not 4"):
        read(STATES, "full weight,1,1,1")
    with pytest.raises(EntryError, match="row 1: 10 cells, not 11"):
        read(STATES, "full weight,1,1,1,1,0,0,1,service,assumed,more")
