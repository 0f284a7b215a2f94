"""Records of loggers against numpy's and the standard library's own readers, and damaged files.

Other readers:
    numpy.loadtxt and numpy.genfromtxt read clean files of any separator.
    scipy.signal.find_peaks and a bisection on the formula find the pulses of the example.
"""

import io
import math
import random
import re
import tracemalloc
from itertools import pairwise
from typing import Any

import numpy as np
import pytest

from calc.measurement.reading.layout import layout
from calc.measurement.reading.pieces import LARGEST
from calc.measurement.reading.samples import array
from calc.measurement.record import Reader, Record, UnclearError, settings_of
from calc.measurement.synthetic import ROTOR_SPEED, example, noise

SINE = [(n / 200.0, math.sin(0.22 * n), 3.0 * math.cos(0.345 * n)) for n in range(600)]
"""Time in s and two channels at 200 Hz."""


def written(
    separator: str = ",", decimal: str = ".", heading: str = "Time [s],Mast x [g],Seat z (mm/s)"
) -> list[str]:
    """Return the lines of a clean file."""
    lines = [separator.join(heading.split(","))] if heading else []
    for time, x, z in SINE:
        cells = (f"{time:.3f}", f"{x:.5f}", f"{z:.4f}")
        lines.append(separator.join(cell.replace(".", decimal) for cell in cells))
    return lines


def read(text: str, piece: int = 997, **settings: Any) -> Record:
    """Return the record of a text that comes in pieces."""
    reader = Reader(settings_of(settings))
    for start in range(0, len(text), piece):
        reader.feed(text[start : start + piece])
    return reader.finish()


def notice(record: Record, *words: str) -> str:
    """Return the only notice that has all the words."""
    (found,) = (text for text in record.notices if all(word in text for word in words))
    return found


@pytest.mark.parametrize(
    ("separator", "decimal"),
    [
        (",", "."),
        (";", ","),
        (";", "."),
        ("\t", ","),
        ("\t", "."),
        (" ", "."),
        ("|", "."),
        ("; ", ","),
    ],
)
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_clean_file_is_read_as_numpy_reads_it(separator: str, decimal: str, end: str) -> None:
    """Whatever separates, marks decimals and ends lines, every number is that of numpy.loadtxt."""
    lines = written(separator, decimal)
    plain = "\n".join(lines).replace(",", ".") if decimal == "," else "\n".join(lines)
    one = {" ": None}.get(separator, separator.strip() or separator)
    expected = np.loadtxt(io.StringIO(plain), delimiter=one, skiprows=1)

    record = read("\ufeff" + end.join(lines))

    assert record.sample_rate == 200.0
    assert [(one.name, one.unit) for one in record.channels] == [
        ("Mast x", "g"),
        ("Seat z", "mm/s"),
    ]
    assert record.notices == ()
    assert record.problems == ()
    for channel, column in zip(record.channels, expected.T[1:], strict=True):
        assert channel.samples.tolist() == column.tolist()


@pytest.mark.parametrize("piece", [7, 997, 70_000])
def test_pieces_of_any_length_give_the_same_record(piece: int) -> None:
    """A piece may end inside a line, a number, or between the two signs that end a line."""
    lines = example("plover_steady").splitlines()
    lines[5500] = lines[5500].replace(",", ",?", 1)
    text = "\r\n".join(lines)

    record, whole = read(text, piece), read(text, len(text))

    for one, other in zip(record.channels, whole.channels, strict=True):
        assert one.samples.tobytes() == other.samples.tobytes()
    assert record.pulse_times == whole.pulse_times
    assert [problem.line for problem in record.problems] == [5501]


def test_words_empty_lines_and_comments_are_no_rows() -> None:
    """A heading of many lines, a line of units, comments and blank lines do not disturb."""
    lines = written(heading="")
    lines[50:50] = ["", "# range changed", "   "]
    head = ["Logger 12", "Operator;none", "", "Time,Mast x,Seat z", "s,g,mm/s"]

    record = read("\n".join(head + lines))

    assert [(one.name, one.unit, one.quantity) for one in record.channels] == [
        ("Mast x", "g", "acceleration"),
        ("Seat z", "mm/s", "velocity"),
    ]
    assert len(record) == len(SINE)
    assert record.notices == ()


