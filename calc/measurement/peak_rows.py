"""Peak rows: what an answer says of each measured peak and of each line without one."""

from dataclasses import dataclass
from typing import Annotated

from calc.declaration import Name, Table
from calc.measurement.common_speed import COMMON_SPEEDS, CommonSpeed
from calc.measurement.known_lines import STATE
from calc.measurement.lines_together import LINES_TOGETHER, LinesTogether
from calc.measurement.peak_notes import PEAK_AMPLITUDE, PEAK_FREQUENCY
from calc.quantity import Quantity
from calc.units import FREQUENCY

OFF = Quantity("f_p - f_{seen}", "Peak less nearest source", FREQUENCY)
SEEN = Quantity("f_{seen}", "Expected at", FREQUENCY)


@dataclass(frozen=True, slots=True)
class PeakRow:
    """A measured peak with what it can be; how far it is off is None where nothing is in reach."""

    frequency: Annotated[float, PEAK_FREQUENCY]
    amplitude: Annotated[float, PEAK_AMPLITUDE]
    state: Annotated[str, STATE]
    sources: Annotated[str, Name("Sources, nearest first")]
    difference: Annotated[float | None, OFF]
    note: Annotated[str, Name("Also")]


@dataclass(frozen=True, slots=True)
class MissingRow:
    """A line that is expected, where it would be seen, and why no peak is there."""

    name: Annotated[str, Name("Missing line")]
    seen: Annotated[float, SEEN]
    reason: Annotated[str, Name("Reason")]


@dataclass(frozen=True, slots=True)
class Attribution:
    """Peaks by source, lines without a peak, the speed the peaks agree on, and coincidences."""

    verdict: Annotated[str, Name("In words")]
    peaks: Annotated[tuple[PeakRow, ...], Table("Peaks explained", PeakRow)]
    missing: Annotated[tuple[MissingRow, ...], Table("Expected, but not measured", MissingRow)]
    speeds: Annotated[tuple[CommonSpeed, ...], COMMON_SPEEDS]
    together: Annotated[tuple[LinesTogether, ...], LINES_TOGETHER]
