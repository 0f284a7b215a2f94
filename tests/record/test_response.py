"""The response of a channel on the desk: a simulated airframe of two modes, stirred by a stick."""

import math
import re

import numpy as np
import pytest
from numpy.typing import NDArray

from calc.measurement import desk
from calc.record import opening, views
from calc.record.shown import Seen
from calc.sheet.offered_modes import offer_read
from calc.survey.report.blocks import Grid, Link, Words
from tests.measurement.test_transfer import MODES, RATE, shaken, stirred
from tests.record.test_views import number, opening_of, seen

BAND = {"band_low": "2.4", "band_high": "3.2", "block": "20", "stimulus": "Stick"}


def recorded(noise: float, unit: str = "m/s2", *, stepped: bool = False) -> None:
    """Read a record of 400 s with the stick, and with noise over the rms in the response.

    The stick is random, or a sine whose frequency rises by 0.05 Hz every 25 s.
    """
    stick, answer = shaken(400.0) if stepped else stirred(400.0, 3)
    answer = answer + np.random.default_rng(6).normal(0.0, noise * answer.std(), len(answer))
    read(stick, 10.0 * answer, unit)


def read(stick: NDArray[np.float64], answer: NDArray[np.float64], unit: str) -> None:
    """Read a record of a stick and of what the cabin does."""
    rows = (
        f"{n / RATE:.2f},{x:.6f},{y:.6f}\n"
        for n, (x, y) in enumerate(zip(stick, answer, strict=True))
    )
    opening.begun({}, "stir.csv")
    desk.feed(f"time [s],Stick,Cabin [{unit}]\n" + "".join(rows), last=True)


def warned(found: Seen) -> str:
    """Return what a view says is doubtful."""
    return " ".join(b.text for b in found.blocks if isinstance(b, Words) and b.kind == "warning")


def withheld(found: Seen) -> bool:
    """Return whether a view says that the mode is kept from the data sheet."""
    return any("not offered to the data sheet" in getattr(b, "text", "") for b in found.blocks)


def test_mode_is_read_and_offered_without_the_width_of_the_window() -> None:
    """Frequency to 0.5 %, damping by half power to 21 % and by the circle, with its bias, to 15 %.

    Without its bias the circle is right to 6 %, three times its scatter.
    Over eight seeds the first scattered by 7 %, one standard deviation, and had a mean of 0.998 of
    the true one; the circle scattered by 2 % about 1.08 of it.  That the width which is taken off
    is the right one is tested without scatter in `test_transfer`.
    """
    recorded(0.05)
    found = seen("response", channel="Cabin", **BAND)
    natural, ratio, _ = MODES[0]
    assert warned(found) == ""
    assert not withheld(found)
    (table,) = [block for block in found.blocks if isinstance(block, Grid)]
    read, free, circle, round_free = table.rows
    for row in table.rows:
        assert number(row[1]) == pytest.approx(natural, rel=0.005)
    assert number(free[2]) == pytest.approx(ratio, rel=0.21)
    assert number(read[2]) > 1.08 * number(free[2])
    assert number(circle[2]) == pytest.approx(ratio, rel=0.15)
    assert number(circle[2]) > 1.03 * number(round_free[2])
    assert number(round_free[2]) == pytest.approx(ratio, rel=0.06)
    (link,) = [block for block in found.blocks if isinstance(block, Link)]
    (mode,) = offer_read(opening_of(link.address))["offer"]["modes"]
    assert number(mode["damping_ratio"][0]) == pytest.approx(number(free[2]), rel=0.01)


def test_what_is_doubtful_is_said_and_offers_nothing() -> None:
    """Noise, few blocks, a short block, a narrow band: each is said, and no mode is offered."""
    recorded(3.0)
    assert "coherence falls" in warned(seen("response", channel="Cabin", **BAND))
    recorded(0.05)
    for words, changed in (
        ("So few blocks", {"end": "50"}),
        ("fewer than 10", {"band_low": "2.65", "band_high": "2.95"}),
        ("the window makes much", {"block": "6", "band_low": "2", "band_high": "4"}),
    ):
        found = seen("response", channel="Cabin", **BAND | changed)
        assert words in warned(found)
        assert not any(isinstance(block, Link) for block in found.blocks)
        assert withheld(found)


def test_tone_that_the_stick_does_not_drive_is_no_largest_response() -> None:
    """A stick with a burst of 2.9 Hz, answered by half of it, and a tone of 4.15 Hz beside it.

    The stick has noise of 0.01; with 3 blocks the tone is coherent with it by chance.  The burst is
    wide enough to be answered by half of it over some tenths of a hertz.  Signals that have nothing
    to do with one another have a mean coherence of one over the number of averages (Carter, Knapp
    and Nuttall 1973, from memory; for Gaussian signals it follows from the beta distribution of
    the estimate).
    """
    times = np.arange(round(20.0 * RATE)) / RATE
    stick = np.sin(math.tau * 2.9 * times) * np.exp(-(((times - 10.0) / 3.0) ** 2))
    stick += np.random.default_rng(3).normal(0.0, 0.01, len(times))
    answer = 0.5 * stick + np.sin(math.tau * 4.15 * times)
    read(stick, answer, "m/s2")
    found = seen("response", channel="Cabin", stimulus="Stick", block="10")
    rows = [[float(cell) for cell in row[:4]] for row in found.numbers()[1:]]
    tone = max(rows, key=lambda row: row[1] if row[3] > 0.8 else 0.0)
    told = re.search(r": ([\d.]+) \S+ at ([\d.]+) Hz", found.sentence)

    assert tone[0] == pytest.approx(4.15, abs=0.2)
    assert told is not None
    assert float(told[1]) == pytest.approx(0.5, rel=0.05)
    assert float(told[2]) == pytest.approx(2.9, abs=0.4)
    averages = float(re.search(r"So few blocks, ([\d.]+) independent", warned(found))[1])  # type: ignore[index] # found, or the test fails
    unrelated = float(re.search(r"have about ([\d.]+)", found.sentence)[1])  # type: ignore[index] # found, or the test fails
    assert unrelated == pytest.approx(1.0 / averages, rel=0.02)
    assert "one near 1 proves little" in warned(found)
    assert any("is passed over" in getattr(block, "text", "") for block in found.blocks)


def test_stir_at_one_frequency_after_another_is_said() -> None:
    """A stepped sine is no broad-band stimulus: the width taken off is wrong; none is offered."""
    recorded(0.01, stepped=True)
    found = seen("response", channel="Cabin", **BAND)
    assert "at one frequency after another" in warned(found)
    assert not any(isinstance(block, Link) for block in found.blocks)


def test_what_cannot_be_read_is_refused_in_words() -> None:
    """No stimulus, the channel itself, a stretch of one block, half a band, no unit."""
    recorded(0.05, "V")
    for words, changed in (
        ("Choose the stimulus", {"stimulus": ""}),
        ("another channel", {"stimulus": "Cabin"}),
        ("one block", {"end": "25"}),
        ("no unit of vibration", {}),
    ):
        with pytest.raises(ValueError, match=words):
            views.shown("response", {"channel": "Cabin", **BAND, **changed}, {})
    half = views.shown("response", {"channel": "Cabin", **BAND, "band_high": ""}, {})
    assert [problem["field"] for problem in half["problems"]] == ["band_low", "band_high"]
    assert "both ends" in half["problems"][0]["message"]
    assert (
        "half power"
        not in views.shown("response", {"channel": "Cabin", "stimulus": "Stick"}, {})["html"]
    )
