"""Attribution: peaks by source against a worked case, plain loops and spectra of known content."""

import math
import random

import pytest

from calc.chart import Stems
from calc.harmonics.drive_train import TRAIN, Part
from calc.measurement.attribution import (
    OTHERS,
    PEAKS,
    Attribution,
    KnownLine,
    MeasuredPeak,
    ReadSpectrum,
    explain_peaks,
    measured_peaks,
    measured_peaks_chart,
    source_tolerance,
)
from calc.measurement.common_speed import common_ratio, common_speed

SOURCES = [
    KnownLine("A", 4.30, 0.02),
    KnownLine("B", 17.20, 0.08),
    KnownLine("C", 17.35, 0.05),
    KnownLine("D", 105.0, 0.3),
]
PEAK_FREQUENCIES = [4.28, 17.27, 23.0, 95.2]
ROTOR = (Part("Rotor", "rotor", speed=12.0 * math.pi, count=4, multiples=2),)
READ = ReadSpectrum(0.05, 0.0, speed_accuracy=0.002, speed_drift=0.002)


def peaks(*frequencies: float) -> tuple[MeasuredPeak, ...]:
    """Return peaks of one size."""
    return tuple(MeasuredPeak(frequency, 0.1) for frequency in frequencies)


def of_rotor(*frequencies: float, read: ReadSpectrum = READ) -> Attribution:
    """Return what peaks are with a rotor of 6 turns a second and four blades."""
    return measured_peaks(peaks(*frequencies), ROTOR, (), read)


def test_worked_case_with_a_folded_line() -> None:
    """Worked by hand: A; B and C at 0.07 and 0.08 Hz; nothing; D, which 200 Hz folds to 95 Hz."""
    found = explain_peaks(PEAK_FREQUENCIES, SOURCES, 0.05, 200.0)

    assert [(e.state, e.names) for e in found.explanations] == [
        ("explained", ("A",)),
        ("shared", ("B", "C")),
        ("unexplained", ()),
        ("explained", ("D",)),
    ]
    assert found.missing == ()


def test_worked_case_without_a_sample_rate() -> None:
    """The folded line is then missing, and its peak unexplained."""
    found = explain_peaks(PEAK_FREQUENCIES, SOURCES, 0.05)

    assert [e.state for e in found.explanations][-1] == "unexplained"
    assert found.missing == ("D",)


def test_tolerance_of_a_source_by_hand() -> None:
    """17.2 Hz: 0.05 + 17.2 (0.002 + 0.001); 68.8 Hz: 0.05 + 68.8 × 0.003."""
    assert source_tolerance(17.2, 0.1, 0.002, 0.002) == pytest.approx(0.1016, abs=1e-12)
    assert source_tolerance(68.8, 0.1, 0.002, 0.002) == pytest.approx(0.2564, abs=1e-12)
    assert source_tolerance(68.8, 0.1) == pytest.approx(0.05)


def test_nearest_source_is_not_taken_without_a_tolerance() -> None:
    """One source, a peak just outside and just on its edge."""
    line = [KnownLine("only", 10.0, 0.1)]

    assert explain_peaks([10.151], line, 0.05).explanations[0].names == ()
    assert explain_peaks([10.15, 9.85], line, 0.05).explanations[1].names == ("only",)


def test_random_lists_against_plain_loops() -> None:
    """Every pair of a peak and a line looked at on its own, aliases by the remainder."""
    chance = random.Random(7)  # noqa: S311 - no secret depends on it
    for _ in range(40):
        lines = [
            KnownLine(f"line {n}", chance.uniform(1.0, 400.0), chance.uniform(0.0, 4.0))
            for n in range(12)
        ]
        rate = chance.uniform(100.0, 300.0)
        measured = [chance.uniform(1.0, 100.0) for _ in range(10)]
        found = explain_peaks(measured, lines, 0.5, rate)
        left = {line.name for line in lines}
        for peak, explained in zip(measured, found.explanations, strict=True):
            reach = []
            for line in lines:
                folded = line.frequency % rate
                seen = min(folded, rate - folded)
                if abs(peak - seen) <= line.tolerance + 0.5:
                    reach.append((abs(peak - seen), line.name))
            assert explained.names == tuple(name for _, name in sorted(reach))
            left -= set(explained.names)
        assert found.missing == tuple(line.name for line in lines if line.name in left)


