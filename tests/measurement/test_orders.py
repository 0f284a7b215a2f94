"""Orders against signals of known content, least squares on the exact angle, and SciPy."""

import cmath
import math
from collections.abc import Callable

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.special import fresnel

from calc.linalg import resampled
from calc.measurement.orders import (
    angle_record,
    comb_gain,
    comb_gain_chart,
    interpolation_chart,
    linear_interpolation_gain,
    order_components,
    order_track,
    pulse_faults,
    shaft_angle,
    smear_chart,
    smear_gain,
    smear_lines,
    smear_of_line,
    synchronous_average,
    timing_phase_error,
)
from calc.measurement.pulses import pulse_cubics
from calc.measurement.quantities import WINDOWS
from calc.measurement.smear import HIGH, LOW
from calc.measurement.windows import window

RATE = 200.0


def times(samples: int, rate: float = RATE) -> list[float]:
    """Return the times of samples."""
    return [n / rate for n in range(samples)]


def run_up(time: float) -> float:
    """Return the shaft angle of a steady acceleration, 27 + 0.1 t rad/s."""
    return 27.0 * time + 0.05 * time**2


def run_up_pulses(count: int) -> list[float]:
    """Return when that shaft has made whole revolutions."""
    return [(math.sqrt(27.0**2 + 0.2 * math.tau * m) - 27.0) / 0.1 for m in range(count)]


def pulses_of(
    angle: Callable[[float], float], count: int, guess: float, part: float
) -> list[float]:
    """Return when a shaft passes multiples of a part of a revolution, by Newton's method."""
    found: list[float] = []
    for m in range(count):
        time = found[-1] if found else 0.0
        for _ in range(60):
            time -= (angle(time) - math.tau * m * part) / guess
        found.append(time)
    return found


def test_order_of_a_run_up() -> None:
    """cos(4 ψ + 0.5) while the shaft speeds up by 7 %: that order and no other."""
    record = [math.cos(4.0 * run_up(t) + 0.5) for t in times(4001)]
    pulses = run_up_pulses(90)
    assert pulses[1] == pytest.approx(0.232610368, abs=5e-10)
    first, fourth, fifth = order_components(record, RATE, pulses, [1.0, 4.0, 5.0])

    assert fourth.amplitude == pytest.approx(1.0, abs=2e-3)
    assert fourth.phase == pytest.approx(0.5, abs=1e-3)
    assert first.amplitude < 6e-4
    assert fifth.amplitude < 6e-4


@pytest.mark.parametrize("per_turn", [1, 4])
def test_orders_of_a_wandering_shaft(per_turn: int) -> None:
    """A speed that wanders by 2 %, against least squares of the orders on the exact angle.

    Between pulses once a revolution the wander is not seen whole, which costs 0.2 % here.
    """

    def angle(time: float) -> float:
        return 30.0 * time - 0.9 * (math.cos(0.7 * time) - 1.0)

    seconds = times(6001)
    psi = np.array([angle(t) for t in seconds])
    wanted = {1.0: 0.3 * cmath.exp(0.4j), 4.0: 1.2 * cmath.exp(-2.0j), 8.0: 0.2 * cmath.exp(3.0j)}
    record = np.full(len(psi), 9.81)
    for order, vector in wanted.items():
        record += np.real(vector * np.exp(1j * order * psi))
    turns = int(angle(seconds[-1]) / math.tau)
    pulses = pulses_of(angle, turns * per_turn + 1, 30.0, 1.0 / per_turn)
    found = order_components(record.tolist(), RATE, pulses, [*wanted], per_turn)

    basis = np.column_stack([f(k * psi) for k in wanted for f in (np.cos, np.sin)] + [psi**0])
    fitted = np.linalg.lstsq(basis, record, rcond=None)[0]
    for number, component in enumerate(found):
        vector = complex(fitted[2 * number], -fitted[2 * number + 1])
        measured = cmath.rect(component.amplitude, component.phase)
        assert abs(measured - vector) < 2e-3 * abs(vector) + 2e-4


@pytest.mark.parametrize("per_cycle", [50.0, 10.0, 5.0, 3.0])
def test_values_between_samples_are_read_within_two_in_a_thousand(per_cycle: float) -> None:
    """A whole order of a steady shaft, from 50 samples a cycle down to 3."""
    turns = RATE / per_cycle / 8.0
    record = [math.cos(8.0 * math.tau * turns * t + 1.0) for t in times(4001)]
    pulses = [m / turns for m in range(int(20.0 * turns) + 1)]
    (found,) = order_components(record, RATE, pulses, [8.0])

    assert found.amplitude == pytest.approx(1.0, abs=2e-3)
    assert found.phase == pytest.approx(1.0, abs=2e-3)


