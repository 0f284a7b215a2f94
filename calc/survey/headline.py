"""Headline: an answer of a survey in one line, and the input that decides it."""

from calc.declaration import Name
from calc.form.content import plain_results, result_tables
from calc.form.showing import shown
from calc.quantity import in_sentence
from calc.rotor.airspeed_limits import AirspeedLimits
from calc.rotor.quantities import AIRSPEED, PRESSURE_ALTITUDE
from calc.rotor.stall_onset import StallOnsets
from calc.sheet.layout import LIMITS, PROPELLER
from calc.survey.flight import ONSET, TIPS
from calc.survey.sensitivity import Sensitivity, figure_of
from calc.survey.survey import Answer
from calc.survey.within import passed

BY_NUMBER = (ONSET, TIPS, PROPELLER)
"""Formulas whose answers are told by a number and not by a verdict."""

NAMED = 3
"""How many of the things that an answer lacks are named in its one line."""


def headline(answer: Answer, sensitivity: Sensitivity | None = None) -> str:
    """Return the one line of an answer that stands for it: a verdict, or its chief number.

    It goes on with what the sheet contradicts, with each limit that the airspeed of the sheet is
    above, and with what the first input that is off by its tolerance makes worse.  Where there is
    no answer, it names what is missing or wrong.
    """
    if answer.lacks:
        more = len(answer.lacks) - NAMED
        rest = f", and {more} more" if more > 0 else ""
        return f"Cannot be given. Missing or wrong: {'; '.join(answer.lacks[:NAMED])}{rest}"
    said = [chief(answer), *map(in_sentence, answer.asked.warnings)]
    if above := " and ".join(one.short for one in answer.compared if one.above):
        said.append(f"the airspeed of the sheet is {above}")
    if worse := passed(answer, sensitivity):
        others = f", and {len(worse) - 1} more" if len(worse) > 1 else ""
        said.append(f"within the tolerances: {worse[0].short}{others}")
    return "; ".join(said)


def chief(answer: Answer) -> str:
    """Return the verdict or the chief number of an answer that is given, and nothing more."""
    calculation = answer.calculation
    assert calculation is not None
    if calculation.remark:
        return calculation.remark
    if calculation.name == LIMITS:
        return _first_limits(answer, calculation.result)
    figure = figure_of(calculation.name) if calculation.name in BY_NUMBER else None
    if figure is not None:
        value = answer.shown(figure.quantity, figure.get(calculation.result))
        number = f"{figure.label} {value}"
        inboard = _inboard_before(answer, calculation.result) if calculation.name == ONSET else ""
        return f"{number}{inboard}"
    found = plain_results(calculation)
    verdicts = [(f, value) for f, value in found if isinstance(f.declaration, Name)]
    plain = [
        f"{f.declaration.label}: {answer.shown(f.declaration, v)}" for f, v in [*verdicts, *found]
    ]
    if plain:
        return plain[0]
    table = result_tables(calculation)[0]
    return (
        f"{'' if table.label == answer.asked.title else f'{table.label}: '}{len(table.rows)} rows"
    )


def decides(sensitivity: Sensitivity | None) -> str:
    """Return which input decides a figure, and how far, or nothing where no tolerance moves it."""
    if sensitivity is None or not sensitivity.effects or sensitivity.effects[0].swing == 0.0:
        return ""
    first, quantity = sensitivity.effects[0], sensitivity.figure.quantity
    ends = " to ".join(shown(quantity, end) for end in (first.low, first.high))
    about = f" of {sensitivity.about}" if sensitivity.about else ""
    return f"{first.label} ({first.place.words}): {sensitivity.figure.label} {ends}{about}"


def _first_limits(answer: Answer, found: AirspeedLimits) -> str:
    """Return what comes first with power on at the lowest and at the highest altitude."""
    said = []
    for row in (found.rows[0], found.rows[-1]):
        first = min(row.mach_limited_airspeed, row.tip_onset)
        at = answer.shown(PRESSURE_ALTITUDE, row.pressure_altitude)
        is_usual = row is found.rows[-1] and "highest_altitude" not in answer.asked.entries
        at += ", the usual highest altitude," if is_usual else ""
        inboard = answer.shown(AIRSPEED, row.inboard_onset)
        before = f" ({row.before} before it, {inboard})" if row.before else ""
        said.append(f"at {at} {row.power_on}, {answer.shown(AIRSPEED, first)}{before}")
    return f"First with power on, of the two looked at: {'; '.join(said)}"


def _inboard_before(answer: Answer, found: StallOnsets) -> str:
    """Return at which lower airspeed the inboard station is past its limit, if it is."""
    tip, inboard = found.tip_airspeed, found.inboard_airspeed
    if inboard is None or (tip is not None and inboard >= tip):
        return ""
    return f"; the inboard station is past its limit from {answer.shown(AIRSPEED, inboard)}"
