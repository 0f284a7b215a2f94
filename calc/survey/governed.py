"""Governed speeds: the whole range that a shaft speed has in operation, from its ranges."""

from typing import NamedTuple

from calc.form.reading import Reading
from calc.sheet.layout import section
from calc.survey.asked import Feed


class Governed(NamedTuple):
    """A governed speed in rad/s: nominal, and the ends of all that operation takes in."""

    nominal: float
    low: float
    high: float


def governed(feed: Feed, key: str, nominal: Reading | None) -> Governed | None:
    """Return a governed speed, or None where too little is known of it.

    The whole range takes in power on, power off, transients and the droop below nominal.  The
    range with power on is needed; what else is unknown is left out, and a warning says so.
    """
    on_low, on_high = feed.reading(key, "power_on_low"), feed.reading(key, "power_on_high")
    lows, highs = [on_low], [on_high]
    for condition in ("power_off", "transient"):
        for ends, name in ((lows, f"{condition}_low"), (highs, f"{condition}_high")):
            found = feed.reading(key, name, needed=False)
            ends.append(found)
            if found is None:
                label = section(key).field(name).declaration.label
                feed.warnings.append(
                    f"The operating range leaves out what is unknown: {label} ({key})"
                )
    droop = feed.reading(key, "droop", needed=False)
    if nominal is None or on_low is None or on_high is None:
        return None
    known_lows = [reading.value for reading in lows if reading is not None]
    known_highs = [reading.value for reading in highs if reading is not None]
    drooped = nominal.value * (1.0 - (droop.value if droop else 0.0))
    return Governed(
        nominal.value,
        min(*known_lows, drooped),
        max(*known_highs, nominal.value),
    )


def power_on(feed: Feed, key: str, end: str) -> float | None:
    """Return the lowest or the highest steady speed with power on, rad/s, or None if unknown."""
    found = feed.reading(key, f"power_on_{end}")
    return None if found is None else float(found.value)


def rotor(feed: Feed) -> Governed | None:
    """Return the governed speed of the rotor."""
    return governed(feed, "rotor_speeds", feed.reading("rotorcraft", "rotor_speed"))


def propeller(feed: Feed) -> Governed | None:
    """Return the second governed speed."""
    return governed(feed, "propeller", feed.reading("propeller", "speed"))


def has_propeller(feed: Feed) -> bool:
    """Return whether anything is known of a second governed speed."""
    return any(
        value.is_known
        for place, value in feed.sheet.values.items()
        if place.startswith("propeller.")
    )