@pytest.mark.parametrize(
    ("names", "units", "found"),
    [
        ("Zeit;Sitz vertikal;Drehzahl-Puls", "s;m/s²;V", ["Sitz vertikal m/s²", "Drehzahl-Puls V"]),
        ("t;Kraft;Weg", "[ms];[kN];[mm]", ["Kraft kN", "Weg mm"]),
        ("Time;Mast x;Mast y", "s;counts;EU", ["Mast x counts", "Mast y EU"]),
        ("Zeit;Mast;Mast", "t;A;g", ["A ", "g "]),
        ("Run 12;Mast;Seat", "ms;x;z", ["x ", "z "]),
        ("Time;Force;Torque", ";N;Nm", ["Force N", "Torque Nm"]),
        ("t;Kraft;Drehzahl", "-;kN;U/min", ["Kraft kN", "Drehzahl U/min"]),
        ("Time;Phases;Sums", ";V;counts", ["V ", "counts "]),
        ("K;A;V", ";N;Nm", ["N ", "Nm "]),
    ],
)
def test_units_stand_under_their_names(names: str, units: str, found: list[str]) -> None:
    """A line of units may hold some that are not of vibration; a second line of names is none."""
    step = 2.0 if "ms" in units else 0.002
    rows = [f"{step * n:.4f};{x:.4f};{z:.2f}".replace(".", ",") for n, (_, x, z) in enumerate(SINE)]

    record = read("\n".join([names, units, *rows]))

    assert record.sample_rate == 500.0
    assert [f"{one.name} {one.unit}" for one in record.channels] == found


def test_layout_of_a_cut_file_is_that_of_the_whole() -> None:
    """Only the last, cut line of a piece is left out."""
    text = example("plover_run_up")
    settings = settings_of(None)

    assert layout(text[:3001], settings, whole=False) == layout(text, settings, whole=True)


def test_quoted_cells_hide_their_commas() -> None:
    """Quoted decimal commas between commas are one number a cell."""
    lines = ['"Time (s)","A, left","B"']
    lines += [",".join(f'"{cell}"' for cell in line.split(";")) for line in written(";", ",", "")]

    record = read("\n".join(lines))

    assert record.channels[0].name == "A, left"
    assert record.channels[1].samples[1] == pytest.approx(SINE[1][2], abs=5e-5)


CLOCK = [divmod(58_000 + 10 * n, 60_000) for n in range(400)]
"""Minutes and milliseconds of a clock that passes a full minute."""


@pytest.mark.parametrize(
    ("texts", "rate", "start"),
    [
        (
            [f"10:{59 + m - 60 * m}:{s / 1e3:06.3f}".replace("10:0", "11:00") for m, s in CLOCK],
            100.0,
            39598.0,
        ),
        (
            [f"2031-05-0{4 + m} {23 - 23 * m}:{59 - 59 * m}:{s / 1e3:06.3f}" for m, s in CLOCK],
            100.0,
            86398.0,
        ),
        ([f"4 Dec 2031 10:15:{n / 100:06.3f} AM" for n in range(400)], 100.0, 36900.0),
        ([f"{n / 0.256:.3f} " for n in range(400)], 256.0, 0.0),
        ([f"{n / 0.256:.5E}" for n in range(400)], 256.0, 0.0),
        ([f"{1e3 + n / 0.7:.0f}" for n in range(4000)], 700.0, 1.0),
    ],
    ids=["clock", "midnight", "month", "milliseconds", "exponents", "coarse milliseconds"],
)
def test_times_of_any_kind_give_the_sample_rate(
    texts: list[str], rate: float, start: float
) -> None:
    """Clock times, over midnight too, and times printed more coarsely than they are spaced."""
    heading = "Time,A" if ":" in texts[0] else "Time [ms],A"
    rows = [f"{text},{math.sin(n):.4f}" for n, text in enumerate(texts)]

    record = read("\n".join([heading, *rows]))

    assert record.sample_rate == rate
    assert record.start == start
    assert len(record) == len(texts)
    assert record.notices == ()


