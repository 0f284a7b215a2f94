"""The ground-run card: never into a stand-off, times and lines by hand, and printed whole.

No printed card of a ground run with its predictions could be read; what it says is held against
growth of single blades turned numerically into fixed axes, and against numbers worked out here.
"""

import hashlib
import html
import math
import random
import re
import shutil
import subprocess
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from itertools import count, islice, pairwise
from pathlib import Path

import numpy as np
import pytest
from playwright.sync_api import Browser

from calc.form.calculation import calculate
from calc.form.reading import checked
from calc.ground.model.aircraft import Hub, Rotor, Support
from calc.ground.model.gear_state import UndercarriageState, in_state
from calc.ground.plan.run_rules import RunRules
from calc.ground.plan.speed_steps import Mark
from calc.sheet.file import written
from calc.sheet.layout import TRAIN, section
from calc.sheet.sheet import Sheet, Value, value_read
from calc.survey.asked import Place, changed
from calc.survey.asking import carded
from calc.survey.card.basis import wider
from calc.survey.card.card import Card, CardStep, card
from calc.survey.card.dwell import dwell, separation_time, settling_time
from calc.survey.card.expected_lines import expected_lines, nearest
from calc.survey.card.hold import modes_at_once_per_revolution
from calc.survey.card.page import card_page
from calc.survey.card.words import stops
from calc.survey.files import files
from calc.survey.ground import run_plan
from calc.survey.train import drive_train
from calc.units import RPM
from tests.ground.oracle import eigenvalues_of_single_blades
from tests.survey.crafts import example, random_craft

CLEAR, LEAST, OFF, WIDE = 0.1, 0.01, 0.05, 0.2
"""Stand-off, least damping, and uncertainty of frequencies and damping that a plan starts with."""


def with_values(sheet: Sheet, **values: str) -> Sheet:
    """Return a sheet with other values; the two parts of a place are joined by two underscores."""
    for name, text in values.items():
        key, _, field = name.partition("__")
        sheet = changed(sheet, Place(key, -1, field), Value(text))
    return sheet


def without_modes(sheet: Sheet) -> Sheet:
    """Return a sheet without measured modes."""
    return replace(sheet, rows={**sheet.rows, "measured_modes": ()})


def cured() -> Sheet:
    """Return a Plover with 2.2 times its damping, whose nominal state is run to the end."""
    return with_values(
        without_modes(example("plover")),
        lag__lag_damping="4500 N·m·s/rad",
        hub__damping_x="13200 N·s/m",
        hub__damping_y="8800 N·s/m",
    )


@cache
def plover_card() -> Card:
    """Return the card of the Plover as it ships."""
    return card(example("plover"))


def planned(seed: int) -> Sheet:
    """Return a random rotorcraft of which a run can be planned, with up to three times its damping.

    The measured modes of every third are looked at too.
    """
    crafts = (random_craft(number, slow=True) for number in count(100 * seed))
    whole = (sheet for sheet in crafts if not run_plan(sheet).missing)
    sheet = next(islice(whole, seed % 3, None))
    more = random.Random(seed).uniform(1.0, 3.0)  # noqa: S311 - reproducible, nothing is secret
    for key, name in (("lag", "lag_damping"), ("hub", "damping_x"), ("hub", "damping_y")):
        value = sheet.value(f"{key}.{name}")
        assert value is not None
        read = value_read(section(key).field(name), value)
        amount = f"{more * float(read.text):.6g} {read.unit.name}"
        sheet = changed(sheet, Place(key, -1, name), Value(amount))
    return sheet if seed % 3 == 0 else without_modes(sheet)


def aircraft(found: Card) -> tuple[Rotor, Hub, dict[str, UndercarriageState]]:
    """Return rotor, hub and landing-gear states of a card, read from what was asked."""
    from calc.catalogue import formula  # noqa: PLC0415
    from calc.declaration import arguments, inputs  # noqa: PLC0415

    given = {
        f.name: checked(f.declaration, found.asked.entries[f.name]).value
        for f in inputs(formula(found.asked.formula))
        if f.name in found.asked.entries
    }
    made = arguments(formula(found.asked.formula), given)
    return made["rotor"], made["hub"], {state.name: state for state in made["states"]}