def test_two_shafts_each_by_its_own_pulses() -> None:
    """A rotor that speeds up and a propeller that slows down, in one record."""

    def propeller(time: float) -> float:
        return 120.0 * time - 0.05 * time**2

    record = [
        0.5 * math.cos(6.0 * run_up(t) + 0.4) + 0.3 * math.cos(propeller(t) - 1.0)
        for t in times(4001)
    ]
    own = order_components(record, RATE, run_up_pulses(90), [6.0])[0]
    pulses = pulses_of(propeller, int(propeller(20.0) / math.tau), 120.0, 1.0)
    other = order_components(record, RATE, pulses, [1.0])[0]

    assert own.amplitude == pytest.approx(0.5, rel=0.01)
    assert own.phase == pytest.approx(0.4, abs=0.01)
    assert other.amplitude == pytest.approx(0.3, rel=0.01)
    assert other.phase == pytest.approx(-1.0, abs=0.01)


def test_pulses_outside_the_record_are_left_out_by_whole_revolutions() -> None:
    """The pulse that is at a shaft angle of zero stays one that is."""
    record = [math.cos(math.tau * t + 0.7) for t in times(1001)]
    pulses = [-1.5 + 0.25 * m for m in range(40)]
    (found,) = order_components(record, RATE, pulses, [1.0], 4)

    assert found.phase == pytest.approx(0.7 + math.pi - math.tau, abs=1e-3)


def test_track_of_an_imbalance() -> None:
    """An amplitude that grows with the square of speed, block after block of a run-up."""
    speeds = [27.0 + 0.1 * t for t in times(4001)]
    record = [
        (s / 30.0) ** 2 * math.cos(run_up(t)) for s, t in zip(speeds, times(4001), strict=True)
    ]
    found = order_track(record, RATE, run_up_pulses(90), [1.0], 5)

    assert len(found) == 17
    for step in found:
        assert step.speed == pytest.approx(27.0 + 0.1 * step.time, rel=1e-9)
        assert step.components[0].amplitude == pytest.approx((step.speed / 30.0) ** 2, rel=2e-3)


def test_record_over_angle_has_orders_for_lines() -> None:
    """The Fourier transform of a record over angle has its only line at the order."""
    record = [math.cos(4.0 * run_up(t)) for t in times(4001)]
    readings = angle_record(record, RATE, run_up_pulses(90), 16)
    lines = 2.0 * np.abs(np.fft.rfft(readings)) / len(readings)

    assert len(readings) == 89 * 16
    assert int(np.argmax(lines)) == 4 * 89
    assert lines[4 * 89] == pytest.approx(1.0, abs=2e-3)


def test_missed_doubled_and_late_pulses_are_named() -> None:
    """Each is found where it is; a run-up without one passes."""
    even = [0.25 * m for m in range(40)]
    assert pulse_faults(even) == []
    assert pulse_faults(run_up_pulses(90)) == []
    assert pulse_faults([math.sqrt(m) for m in range(60)]) == []
    assert pulse_faults([0.0, *even[2:]])[0].meaning == "a pulse missed"

    missed = [*even[:10], *even[11:]]
    assert [(f.time, f.meaning) for f in pulse_faults(missed)] == [(2.25, "a pulse missed")]
    assert pulse_faults([*even[:10], *even[13:]])[0].meaning == "3 pulses missed"
    doubled = sorted([*even, 2.5 + 0.12])
    assert [f.interval for f in pulse_faults(doubled)] == [10, 11]
    with pytest.raises(ValueError, match=r"a pulse missed at 2\.25\S* s"):
        order_components([0.0] * 2001, RATE, missed, [1.0])
    with pytest.raises(ValueError, match="a pulse too many or early"):
        synchronous_average([0.0] * 2001, RATE, doubled, 16)