def test_example_of_the_form() -> None:
    """Every peak of the invented spectrum has the cause that it was made with."""
    found = measured_peaks(PEAKS.example, TRAIN.example, OTHERS.example, ReadSpectrum(0.05, 512.0))
    sources = {row.frequency: row.sources for row in found.peaks}

    assert sources[23.84] == "Tail rotor 1/rev"
    assert sources[24.04] == "Main rotor 4/rev; Mast planet pass"
    assert sources[16.93] == "tail boom, second bending"
    assert sources[37.42] == ""
    assert found.speeds[0].correction == pytest.approx(0.0016, abs=3e-4)
    above = [row.name for row in found.missing if "half the sample rate" in row.reason]
    assert "Bevel 1 × mesh" in above
    assert "Bevel 1/rev" in {row.name for row in found.missing} - set(above)
    assert found.verdict.startswith(
        "10 peaks: 5 by one source, 2 by several, 3 by none; 3 expected"
    )


def test_sidebands_are_told_as_modulation_and_as_orders() -> None:
    """3/rev and 5/rev about a strong 4/rev; the lines are no sources of the table."""
    read = (MeasuredPeak(18.01, 0.1), MeasuredPeak(24.0, 1.0), MeasuredPeak(30.01, 0.2))
    low, _, high = measured_peaks(read, ROTOR, (), READ).peaks

    for row, order in ((low, 3), (high, 5)):
        assert row.state == "unexplained"
        assert row.note.startswith(f"{order}/rev of Rotor; ")
        assert "one of a pair 1/rev of Rotor about 24.00 Hz: modulation" in row.note
    alone = measured_peaks(read[:2], ROTOR, (), READ).peaks[0]
    assert "modulation" not in alone.note


def test_peaks_agree_on_a_speed_beyond_the_accuracy_entered() -> None:
    """Three lines 1 % high are not explained at 0.3 %, and say together what the speed was."""
    found = of_rotor(6.06, 24.24, 48.48)

    assert [row.state for row in found.peaks] == ["unexplained"] * 3
    (speed,) = found.speeds
    assert speed.correction == pytest.approx(0.01, abs=1e-6)
    assert speed.entered == pytest.approx(12.0 * math.pi)
    assert "check the speed" in speed.agreement
    assert found.verdict.endswith("; check the speed of Rotor: the peaks agree on 1 % more")
    assert "Rotor 8/rev at the speed that the other peaks agree on" in found.peaks[2].note


def test_sidebands_are_told_at_the_speed_that_the_peaks_agree_on() -> None:
    """A rotor 3 % slower than entered: 3/rev and 5/rev about a strong 4/rev at 23.28 Hz."""
    read = tuple(
        MeasuredPeak(0.97 * 6.0 * order, size)
        for order, size in ((1, 0.2), (3, 0.1), (4, 1.0), (5, 0.1), (8, 0.3))
    )
    found = measured_peaks(read, ROTOR, (), READ)

    assert found.peaks[1].note.startswith("3/rev of Rotor; with 29.10 Hz one of a pair 1/rev")
    assert "Rotor: the peaks agree on 3 % less" in found.verdict


def test_shared_peak_is_off_only_if_none_of_its_sources_fits() -> None:
    """Two lines in reach: that which the agreed speed leaves is no reason to speak."""
    train = (*ROTOR, Part("Tail", "shaft", "Rotor", ratio=3.993))
    read = ReadSpectrum(0.02, 0.0, speed_accuracy=0.005, speed_drift=0.0)
    found = measured_peaks(peaks(6.018, 24.07, 48.144), train, (), read)

    assert found.peaks[1].sources == "Rotor 4/rev; Tail 1/rev"
    assert [row.note for row in found.peaks] == ["", "", ""]


def test_common_ratio_is_robust_against_a_stranger() -> None:
    """Two peaks of 1.004 and one that belongs to nothing."""
    found = common_ratio([6.024, 24.096, 25.3], [6.0, 24.0, 48.0], 0.02, 0.02)

    assert found is not None
    assert found.ratio == pytest.approx(1.004)
    assert found.peaks == 2
    assert common_ratio([10.0], [6.0], 0.02, 0.02) is None