def corners(rotor: Rotor, support: Support) -> Iterator[tuple[Rotor, Support]]:
    """Give the aircraft as given and at corners of its uncertainties with its damping low."""
    yield rotor, support
    for x, y in ((1 - OFF, 1 - OFF), (1 + OFF, 1 - OFF), (1 - OFF, 1 + OFF), (1 + OFF, 1 + OFF)):
        yield (
            replace(rotor, lag_damping=(1 - WIDE) * rotor.lag_damping),
            replace(
                support,
                stiffness_x=x * x * support.stiffness_x,
                stiffness_y=y * y * support.stiffness_y,
                damping_x=(1 - WIDE) * support.damping_x,
                damping_y=(1 - WIDE) * support.damping_y,
            ),
        )


def says_to_dwell(one: CardStep) -> bool:
    """Return whether a step says to hold or to excite."""
    return any(word in one.step.instruction for word in ("hold", "excite", "measure"))


def test_sheet_that_lacks_something_has_no_step() -> None:
    """Forty random rotorcraft, with unknowns: what is missing is named, and nothing is run."""
    lacking = [
        sheet
        for sheet in (random_craft(seed, slow=True) for seed in range(40))
        if run_plan(sheet).missing
    ]
    assert len(lacking) > 10
    for sheet in lacking:
        found, text = card(sheet), card_page(sheet, "0" * 64)
        assert found.lacks == run_plan(sheet).missing
        assert not found.states
        assert 'class="steps"' not in text
        assert all(html.escape(lack) in text for lack in found.lacks)


@pytest.mark.parametrize("seed", range(4))
def test_no_step_lies_in_a_stand_off(seed: int) -> None:
    """No aircraft at a corner is unstable between the start of a state and a tenth beyond a step.

    The growth is that of single blades; the states come in order, none faster than the nominal.
    """
    found = card(planned(seed))
    assert found.lacks == ()
    rotor, hub, states = aircraft(found)
    nominal = found.states[0]
    assert nominal.planned.kind == "nominal"
    assert nominal.steps
    ends = nominal.planned.why == nominal.why == "end of its range"
    ranks = [{"nominal": 0, "failure": 2}.get(one.planned.kind, 1) for one in found.states]
    assert ranks == sorted(ranks)
    for state in found.states:
        speeds = [one.step.rotor_speed for one in state.steps]
        assert speeds == sorted(speeds)
        if not speeds:
            assert "begun" in state.why
            continue
        assert speeds[-1] <= (nominal.last_speed or 0.0) * (1.0 + 1e-9)
        assert ends or state.planned.kind != "failure"
        start = (
            state.planned.from_speed if states[state.planned.name].lift_share else 0.1 * speeds[0]
        )
        support = in_state(hub.support(rotor), states[state.planned.name])
        for case in corners(rotor, support):
            for speed in np.linspace(start, speeds[-1] / (1.0 - CLEAR), 60):
                values = eigenvalues_of_single_blades(*case, speed)
                assert max(value.real for value in values) < 1e-9
        for one in state.steps:
            assert says_to_dwell(one) == (one.dwell is not None)
            assert one.dwell is not None or one.step.instruction == Mark.TRANSIT.value


def test_measured_modes_end_a_run_earlier_and_never_later() -> None:
    """The Plover is planned to 136.8 rpm; with its measured modes 10 % further is not stable.

    At their bad end, by the growth rate of the modes at each speed, not by the search for bands.
    """
    from calc.ground.measured_modes import growth_rate  # noqa: PLC0415
    from calc.ground.modal_support import SupportMode  # noqa: PLC0415

    whole, alone = plover_card(), card(without_modes(example("plover")))
    rotor, _, _ = aircraft(whole)
    rows = ((2.25, 0.071, 3000.0, 1.0, 0.0), (3.4, 0.147, 1400.0, 0.0, 1.0))
    modes = [
        SupportMode((1 - OFF) * f, (1 - WIDE) * z, *rest)
        for f, z, *rest in (*rows, (6.1, 0.05, 2600.0, 0.1, 0.7))
    ]
    lag = (1 - WIDE) * rotor.lag_damping

    def damping(speed: float) -> float:
        """Least damping ratio in the fixed frame, of a mode at 2 Hz."""
        return -growth_rate(rotor, modes, speed, (lag,) * 4) / (2.0 * math.pi * 2.0)

    assert [len(state.steps) for state in alone.states] != [len(s.steps) for s in whole.states]
    assert RPM.reading(alone.states[0].last_speed or 0.0) == pytest.approx(136.8)
    assert RPM.reading(whole.states[0].last_speed or 0.0) == pytest.approx(133.2)
    assert damping(RPM.si(136.8)) < LEAST < damping(RPM.si(133.2))
    assert "measured modes" in whole.states[0].why
    assert whole.summary.startswith("full weight: damping below 1.0% at 137 rpm")
    for state in whole.states[1:]:
        assert (state.last_speed or 0.0) <= (whole.states[0].last_speed or 0.0)
        assert "137" not in state.why
    assert {note for note in whole.notes if "no measured modes" in note} == {
        f"{name}: the sheet has no measured modes in this state to compare with"
        for name in ("soft ground", "tied down")
    }


