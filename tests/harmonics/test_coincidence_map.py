"""The coincidence map against a plain loop over cells, numpy by cell, and hand-made hits."""

import math
from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from calc.harmonics.coincidence_map import meeting_counts
from calc.harmonics.meetings import Mode, Source, meetings
from calc.units import RPM
from scripts.coincidence_grid import grid_counts

Grid = list[list[int]]

rpm = RPM.size


def _looped(
    sources: list[Source], modes: list[Mode], rotor: list[float], second: list[float], margin: float
) -> Grid:
    """Return the counts by asking every pair in every cell, from the definition of the margin."""

    def near(first: float, other: float, spread: float) -> bool:
        nearest = min(max(first, other * (1.0 - spread)), other * (1.0 + spread))
        return 2.0 * abs(first - nearest) / (first + nearest) <= margin

    rows = []
    for n in second:
        row = []
        for omega in rotor:
            speeds = {"rotor": omega, "second": n, "none": 0.0}
            heard = [s.frequency or s.multiple * speeds[s.follows] / (2 * math.pi) for s in sources]
            with_modes = sum(near(f, m.frequency, m.uncertainty) for f in heard for m in modes)
            row.append(with_modes + sum(near(a, b, 0.0) for a, b in combinations(heard, 2)))
        rows.append(row)
    return rows


some_source = st.one_of(
    st.builds(Source, st.just("r"), st.just("rotor"), st.integers(1, 12).map(float)),
    st.builds(Source, st.just("p"), st.just("second"), st.integers(1, 6).map(float)),
    st.builds(Source, st.just("e"), st.just("none"), st.just(0.0), st.floats(5.0, 90.0)),
)
some_mode = st.builds(Mode, st.just("m"), st.floats(2.0, 60.0), st.floats(0.0, 0.1))


@settings(max_examples=40, deadline=None)
@given(
    st.lists(some_source, min_size=1, max_size=8),
    st.lists(some_mode, max_size=5),
    st.floats(0.001, 0.3),
)
def test_counts_of_three_ways_agree(
    sources: list[Source], modes: list[Mode], margin: float
) -> None:
    """Ranges by row, numpy by cell and a plain loop over the definition count the same."""
    rotor = [20.0 + 1.037 * i for i in range(20)]
    second = [70.0 + 7.13 * i for i in range(15)]
    met = meetings(sources, modes, margin)
    counts = meeting_counts(met, rotor, second)

    assert counts == grid_counts(met, rotor, second)
    assert counts == _looped(sources, modes, rotor, second, margin)


def test_known_hits() -> None:
    """By hand: 4/rev at 300 rpm is 20 Hz, and a 3-bladed propeller makes 20 Hz at 400 rpm."""
    sources = [Source("4/rev", "rotor", 4.0), Source("passage", "second", 3.0)]
    met = meetings(sources, [Mode("mode", 25.0)], 0.02)
    rotor = [270.0 * rpm, 300.0 * rpm, 330.0 * rpm, 375.0 * rpm]
    second = [360.0 * rpm, 400.0 * rpm, 500.0 * rpm]

    assert meeting_counts(met, rotor, second) == [
        [1, 0, 0, 1],
        [0, 1, 0, 1],
        [1, 1, 1, 3],
    ]