def damaged(number: int, line: str) -> list[str]:
    """Return the lines of a file of which one, counted from 1, is another."""
    lines = written()
    lines[number - 1] = line
    return lines


@pytest.mark.parametrize(
    ("line", "place", "kept"),
    [
        ("0.490,#VALUE!,{z}", "Line 100, column 2", (False, True)),
        ("0.490,1.2.3,{z}", "Line 100, column 2", (False, True)),
        ("0.490,1_000,{z}", "Line 100, column 2", (False, True)),
        ("0.490,1e999,{z}", "Line 100, column 2", (False, True)),
        ("0.490,inf,{z}", "Line 100, column 2", (False, True)),
        ("0.490,{x},0x12", "Line 100, column 3", (True, False)),
        ("0.490,{x}", "Line 100", (True, False)),
        ("0.490,{x}{z}", "Line 100", (False, False)),
        ("0.490,{x},1,{z}", "Line 100", (False, False)),
        ("0.4x0,{x},{z}", "Line 100, column 1", (True, True)),
        ("0.490,{x},{z},,", "", (True, True)),
        ('"0.490","{x}",{z}', "", (True, True)),
        ("\u22120.0,{x},{z}", "", (True, True)),
    ],
)
def test_bad_row_is_named_and_nothing_else_is_lost(
    line: str, place: str, kept: tuple[bool, bool]
) -> None:
    """A gap stands where a number cannot be read; its row, and every other number, stays."""
    clean = read("\n".join(written()))
    _, x, z = SINE[98]
    lines = damaged(100, line.format(x=f"{x:.5f}", z=f"{z:.4f}"))

    record = read("\n".join(lines))

    assert record.sample_rate == 200.0
    assert len(record) == len(clean)
    assert [str(problem).partition(":")[0] for problem in record.problems] == [place] * bool(place)
    for channel, whole, stays in zip(record.channels, clean.channels, kept, strict=True):
        differs = [
            row
            for row, (one, other) in enumerate(zip(channel.samples, whole.samples, strict=True))
            if one != other
        ]
        assert differs == ([] if stays else [98])
        assert stays or math.isnan(channel.samples[98])


def test_empty_cell_of_a_damaged_row_is_named() -> None:
    """Both lost cells of a row are named; a channel that has had empty cells has another one."""
    rows = [f"{n / 100:.2f};{math.sin(n):.4f};{n};{'' if n % 10 else n}" for n in range(200)]
    rows[80] = "0.80;#ERR;;"
    record = read("\n".join(["Time [s];A;B;C", *rows]))

    assert [(one.line, one.column) for one in record.problems] == [(82, 2), (82, 3)]
    assert str(record.problems[1]).endswith(
        "an empty cell in a damaged row; a gap is left in its place"
    )
    assert record.bad_rows == 1


def test_many_bad_rows_are_all_counted() -> None:
    """Random damage: what is not damaged is read to the last digit, and the count is right."""
    chance = random.Random(11)  # noqa: S311 - no secret
    lines = written()
    hit = sorted(chance.sample(range(1, len(lines)), 90))
    for row in hit:
        cells = lines[row].split(",")
        cells[2] = chance.choice(["?", "--.-", "1,5", "1 2", "NaN(7)", "1e", "٣"])
        lines[row] = ",".join(cells)

    record = read("\n".join(lines))

    assert record.bad_rows == record.problem_count == len(hit)
    assert [problem.line for problem in record.problems] == [row + 1 for row in hit]
    for row, value in enumerate(record.channel("Seat z").samples):
        if row + 1 not in hit:
            assert value == float(f"{SINE[row][2]:.4f}")


