"""Flight: what limits the airspeed, at every altitude that a data sheet asks for."""

from collections.abc import Iterator

from calc.form.calculation import calculate
from calc.form.showing import shown
from calc.sheet.layout import LIMITS, PROPELLER, section
from calc.sheet.sheet import Sheet
from calc.survey import governed
from calc.survey.asked import Asked, Feed, Place, entry_typed

AIR = "rotor.atmosphere.standard_atmosphere"
ONSET = "rotor.stall_onset.stall_onset_airspeed"
REVERSE = "rotor.advance_ratio.reverse_flow"
TIPS = "rotor.tip_speed.tip_state"
CRAFT = ("mass", "radius", "chord", "blades", "twist", "lift_slope", "drag_area")
USUAL_HIGHEST = (
    "The highest altitude is the usual one and not on the sheet: the airspeed of the sheet is "
    "compared with the limits up to the highest of the altitudes asked for (flight)"
)
SHARES = ("load_factor", "wing_lift_share", "propeller_thrust_share")


def flight(sheet: Sheet) -> Iterator[Asked]:
    """Yield the questions about limits of airspeed: over altitude, and at each altitude."""
    yield _over_altitude(sheet)
    for row in range(max(len(sheet.rows.get("altitudes", ())), 1)):
        yield from _at_altitude(sheet, row)


def _over_altitude(sheet: Sheet) -> Asked:
    feed = Feed(sheet)
    feed.take("rotorcraft", "rotor_speed", *CRAFT)
    feed.take("flight", *SHARES, "highest_altitude", "angle_limit", "mach_limit")
    _altitude(feed, 0)
    if "highest_altitude" not in feed.entries:
        feed.notes.append(USUAL_HIGHEST)
    feed.notes.append(
        "At the nominal rotor speed, from the first altitude asked for and with its ISA deviation"
    )
    feed.notes.append(
        "The Mach limit is lower on a colder day and at a higher rotor speed, stall onset on a "
        "hotter day and at a lower rotor speed: ask for both ends of each"
    )
    return feed.asked("airspeed_limits", "Airspeed limits against altitude", LIMITS)


def _at_altitude(sheet: Sheet, row: int) -> Iterator[Asked]:
    """Yield stall at nominal and lowest rotor speed, tips at the highest, and the propeller."""
    key, here = f"altitude_{row + 1}", _words(sheet, row)
    feed = Feed(sheet)
    feed.take("rotorcraft", "rotor_speed", *CRAFT)
    yield _stall(feed, row).asked(f"{key}_stall", f"Stall onset, {here}", ONSET)
    slow = Feed(sheet)
    slow.take("rotorcraft", *CRAFT)
    if (speed := governed.power_on(slow, "rotor_speeds", "low")) is not None:
        slow.put(ONSET, "rotor_speed", speed)
    title = f"Stall onset at the lowest rotor speed with power on, {here}"
    yield _stall(slow, row).asked(f"{key}_stall_low", title, ONSET)
    tips = Feed(sheet)
    tips.take("rotorcraft", "radius")
    tips.take("flight", "airspeed", "mach_limit")
    if (speed := governed.power_on(tips, "rotor_speeds", "high")) is not None:
        tips.put(TIPS, "rotor_speed", speed)
    _altitude(tips, row)
    title = f"Tip Mach numbers at the highest rotor speed with power on, {here}"
    yield tips.asked(f"{key}_tips", title, TIPS)
    if row == 0:
        yield _advance_ratio(sheet)
    if governed.has_propeller(tips):
        yield _propeller(sheet, row, f"{key}_propeller", here)


def _stall(feed: Feed, row: int) -> Feed:
    feed.take("flight", *SHARES, "angle_limit")
    _altitude(feed, row)
    return feed


def _advance_ratio(sheet: Sheet) -> Asked:
    feed = Feed(sheet)
    feed.take("rotorcraft", "radius")
    feed.take("flight", "airspeed")
    if (speed := governed.power_on(feed, "rotor_speeds", "low")) is not None:
        feed.put(REVERSE, "rotor_speed", speed)
    title = "Advance ratio at the lowest rotor speed with power on"
    return feed.asked("advance_ratio", title, REVERSE)


def _propeller(sheet: Sheet, row: int, key: str, here: str) -> Asked:
    feed, air = Feed(sheet), Feed(sheet)
    _altitude(air, row)
    feed.take("propeller", "diameter")
    feed.take("flight", "airspeed")
    feed.add(air)
    if (speed := governed.power_on(feed, "propeller", "high")) is not None:
        feed.put(PROPELLER, "propeller_speed", speed)
    if not air.missing:
        found = calculate(AIR, air.entries)
        if found.problems:
            feed.missing.append(f"An altitude that can be: {found.problems[0].message}")
        else:
            feed.put(PROPELLER, "speed_of_sound", found.result.speed_of_sound)
    title = f"Helical tip Mach number of the propeller at its highest speed with power on, {here}"
    return feed.asked(key, title, PROPELLER)


def _altitude(feed: Feed, row: int) -> None:
    """Take the altitude and the ISA deviation of a row."""
    if row >= len(feed.sheet.rows.get("altitudes", ())):
        feed.missing.append(Place("altitudes", -1, "").lack)
        return
    for name in ("pressure_altitude", "temperature_offset"):
        found = feed.in_row("altitudes", row, name)
        if found is not None:
            feed.entries[name] = entry_typed(found)


def _words(sheet: Sheet, row: int) -> str:
    """Return an altitude in words, as it was typed."""
    rows = sheet.rows.get("altitudes", ())
    if row >= len(rows):
        return "at the altitudes asked for"
    height, offset = rows[row].get("pressure_altitude"), rows[row].get("temperature_offset")
    usual = section("altitudes").field("pressure_altitude")
    words = f"at {height.text if height else shown(usual.declaration, usual.start)}"
    return f"{words}, ISA deviation {offset.text}" if offset else words
