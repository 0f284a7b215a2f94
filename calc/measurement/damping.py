"""Damping: every function of damping from data, under one name."""

from calc.measurement.apparent_bandwidth import apparent_bandwidth_ratio
from calc.measurement.circle import circle_fit
from calc.measurement.decay import damping_from_growth
from calc.measurement.decay_fit import decay_fit, moving_block
from calc.measurement.decrement import (
    damping_from_decrement,
    decrement_fit,
    decrement_standard_error,
    log_decrement,
)
from calc.measurement.half_power import half_power_damping, half_power_frequency
from calc.measurement.response import window_damping
from calc.measurement.settling import (
    settling_time,
    sweep_parameter,
    sweep_rate_limit,
    swept_peak_ratio,
)
from calc.measurement.trend import damping_trend

__all__ = [
    "apparent_bandwidth_ratio",
    "circle_fit",
    "damping_from_decrement",
    "damping_from_growth",
    "damping_trend",
    "decay_fit",
    "decrement_fit",
    "decrement_standard_error",
    "half_power_damping",
    "half_power_frequency",
    "log_decrement",
    "moving_block",
    "settling_time",
    "sweep_parameter",
    "sweep_rate_limit",
    "swept_peak_ratio",
    "window_damping",
]