def exponent(frequency: float, damping_ratio: float) -> complex:
    """Return the exponent of a mode from its frequency in Hz and its damping ratio."""
    turning = 2.0 * math.pi * frequency
    return complex(-turning * damping_ratio / math.sqrt(1.0 - damping_ratio**2), turning)


def test_crew_can_follow_a_mode_through_a_run() -> None:
    """The same letters at every step, each on one mode of single blades, in 30 parts of a step.

    From the first step on the exponent of the oracle that is nearest to the last one is taken.
    Each mode that the plan names at a step is among them; its damping is read.
    """
    found = card(cured())
    rotor, hub, states = aircraft(found)
    for state in found.states[:3]:
        support = in_state(hub.support(rotor), states[state.planned.name])
        steps = [one for one in state.steps if one.modes]
        speed = steps[0].step.rotor_speed
        now = [exponent(mode.frequency, mode.damping_ratio) for mode in steps[0].modes]
        assert len(steps) > 3
        assert len(now) > 1
        for one in steps:
            for part in np.linspace(speed, one.step.rotor_speed, 31)[1:]:
                all_of_them = eigenvalues_of_single_blades(rotor, support, float(part))
                now = [all_of_them[int(np.argmin(abs(all_of_them - last)))] for last in now]
            speed = one.step.rotor_speed
            given = [exponent(mode.frequency, mode.damping_ratio) for mode in one.modes]
            assert given == pytest.approx(now, rel=1e-6)
            assert [mode.letter for mode in one.modes] == list("ABCD"[: len(now)])
            read = [mode.frequency for mode in one.modes if mode.stop_damping_ratio is not None]
            assert {one.step.frequency, one.step.next_frequency} - {None} <= set(read)


def test_printed_modes_have_letter_and_motion() -> None:
    """One that is too heavily damped to be read has a line and no blank; criteria say the letter.

    Where no two frequencies are near, a mode of the hub is longitudinal or lateral alone.
    """
    text = carded(written(cured()))
    rows = re.findall(
        r"<td><strong>([A-D])</strong> ([a-z, ]+)<br>[\d.]+ Hz, ([\d.]+)%</td>(.{60})", text
    )
    assert {motion for _, motion, _, _ in rows} >= {"lag", "lateral", "longitudinal"}
    heavy = [rest for *_, rest in rows if rest.startswith("<td>–</td><td>–</td><td>–</td>")]
    assert heavy
    assert "for any lettered mode" in text
    assert "the mode of one letter at the last three steps" in text


def test_settling_is_that_of_the_decay() -> None:
    """Marching a mode of 2 Hz and 3 % of critical in time: one per cent of it is left.

    By hand ln 100 / (2 π × 0.03 × 2 Hz) = 12.2156 s.
    """
    omega, ratio, dt = 2.0 * math.pi * 2.0, 0.03, 1e-4
    time = settling_time(2.0, ratio)
    place, speed = 1.0, 0.0
    for _ in range(round(time / dt)):
        speed -= dt * (2.0 * ratio * omega * speed + omega * omega * place)
        place += dt * speed
    energy = math.sqrt(place**2 + (speed / omega) ** 2)

    assert time == pytest.approx(12.2156, abs=5e-5)
    assert energy == pytest.approx(0.01, rel=0.05)  # the energy ripples by the damping ratio


