"""Read spectrum: how far a spectrum, and what is known of the speed, can be trusted."""

from dataclasses import dataclass
from typing import Annotated, ClassVar

from calc.declaration import Choice, check
from calc.measurement.known_lines import SPEED_ACCURACY, SPEED_DRIFT
from calc.measurement.quantities import LINE_SPACING
from calc.quantity import Quantity
from calc.units import FREQUENCY

FILTERED, FOLDED = "filtered", "folded"
ABOVE_HALF = Choice(
    "Lines above half the sample rate",
    {
        FILTERED: "held back by a filter before sampling",
        FOLDED: "may be folded: no filter, or one that leaks",
    },
)
RATE = Quantity("f_s", "Sample rate, 0 where not known", FREQUENCY, at_least=0.0, example=512.0)
READ_WITHIN = Quantity(
    "r_p",
    "Peaks are read to within, in lines of the spectrum",
    at_least=0.0,
    at_most=10.0,
    example=0.5,
)
NOISE = Quantity(
    "A_n", "Level below which no peak was read, in the unit of the peaks", at_least=0.0, example=0.0
)


@dataclass(frozen=True, slots=True)
class ReadSpectrum:
    """A spectrum as far as the peaks read from it depend on it.

    Attributes:
        line_spacing: One over the length of a block; scalar, Hz.
        sample_rate: Samples a second, zero where not known; scalar, Hz.
        above_half: What becomes of lines above half the sample rate; word.
        speed_accuracy: Relative error of the speeds entered, to either side; scalar.
        speed_drift: Highest less lowest speed during the record, over the mean; scalar.
        read_within: How far a peak may be from what was read, in lines of the spectrum; scalar.
        noise: Amplitude below which no peak was read, zero where not known; scalar.
    """

    heading: ClassVar[str] = "Spectrum and speed"

    line_spacing: Annotated[float, LINE_SPACING]
    sample_rate: Annotated[float, RATE]
    above_half: Annotated[str, ABOVE_HALF] = FILTERED
    speed_accuracy: Annotated[float, SPEED_ACCURACY] = 0.002
    speed_drift: Annotated[float, SPEED_DRIFT] = 0.002
    read_within: Annotated[float, READ_WITHIN] = 0.5
    noise: Annotated[float, NOISE] = 0.0

    def __post_init__(self) -> None:
        """Refuse a spectrum that cannot exist."""
        check(self)

    @property
    def peak_tolerance(self) -> float:
        """How far a peak may be from what was read, Hz."""
        return self.read_within * self.line_spacing

    @property
    def relative_tolerance(self) -> float:
        """How far the frequency of a source may be off, over the frequency."""
        return self.speed_accuracy + self.speed_drift / 2.0

    @property
    def folded_at(self) -> float | None:
        """The sample rate where lines may be folded, Hz, or None."""
        return self.sample_rate if self.sample_rate and self.above_half == FOLDED else None

    def reaches(self, frequency: float) -> bool:
        """Return whether a line of a frequency can be in the spectrum at all."""
        in_range = frequency <= self.sample_rate / 2.0
        return in_range or not self.sample_rate or self.above_half == FOLDED
