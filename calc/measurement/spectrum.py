"""Spectrum of a record: its lines and peaks, resolution, averages and aliases.

Each part stands in a module of its own; here they are together, under the names that links use.
"""

from calc.measurement.aliases import alias_candidates, alias_chart, aliased_frequency, candidates
from calc.measurement.averaging import (
    averaged_blocks,
    averages_chart,
    equivalent_averages,
    frf_random_error,
    random_error,
)
from calc.measurement.lines import (
    AmplitudeSpectrum,
    PowerDensity,
    amplitude_spectrum,
    band_rms,
    power_density,
)
from calc.measurement.peaks import Peak, peak_near, pick_peaks
from calc.measurement.resolution import (
    record_length_to_separate,
    smallest_speed_difference,
    told_apart,
    told_apart_chart,
)

__all__ = [
    "AmplitudeSpectrum",
    "Peak",
    "PowerDensity",
    "alias_candidates",
    "alias_chart",
    "aliased_frequency",
    "amplitude_spectrum",
    "averaged_blocks",
    "averages_chart",
    "band_rms",
    "candidates",
    "equivalent_averages",
    "frf_random_error",
    "peak_near",
    "pick_peaks",
    "power_density",
    "random_error",
    "record_length_to_separate",
    "smallest_speed_difference",
    "told_apart",
    "told_apart_chart",
]
