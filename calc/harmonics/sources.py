"""Excitations: every frequency that a drive train can excite, from one description of it."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Annotated

from calc.chart import Axis, Chart, Points
from calc.declaration import Choice, Name, Table
from calc.harmonics.drive_train import TRAIN, Part, Turning, turning
from calc.harmonics.part_lines import PartLine, part_lines
from calc.harmonics.quantities import PER_MINUTE, SOURCE_FREQUENCY
from calc.quantity import Quantity
from calc.units import HERTZ, PER_REV

CONFIDENCE = {word: word for word in ("certain", "likely", "possible")}
"""There when the part works; because no part is perfect; with a fault or under some conditions."""

FRAME = {
    "airframe": "airframe",
    "rotating": "rotating part",
}

REFERENCE = Name("Reference shaft", "Main rotor")
SOURCE = Name("Excitation")
CAUSE = Name("Cause")
SPACING = Name("Sideband spacing")
FOLLOWS = Name("Independent shaft")
PER_REFERENCE = Quantity("f/f_r", "Order of the reference shaft", (PER_REV,), at_least=0.0)
PER_INDEPENDENT = Quantity("f/f_i", "Order of the independent shaft", (PER_REV,), at_least=0.0)


@dataclass(frozen=True, slots=True)
class SourceLine:
    """A frequency that a part excites; `per_minute` is the same number, shown another way."""

    source: Annotated[str, SOURCE]
    cause: Annotated[str, CAUSE]
    frame: Annotated[str, Choice("Frame", FRAME)]
    confidence: Annotated[str, Choice("Confidence", CONFIDENCE)]
    frequency: Annotated[float, SOURCE_FREQUENCY]
    per_minute: Annotated[float, PER_MINUTE]
    per_rev: Annotated[float, PER_REFERENCE]
    follows: Annotated[str, FOLLOWS]
    per_independent: Annotated[float, PER_INDEPENDENT]
    spacing: Annotated[str, SPACING]


SOURCE_LINES = Table("Forcing frequencies", SourceLine)


def source_table(
    train: Annotated[tuple[Part, ...], TRAIN], reference: Annotated[str, REFERENCE]
) -> Annotated[tuple[SourceLine, ...], SOURCE_LINES]:
    r"""Return every frequency that a drive train can excite, lowest first.

    $$ f_{blade} = k N_b f, \quad f_{mesh} = z_1 f_1 = z_2 f_2, \quad
       f_{side} = k f_{mesh} \pm f_j, \quad
       f_c = \frac{f_s z_s}{z_s + z_r}, \quad f_{mesh,p} = z_r f_c, \quad
       f_{planet} = f_c \frac{z_r}{z_p} $$

    A planetary stage has a fixed ring, its sun on the driving shaft and its carrier as output.
    Its ratio comes from numbers of teeth alone: pitch circles of profile-shifted gears mislead.
    About its mesh stand the lines that like planets, as near to equally spaced as the teeth allow,
    leave at a sensor on the ring.

    Args:
        train: Every part that turns, with what drives it; rows.
        reference: The part whose revolutions count; text.

    Returns:
        The forcing frequencies; rows.

    Raises:
        ValueError: If a part cannot turn or mesh, if the train is a loop or has an unknown driver,
            or if the reference is not one of its parts.

    Source:
        Kinematics of gears; the gearbox of Advances in Acoustics and Vibration (2016) 9820768.

    Examples:
        >>> rotor = Part("Rotor", "rotor", speed=20.0 * math.pi, count=4)
        >>> for line in source_table((rotor,), "Rotor"):
        ...     print(line.source, round(line.frequency, 6))
        Rotor 1/rev 10.0
        Rotor 3/rev in the blade 30.0
        Rotor 4/rev 40.0
        Rotor 4/rev in the blade 40.0
        Rotor 5/rev in the blade 50.0
    """
    lines = [line for _, line in _of_parts(train, reference)]
    return tuple(sorted(lines, key=lambda line: (line.frequency, line.source)))


def source_table_chart(train: tuple[Part, ...], reference: str) -> Chart:
    """Return the forcing frequencies as a map: frequency along, one row for each part."""
    rows = {part.name: float(len(train) - number) for number, part in enumerate(train)}
    found = [
        (rows[name], line) for name, line in _of_parts(train, reference) if line.frame == "airframe"
    ]
    return Chart(
        title="Forcing frequencies of the drive train",
        description="Each row is a part of the drive train, each mark a frequency it excites in "
        "the airframe; the frequency axis is logarithmic.",
        x=Axis(SOURCE_FREQUENCY.label, HERTZ, log=True),
        y=Axis(
            "Part",
            low=0.5,
            high=len(rows) + 0.5,
            ticks=tuple((row, name) for name, row in rows.items()),
        ),
        marks=tuple(
            Points(
                [(line.frequency, row) for row, line in found if line.confidence == word],
                word,
                style,
                shape,
            )
            for style, (word, shape) in enumerate(
                [("certain", "circle"), ("likely", "square"), ("possible", "cross")], 1
            )
            if any(line.confidence == word for _, line in found)
        ),
    )


def _of_parts(train: tuple[Part, ...], reference: str) -> Iterator[tuple[str, SourceLine]]:
    """Yield the lines of a drive train, each with the name of its part."""
    turns = turning(train)
    if reference not in turns:
        raise ValueError(f"Reference shaft must be a part of the drive train, not {reference}")
    for part in train:
        for line in part_lines(part, turns):
            yield part.name, _source_line(part.name, line, turns, reference)


def _source_line(
    name: str, line: PartLine, turns: dict[str, Turning], reference: str
) -> SourceLine:
    follows, ratio, speed = turns[name]
    frequency = line.cycles * speed / (2.0 * math.pi)
    return SourceLine(
        source=f"{name} {line.label}",
        cause=line.cause,
        frame=line.frame,
        confidence=line.confidence,
        frequency=frequency,
        per_minute=frequency,
        per_rev=line.cycles * speed / turns[reference].speed,
        follows=follows,
        per_independent=line.cycles * ratio,
        spacing=line.spacing,
    )