def test_missing_rows_are_gaps_at_their_time() -> None:
    """Rows that a time column jumps over are gaps, so that later samples keep their time."""
    lines = written()
    del lines[301:304]

    record = read("\n".join(lines))

    assert len(record) == len(SINE)
    assert [math.isnan(value) for value in record.channels[0].samples[298:305]] == [
        *(False, False, True, True, True),
        *(False, False),
    ]
    assert "3 samples missing" in notice(record, "gap in time", "before line 302")


def test_repeated_row_and_wrong_time_are_told_apart() -> None:
    """A row written twice is left out; a row whose time alone is wrong is kept."""
    lines = written()
    lines[200] = "99" + lines[200]
    lines.insert(100, lines[99])

    record = read("\n".join(lines))

    assert len(record) == len(SINE)
    assert record.channels[0].samples.tolist() == [float(f"{x:.5f}") for _, x, _ in SINE]
    assert notice(record, "1 time repeated", "line 101")
    assert notice(record, "1 time out of line", "line 202")


def test_time_that_starts_anew_keeps_the_longest_part() -> None:
    """Two records in one file are not joined: the lines of both parts are said."""
    lines = written() + written(heading="")[:150]

    record = read("\n".join(lines))

    assert len(record) == len(SINE)
    assert notice(record, "lines 2 to 601", "lines 602 to 751")


def test_uneven_times_are_said() -> None:
    """Random steps are no equally sampled record."""
    chance = random.Random(3)  # noqa: S311 - no secret
    time, rows = 0.0, ["Time [s],A"]
    for n in range(500):
        time += chance.choice([0.001, 0.01, 0.03])
        rows.append(f"{time:.3f},{n % 7}")

    assert notice(read("\n".join(rows)), "not equally spaced")


def test_two_sample_rates_are_both_said() -> None:
    """A typed rate that the time column contradicts is used and doubted; so is a stated one."""
    text = "\n".join(written())

    assert notice(read(text, sample_rate=100.0), "typed", "100 Hz", "200 Hz")
    assert notice(read(f"# Sample rate: 0.1 kHz\n{text}"), "stated", "100 Hz", "200 Hz")
    assert read(text, sample_rate=200.1).notices == ()


@pytest.mark.parametrize(
    ("text", "setting"),
    [
        ("\n".join(f"{5 + n % 3},{n % 9:03d};{7 - n % 4},250" for n in range(1, 99)), "decimal"),
        ("\n".join(f"{n % 9},{n % 7},{n % 5},{n % 3}" for n in range(99)), "decimal"),
        ("\n".join(f"{math.sin(n):.3f},{math.cos(n):.3f}" for n in range(99)), "sample_rate"),
        ("\n".join(f"{5 * n},{n % 7}.5" for n in range(99)), "time_unit"),
    ],
    ids=["groups of three", "whole numbers", "no time", "time without unit"],
)  # fmt: skip
def test_file_of_two_meanings_is_asked_about(text: str, setting: str) -> None:
    """No meaning is guessed where another is as likely; the answer is then taken."""
    with pytest.raises(UnclearError) as unclear:
        read(text)
    asked = {question.setting: question.choices for question in unclear.value.questions}
    answers: dict[str, Any] = {"sample_rate": 100.0, "time_unit": "ms", "decimal": "."}

    assert setting in asked
    assert all(
        choice in {",", ".", "s", "ms", "us"} for pairs in asked.values() for choice, _ in pairs
    )
    assert len(read(text, **{key: answers[key] for key in asked})) == len(text.splitlines())


def test_commas_that_do_both_are_refused() -> None:
    """Decimal commas between separating commas cannot be told from whole numbers safely."""
    lines = [line.replace(".", ",") for line in written()]

    with pytest.raises(ValueError, match="Commas both separate"):
        read("\n".join(lines))


@pytest.mark.parametrize("text", ["", "\n\n", "no numbers here\nnor here", "\0" * 3000, "1\n2\n3"])
def test_what_is_no_record_is_refused(text: str) -> None:
    """There is a sentence for the reader, and nothing else is raised."""
    with pytest.raises(ValueError, match=r"[Nn]umbers|sample rate"):
        read(text)


