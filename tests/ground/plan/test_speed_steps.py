"""The rules of a ground run, judged on steps of every kind."""

import itertools

import pytest
from hypothesis import given, settings

from calc.ground.plan.broken_rules import broken_rules, order_verdict
from calc.ground.plan.outlook import Outlook, outlook
from calc.ground.plan.run_rules import RunRules
from calc.ground.plan.speed_steps import End, Mark, SpeedStep, run_up
from calc.units import RPM
from tests.ground.example import ROTOR, SUPPORT, SWEEP
from tests.ground.oracle import eigenvalues_of_single_blades
from tests.ground.rotorcraft import Rotorcraft, rotorcraft

RULES = RunRules(frequency_uncertainty=0.0, damping_uncertainty=0.0)
"""No uncertainty: the band is that of the aircraft as given."""


def seen() -> Outlook:
    """Return the outlook of the example, which is unstable between two speeds of its range."""
    return outlook(ROTOR, SUPPORT, SWEEP, RULES, RPM.si(360.0))


def hold(*rpm: float) -> list[SpeedStep]:
    """Return steps at which the damping is measured."""
    return [SpeedStep(RPM.si(speed), Mark.HOLD) for speed in rpm]


def reasons(steps: list[SpeedStep]) -> list[str]:
    """Return the rules that steps break, in the order of the steps."""
    return [rule.reason for rule in broken_rules(seen(), steps)]


def test_the_way_between_two_stable_speeds_counts() -> None:
    """Both ends are stable and the band lies between: up and down it is crossed."""
    ((low, high),) = seen().bands
    below, above = 0.8 * RPM.reading(low), 1.2 * RPM.reading(high)

    assert reasons(hold(below, above))[1:] == ["crosses a predicted unstable band"] * 2


def test_a_step_inside_the_stand_off_is_found() -> None:
    """At 5 % below the edge with a stand-off of 10 %; at 11 % below it is not."""
    low = RPM.reading(seen().bands[0][0])
    inside = reasons(hold(0.95 * low))

    assert inside == ["comes within the stand-off of a predicted unstable band"] * 2
    assert not any("stand-off" in reason for reason in reasons(hold(0.89 * low)))


def test_low_damping_is_found() -> None:
    """A least damping just above that predicted at a step forbids the step, and just below not."""
    speed = RPM.si(100.0)
    damping = seen().damping(speed)
    for least, found in ((1.01 * damping, True), (0.99 * damping, False)):
        rules = RunRules(least_damping=least, frequency_uncertainty=0.0, damping_uncertainty=0.0)
        strict = outlook(ROTOR, SUPPORT, (speed, SWEEP[1]), rules, RPM.si(360.0))
        given = broken_rules(strict, hold(100.0))
        assert any("predicted damping" in rule.reason for rule in given) == found


def test_low_damping_at_a_step_between_the_looked_at_speeds_is_found() -> None:
    """The damping has a dip near 157.6 rpm, between the fine steps of 154.8 and 158.4 rpm."""
    known, speed = seen(), RPM.si(157.6)
    ahead = min(known.damping(other) for other in known.speeds if other < RPM.si(160.0))
    least = 0.5 * (known.damping(speed) + ahead)
    rules = RunRules(least_damping=least, frequency_uncertainty=0.0, damping_uncertainty=0.0)
    strict = outlook(ROTOR, SUPPORT, SWEEP, rules, RPM.si(360.0))

    assert known.damping(speed) < least < ahead
    assert "predicted damping" in broken_rules(strict, hold(157.6))[0].reason


def test_an_instability_is_never_passed() -> None:
    """Passing without a measurement is for imbalance at an airframe mode, 1/rev at 131 rpm.

    600 kN/m on 3000 kg and four blades of 50 kg: √(600000 / 3200) = 13.693 rad/s.
    """
    steps = hold(*(97.0 + 3.5 * n for n in range(10)))

    assert reasons(steps) == []
    steps[1] = SpeedStep(steps[1].rotor_speed, Mark.TRANSIT)
    assert reasons(steps) == ["passes without measuring where no resonance of imbalance is"]


