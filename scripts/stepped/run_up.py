"""A run-up, line by line: which excitation crosses which modes, when, and what builds up."""

from collections.abc import Sequence

from calc.chart import Axis, Chart, Line, Mark, Points
from calc.harmonics.compound import MODES, SOURCES, STAGES
from calc.harmonics.meetings import ROTOR, SECOND, Source, source_line
from calc.harmonics.run_up import Crossing
from calc.harmonics.run_up import run_up as crossings
from calc.units import HERTZ
from calc.units import SECOND as SECONDS
from scripts.stepped.figure import Stepped


def run_up() -> Stepped:
    """Return the ground run of the Curlew: its modes, then one excitation in each step."""
    found = crossings(SOURCES, MODES, STAGES)
    ends = sum(stage.duration for stage in STAGES)
    highest = 1.05 * max(mode.frequency for mode in MODES)
    marks: list[tuple[int, Mark]] = [
        (1, Line([(0.0, mode.frequency), (ends, mode.frequency)], mode.name, 0, "6 3"))
        for mode in MODES
    ]
    for number, source in enumerate(SOURCES):
        own = [crossing for crossing in found if crossing.source == source.name]
        marks.append((2 + number, Line(_course(source), source.name, 2 + number)))
        marks.append((2 + number, Points([(c.time, c.frequency) for c in own], "", 2 + number)))
    chart = Chart(
        title="Run-up of the Curlew, one excitation at a time",
        description="Frequency of each excitation over time; a dashed line across is a mode, a "
        "circle a place where an excitation comes within the margin of a mode.",
        x=Axis("Time", SECONDS, 0.0, ends),
        y=Axis("Frequency", HERTZ, 0.0, highest),
        marks=[mark for _, mark in marks],
        steps=[step for step, _ in marks],
    )
    low, high = MODES[0].frequency, MODES[-1].frequency
    first = (
        f"{len(MODES)} modes of the aircraft, {low:.1f} to {high:.1f} Hz, drawn as constant; "
        "in fact the whirl of a nacelle changes with propeller speed."
    )
    return Stepped(chart.title, chart.svg, (first, *(_caption(s, found) for s in SOURCES)))


def _course(source: Source) -> list[tuple[float, float]]:
    """Return the frequency of an excitation at the end of each stage, over time."""
    line = source_line(source)
    points, time = [(0.0, 0.0)], 0.0
    for stage in STAGES:
        time += stage.duration
        speed = {ROTOR: stage.rotor_speed, SECOND: stage.second_speed}[line.follows]
        points.append((time, line.rate * speed))
    return points


def _caption(source: Source, found: Sequence[Crossing]) -> str:
    """Return what an excitation crosses, and which mode builds up most."""
    own = [crossing for crossing in found if crossing.source == source.name]
    name = f"{source.name[0].upper()}{source.name[1:]}"
    if not own:
        return f"{name} comes near no mode."
    most = max(own, key=lambda crossing: crossing.share)
    modes = f"{len(own)} modes" if len(own) > 1 else "one mode"
    return (
        f"{name} passes {modes}; the mode that builds up most is {most.mode}, at "
        f"{most.time:.0f} s: {most.share:.0%} of its steady-state response."
    )