def test_clipping_is_noticed_and_smooth_tops_are_not() -> None:
    """Flat tops are entered steeply; a slow sine in coarse print is flat at its top as well."""
    clipped = [f"{n / 200},{max(-0.8, min(0.8, math.sin(0.3 * n))):.4f}" for n in range(900)]
    smooth = [f"{n / 2000},{math.sin(0.01 * n):.2f}" for n in range(4000)]

    assert notice(read("\n".join(["Time [s],A", *clipped])), "A: clipped")
    assert read("\n".join(["Time [s],A", *smooth])).notices == ()


def test_clipping_inside_the_extremes_of_the_record_is_noticed() -> None:
    """A range that is halved in the middle clips a sine of which the first half is whole.

    A tone of 2 at 10.3 samples a half-wave passes 0.8 steeply, twice in each of its waves.  The
    same tone of 0.79 in the second half is not clipped.
    """
    for level, second in ((0.8, 2.0), (0.8, 0.79)):
        rows = ["Time [s],A"]
        for n in range(4000):
            x = 2.0 * math.sin(0.305 * n)
            small = max(-level, min(level, second * math.sin(0.305 * n)))
            rows.append(f"{n / 200},{x if n < 2000 else small:.4f}")
        said = [text for text in read("\n".join(rows)).notices if "clipped" in text]
        if second < level:
            assert said == []
            continue
        (text,) = said
        counted = re.search(r"clipped (\d+) times, first at ([\d.]+) s", text)
        assert counted is not None
        # two in each of the 2000 * 0.305 / 2 pi waves, but for one at the edge of each piece
        assert 2000 * 0.305 / math.pi - 10 <= int(counted[1]) <= 2000 * 0.305 / math.pi + 10
        assert float(counted[2]) == pytest.approx(10.0, abs=0.1)
        assert "inside the extremes of the record" in text


def test_offset_stuck_and_dead_channels_are_noticed() -> None:
    """A mean, a stretch at one value and a channel without motion are each said."""
    rows = ["Time [s],Mean,Stuck,Dead"]
    for n in range(2000):
        x = math.sin(0.3 * n)
        rows.append(f"{n / 200},{x + 0.5:.4f},{0 if 700 < n < 1300 else x:.4f},5")

    record = read("\n".join(rows))

    assert notice(record, "Mean: a mean of 0.5")
    assert notice(record, "Stuck: stays at 0 from 3.505 s to 6.495 s")
    assert notice(record, "Dead: all values are the same, 5")


def test_stick_at_rest_is_one_calm_notice() -> None:
    """A stick that rests but for three stirs, a bad row in one rest; a cabin that drops out twice.

    The longest rest of the stick is from the end of its second stir to the end of the record.
    """
    rows = ["Time [s],Stick [deg],Cabin [g]"]
    for n in range(2000):
        stir = any(start <= n < start + 100 for start in (200, 500, 900))
        stick = "#ERR" if n == 1500 else f"{math.sin(0.3 * n + 0.1) if stir else 0.0:.4f}"
        out = 100 < n < 800 or 900 < n < 1500
        rows.append(f"{n / 200},{stick},{0 if out else math.sin(0.3 * n):.4f}")
    said = [text for text in read("\n".join(rows)).notices if "stretches" in text]

    assert [text.partition(",")[0] for text in said] == [
        "Stick: does not move for 85 % of the record",
        "Cabin: stays at one value",
    ]
    assert "in 4 stretches, the longest at 0 deg from 5 s to 9.995 s" in said[0]
    assert "dropout?" not in said[0]
    assert said[1].endswith(
        "in 2 stretches, the longest at 0 g from 0.505 s to 3.995 s: cable, range or dropout?"
    )


def test_pulses_are_where_the_formula_has_them() -> None:
    """The tachometer of the example passes half its height at each whole turn.

    Half the last printed digit of its volts, which rise by 236 V/s, is 2.1e-6 s.
    """
    record = read(example("plover_steady"))
    period = 2.0 * math.pi / ROTOR_SPEED

    assert record.pulse_times is not None
    assert record.has_angle
    for number, time in enumerate(record.pulse_times, 1):
        assert time == pytest.approx(number * period, abs=2.2e-6)


