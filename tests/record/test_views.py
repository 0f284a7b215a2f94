"""What is seen in a record: the content of the synthetic records, and scipy as a second opinion.

The synthetic records say what they hold (`calc.measurement.synthetic`); no number here is an output
of the views themselves.
"""

import math
import re
from collections.abc import Mapping
from typing import Any

import numpy as np
import pytest
import scipy.signal

from calc.harmonics.drive_train import Part
from calc.measurement import desk
from calc.measurement.synthetic import (
    CABIN,
    MAST,
    MODE_FREQUENCY,
    PITCH_DAMPING,
    PITCH_FREQUENCY,
    STEADY_RATE,
)
from calc.record import opening, told, views
from calc.record.expected import FORM, expected
from calc.record.fields import COMMON, TRAIN, VIEWS, read
from calc.record.look import Look, look
from calc.record.shown import Seen
from calc.sheet.offered_modes import offer_read
from calc.survey.report.blocks import Grid, Link, Words
from calc.units import RPM

NOISE = 0.006
"""Amplitude that the noise of the steady record, 0.05 rms, may put on a line of 6000 samples."""


def opened(key: str) -> None:
    """Read an example record as a page does: begin, and two pieces that end inside a line."""
    text = opening.example(key)["text"]
    opening.begun({}, f"{key}.csv")
    desk.feed(text[: len(text) // 2])
    desk.feed(text[len(text) // 2 :], last=True)


def looked(view: str, **entries: str) -> Look:
    """Return the stretch that a view looks at."""
    values, problems = read((*COMMON, *TRAIN, *VIEWS[view].entries), entries)
    assert problems == []
    return look(entries, values, {})


def seen(view: str, **entries: str) -> Seen:
    """Return what a view shows."""
    return views.SEEN[view](looked(view, **entries))


def table(found: Seen, caption: str) -> Grid:
    """Return a table of a view."""
    return next(b for b in found.blocks if isinstance(b, Grid) and b.caption == caption)


def number(cell: Any) -> float:
    """Return the number in a cell."""
    return float(str(cell).replace("−", "-"))


def test_peaks_are_what_the_record_is_made_of() -> None:
    """Frequency, amplitude and order of each line; the one above half the rate is folded."""
    opened("plover_steady")
    rows = table(seen("spectrum", channel="Mast x"), "Peaks").rows
    made = sorted(
        (abs(part.frequency - STEADY_RATE * round(part.frequency / STEADY_RATE)), part)
        for part in MAST
    )

    assert len(rows) == len(made)
    for row, (frequency, part) in zip(rows, made, strict=True):
        assert number(row[0]) == pytest.approx(frequency, abs=0.002)
        assert number(row[1]) == pytest.approx(part.amplitude, abs=NOISE)


def test_averaged_amplitudes_are_those_of_welch() -> None:
    """Amplitude over blocks is the root of twice scipy's averaged spectrum, from 0 Hz to half."""
    opened("plover_steady")
    entries = {"channel": "Cabin z", "block": "1.5", "overlap": "0.5", "mean": "kept"}
    rows = seen("spectrum", **entries).numbers()[1:]
    samples = np.array(desk.the_record().channel("Cabin z").samples)
    frequencies, powers = scipy.signal.welch(
        samples, STEADY_RATE, "hann", 300, 150, detrend=False, scaling="spectrum"
    )
    sizes = [math.sqrt(2.0 * power) for power in powers]
    sizes[0], sizes[-1] = math.sqrt(powers[0]), math.sqrt(powers[-1])

    assert [float(row[0]) for row in rows] == pytest.approx(list(frequencies))
    assert [float(row[1]) for row in rows] == pytest.approx(sizes, rel=1e-9)


def test_line_is_shown_in_another_quantity_and_measure() -> None:
    """4/rev in g peak, as mm/s rms: divided by the angular frequency and by root two."""
    opened("plover_steady")
    rows = table(seen("spectrum", channel="Cabin z", shown="velocity", measure="rms"), "Peaks").rows
    part = next(part for part in CABIN if part.order == 4.0)
    wanted = 1e3 * part.amplitude / (2.0 * math.pi * part.frequency) / math.sqrt(2.0)

    nearest = min(rows, key=lambda row: abs(number(row[0]) - part.frequency))
    assert number(nearest[1]) == pytest.approx(wanted, rel=0.005)


@pytest.mark.parametrize("view", ["spectrum", "peaks"])
def test_peaks_of_noise_are_not_taken_for_lines(view: str) -> None:
    """White noise of numpy has hundreds of peaks; that only the largest are listed is said."""
    samples = np.random.default_rng(5).normal(size=4000)
    rows = ["time [s],Mast x [g]", *(f"{n / 200:.3f},{x:.5f}" for n, x in enumerate(samples))]
    opening.begun({}, "own.csv")
    desk.feed("\n".join(rows), last=True)
    texts = [b.text for b in seen(view, channel="Mast x").blocks if isinstance(b, Words)]
    assert any(text.startswith("No more than 60 peaks are listed") for text in texts)

    opened("plover_steady")
    texts = [b.text for b in seen(view, channel="Mast x").blocks if isinstance(b, Words)]
    assert not any("peaks are listed" in text for text in texts)


def test_mode_shaken_at_random_is_one_peak_of_averaged_blocks() -> None:
    """SciPy shakes a mode of 8 Hz, 2 % damped, with numpy's noise; a steady line is at 24 Hz.

    The peak of the mode lies within its half-power width of 0.32 Hz.  At 24 Hz it answers with
    0.1 / (3**2 - 1) of the noise, of which 0.3 Hz of 50 Hz lie in a line of the window: 0.001 rms.
    """
    times, natural = np.arange(6000) / 100.0, math.tau * 8.0
    mode = ([0.1 * natural**2], [1.0, 0.04 * natural, natural**2])
    noise = np.random.default_rng(0).normal(size=len(times))
    motion = scipy.signal.lsim(mode, noise, times)[1] + 0.5 * np.cos(math.tau * 24.0 * times)
    rows = [
        "time [s],Mast x [g]",
        *(f"{t:.2f},{x:.5f}" for t, x in zip(times, motion, strict=True)),
    ]
    opening.begun({}, "own.csv")
    desk.feed("\n".join(rows), last=True)
    whole, averaged = (
        table(seen("peaks", channel="Mast x", block=block), "Peaks explained").rows
        for block in ("", "5")
    )

    assert len(whole) > 10
    (peak, _, *_), (line, amplitude, *_) = averaged
    assert number(peak) == pytest.approx(8.0, abs=0.16)
    assert number(line) == pytest.approx(24.0, abs=0.1)
    assert number(amplitude) == pytest.approx(0.5, abs=0.005)


def test_orders_have_the_phases_of_the_record() -> None:
    """Amplitude and lead of 1, 4 and 8/rev; the tail rotor's 1/rev is none of them."""
    opened("plover_steady")
    rows = table(seen("orders", channel="Mast x", orders="1 4 8"), "Orders").rows
    made = [part for part in MAST if part.what.endswith("/rev of the main rotor")]

    for row, part in zip(rows, made, strict=True):
        assert number(row[0]) == part.order
        assert number(row[1]) == pytest.approx(part.amplitude, abs=2.0 * NOISE)
        apart = math.radians(number(row[2])) - part.phase
        assert math.remainder(apart, 2.0 * math.pi) == pytest.approx(0.0, abs=0.05)


def test_line_beside_an_order_adds_in_as_far_as_is_said() -> None:
    """Over M turns a line off an order by a share s/M leaves sin(pi s)/(pi s) of itself in it.

    The mean of a rotating vector over a whole number of turns; nothing is left at a whole s.
    """
    turns = 20
    for share, left in (0.5, 2.0 / math.pi), (1.0, 0.0), (1.5, 2.0 / (3.0 * math.pi)):
        rows = ["time [s],Mast x [g],pulse [V]"]
        for n in range(turns * 100 + 20):
            line = math.sin((4.0 + share / turns) * 2.0 * math.pi * n / 100.0)
            rows.append(f"{n / 500.0:.3f},{line:.6f},{5 if 5 <= n % 100 < 10 else 0}")
        opening.begun({}, "own.csv")
        desk.feed("\n".join(rows), last=True)
        found = seen("orders", channel="Mast x", orders="4")
        said = [block.text for block in found.blocks if isinstance(block, Words)]

        assert float(found.numbers()[1][1]) == pytest.approx(left, abs=0.01)
        assert any(f"1/{turns} of an order apart, 0.0500/rev" in text for text in said)


def test_zero_of_several_pulses_a_revolution_is_said_to_be_open() -> None:
    """One motion of one shaft, recorded from a quarter of a turn later on: its phase turns so far.

    A turn of 100 samples has four pulses; cos(psi - 40 deg) with psi from the first pulse of the
    first record is cos(psi - 40 deg + 90 deg) from the next pulse.
    """
    phases, said, noticed = [], [], []
    for first in 0, 25:
        rows = ["time [s],Mast x [g],pulse [V]"]
        for n in range(first, first + 2020):
            line = math.cos(2.0 * math.pi * (n - 10.0) / 100.0 - math.radians(40.0))
            rows.append(f"{n / 500.0:.3f},{line:.6f},{5 if 10 <= n % 25 < 15 else 0}")
        opening.begun({"pulses_per_revolution": "4"}, "own.csv")
        desk.feed("\n".join(rows), last=True)
        found = seen("orders", channel="Mast x", orders="1")
        phases.append(float(found.numbers()[1][2]))
        said.append(" ".join(block.text for block in found.blocks if isinstance(block, Words)))
        noticed.append(" ".join(desk.the_record().notices))

    # a pulse is known to a sample, which is 3.6 deg
    assert math.remainder(phases[0] + 40.0, 360.0) == pytest.approx(0.0, abs=3.6)
    assert math.remainder(phases[1] - phases[0] - 90.0, 360.0) == pytest.approx(0.0, abs=0.1)
    for text in said:
        assert "first of 4 pulses a revolution" in text
        assert "multiples of 90.0 deg. Place no balance weight by them" in text
    for text in noticed:
        assert "the zero of the phases is open" in text


@pytest.mark.parametrize(
    ("lost", "words"),
    [
        (1, "1 missing sample was bridged by a straight line."),
        (2, "2 missing samples were bridged by straight lines."),
    ],
)
def test_bridged_samples_are_counted_in_words(lost: int, words: str) -> None:
    """One sample is bridged by one line."""
    rows = opening.example("plover_steady")["text"].splitlines()
    del rows[300 : 300 + lost]
    opening.begun({}, "own.csv")
    desk.feed("\n".join(rows), last=True)
    found = seen("orders", channel="Mast x", orders="1")
    noticed = next(text for text in desk.the_record().notices if text.startswith("Mast x: "))

    assert noticed.startswith(
        f"Mast x: {lost} of 6000 values {'is' if lost == 1 else 'are'} missing"
    )
    assert words in [block.text for block in found.blocks if isinstance(block, Words)]


def test_peaks_are_explained_at_the_speed_that_was_measured() -> None:
    """4/rev has its source; the line that was put in without one has none."""
    opened("plover_steady")
    found = seen("peaks", channel="Mast x", lines="example")
    rows = {round(number(row[0]), 1): row for row in table(found, "Peaks explained").rows}

    assert "Main rotor 4/rev" in str(rows[24.0][3])
    assert "Tail rotor" not in str(rows[24.0][3])
    assert str(rows[23.8][3]).startswith("Tail rotor 1/rev")
    assert rows[17.6][2:4] == ["no source", ""]
    missing = {row[0] for row in table(found, "Expected, but not measured").rows}
    assert "Main rotor 12/rev" in missing


def test_waterfall_is_largest_where_an_order_meets_the_mode() -> None:
    """4/rev meets the mode of the tail boom at a quarter of its frequency."""
    opened("plover_run_up")
    sentence = seen("waterfall", channel="Tail boom y", averaged="speed").sentence
    frequency, speed = re.search(r"near ([\d.]+) Hz at ([\d.]+) rpm", sentence).groups()  # type: ignore[union-attr] # found, or the test fails

    assert float(frequency) == pytest.approx(MODE_FREQUENCY, abs=0.5)
    assert RPM.si(float(speed)) * 4.0 / (2.0 * math.pi) == pytest.approx(MODE_FREQUENCY, abs=0.4)


def test_waterfall_leaves_out_blocks_with_a_missed_pulse() -> None:
    """A shaft at 300 rpm throughout, one pulse of which is missed: no block is at another speed."""
    rows = ["time [s],Mast x [g],pulse [V]"]
    for n in range(6000):
        pulse = 5 if 5 <= n % 40 < 10 and n // 40 != 71 else 0
        rows.append(f"{n / 200.0:.3f},{math.sin(2.0 * math.pi * n / 40.0):.6f},{pulse}")
    opening.begun({}, "own.csv")
    desk.feed("\n".join(rows), last=True)
    found = seen("waterfall", channel="Mast x", averaged="speed")
    said = [block.text for block in found.blocks if isinstance(block, Words)]

    speeds = [float(row[0]) for row in found.numbers()[1:]]
    assert speeds == pytest.approx([300.0] * len(speeds), rel=1e-9)
    # the interval from 14.025 to 14.425 s lies in two or three blocks of 2 s, a second apart
    assert any(re.match(r"[23] blocks are left out, in which a pulse is missed", s) for s in said)
    assert len(seen("waterfall", channel="Mast x", averaged="time").numbers()) > len(speeds) + 1


def test_decay_is_read_and_offered_to_the_data_sheet() -> None:
    """Frequency and damping of the stick stir; the offer is one that the sheet takes."""
    opened("plover_decay")
    found = seen("decay", channel="Cabin x", start="4", end="11")
    for row in table(found, "Free motion").rows:
        assert number(row[1]) == pytest.approx(PITCH_FREQUENCY, rel=0.005)
        assert number(row[3]) == pytest.approx(PITCH_DAMPING, rel=0.05)
    (link,) = [block for block in found.blocks if isinstance(block, Link)]
    offer = offer_read(opening_of(link.address))
    assert offer["problem"] == ""
    (mode,) = offer["offer"]["modes"]
    assert number(mode["damping_ratio"][0]) == pytest.approx(PITCH_DAMPING, rel=0.05)


def test_a_stretch_from_before_the_release_offers_no_mode() -> None:
    """Two seconds of stirring at 2.6 Hz before a decay at 3 Hz: both ways read more damping."""
    times = [n / 100.0 for n in range(1200)]
    motion = [
        math.cos(2.0 * math.pi * 2.6 * t)
        if t < 2.0
        else math.exp(-0.5 * (t - 2.0)) * math.cos(2.0 * math.pi * 3.0 * (t - 2.0) + 0.3)
        for t in times
    ]
    text = "time [s],stick [g]\n" + "".join(
        f"{t:.2f},{x:.6f}\n" for t, x in zip(times, motion, strict=True)
    )
    desk.begin({"name": "stir.csv"})
    desk.feed(text, last=True)
    early, right = (seen("decay", channel="stick", start=start, end="12") for start in ("0", "2"))

    assert any("One mode leaves" in getattr(block, "text", "") for block in early.blocks)
    assert not any(isinstance(block, Link) for block in early.blocks)
    assert any(isinstance(block, Link) for block in right.blocks)


def opening_of(address: str) -> str:
    """Return the offer in an address."""
    from urllib.parse import unquote  # noqa: PLC0415 - used here alone

    return unquote(address.partition("#modes=")[2])


def test_steady_line_is_not_offered_as_a_mode() -> None:
    """A line of the rotor does not decay: it is said, and no mode is offered."""
    opened("plover_steady")
    found = seen("decay", channel="Mast x", start="0", end="10")

    assert any("4/rev" in getattr(block, "text", "") for block in found.blocks)
    assert not any(isinstance(block, Link) for block in found.blocks)


def test_only_shafts_that_turn_with_the_measured_one_follow_it() -> None:
    """A governed propeller keeps the speed that was entered, and that is said."""
    train = (
        Part("Rotor", "rotor", speed=RPM.si(300.0), count=6),
        Part("Propeller", "propeller", speed=RPM.si(1200.0), count=5),
    )
    entry = "Rotor,rotor,-,300_rpm,1,6,0,0,0,1;Propeller,propeller,-,1200_rpm,1,5,0,0,0,1"
    kept = {"form": {"train": entry, "reference": "Rotor"}}
    found = expected("form", kept, RPM.si(330.0))

    assert FORM == "harmonics.sources.source_table"
    assert [part.name for part in found.train] == [part.name for part in train]
    turned = {line.source: line.frequency for line in found.lines}
    assert turned["Rotor 6/rev"] == pytest.approx(33.0)
    assert turned["Propeller 5/rev"] == pytest.approx(100.0)
    assert "Propeller" in " ".join(found.notes)
    assert expected("form", {}, None).notes
    assert expected("sheet", {}, None).notes


@pytest.mark.parametrize(
    ("entries", "field"),
    [
        ({"start": "soon"}, ["start"]),
        ({"overlap": "1.5"}, ["overlap"]),
        ({"high": "-3"}, ["high"]),
        ({"low": "30", "high": "20"}, ["low", "high"]),
        ({"start": "9", "end": "8"}, ["start", "end"]),
    ],
)
def test_wrong_entry_is_named_by_its_field(entries: Mapping[str, str], field: list[str]) -> None:
    """A view says which fields are wrong, what is wrong once, and shows nothing."""
    opened("plover_decay")
    answer = views.shown("spectrum", {"channel": "Cabin x", **entries}, {})

    assert [problem["field"] for problem in answer["problems"]] == field
    assert [bool(problem["message"]) for problem in answer["problems"]].count(True) == 1
    assert answer["html"] == ""


def test_names_of_a_file_are_text_and_no_html() -> None:
    """A heading can hold anything; it reaches the page as text, and a name that is typed holds."""
    rows = "".join(f"{n / 10};{n % 3};x\n" for n in range(40))
    text = f"t [s];<img src=x onerror=alert(1)>;b\n{rows}"
    guessed = opening.guessed(text, whole=True, changed={})
    opening.begun({"name.1": "Boom <b>"}, "<u>odd.csv")
    desk.feed(text, last=True)
    shown = told.told()

    assert guessed["readable"]
    assert "<img" not in guessed["html"]
    assert not {"<b>", "<u>"} & set(re.findall("<.>", shown["html"]))
    assert shown["channels"][0]["key"] == "Boom <b>"
    answer = views.shown("history", {"channel": "Boom <b>"}, {})
    assert "<b>" not in answer["html"]


def test_each_view_is_taken_away_with_its_entries_and_version() -> None:
    """Text, Markdown, CSV and figure of every view that the record allows."""
    opened("plover_steady")
    entries = {"channel": "Mast x", "start": "1", "end": "9", "lines": "example"}
    entries |= {"stimulus": "Cabin z", "block": "2"}
    for view in VIEWS:
        for kind, wanted in (("text", "File: "), ("markdown", "| File |"), ("csv", "File,")):
            taken = views.taken(view, entries, {}, kind)
            assert f"{wanted}" in taken
            assert "Rotorcraft vibration handbook" in taken
        assert views.taken(view, entries, {}, "svg").startswith("<svg")