def test_record_tells_two_lines_apart_at_every_phase() -> None:
    """Spectra of two equal tones: two peaks at each of 24 phases, not so in half of the record."""
    first, second = 7.93, 8.0
    record = separation_time(first, second)
    assert record == pytest.approx(3.0 / 0.07)
    assert separation_time(first, first + 0.049) is None
    assert separation_time(first, first) is None

    def peaks(length: float, phase: float) -> int:
        count = round(length * 64.0)
        time = np.arange(count) / 64.0
        signal = np.cos(2 * np.pi * first * time) + np.cos(2 * np.pi * second * time + phase)
        window = 0.5 - 0.5 * np.cos(2.0 * np.pi * np.arange(count) / count)
        heights = np.abs(np.fft.rfft(signal * window, 16 * count))
        inner = heights[1:-1]
        high = (inner > heights[:-2]) & (inner >= heights[2:]) & (inner > 0.5 * heights.max())
        return int(np.count_nonzero(high))

    phases = [2.0 * math.pi * number / 24 for number in range(24)]
    assert all(peaks(record or 0.0, phase) == 2 for phase in phases)
    assert not all(peaks(0.5 * (record or 0.0), phase) == 2 for phase in phases)


def test_times_of_a_step_by_hand() -> None:
    """2.04 Hz and 3.1 Hz with a line at 2.22 Hz, 1.2 % at the bad end and frequencies 5 % low.

    ln 100 / (2 π × 0.012 × 1.938 Hz) = 31.516 s; 3 / 0.18 Hz = 16.67 s is less, so that the
    record is one decay; 3 / 0.04 Hz = 75 s is too long a record to wait for.
    """
    lines = [("1/rev", 2.22), ("4/rev", 8.88)]
    given = {"slowest": 0.95 * 2.04, "damping_ratio": 0.012}
    both = [("mode A", 2.04), ("mode B", 3.1)]
    one = dwell(both, lines, records=1, **given)
    two = dwell(both, [*lines, ("tail rotor", 3.06)], records=2, **given)
    fast = dwell(both[:1], lines, records=1, slowest=1.938, damping_ratio=0.1)

    assert one.settling == pytest.approx(31.516, abs=5e-4)
    assert one.least == pytest.approx(63.032, abs=1e-3)
    assert one.too_near == ()
    assert two.least == pytest.approx(94.548, abs=2e-3)
    assert two.too_near == (("mode B", "tail rotor"),)
    assert fast.record == pytest.approx(3.0 / 0.18)


def test_printed_times_are_those_of_the_plan() -> None:
    """The last step of the Plover, from the numbers of the plan by the formula written here."""
    last = plover_card().states[0].steps[-1]
    step = last.step
    settling = math.log(100.0) / (2.0 * math.pi * step.bad_end_damping_ratio)
    settling /= 0.95 * min(mode.frequency for mode in last.modes if mode.stop_damping_ratio)
    once = RPM.reading(step.rotor_speed) / 60.0
    record = max(settling, 3.0 / abs(once - step.frequency))
    text = page("plover")

    assert last.dwell is not None
    assert last.dwell.least == pytest.approx(settling + record, rel=1e-12)
    whole = math.ceil(settling) + math.ceil(record)
    assert f"<strong>{whole}</strong> + stir" in text[text.index("<strong>133.2</strong>") :]
    least = next(one for one in plover_card().states[1].steps if "twice" in one.step.instruction)
    assert least.dwell is not None
    assert least.dwell.records == 2