@pytest.mark.parametrize("lost", range(96, 104))
def test_gap_at_a_pulse_moves_it_by_no_more_than_a_sample(lost: int) -> None:
    """A sample lost before, on or after the edge of a pulse; the pulses are every 0.1 s."""
    rows = [f"{n / 500.0:.3f},{n % 7},{5 if n % 50 < 5 else 0}" for n in range(1000)]
    rows[lost] = rows[lost].rpartition(",")[0] + ","

    times = read("\n".join(["Time [s],Mast x [g],pulse", *rows])).pulse_times

    assert times is not None
    assert list(times) == pytest.approx([0.1 * n - 0.001 for n in range(1, 20)], abs=0.002)


def test_missing_pulse_is_noticed() -> None:
    """A pulse that does not come makes an interval twice as long as its neighbours."""
    lines = example("plover_steady").splitlines()
    first, last = round(10.45 * 200), round(10.60 * 200)
    for row in range(first, last):
        lines[row] = lines[row].rpartition(",")[0] + ",0.000"

    assert notice(read("\n".join(lines)), "Tachometer", "a pulse missed at 10.33 s")


def test_revolutions_follow_from_a_channel_of_rotor_speed() -> None:
    """Between full revolutions the integral of the speed is one turn, by numpy's trapezoids."""
    record = read(example("plover_run_up"))
    assert record.pulse_times is not None
    speed = np.array(record.channel("Rotor speed").samples) * math.pi / 30.0
    angle = np.concatenate([[0.0], np.cumsum(0.5 * (speed[1:] + speed[:-1]))]) / record.sample_rate
    times = np.interp(
        2.0 * math.pi * np.arange(len(record.pulse_times)), angle, np.arange(len(angle))
    )

    assert not record.has_angle
    assert record.pulse_times == pytest.approx((times / record.sample_rate).tolist(), abs=1e-4)
    assert all(after < before for before, after in pairwise(np.diff(record.pulse_times)))


def test_long_line_is_left_out_without_holding_it() -> None:
    """Two million characters without an end of line are named, and what follows is read."""
    lines = written()
    lines.insert(300, "9" * 2_000_000)
    text = "\n".join(lines)
    reader = Reader()
    for start in range(0, len(text), 10_000):
        reader.feed(text[start : start + 10_000])

    record = reader.finish()

    assert len(record) == len(SINE)
    assert [problem.line for problem in record.problems] == [301]
    assert "longer than" in record.problems[0].message


@pytest.mark.thorough
def test_largest_file_needs_bounded_memory() -> None:
    """A file of 50 MB takes little more memory than its numbers, and one of 61 MB is refused."""
    row = ",".join(["-0.12345"] * 7)
    reader = Reader()
    reader.feed("Time [s]," + ",".join("ABCDEFG") + "\n")
    tracemalloc.start()
    n = 0
    while reader.characters < 50_000_000:
        piece = "".join(f"{(n + k) / 1000:.3f},{row}\n" for k in range(10_000))
        n += 10_000
        reader.feed(piece)
    numbers = 8 * 8 * n
    _, most = tracemalloc.get_traced_memory()
    tracemalloc.stop()

    assert most < 2 * numbers + 30_000_000
    assert len(reader.finish()) == n
    with pytest.raises(ValueError, match="cut it in parts"):
        reader.feed(" " * (LARGEST - 40_000_000))


def test_gap_is_bridged_by_a_straight_line() -> None:
    """Between its neighbours as numpy.interp does, and level at the ends."""
    from calc.measurement.reading.samples import bridged  # noqa: PLC0415 - the one use

    values = array("d", [math.nan, 1.0, math.nan, math.nan, 2.5, math.nan])
    known = [row for row, value in enumerate(values) if not math.isnan(value)]

    expected = np.interp(range(6), known, [values[row] for row in known])
    assert bridged(values).tolist() == pytest.approx(expected.tolist())


