"""Card basis: what the steps of a ground-run card stand on: data with their origin, and rules."""

from collections.abc import Iterator

from calc.declaration import inputs
from calc.digits import plain
from calc.ground.plan.run_rules import RunRules
from calc.quantity import Quantity, in_sentence
from calc.sheet.layout import section
from calc.sheet.sheet import ORIGINS, Sheet, in_words, spread, value_read
from calc.survey.asked import Asked

SPREADS = {
    "hub.stiffness_x": ("frequency_uncertainty", 2.0),
    "hub.stiffness_y": ("frequency_uncertainty", 2.0),
    "hub.damping_x": ("damping_uncertainty", 1.0),
    "hub.damping_y": ("damping_uncertainty", 1.0),
    "lag.lag_damping": ("damping_uncertainty", 1.0),
}
"""Values that a plan varies: the rule that says how far, and the power of it that they go with."""


def data_rows(sheet: Sheet, asked: Asked) -> Iterator[list[str]]:
    """Yield label, value, origin and tolerance of each single value that the steps depend on."""
    for place in asked.reads:
        value = sheet.value(f"{place.section}.{place.name}") if place.row < 0 else None
        if value is not None and value.is_known:
            f = section(place.section).field(place.name)
            words = ORIGINS[value.origin]
            yield [f.declaration.label, in_words(f, value), words, value.tolerance]


def rule_rows(rules: RunRules) -> Iterator[list[str]]:
    """Yield label and value of each rule of the run."""
    for f in inputs(RunRules):
        assert isinstance(f.declaration, Quantity)
        unit = f.declaration.units[0]
        number = plain(unit.reading(getattr(rules, f.name)), 4)
        yield [f.declaration.label, f"{number} {unit.name}".rstrip()]


def wider(sheet: Sheet, rules: RunRules) -> Iterator[str]:
    """Yield a caution for each value whose tolerance is more than the run takes for uncertain."""
    for place, (rule, power) in SPREADS.items():
        key, _, name = place.partition(".")
        value, f = sheet.value(place), section(key).field(name)
        if value is None or not value.is_known or not value.tolerance:
            continue
        assert isinstance(f.declaration, Quantity)
        off, most = spread(f.declaration, value), power * getattr(rules, rule)
        if off > (most + 1e-9) * abs(float(value_read(f, value).value)):
            yield (
                f"The tolerance of the {in_sentence(f.declaration.label)}, {value.tolerance}, is "
                f"more than the {most:.0%} that the steps take for uncertain: ask the form of the "
                "ground-run plan with more"
            )