def test_lines_are_those_of_the_forcing_table() -> None:
    """Each line has the frequency of the forcing table where the drive train turns as on the sheet.

    By hand: the Plover at 120 rpm has 4/rev at 8 Hz and its tail rotor at 2 Hz × 136 / 31 × 0.904;
    the propellers of the Curlew stay at 1150 rpm, five blades 95.83 Hz.
    """
    for name in ("plover", "curlew", "dunlin"):
        sheet = example(name)
        table = calculate(TRAIN, drive_train(sheet).entries).result
        known = {line.source: line.frequency for line in table}
        reference = next(
            line for line in table if line.per_rev == 1.0 and "imbalance or unequal" in line.cause
        )
        for line in expected_lines(sheet).lines:
            at = line.at(2.0 * math.pi * reference.frequency)
            assert at == pytest.approx(known[line.name], rel=1e-9)
    plover = dict(expected_lines(example("plover")).at(RPM.si(120.0)))
    assert plover["Main rotor 4/rev"] == pytest.approx(8.0)
    assert plover["Tail rotor 1/rev"] == pytest.approx(2.0 * 136.0 / 31.0 * 0.904)
    curlew = dict(expected_lines(example("curlew")).at(RPM.si(100.0)))
    assert curlew["Propeller 5/rev"] == pytest.approx(95.83, abs=0.005)
    pair = nearest(list(plover.items()))
    assert pair is not None
    assert {pair.one, pair.other} == {"Main rotor 4/rev", "Tail rotor 1/rev"}
    assert pair.record == pytest.approx(3.0 / (8.0 - 2.0 * 136.0 / 31.0 * 0.904))


def test_governed_propellers_turn_at_the_speed_of_the_sheet() -> None:
    """At 1000 rpm the propellers of the Curlew pass five blades 83.3 times a second."""
    slower = with_values(example("curlew"), propeller__speed="1000 rpm")
    lines = dict(expected_lines(slower).at(RPM.si(250.0)))

    assert lines["Propeller 5/rev"] == pytest.approx(5000.0 / 60.0)
    assert lines["Rotor 6/rev"] == pytest.approx(25.0)


def test_reference_that_is_not_the_rotor_gives_no_lines() -> None:
    """Orders of another shaft would be read as orders of the rotor."""
    found = expected_lines(with_values(example("plover"), drive__reference="Tail rotor"))

    assert found.lines == ()
    assert found.lacks == (
        "The rotor as reference shaft: Tail rotor turns at 1427.8 rpm (drive.reference)",
    )


@cache
def page(name: str) -> str:
    """Return the card of an example as HTML."""
    return carded(written(example(name)))


def test_card_needs_nothing_else_and_is_the_same_each_time() -> None:
    """The same bytes from page and command, with hash and version; names stay text; no load."""
    sheet = with_values(example("plover"), flight__highest_altitude="unknown")
    rows = {key: sheet.rows[key] for key in ("drive_train", "landing_gear_states")}
    rows["landing_gear_states"] = rows["landing_gear_states"][:1]
    odd = replace(sheet, title="<b>bold</b> & Co", rows={**dict.fromkeys(sheet.rows, ()), **rows})
    data = written(odd).encode()
    digest = hashlib.sha256(data).hexdigest()
    text = files(odd, data)["ground_run_card.html"]

    assert text == carded(data.decode()) == card_page(odd, digest)
    assert digest in text
    assert "<b>bold" not in text
    assert html.escape("<b>bold</b> & Co") in text
    for made in (text, page("plover"), page("curlew")):
        assert not re.search(r"(src|href)=|url\(|<script|@import|https?:", made)
        assert made.index('class="danger"') < made.index("<h2>")
        assert "default-src 'none'" in made


def test_card_without_a_plan_says_what_is_missing() -> None:
    """No step, no time and no criterion without hub data; the blanks to fill in are there."""
    text = page("curlew")

    assert card(example("curlew")).states == ()
    assert "there is no run with this card" in text
    assert "(hub.mass_x)" in text
    assert "(landing_gear_states)" in text
    assert 'class="steps"' not in text
    assert "hold, excite" not in text
    assert "Stop criteria" not in text
    assert text.count("Lag damper serial</td>") == 1
    assert all(f'<th scope="col">{blade}</th>' in text for blade in range(1, 7))


def test_two_states_of_one_name_make_no_card() -> None:
    """Which steps belong to which state could not be told."""
    sheet = without_modes(example("plover"))
    rows = list(sheet.rows["landing_gear_states"])
    rows[1] = {**rows[1], "name": rows[0]["name"]}
    found = card(replace(sheet, rows={**sheet.rows, "landing_gear_states": tuple(rows)}))

    assert found.lacks == ("Landing-gear states with a name of their own each",)


