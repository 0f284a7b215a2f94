"""Measurement plan: each length put back into what it is for, against SciPy and sampled tones."""

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy import signal

from calc.measurement.measurement_needs import LinesWanted, ModeWanted, OrderWanted
from calc.measurement.measurement_plan import MeasurementPlan, measurement_plan

LINES = LinesWanted(400.0, 24.0, 23.6)
MODE = ModeWanted(3.4, 0.02)
ORDER = OrderWanted(4.0, 37.7, 0.002)


def plan(
    lines: LinesWanted = LINES,
    mode: ModeWanted = MODE,
    order: OrderWanted = ORDER,
    window: str = "hann",
) -> MeasurementPlan:
    """Return a plan for a random error of a tenth with blocks that overlap by half."""
    return measurement_plan(lines, mode, order, 0.1, 0.5, window)


@pytest.mark.parametrize("window", ["hann", "rectangular", "blackman"])
def test_two_tones_show_a_dip_in_a_block_of_the_plan(window: str) -> None:
    """NumPy: of tones alike, whatever their phases, halfway between is lower than both."""
    found = plan(window=window).bounds[0].length
    assert found is not None
    rate = 100.0
    time = np.arange(round(found * rate)) / rate
    name = {"rectangular": "boxcar"}.get(window, window)
    shape = signal.get_window(name, len(time), fftbins=True)
    for phase in np.linspace(0.0, 2.0 * math.pi, 24, endpoint=False):
        record = np.cos(2.0 * math.pi * 24.0 * time) + np.cos(2.0 * math.pi * 23.6 * time + phase)

        def at(frequency: float, record: np.ndarray = record) -> float:
            return float(abs(np.sum(record * shape * np.exp(-2j * math.pi * frequency * time))))

        assert at(23.8) < 0.95 * min(at(24.0), at(23.6))


def test_order_drifts_over_two_lines_in_the_longest_block() -> None:
    """NumPy: a drifting line through a Hann window loses 3 % of its amplitude, as is said of it.

    The loss is an integral of the window times a chirp, by quadrature on 200,000 points.
    """
    length = plan().order_block_length
    assert length is not None
    frequency = 4.0 * 37.7 / (2.0 * math.pi)
    u = (np.arange(200_000) + 0.5) / 200_000 - 0.5
    shape = 1.0 + np.cos(2.0 * math.pi * u)
    lines = frequency * 0.002 * length
    read = abs(np.sum(shape * np.exp(1j * math.pi * lines * u**2))) / np.sum(shape)

    assert lines == pytest.approx(2.0)
    assert 1.0 - read == pytest.approx(0.03, abs=0.002)  # said as a whole per cent


def test_transient_has_fallen_to_a_twentieth_before_the_first_block() -> None:
    """SciPy: the free motion of the mode, integrated from its release."""
    pulse = 2.0 * math.pi * 3.4
    time = np.linspace(0.0, plan().settling, 4001)
    system = signal.StateSpace(
        [[0.0, 1.0], [-(pulse**2), -2.0 * 0.02 * pulse]],
        [[0.0], [0.0]],
        np.eye(2),
        np.zeros((2, 1)),
    )
    _, states, _ = signal.lsim(system, np.zeros_like(time), time, X0=[1.0, 0.0])
    envelope = np.hypot(states[-1, 0], (states[-1, 1] / pulse + 0.02 * states[-1, 0]))

    assert envelope == pytest.approx(0.05, rel=1e-3)


def test_blocks_of_the_plan_are_the_fewest() -> None:
    """By hand for a Hann window at half overlap: 1 + 2 / 36 less its end is what a block costs.

    Their correlation is a sixth, so K blocks are worth K / (1 + (1 - 1/K) / 18).
    """
    worth = [blocks / (1.0 + (1.0 - 1.0 / blocks) / 18.0) for blocks in range(1, 200)]
    fewest = next(number for number, one in enumerate(worth, 1) if one >= 100.0)
    found = plan()

    assert found.blocks == fewest
    assert found.dwell == pytest.approx(
        found.settling + found.block_length * (1.0 + 0.5 * (fewest - 1))
    )


def test_mode_reads_wider_by_what_a_mean_spectrum_says() -> None:
    """NumPy: the transform of the decay of a correlation times the window's own correlation.

    Ten lines inside the width and a Hann block; half of the peak is found on a fine grid, to 1e-4.
    """
    found = plan()
    lag = np.linspace(0.0, 1.0, 4001)
    own = (1.0 - lag) * (2.0 + np.cos(2.0 * math.pi * lag)) / 3.0
    own += np.sin(2.0 * math.pi * lag) / (2.0 * math.pi)
    decay = np.exp(-math.pi * found.lines_in_band * lag) * own
    places = np.linspace(4.9, 5.3, 2001)
    spectrum = np.array(
        [np.trapezoid(decay * np.cos(2.0 * math.pi * f * lag), lag) for f in places]
    )
    half = places[np.argmin(abs(spectrum - 0.5 * np.trapezoid(decay, lag)))]

    assert found.bias == pytest.approx(2.0 * half / found.lines_in_band - 1.0, abs=1e-4)


def test_conflict_is_named_and_settled() -> None:
    """Drift of a hundredth as much and no conflict is left; nor at the drift that is allowed."""
    found = plan()
    calm = plan(order=replace(ORDER, drift=found.allowed_drift * (1.0 - 1e-9)))
    still = plan(order=replace(ORDER, drift=0.0))

    assert found.verdict == "Damping against drift of the order"
    assert "fit its decay" in found.advice
    assert "a lag mode does, and wants a speed that is held" in found.advice
    assert calm.verdict == still.verdict == "None: one block length serves all"
    assert calm.order_block_length == pytest.approx(calm.block_length)
    assert still.order_block_length is None

    close = plan(lines=replace(LINES, second_line=23.97), mode=replace(MODE, damping_ratio=0.2))
    assert close.verdict == "Telling the lines apart against drift of the order"
    assert "shaft angle" in close.advice


def test_rates_follow_the_highest_source() -> None:
    """Ten samples a cycle miss a twentieth of a peak at worst, by the cosine of half a step."""
    found = plan()

    assert found.sample_rate == pytest.approx(1024.0)
    missed = 1.0 - math.cos(math.pi * 400.0 / found.waveform_rate)
    assert 0.045 < missed < 0.05


def test_two_lines_that_are_one_are_refused() -> None:
    """No record tells them apart."""
    with pytest.raises(ValueError, match="must differ"):
        LinesWanted(400.0, 24.0, 24.0)
