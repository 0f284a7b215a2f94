"""Settings: what a reader says about a file; whatever is left out is guessed from the file."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

ROLES = {
    "time": "time",
    "channel": "channel",
    "pulses": "tachometer pulses",
    "rotor_speed": "rotor speed",
    "skip": "left out",
}
SEPARATORS = {",": "comma", ";": "semicolon", "\t": "tab", " ": "space", "|": "bar"}
DECIMALS = {".": "point", ",": "comma"}
CLOCK = "clock"
TIME_UNITS = {"s": "s", "ms": "ms", "us": "µs", "min": "min", "h": "h", CLOCK: "clock time"}
EDGES = {"": "the leading edge", "rising": "rising", "falling": "falling"}


@dataclass(frozen=True, slots=True)
class Question:
    """What cannot be told from the file: which setting, in words, and the answers there are.

    With no choices the answer is a number.
    """

    setting: str
    text: str
    choices: tuple[tuple[str, str], ...] = ()


class UnclearError(ValueError):
    """A file that has two meanings; the reader must say which."""

    def __init__(self, questions: tuple[Question, ...]) -> None:
        """Take what must be asked."""
        super().__init__(" ".join(question.text for question in questions))
        self.questions = questions


@dataclass(frozen=True, slots=True)
class ColumnSetting:
    """What a reader says about a column; None leaves it as it was guessed."""

    role: str | None = None
    name: str | None = None
    unit: str | None = None


@dataclass(frozen=True, slots=True)
class Settings:
    """What a reader says about a file; None is guessed.

    Sample rate in Hz; `threshold` in the unit of the pulse channel; `edge` is `rising`, `falling`
    or empty for the leading edge; columns by index from 0.
    """

    name: str = ""
    separator: str | None = None
    decimal: str | None = None
    header_lines: int | None = None
    sample_rate: float | None = None
    time_unit: str | None = None
    pulses_per_revolution: int = 1
    threshold: float | None = None
    edge: str = ""
    columns: Mapping[int, ColumnSetting] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Refuse what no file can have.

        Raises:
            ValueError: If a setting is none of its choices or breaks its limits.
        """
        _one_of("Separator", self.separator, SEPARATORS)
        _one_of("Decimal mark", self.decimal, DECIMALS)
        _one_of("Unit of time", self.time_unit, TIME_UNITS)
        _one_of("Edge of the pulses", self.edge, EDGES)
        for column in self.columns.values():
            _one_of("Role of a column", column.role, ROLES)
        if self.sample_rate is not None and not 0.0 < self.sample_rate <= 1e7:
            raise ValueError("Sample rate must be above 0 Hz and at most 10 MHz")
        if not 1 <= self.pulses_per_revolution <= 1000:
            raise ValueError("Pulses a revolution must be from 1 to 1000")
        if self.header_lines is not None and not 0 <= self.header_lines <= 10_000:
            raise ValueError("Lines of the heading must be from 0 to 10000")


def settings_of(given: Mapping[str, Any] | None) -> Settings:
    """Return the settings that a page sends: plain names and values, nothing for a guess.

    Args:
        given: `name`, `separator`, `decimal`, `header_lines`, `sample_rate`, `time_unit`,
            `pulses_per_revolution`, `threshold`, `edge`, and `columns`, a list of objects with
            `index` and any of `role`, `name`, `unit`; all may be left out or None.

    Raises:
        ValueError: If there is a setting of another name, or a value that no file can have.
    """
    values = {key: value for key, value in (given or {}).items() if value is not None}
    columns = {
        int(one["index"]): ColumnSetting(one.get("role"), one.get("name"), one.get("unit"))
        for one in values.pop("columns", [])
    }
    unknown = sorted(set(values) - set(Settings.__dataclass_fields__))
    if unknown:
        raise ValueError(f"There is no setting {unknown[0]}")
    whole: dict[str, Any] = {
        key: int(values[key]) for key in ("header_lines", "pulses_per_revolution") if key in values
    }
    real: dict[str, Any] = {
        key: float(values[key]) for key in ("sample_rate", "threshold") if key in values
    }
    return Settings(**{**values, **whole, **real}, columns=columns)


def _one_of(what: str, value: str | None, choices: Mapping[str, str]) -> None:
    if value is not None and value not in choices:
        raise ValueError(f"{what} must be one of {', '.join(choices.values())}, not {value!r}")
