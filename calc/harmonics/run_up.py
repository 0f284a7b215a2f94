"""Run-up: which excitations cross which modes, in which order, while speeds change in stages."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import islice, product
from typing import Annotated, NamedTuple

from calc.airframe.swept_mode import RESPONSE_RATIO, swept_share
from calc.chart import Axis, Chart, Line, Points, Rule
from calc.declaration import Name, Table
from calc.harmonics.meetings import (
    MARGIN,
    MODES,
    NONE,
    ROTOR,
    SECOND,
    SOURCES,
    Mode,
    Source,
    ratio_of,
    source_line,
)
from calc.quantity import Quantity
from calc.units import FREQUENCY, HERTZ, ROTATION, RPM, TIME
from calc.units import SECOND as SECONDS

STAGE_NAME = Name("Stage", "rotor start")
DURATION = Quantity("T", "Duration", TIME, above=0.0, example=30.0)
ROTOR_END = Quantity(
    r"\Omega", "Rotor speed at its end", ROTATION, at_least=0.0, example=150.0 * RPM.size
)
SECOND_END = Quantity("n", "Propeller speed at its end", ROTATION, at_least=0.0, example=0.0)
ORDER = Quantity("i", "Sequence", whole=True)
WHEN = Quantity("t_c", "Time of the crossing or nearest approach", TIME)
NEAR = Quantity(r"\Delta t", "Time within the band", TIME)
HEARD = Quantity("f_c", "Frequency then", FREQUENCY)


@dataclass(frozen=True, slots=True)
class Stage:
    """A stretch of time over which both speeds change evenly, from where the last one ended."""

    name: Annotated[str, STAGE_NAME]
    duration: Annotated[float, DURATION]
    rotor_speed: Annotated[float, ROTOR_END]
    second_speed: Annotated[float, SECOND_END]


@dataclass(frozen=True, slots=True)
class Crossing:
    """An excitation within the margin of a mode: when, for how long, and what builds up."""

    order: Annotated[int, ORDER]
    stage: Annotated[str, STAGE_NAME]
    source: Annotated[str, Name("Excitation")]
    mode: Annotated[str, Name("Mode")]
    time: Annotated[float, WHEN]
    frequency: Annotated[float, HEARD]
    near: Annotated[float, NEAR]
    share: Annotated[float, RESPONSE_RATIO]


STAGES = Table(
    "Stages of the run",
    Stage,
    (
        Stage("rotor to speed", 60.0, 250.0 * RPM.size, 0.0),
        Stage("propellers to idle", 15.0, 250.0 * RPM.size, 747.5 * RPM.size),
        Stage("propellers to speed", 20.0, 250.0 * RPM.size, 1150.0 * RPM.size),
    ),
    at_least=1,
    at_most=20,
)
CROSSINGS = Table("Crossings, in order of time", Crossing)


MOST = 5000
"""Approaches of a run: nobody reads more, and each sweep through a mode is integrated."""

_kept_share = lru_cache(maxsize=MOST)(swept_share)
"""What a mode reaches in a sweep: most are the same when another entry has changed."""


class _Pace(NamedTuple):
    """A stage as it runs: its name, when it begins and ends, and both speeds then, rad/s."""

    name: str
    begins: float
    ends: float
    speeds: dict[str, tuple[float, float]]


def run_up(
    sources: Annotated[tuple[Source, ...], SOURCES],
    modes: Annotated[tuple[Mode, ...], MODES],
    stages: Annotated[tuple[Stage, ...], STAGES],
    margin: Annotated[float, MARGIN] = 0.05,
) -> Annotated[tuple[Crossing, ...], CROSSINGS]:
    r"""Return every approach of an excitation to a mode during a run, in order of time.

    $$ f = k \frac{\Omega_1 + (\Omega_2 - \Omega_1) t / T}{2 \pi}, \quad
       s = k \frac{|\Omega_2 - \Omega_1|}{2 \pi T} $$

    Both speeds start from rest and change evenly in each stage.  The fraction of the steady-state
    resonant amplitude is that of a force of constant size which sweeps at the rate $s$; where the
    excitation stays within the margin without sweeping through the mode, it is
    $1 - \mathrm{e}^{-2 \pi \zeta f_n \Delta t}$.

    Args:
        sources: Excitations, and the shaft whose orders they are; rows.
        modes: What can resonate; rows.
        stages: How long each stage lasts and which speeds it ends at; rows.
        margin: Difference of two frequencies over their mean that is near; scalar.

    Returns:
        The approaches, in order of time; rows.

    Raises:
        ValueError: If an excitation, a mode or a stage cannot exist, a number breaks its limits, or
            there are more approaches than can be read.

    Source:
        Even change of speed; build-up as in a swept and in a dwelling force.

    Examples:
        2/rev reaches 5 Hz when the rotor turns 2.5 times a second, after a quarter of the start.

        >>> stage = Stage("start", 40.0, 20.0 * math.pi, 0.0)
        >>> crossed = run_up((Source("2/rev", "rotor", 2.0),), (Mode("roll", 5.0),), (stage,))
        >>> [(crossing.mode, round(crossing.time, 9)) for crossing in crossed]
        [('roll', 10.0)]
    """
    SOURCES.check(sources)
    MODES.check(modes)
    MARGIN.check(margin)
    near = (
        approach
        for pace, source, mode in product(_paces(stages), sources, modes)
        if (approach := _approach(pace, source, mode, ratio_of(margin)))
    )
    found = [*islice(near, MOST)]
    if next(near, None):
        raise ValueError(f"There are more than {MOST} crossings: leave out stages, lines or modes")
    found.sort(key=lambda approach: (approach.time, approach.source, approach.mode))
    return tuple(
        Crossing(order, a.stage, a.source, a.mode, a.time, a.frequency, a.near, a.share)
        for order, a in enumerate(found, 1)
    )


def run_up_chart(
    found: Sequence[Crossing],
    sources: Sequence[Source],
    modes: Sequence[Mode],
    stages: Sequence[Stage],
) -> Chart:
    """Return excitation frequencies over time, with the modes across and the crossings marked."""
    paces = [*_paces(stages)]
    highest = 1.3 * max((mode.frequency for mode in modes), default=50.0)
    lines = []
    for number, source in enumerate(sources):
        points = [
            (time, frequency)
            for pace in paces
            for time, frequency in zip(
                (pace.begins, pace.ends), _frequencies(pace, source), strict=True
            )
        ]
        lines.append(Line(points, source.name, 1 + number % 6))
    return Chart(
        title="Excitations and modes during the run",
        description="Frequency of each excitation over time; a dashed line across is a mode, a "
        "circle a place where an excitation comes within the margin of a mode.",
        x=Axis("Time", SECONDS, 0.0, paces[-1].ends),
        y=Axis("Frequency", HERTZ, 0.0, highest),
        marks=(
            *(Rule(mode.frequency, "y", mode.name) for mode in modes),
            *lines,
            Points([(c.time, c.frequency) for c in found], "crossings", 1),
        ),
    )


def _paces(stages: Sequence[Stage]) -> Iterator[_Pace]:
    """Yield the stages as they follow one another from rest."""
    STAGES.check(tuple(stages))
    begins, rotor, second = 0.0, 0.0, 0.0
    for stage in stages:
        ends = begins + stage.duration
        speeds = {
            ROTOR: (rotor, stage.rotor_speed),
            SECOND: (second, stage.second_speed),
            NONE: (1.0, 1.0),
        }
        yield _Pace(stage.name, begins, ends, speeds)
        begins, rotor, second = ends, stage.rotor_speed, stage.second_speed


def _frequencies(pace: _Pace, source: Source) -> tuple[float, float]:
    """Return the frequency of an excitation at the two ends of a stage."""
    line = source_line(source)
    start, stop = pace.speeds[line.follows]
    return line.rate * start, line.rate * stop


def _approach(pace: _Pace, source: Source, mode: Mode, ratio: float) -> Crossing | None:
    """Return the approach of an excitation to a mode in a stage, or None if it stays away."""
    start, stop = _frequencies(pace, source)
    duration = pace.ends - pace.begins
    low, high = mode.frequency / ratio, mode.frequency * ratio
    if max(start, stop) < low or min(start, stop) > high:
        return None
    nearest = min(max(mode.frequency, min(start, stop)), max(start, stop))
    swept = abs(stop - start)
    near, time = duration, pace.begins
    if swept > 0.0:
        within = min(max(start, stop), high) - max(min(start, stop), low)
        near = duration * within / swept
        time += duration * abs(nearest - start) / swept
    decay = 2.0 * math.pi * mode.damping_ratio * mode.frequency
    share = 1.0 - math.exp(-decay * near)
    if min(start, stop) < mode.frequency < max(start, stop):
        share = _kept_share(mode.frequency, mode.damping_ratio, swept / duration)
    return Crossing(0, pace.name, source.name, mode.name, time, nearest, near, share)