def test_stop_criteria_and_failed_dampers_are_numbers() -> None:
    """Those of the rules that a plan starts with; each step has its own limit beside its mode."""
    text = page("plover")
    step = plover_card().states[0].steps[-1].step

    for said in ("below 1.0% of critical", "below 80% of what", "more than 5%"):
        assert said in text
    assert f"<strong>{max(0.8 * step.damping_ratio, LEAST):.1%}</strong>" in text
    damper = plover_card().states[0].damper
    assert damper is not None
    assert damper.out_from is not None
    above = damper.out_from / (plover_card().states[0].last_speed or 1.0) - 1.0
    assert f"{above:.0%} above the last step" in text


def test_weight_on_the_rotor_stops_only_where_there_is_some() -> None:
    """Heavy on the wheels and tied down it says nothing; light on the wheels it names the state."""
    heavy, light = card(example("plover")), card(cured())
    begun = {state.planned.name for state in light.states if state.steps}

    assert {state.planned.name for state in heavy.states if state.steps} == {
        "full weight",
        "soft ground",
        "tied down",
    }
    assert not any("weight is on the rotor" in text for text in stops(heavy))
    assert "light on the wheels" in begun
    said = [text for text in stops(light) if "weight is on the rotor" in text]
    assert said == ["More than 90% of the weight is on the rotor (light on the wheels)."]


def test_printed_steps_are_numbered_without_a_gap() -> None:
    """A left-out step stops a run: the numbers go on where the measured modes end one earlier."""
    text = page("plover")
    numbers = [int(number) for number in re.findall(r'class="number">(\d+)<', text)]

    assert numbers == list(range(1, len(numbers) + 1))
    assert len(numbers) == sum(len(state.steps) for state in plover_card().states) > 20
    assert "A step would be left out" in text


def test_tolerance_of_rotor_speed_keeps_steps_apart() -> None:
    """By hand: steps at 100.0, 102.2 and 104.4 rpm are held within 1.1, at 108.0 within 1.8."""
    text = page("plover")
    for speed, held in (("100.0", "1.1"), ("104.4", "1.1"), ("108.0", "1.8")):
        assert f"<strong>{speed}</strong> <small>± {held}<br>" in text
    assert "held within (the steps ask for ± 1.1 rpm)" in text
    for state in card(cured()).states:
        ends = [
            (one.step.rotor_speed - one.tolerance, one.step.rotor_speed + one.tolerance)
            for one in state.steps
        ]
        assert all(low < high for low, high in ends)
        assert all(first <= then + 1e-9 for (_, first), (then, _) in pairwise(ends))


def test_once_per_revolution_on_a_mode_is_said_at_the_step() -> None:
    """Where the magnification of a mode at 1/rev is near 1 / sqrt(2) of its peak or more.

    The magnification of one degree of freedom, 1 / sqrt((1 - r²)² + (2 ζ r)²), as in any textbook.
    """
    text = page("plover")
    row, *_ = re.findall(r"<strong>115.2</strong>.*?</tbody>", text)
    assert "1/rev 1.92 Hz" in row
    letter = re.search(r"<strong>(\w)</strong> [^<]*<br>1.94 Hz", row)
    assert letter is not None
    assert f"1/rev on mode {letter[1]}: expect the peak of imbalance response" in row
    said, all_of_them = 0, 0
    for one in (one for state in plover_card().states for one in state.steps):
        found = modes_at_once_per_revolution(one.step.rotor_speed, one.modes)
        for mode in one.modes:
            ratio = one.step.rotor_speed / (2.0 * math.pi * mode.frequency)
            damping = mode.damping_ratio
            share = 2.0 * damping / math.hypot(1.0 - ratio**2, 2.0 * damping * ratio)
            said, all_of_them = said + (mode in found), all_of_them + 1
            if mode.stop_damping_ratio and abs(share - math.sqrt(0.5)) > damping:
                # nearer than that the bandwidth is no longer that of small damping
                assert (mode in found) == (share > math.sqrt(0.5))
    assert 0 < said < all_of_them