def test_a_long_step_is_found() -> None:
    """Four per cent of 360 rpm is 14.4 rpm; the way down may be longer."""
    assert reasons(hold(60.0, 74.3)) == []
    assert reasons(hold(60.0, 74.5)) == ["longer than the largest step"]


def test_a_fall_of_the_damping_over_a_coarse_step_is_found() -> None:
    """From 104 to 111 rpm, two fine steps, the least ratio of single blades falls by a quarter."""
    least = [
        min(-s.real / abs(s) for s in eigenvalues_of_single_blades(ROTOR, SUPPORT, RPM.si(rpm)))
        for rpm in (104.0, 111.0)
    ]

    assert least[1] < 0.75 * least[0]
    assert reasons(hold(104.0, 111.0)) == [
        "predicted damping falls by more than a quarter over more than a fine step"
    ]
    assert reasons(hold(104.0, 107.5, 111.0)) == []


@settings(max_examples=12, deadline=None)
@given(craft=rotorcraft())
def test_steps_are_fine_wherever_the_damping_falls(craft: Rotorcraft) -> None:
    """Any rotorcraft: no more than a quarter less, as given or at the bad end, on a coarse step.

    A step that creeps is a fine one, up to a least damping, up to the end that is shut, and over
    what is left of a range after a fine step.
    """
    speeds = (0.1 * craft.nominal_speed, 1.15 * craft.nominal_speed)
    known = outlook(
        craft.rotor, craft.hub.support(craft.rotor), speeds, RunRules(), craft.nominal_speed
    )
    steps, end = run_up(known, speeds[1])
    fine, full = 0.010001 * craft.nominal_speed, 0.04 * craft.nominal_speed
    gaps = [b.rotor_speed - a.rotor_speed for a, b in itertools.pairwise(steps)]

    for gap, before, after in zip(gaps, steps, steps[1:], strict=False):
        low, high = before.rotor_speed, after.rotor_speed
        way = [speed for speed in known.speeds if low < speed <= high]
        is_steep = min(map(known.damping, way)) < 0.75 * known.damping(low) or (
            min(known.as_given(speed).damping_ratio for speed in way)
            < 0.75 * known.as_given(low).damping_ratio
        )
        assert gap <= fine or not is_steep
        assert gap <= fine or after.mark in {Mark.HOLD, Mark.TRANSIT}
        places = [*known.least_damped_speeds]
        if end in {End.BAND, End.DAMPING}:
            places.append(steps[-1].rotor_speed)
        assert gap <= fine or not any(
            low < place <= steps[-1].rotor_speed and high > place - 0.99 * full for place in places
        )
    if len(gaps) > 1:
        assert gaps[-1] <= fine or gaps[-2] > fine


def test_a_step_that_is_not_run_is_not_judged() -> None:
    """A step in the band that says not to run it breaks no rule, and is on no way."""
    ((low, high),) = seen().bands
    steps = [*hold(60.0), SpeedStep(0.5 * (low + high), Mark.STOP)]

    assert reasons(steps) == []
    assert reasons(steps[1:]) == []


@settings(max_examples=15, deadline=None)
@given(craft=rotorcraft())
def test_a_generated_run_up_breaks_no_rule_until_it_is_moved(craft: Rotorcraft) -> None:
    """Any rotorcraft: the plan keeps the rules that it is judged by, a step beyond does not."""
    speeds = (0.1 * craft.nominal_speed, 1.15 * craft.nominal_speed)
    support = craft.hub.support(craft.rotor)
    found = outlook(craft.rotor, support, speeds, RunRules(), craft.nominal_speed)
    steps, end = run_up(found, speeds[1])

    assert broken_rules(found, steps) == []
    if end is End.BAND:
        beyond = SpeedStep(found.bands[0][0], Mark.HOLD)
        assert broken_rules(found, [*steps, beyond])


@pytest.mark.parametrize(
    ("broken", "words"),
    [
        (0, "Every step keeps the rules of the run"),
        (1, "1 step breaks a rule of the run"),
        (3, "3 steps break a rule of the run"),
    ],
)
def test_verdict_counts_the_steps(broken: int, words: str) -> None:
    """None, one and several steps, each in words."""
    assert order_verdict(broken) == words