def test_synchronous_average_keeps_orders_and_lets_the_rest_fall() -> None:
    """A whole order stays, one beside it falls as the comb says, with a plain sum beside it."""
    turns, revolutions = 5.0, 10
    pulses = [m / turns for m in range(revolutions + 1)]
    for order in (3.0, 3.05, 3.15, 3.5):
        record = [math.cos(math.tau * order * turns * t) for t in times(401)]
        mean = synchronous_average(record, RATE, pulses, 40)
        size = (
            2.0
            * abs(
                sum(
                    v * cmath.exp(-1j * math.tau * round(order) * s / 40)
                    for s, v in enumerate(mean)
                )
            )
            / 40
        )
        plain = abs(sum(cmath.exp(1j * math.tau * order * m) for m in range(revolutions)))
        assert comb_gain(order, revolutions) == pytest.approx(plain / revolutions, abs=1e-12)
        assert max(map(abs, mean)) <= comb_gain(order, revolutions) + 2e-3
        if order == 3.0:
            assert size == pytest.approx(1.0, abs=1e-3)


def test_comb_at_round_places() -> None:
    """1 at a whole order, 0 at tenths beside it, and 1/√M of noise, from the mean of its square."""
    assert comb_gain(7.0, 10) == 1.0
    assert comb_gain(7.3, 10) == pytest.approx(0.0, abs=1e-12)
    square, _ = quad(lambda r: comb_gain(r, 10) ** 2, 7.0, 8.0, limit=200)
    assert square == pytest.approx(1.0 / 10.0, rel=1e-6)


def test_straight_angle_between_and_beyond_pulses() -> None:
    """Straight lines as NumPy draws them, and straight on outside."""
    pulses = [0.5, 1.0, 1.8, 2.0]
    for time in (0.5, 0.7, 1.0, 1.5, 1.99):
        wanted = np.interp(time, pulses, [0.0, math.pi, math.tau, 3.0 * math.pi])
        assert shaft_angle(pulses, time, 2) == pytest.approx(wanted, abs=1e-12)
    assert shaft_angle(pulses, 0.25, 2) == pytest.approx(-math.pi / 2.0)
    assert shaft_angle(pulses, 2.1, 2) == pytest.approx(3.5 * math.pi)
    for bad in ([], [1.0], [1.0, 1.0]):
        with pytest.raises(ValueError, match="pulses"):
            shaft_angle(bad, 1.0)


def test_straight_angle_lags_half_way_under_acceleration() -> None:
    """At most a τ²/8 rad between pulses τ apart at an acceleration a: 0.1 × 0.2327²/8."""
    pulses = run_up_pulses(3)
    middle = (pulses[0] + pulses[1]) / 2.0
    gap = shaft_angle(pulses, middle) - run_up(middle)

    assert gap == pytest.approx(0.1 * (pulses[1] - pulses[0]) ** 2 / 8.0, rel=1e-6)


def test_smear_of_a_rectangular_window_by_fresnel_integrals() -> None:
    """|C(z) + i S(z)| / z with z = √(s/2), Fresnel's integrals as SciPy has them."""
    for lines in (0.5, 1.0, 2.0, 4.0, 8.0, 90.0):
        z = math.sqrt(lines / 2.0)
        sine, cosine = fresnel(z)
        assert smear_gain(lines, "rectangular") == pytest.approx(math.hypot(sine, cosine) / z)


@pytest.mark.parametrize("name", WINDOWS)
def test_smear_is_what_a_spectrum_of_a_chirp_reads(name: str) -> None:
    """A tone that rises over three lines, summed sample by sample under a window."""
    count, lines = 4096, 3.0
    u = np.arange(count) / count - 0.5
    weights = np.array(window(name, count))
    tone = np.exp(1j * math.pi * lines * u**2)

    assert smear_gain(lines, name) == pytest.approx(
        abs(np.sum(weights * tone)) / np.sum(weights), rel=1e-6
    )


def test_drift_makes_a_flat_top_read_high() -> None:
    """The trap: 1 % drift at 17.2 Hz over 20 s; Hann low, flat top high."""
    assert smear_lines(17.2, 0.01, 20.0) == pytest.approx(3.44)
    found = smear_of_line(17.2, 0.01, 20.0)

    assert found.hann < 0.95
    assert found.flat_top > 1.03
    assert found.answer == f"Hann {LOW}, flat top {HIGH}"
    assert found.longest_record is not None
    assert smear_lines(17.2, 0.01, found.longest_record) == pytest.approx(2.0)
    assert smear_of_line(17.2, 0.0, 20.0).longest_record is None