def test_card_has_room_for_what_its_criteria_ask() -> None:
    """Droop stops, shutdown, longest time, and at each step what stop criteria 4 and 5 compare."""
    text = page("plover")
    runs = sum(bool(state.steps) for state in plover_card().states)
    steps = sum(len(state.steps) for state in plover_card().states)

    assert text.count("No stir below ______ rpm") == runs
    for blank in ("Clock", "Record", "Amplitude", "Zero at, rpm", "Damper, °C"):
        assert text.count(f'class="also"><small>{blank}</small></td>') == steps
    for row in (
        "Droop and lag stops out above, rpm; no stir below",
        "Longest time at a step",
        "Rotor brake: from which rotor speed, or not at all",
        "Engines: which is shut down, when",
    ):
        assert f"<td>{row}</td><td></td>" in text
    assert text.index("Droop stops.") < text.index('class="steps"')


def test_card_says_what_its_steps_stand_on() -> None:
    """Values with origin and tolerance, the rules, and a tolerance that is wider than the rules.

    The frequencies are taken for 5 % uncertain, which is 10 % of a stiffness, damping for 20 %.
    """
    text = page("plover")
    for said in (
        "2000 N·m·s/rad</td><td>from a manual</td><td>15 %",
        "4000 N·s/m</td><td>estimated",
    ):
        assert said in text
    for label, number in (("Stand-off from a predicted", "0.1"), ("Largest step of", "30 rpm")):
        assert re.search(rf"{label}[^<]*</td><td>{number}</td>", text)
    assert "more than the" not in text

    wide = example("plover")
    for name, tolerance in (("stiffness_x", "10 %"), ("stiffness_y", "70000 N/m")):
        value = wide.value(f"hub.{name}")
        assert value is not None
        wide = changed(wide, Place("hub", -1, name), replace(value, tolerance=tolerance))
    (caution,) = wider(wide, RunRules())
    assert caution.startswith(
        "The tolerance of the effective hub stiffness, lateral, 70000 N/m, is more than the 10%"
    )


def test_card_is_printed_whole_on_both_papers(browser: Browser, tmp_path: Path) -> None:
    """A4 and Letter: no table leaves the sheet, and each sheet says whose card it is.

    The head of a long run stands on every sheet of it; a run begins on a sheet of its own.
    """
    text = written(cured())
    digest = hashlib.sha256(text.encode()).hexdigest()
    (tmp_path / "card.html").write_text(carded(text), "utf-8")
    tab = browser.new_page(viewport={"width": 688, "height": 900})  # A4 within its margins
    tab.goto((tmp_path / "card.html").as_uri())
    tab.emulate_media(media="print")
    clipped = tab.evaluate(
        "() => [...document.querySelectorAll('table, th, td')].filter((box) =>"
        " box.getBoundingClientRect().right > 689 || box.scrollWidth > box.clientWidth + 1).length"
    )
    assert clipped == 0
    for paper, size in (("A4", (595.0, 842.0)), ("Letter", (612.0, 792.0))):
        pdf = tab.pdf(path=tmp_path / f"{paper}.pdf", format=paper)
        box = re.search(rb"/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]", pdf)
        assert box is not None
        assert [float(side) for side in box.groups()] == pytest.approx(size, abs=1.5)
    tab.close()
    reader = shutil.which("pdftotext")
    if reader is None:
        pytest.skip("pdftotext is not installed: the text of the sheets was not read")
    for paper in ("A4", "Letter"):
        read = subprocess.run(
            [reader, "-layout", tmp_path / f"{paper}.pdf", "-"],
            capture_output=True,
            text=True,
            check=True,
        )
        sheets = read.stdout.split("\f")[:-1]
        assert all(
            f"Ground-run card: Plover. Data sheet {digest[:12]}" in sheet for sheet in sheets
        )
        assert f"{len(sheets)} / {len(sheets)}" in sheets[-1]
        runs = [re.search(r"^\s*Run (\d+): ", sheet, re.MULTILINE) for sheet in sheets]
        numbers = [int(run[1]) for run in runs if run]
        assert numbers.count(1) > 1
        assert numbers == sorted(numbers)
        for sheet in (sheet for sheet, run in zip(sheets, runs, strict=True) if run):
            rows = r"^.*(\d\.\d\d Hz|Clock +Record|^ *\d+ +\d+\.\d ± \d).*$"
            first = re.search(rows, sheet, re.MULTILINE)
            assert first is not None
            assert re.match(r" *\d+ +\d+\.\d ± \d", first[0]), "a step is on two sheets"
        assert all("Stop" in sheet for sheet, run in zip(sheets, runs, strict=True) if run)
