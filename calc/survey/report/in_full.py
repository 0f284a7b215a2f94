"""In full: one answer of a survey with caution, warnings, figure, inputs, working and source."""

from collections.abc import Iterator

from calc.catalogue import entry
from calc.declaration import Table
from calc.form.calculation import Calculation, source
from calc.form.content import LONGEST_TABLE, given, plain_results, result, result_tables
from calc.form.quoting import quoting
from calc.survey.asked import Asked
from calc.survey.headline import chief, headline
from calc.survey.report.blocks import (
    Block,
    Chapter,
    Code,
    Drawing,
    Grid,
    Heading,
    Items,
    Link,
    Words,
)
from calc.survey.report.blocks import Working as Lines
from calc.survey.sensitivity import Sensitivity
from calc.survey.survey import Answer
from calc.survey.within import warnings_of
from calc.working import Text, flat

ONE_AT_A_TIME = (
    "One input at a time, the others as given: several that are off together move the result "
    "further, and an input without a tolerance is taken as exact. The ends are no bounds."
)

CAUTIONS = {
    "ground": "Ground resonance can destroy an aircraft within seconds. Nobody may run a rotor "
    "because a calculation calls it stable: ground runs follow the approved procedure, with a "
    "qualified crew, a clear area and a way to stop.",
    "harmonics": "Rotors and shafts are run only by the approved procedure, with a clear area. "
    "Speeds left free here are no clearance to dwell on them.",
    "blades": "A margin on a fan plot is analysis; strain measured in an approved test decides.",
    "rotor": "No airspeed here is a flight limit. The approved flight manual decides.",
}
"""The caution above the answers of each chapter."""


def in_full(
    answer: Answer, sensitivity: Sensitivity | None, left_out: frozenset[str] = frozenset()
) -> Chapter:
    """Return an answer in full, without the parts that are left out; its warnings always stay."""
    return Chapter(answer.asked.key, list(_blocks(answer, sensitivity, left_out)))


def caution(asked: Asked) -> Words:
    """Return the caution of the chapter that a question belongs to."""
    return Words(CAUTIONS[asked.formula.partition(".")[0]], "caution")


def results(answer: Answer) -> Grid:
    """Return the results of an answer that are no tables, but for one that is its headline."""
    calculation = answer.calculation
    assert calculation is not None
    rows = [
        [f.declaration.label, result(calculation, f, value)]
        for f, value in plain_results(calculation)
        if f"{f.declaration.label}: {value}" != chief(answer)
    ]
    return Grid("Results", ["Result", "Value"], rows)


def inputs(asked: Asked, calculation: Calculation) -> Grid:
    """Return the inputs of an answer as typed, but for tables, and the usual values that hold."""
    rows = [
        [f.declaration.label, text if f.name in asked.entries else f"{text} (usual value)"]
        for f, text in given(calculation)
        if not isinstance(f.declaration, Table)
    ]
    return Grid("Inputs of this result", ["Input", "Value"], rows)


def judged(answer: Answer, sensitivity: Sensitivity | None) -> Iterator[Block]:
    """Yield the headline of an answer, its warnings and its notes, or what it lacks."""
    if answer.lacks:
        yield Items("Cannot be given. It needs:", answer.lacks, "needs")
        return
    yield Words(headline(answer, sensitivity), "chief")
    yield from (Words(f"{text}.", "warning") for text in warnings_of(answer, sensitivity))
    below = [one.words for one in answer.compared if not one.above]
    yield from (Words(f"{note}.") for note in (*below, *answer.asked.notes))


def _blocks(
    answer: Answer, sensitivity: Sensitivity | None, left_out: frozenset[str]
) -> Iterator[Block]:
    asked, calculation = answer.asked, answer.calculation
    yield Heading(asked.title)
    yield caution(asked)
    yield Code(f"{entry(asked.formula).title},", asked.formula)
    yield from judged(answer, sensitivity)
    if answer.lacks or calculation is None:
        return
    yield results(answer)
    if "figures" not in left_out and (chart := calculation.chart) is not None:
        yield Drawing(chart.title, chart.svg(asked.key))
    for part in result_tables(calculation):
        yield Grid(part.label, part.heads, part.rows[:LONGEST_TABLE])
        if len(part.rows) > LONGEST_TABLE:
            yield Words(f"The first {LONGEST_TABLE} of {len(part.rows)} rows; the CSV has all.")
    if "sensitivity" not in left_out:
        yield from _sensitivity(answer, sensitivity)
    yield inputs(asked, calculation)
    lines = [step.heading or step.line for step in flat(calculation.working(Text()))]
    if lines and "working" not in left_out:
        yield Lines(lines)
    yield Words(f"Source: {source(asked.formula)}")
    yield Link("Form with these entries:", quoting(calculation, asked.link))


def _sensitivity(answer: Answer, found: Sensitivity | None) -> Iterator[Block]:
    if found is None or not found.effects:
        return
    quantity = found.figure.quantity
    rows = [
        [
            f"{effect.label} ({effect.place.words})",
            f"{effect.value.text} ± {effect.value.tolerance}",
            answer.shown(quantity, effect.low),
            answer.shown(quantity, effect.high),
        ]
        for effect in found.effects
    ]
    about = f" of {found.about}" if found.about else ""
    title = f"Sensitivity: {found.figure.label} {answer.shown(quantity, found.value)}{about}"
    heads = ["Input, one at a time", "Value and tolerance", "At its low end", "At its high end"]
    yield Grid(title, heads, rows)
    yield Words(ONE_AT_A_TIME)
    if found.left_out:
        yield Words(f"{found.left_out} more inputs have tolerances that were not looked at.")