def test_lines_beyond_a_usual_filter_are_noticed() -> None:
    """A tone near half the sample rate is said; one that a filter would pass is not."""
    for frequency, said in ((95.0, True), (60.0, False)):
        rows = ["Time [s],A"]
        for n, added in enumerate(noise(3000, 0.02)):
            time = n / 200.0
            x = math.sin(2.0 * math.pi * 12.3 * time) + 0.1 * math.sin(
                2.0 * math.pi * frequency * time
            )
            rows.append(f"{time:.3f},{x + added:.4f}")
        record = read("\n".join(rows))

        expected = ["a line at 95.02 Hz stands above 78.12 Hz"] if said else []
        told = [text.partition(": ")[2].partition(",")[0] for text in record.notices]
        assert told == expected


def test_running_rotor_speed_is_noticed() -> None:
    """The run-up says its range of rotor speed; the steady record says nothing of it."""
    assert notice(read(example("plover_run_up")), "Rotor speed runs from", "smeared")
    assert not any("runs from" in text for text in read(example("plover_steady")).notices)


def test_heading_that_stands_again_is_left_out() -> None:
    """Files that were joined have it in their middle; without a time column nothing else tells."""
    lines = [line.partition(",")[2] for line in written()]
    lines.insert(300, lines[0])

    record = read("\n".join(lines), sample_rate=200.0)

    assert len(record) == len(SINE)
    assert [problem.line for problem in record.problems] == [301]


def test_row_whose_separator_is_lost_trusts_no_cell_after_it() -> None:
    """Two fused cells move those after them: the row is a gap, but for its time."""
    rows = [f"{n / 100:.2f},{n % 7},{n % 5}.5,{n % 3}" for n in range(200)]
    rows[40] = "0.40,5.1.5,1"

    record = read("\n".join(["Time [s],A,B,C", *rows]))

    assert record.sample_rate == 100.0
    assert all(math.isnan(channel.samples[40]) for channel in record.channels)
    assert sum(channel.spread.gaps for channel in record.channels) == 3


def test_point_among_decimal_commas_is_no_number() -> None:
    """One thousand or one: where commas are decimals a point is not guessed."""
    lines = written(";", ",")
    lines[100] = lines[100].replace(",", ".")

    record = read("\n".join(lines))

    assert [problem.column for problem in record.problems] == [1, 2, 3]
    assert len(record) == len(SINE)


def test_thousands_before_a_decimal_mark_are_read() -> None:
    """1.234,5 and 1,234.5 have one meaning each."""
    points = [f"0,{n:02d};1.{234 + n},50" for n in range(99)]
    commas = [f"0.{n:02d};1,{234 + n}.50" for n in range(99)]
    expected = [1234.5 + n for n in range(99)]

    for rows in points, commas:
        record = read("\n".join(["Time [s];A", *rows]))
        assert record.channels[0].samples.tolist() == expected
        assert record.problems == ()


def test_decimal_commas_between_commas_are_refused_when_told() -> None:
    """Saying that the comma is the decimal mark does not help where it separates as well."""
    with pytest.raises(ValueError, match="Commas both separate"):
        read("\n".join(written()), decimal=",")


def test_impossible_rotor_speed_is_not_used() -> None:
    """A speed above half the sample rate would count revolutions without end."""
    lines = example("plover_run_up").splitlines()
    lines[100] = lines[100].rpartition(",")[0] + ",9e30"

    record = read("\n".join(lines))

    assert record.pulse_times is None
    assert notice(record, "above half the sample rate")


def test_slower_channel_with_empty_cells_keeps_its_gaps() -> None:
    """A channel that is written every tenth row is no problem, and its gaps are counted."""
    rows = [f"{n / 100:.2f},{math.sin(n):.4f},{'' if n % 10 else n}" for n in range(2000)]

    record = read("\n".join(["Time [s],A,B", *rows]))

    assert record.problem_count == 0
    assert record.channels[1].spread.gaps == 1800
    assert [v for v in record.channels[1].samples if v == v] == [*map(float, range(0, 2000, 10))]  # noqa: PLR0124 - not a gap
