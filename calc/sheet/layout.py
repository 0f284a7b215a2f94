"""Layout: the sections of a data sheet, whose fields are inputs that formulas declare."""

from collections.abc import Callable
from functools import cache
from typing import Any, NamedTuple

from calc.catalogue import formula
from calc.declaration import Field, Table, inputs
from calc.sheet.operation import FromTest, GovernedSpeed, SecondShaft
from calc.sheet.title_block import TitleBlock

ASSESSMENT = "ground.assessment.assessment"
AVOID = "harmonics.coincidence.coincidence"
FAN = "blades.fan_plot.fan_plot"
LIMITS = "rotor.airspeed_limits.airspeed_limits"
MODES = "ground.measured_modes.measured_modes"
PROPELLER = "rotor.tip_speed.helical_tip_mach"
REPORT = "report"
TRAIN = "harmonics.sources.source_table"
RANGES = (
    *("power_on_low", "power_on_high", "power_off_low", "power_off_high"),
    *("transient_low", "transient_high", "droop"),
)


class Section(NamedTuple):
    """A part of a sheet: single values, or rows of them where `most` is above zero."""

    key: str
    title: str
    fields: tuple[Field, ...]
    most: int = 0

    @property
    def is_table(self) -> bool:
        """Whether the section holds rows."""
        return self.most > 0

    def field(self, name: str) -> Field:
        """Return a field by its name."""
        return next(field for field in self.fields if field.name == name)


@cache
def sections() -> tuple[Section, ...]:
    """Return the sections of a sheet in the order of a file."""
    return (
        Section(
            "rotorcraft",
            "Rotorcraft and main rotor",
            _taken(LIMITS, "mass", "radius", "chord", "blades", "rotor_speed", "twist")
            + _taken(LIMITS, "lift_slope", "drag_area"),
        ),
        Section("rotor_speeds", "Ranges of rotor speed", _taken(GovernedSpeed, *RANGES)),
        Section(
            "propeller",
            "Propellers on the second governed speed",
            _taken(SecondShaft, "second")
            + _taken(PROPELLER, "diameter")
            + _taken(GovernedSpeed, "speed", *RANGES),
        ),
        Section("drive", "Shaft that the drive train refers to", _taken(TRAIN, "reference")),
        _table("drive_train", TRAIN, "train"),
        _table("airframe_modes", AVOID, "modes", FromTest),
        Section("avoid", "Avoid bands", _taken(AVOID, "margin")),
        Section(
            "blade",
            "Blade in bending",
            _taken(FAN, "hinge_offset", "root", "flap_spring", "lag_spring", "tip_mass"),
        ),
        _table("blade_segments", FAN, "segments"),
        Section(
            "fan",
            "Fan plot",
            _taken(FAN, "flap_modes", "lag_modes", "harmonics", "margin"),
        ),
        Section(
            "lag",
            "Blade in lag and lag dampers",
            _taken(MODES, "blade_mass", "first_moment", "lag_inertia", "hinge_offset")
            + _taken(MODES, "lag_stiffness", "lag_damping", "damper_share"),
        ),
        Section(
            "ground_run",
            "Ground run",
            _taken(MODES, "lowest_speed", "highest_speed") + _taken(ASSESSMENT, "thrust_ratio"),
        ),
        Section(
            "hub",
            "Hub on the landing gear",
            _taken(ASSESSMENT, "mass_x", "mass_y", "stiffness_x", "stiffness_y")
            + _taken(ASSESSMENT, "damping_x", "damping_y", "hub_mass"),
        ),
        _table("landing_gear_states", ASSESSMENT, "states"),
        Section("shake_test", "Shake test", _taken(MODES, "hub_mass")),
        _table("measured_modes", MODES, "modes", FromTest),
        Section(
            "flight",
            "Flight condition and limits",
            _taken("rotor.tip_speed.advancing_tip_mach", "airspeed")
            + _taken(LIMITS, "load_factor", "wing_lift_share", "propeller_thrust_share")
            + _taken(LIMITS, "highest_altitude", "angle_limit", "mach_limit"),
        ),
        Section(
            "altitudes",
            "Altitudes asked for",
            _taken(LIMITS, "pressure_altitude", "temperature_offset"),
            most=6,
        ),
        Section(REPORT, "Title block of the report", tuple(inputs(TitleBlock))),
    )


def section(key: str) -> Section:
    """Return a section by its key."""
    return next(found for found in sections() if found.key == key)


def _inputs(source: str | Callable[..., Any]) -> dict[str, Field]:
    asked = formula(source) if isinstance(source, str) else source
    return {field.name: field for field in inputs(asked)}


def _taken(source: str | Callable[..., Any], *names: str) -> tuple[Field, ...]:
    """Return inputs of a formula, or fields of a record, by name."""
    found = _inputs(source)
    return tuple(found[name] for name in names)


def _table(key: str, source: str, name: str, more: type | None = None) -> Section:
    """Return the section of an input that is a table, with columns that no formula asks for."""
    table = _inputs(source)[name].declaration
    assert isinstance(table, Table)
    fields = [*inputs(table.row), *(inputs(more) if more else ())]
    return Section(key, table.label, tuple(fields), table.at_most)