def test_late_pulses_turn_the_phase() -> None:
    """Pulses 1 ms late: the phase of 4/rev is larger by 6.2 deg at 27 rad/s, as by hand."""
    turns = 27.0 / math.tau
    record = [math.cos(4.0 * 27.0 * t) for t in times(4001)]
    pulses = [m / turns + 0.001 for m in range(80)]
    (found,) = order_components(record, RATE, pulses, [4.0])

    assert found.phase == pytest.approx(timing_phase_error(4.0, 27.0, 0.001), abs=1e-3)
    assert math.degrees(found.phase) == pytest.approx(6.2, abs=0.06)


def test_straight_lines_between_samples_read_low() -> None:
    """A tone read along straight lines by NumPy at 8000 places, fitted by least squares."""
    for per_cycle, percent in ((10.0, 3.2), (50.0, 0.13)):
        frequency = RATE / per_cycle
        samples = np.cos(math.tau * frequency * np.array(times(401)))
        places = np.linspace(0.0, 2.0, 8000, endpoint=False)
        read = np.interp(places, times(401), samples)
        left = 2.0 * abs(np.mean(read * np.exp(-1j * math.tau * frequency * places)))
        gain = linear_interpolation_gain(frequency, RATE)
        assert gain == pytest.approx(left, rel=1e-4)
        assert 100.0 * (1.0 - gain) == pytest.approx(percent, abs=0.06)


def test_straight_record_is_read_straight_up_to_its_ends() -> None:
    """A line through the samples is read on the line, half way between any two of them too.

    A place beyond an end is read at that end.  The read is good to a thousandth of a step of 0.5.
    """
    record = [3.0 + 0.5 * n for n in range(30)]
    read = resampled(record, [-2.5, 33.0, 0.0, 0.0], 33)

    wanted = [3.0 + 0.5 * min(max(n - 2.5, 0.0), 29.0) for n in range(33)]
    assert [*read] == pytest.approx(wanted, abs=5e-4)


def test_cubics_pass_through_four_pulses() -> None:
    """The cubic of NumPy's polynomial fit through the four pulses nearest to each interval."""
    places = [0.0, 9.0, 21.0, 28.0, 40.0, 47.0]
    found = pulse_cubics(places)
    for interval in range(5):
        base = min(max(interval - 1, 0), 2)
        numbers = [base + n - interval for n in range(4)]
        wanted = np.polyfit(numbers, places[base : base + 4], 3)[::-1]
        assert found[4 * interval : 4 * interval + 4] == pytest.approx(wanted, abs=1e-9)


@pytest.mark.parametrize(
    ("orders", "pulses", "per_turn", "message"),
    [
        ([0.0], [0.0, 1.0, 2.0], 1, "Order must be above 0 /rev"),
        ([60.0], [0.0, 0.5, 1.0], 1, "Order 60 reaches 120 Hz, half the sample rate or more"),
        ([1.0], [0.0, 1.0, 0.5], 1, "must rise, but 0.5 s follows 1.0 s"),
        ([1.0], [0.0], 1, "at least two pulses"),
        ([1.0], [0.0, 1.0, 2.0], 0, "Pulses a revolution"),
        ([1.0], [0.0, 0.1, 0.2], 4, "pulses of at least one whole revolution"),
        ([1.0], [7.0, 8.0, 9.0], 1, "pulses of at least one whole revolution"),
    ],
)
def test_what_gives_no_orders_is_refused(
    orders: list[float], pulses: list[float], per_turn: int, message: str
) -> None:
    """By what is wrong, in words."""
    with pytest.raises(ValueError, match=message):
        order_components([0.0] * 1001, RATE, pulses, orders, per_turn)
    with pytest.raises(ValueError, match="Samples per revolution"):
        synchronous_average([0.0] * 1001, RATE, [0.0, 1.0, 2.0], 1)


def test_figures_pass_through_what_is_asked_for() -> None:
    """The point of each figure is the answer of its form."""
    for chart, point in (
        (comb_gain_chart(3.966, 30), (3.966, comb_gain(3.966, 30))),
        (interpolation_chart(20.0, 200.0), (20.0, linear_interpolation_gain(20.0, 200.0))),
    ):
        assert chart.marks[-1].points == [point]  # type: ignore[union-attr] # points
    found = smear_of_line(24.0, 0.01, 20.0)
    assert smear_chart(found).marks[-1].points[0] == (found.smear, found.hann)  # type: ignore[union-attr] # points