def test_strangers_seldom_agree_on_a_speed() -> None:
    """Peaks thrown by dice propose another speed in few cases of a hundred.

    Five in a hundred are allowed here for ten peaks and a line spacing of 0.2 Hz.
    """
    chance = random.Random(11)  # noqa: S311 - no secret depends on it
    lines = [6.0, 23.8, 24.0, 26.3, 48.0, 71.4, 72.0, 100.3, 142.8]
    proposed = 0
    for _ in range(200):
        strangers = [chance.uniform(3.0, 110.0) for _ in range(10)]
        found = common_speed(("shaft", 38.0), strangers, lines, 0.003, 0.1)
        proposed += found is not None and abs(found.correction) > 0.003

    assert proposed <= 10


def test_match_that_the_others_contradict_is_told() -> None:
    """Three lines agree on +0.25 %; a fourth peak in reach of 12/rev lies 0.3 % below it."""
    train = (Part("Rotor", "rotor", speed=12.0 * math.pi, count=4, multiples=3),)
    read = ReadSpectrum(0.02, 0.0, speed_accuracy=0.003, speed_drift=0.0)
    found = measured_peaks(peaks(6.015, 24.06, 48.12, 71.8), train, (), read)

    assert found.peaks[3].sources == "Rotor 12/rev"
    assert found.peaks[3].note == "0.38 Hz off at the speed that the other peaks agree on"
    assert found.peaks[2].note == ""


def test_alias_is_flagged_where_nothing_holds_it_back() -> None:
    """24 Hz sampled at 40 Hz is seen at 16 Hz; a filter would have held it back."""
    open_read = ReadSpectrum(0.05, 40.0, "folded")
    (row,) = of_rotor(16.0, read=open_read).peaks
    assert row.sources == "Rotor 4/rev"
    assert row.note == "alias of 24.00 Hz"

    found = of_rotor(16.0, read=ReadSpectrum(0.05, 40.0))
    assert found.peaks[0].state == "unexplained"
    assert [(m.name, m.seen, "half the sample rate" in m.reason) for m in found.missing] == [
        ("Rotor 1/rev", 6.0, False),
        ("Rotor 4/rev", 24.0, True),
        ("Rotor 8/rev", 48.0, True),
    ]


def test_missing_line_names_the_level_that_was_read_down_to() -> None:
    """The reason has the noise where it is known."""
    found = of_rotor(24.0, read=ReadSpectrum(0.05, 0.0, noise=0.004))

    assert found.missing[0].name == "Rotor 1/rev"
    assert "0.00400" in found.missing[0].reason


def test_lines_of_no_shaft_alone() -> None:
    """Without a drive train a list of lines is enough."""
    found = measured_peaks(peaks(50.02), (), (KnownLine("Supply", 50.0, 0.1),), READ)

    assert found.peaks[0].sources == "Supply"
    assert found.peaks[0].difference == pytest.approx(0.02)
    assert found.speeds == ()


def test_coincidence_of_measured_lines_is_shown_beside() -> None:
    """A mode 2 % from a blade passage, and two lines closer than the spectrum can part."""
    others = (KnownLine("Mode", 24.5, 0.3), KnownLine("Twin", 24.1, 0.05))
    found = measured_peaks(peaks(24.05, 24.5), ROTOR, others, READ)
    words = {row.words: row.resolved for row in found.together}

    assert words["Rotor 4/rev, 24.00 Hz, is 2 % below Mode, 24.50 Hz"] == "two peaks"
    assert words["Rotor 4/rev, 24.00 Hz, is 0.41 % below Twin, 24.10 Hz"] == "cannot be told apart"


def test_figure_has_every_peak_and_names_what_was_met() -> None:
    """As many stems as peaks, and the names of the sources beside them."""
    found = of_rotor(6.0, 24.0, 31.0)
    known = [KnownLine("Rotor 4/rev", 24.0, 0.07)]
    chart = measured_peaks_chart(found, known, READ)
    drawn = [point for mark in chart.marks if isinstance(mark, Stems) for point in mark.points]

    assert sorted(x for x, _ in drawn) == [6.0, 24.0, 31.0]
    assert "Rotor 4/rev" in chart.svg("peaks")
