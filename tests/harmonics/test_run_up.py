"""Run-up against hand calculation and a stepped search."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.airframe.swept_mode import swept_share
from calc.harmonics.meetings import MODES, SOURCES, Mode, Source
from calc.harmonics.run_up import MOST, STAGES, Stage, run_up, run_up_chart

HZ = 2.0 * math.pi


def test_order_of_a_ground_run_by_hand() -> None:
    """Rotor to 5 Hz in 50 s, then propeller to 20 Hz in 20 s, with modes at 4 and 15 Hz.

    4/rev passes 4 Hz at 10 s and 15 Hz at 37.5 s, 1/rev passes 4 Hz at 40 s; the propeller passes
    4 Hz at 54 s and 15 Hz at 65 s.
    """
    sources = (
        Source("1/rev", "rotor", 1.0),
        Source("4/rev", "rotor", 4.0),
        Source("propeller", "second", 1.0),
    )
    modes = (Mode("low", 4.0), Mode("high", 15.0))
    stages = (Stage("rotor", 50.0, 5.0 * HZ, 0.0), Stage("propeller", 20.0, 5.0 * HZ, 20.0 * HZ))

    found = run_up(sources, modes, stages, 0.05)

    assert [(c.source, c.mode, round(c.time, 9)) for c in found] == [
        ("4/rev", "low", 10.0),
        ("4/rev", "high", 37.5),
        ("1/rev", "low", 40.0),
        ("propeller", "low", 54.0),
        ("propeller", "high", 65.0),
    ]
    assert [c.order for c in found] == [1, 2, 3, 4, 5]


def test_time_near_by_hand() -> None:
    """At 0.1 Hz/s the band of a 4 Hz mode is crossed in its width over the rate."""
    (crossing,) = run_up(
        (Source("1/rev", "rotor", 1.0),),
        (Mode("roll", 4.0, damping_ratio=0.05),),
        (Stage("start", 50.0, 5.0 * HZ, 0.0),),
        0.1,
    )
    ratio = 1.05 / 0.95

    assert crossing.near == pytest.approx((4.0 * ratio - 4.0 / ratio) / 0.1)
    assert crossing.share == pytest.approx(swept_share(4.0, 0.05, 0.1))


def test_a_dwell_builds_up_by_decay() -> None:
    """A source that stays on a mode for a time constant builds up 1 - 1/e."""
    mode = Mode("roll", 5.0, damping_ratio=0.02)
    constant = 1.0 / (2.0 * math.pi * 0.02 * 5.0)
    found = run_up(
        (Source("1/rev", "rotor", 1.0),),
        (mode,),
        (Stage("start", 10.0, 5.0 * HZ, 0.0), Stage("hold", constant, 5.0 * HZ, 0.0)),
    )

    assert found[-1].stage == "hold"
    assert found[-1].near == pytest.approx(constant)
    assert found[-1].share == pytest.approx(1.0 - math.exp(-1.0))


def test_run_down_meets_the_same_modes() -> None:
    """A stage down to rest crosses what the stage up crossed, in the opposite order."""
    up = Stage("up", 30.0, 30.0, 0.0)
    down = Stage("down", 30.0, 0.0, 0.0)
    sources = SOURCES.example[:2]
    found = run_up(sources, MODES.example, (up, down))
    pairs = [(c.source, c.mode) for c in found if min(c.time, 60.0 - c.time) < 30.0]
    times = [c.time for c in found]

    half = len(pairs) // 2
    assert pairs[:half] == pairs[half:][::-1]
    assert all(a + b == pytest.approx(60.0) for a, b in zip(times, times[::-1], strict=True))


@settings(max_examples=30, deadline=None)
@given(
    st.floats(1.0, 12.0),
    st.floats(2.0, 40.0),
    st.floats(0.01, 0.2),
    st.floats(5.0, 60.0),
    st.floats(10.0, 60.0),
)
def test_stepped_search(
    multiple: float, frequency: float, margin: float, duration: float, speed: float
) -> None:
    """Stepping through the stage finds the same time within the margin."""
    found = run_up(
        (Source("k", "rotor", multiple),),
        (Mode("m", frequency),),
        (Stage("s", duration, speed, 0.0),),
        margin,
    )
    steps = 20000
    near = 0
    for step in range(steps):
        heard = multiple * speed * (step + 0.5) / steps / (2.0 * math.pi)
        near += 2.0 * abs(heard - frequency) / (heard + frequency) <= margin

    assert sum(c.near for c in found) == pytest.approx(near * duration / steps, abs=duration / 5000)


def test_chart_marks_crossings() -> None:
    """The figure names sources and modes."""
    given = SOURCES.example, MODES.example, STAGES.example
    table = run_up_chart(run_up(*given), *given).csv()

    assert "rotor 6/rev" in table
    assert "second vertical bending" in table


def test_impossible_stages_are_named() -> None:
    """A stage without duration is refused by its label."""
    with pytest.raises(ValueError, match="Duration must be above 0 s, not 0 s"):
        run_up(SOURCES.example, MODES.example, (Stage("jump", 0.0, 30.0, 0.0),))


def test_more_crossings_than_can_be_read_are_refused() -> None:
    """Each of ten lines passes each of forty modes in each stage, up and down: 400 a stage."""
    sources = tuple(Source(f"{order}/rev", "rotor", float(order)) for order in range(31, 41))
    modes = tuple(Mode(f"mode {number}", 10.0 + number) for number in range(40))
    stages = tuple(Stage("up or down", 60.0, speed * HZ, 0.0) for speed in (5.0, 0.1) * 7)

    assert MOST == 5000
    assert len(run_up(sources, modes, stages[:12], 0.01)) == 4800
    with pytest.raises(ValueError, match="There are more than 5000 crossings: leave out stages"):
        run_up(sources, modes, stages[:13], 0.01)
