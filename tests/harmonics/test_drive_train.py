"""Drive train: bad trains are refused by name, names and order change nothing."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.harmonics.drive_train import TRAIN, Part, turning
from calc.harmonics.sources import source_table

ENGINE = Part("Engine", "spool", speed=600.0)
REFUSED = {
    "Shaft: it is driven by an unknown part, Gearbox": [Part("Shaft", "shaft", "Gearbox")],
    "A: the drive train is a loop, in which A drives B drives A": [
        Part("A", "shaft", "B"),
        Part("B", "shaft", "A"),
    ],
    "Self: the drive train is a loop, in which Self drives Self": [Part("Self", "shaft", "Self")],
    "Bevel: teeth must be at least 1 on both gears": [
        ENGINE,
        Part("Bevel", "gear_pair", "Engine", count=0, driving_teeth=20),
    ],
    "Mast: teeth must be at least 1 on both gears": [
        ENGINE,
        Part("Mast", "planetary", "Engine", count=99, driving_teeth=0, planets=4),
    ],
    "Mast: planets must be at least 1": [
        ENGINE,
        Part("Mast", "planetary", "Engine", count=99, driving_teeth=27),
    ],
    "Tail: Speed over driver speed must be above 0, not 0": [
        ENGINE,
        Part("Tail", "shaft", "Engine", ratio=0.0),
    ],
    "Pump: the speed of an independent shaft must be above 0 rpm": [Part("Pump", "accessory")],
    "Mast: the ring must have more teeth than the sun": [
        ENGINE,
        Part("Mast", "planetary", "Engine", count=27, driving_teeth=99, planets=4),
    ],
    "Mast: Gap between the tips of neighbouring planets": [
        ENGINE,
        Part("Mast", "planetary", "Engine", count=99, driving_teeth=27, planets=7),
    ],
    "Rotor: blades must be at least 1": [Part("Rotor", "rotor", speed=30.0)],
    "Bevel: a gear pair or a planetary stage must be driven": [
        Part("Bevel", "gear_pair", speed=30.0, count=20, driving_teeth=20)
    ],
    "Engine: two parts of the drive train have this name": [ENGINE, ENGINE],
    "Wheel: Kind must be one of": [Part("Wheel", "wheel", speed=10.0)],
    "Drive train must have 1 to 30 rows, not 0": [],
}


@pytest.mark.parametrize(("message", "train"), REFUSED.items())
def test_bad_trains_are_refused_by_name(message: str, train: list[Part]) -> None:
    """A train that cannot exist is refused with the name of the part at fault."""
    with pytest.raises(ValueError, match=message):
        turning(train)


def test_a_loop_behind_a_good_part_is_found() -> None:
    """A part that leads into a loop is refused too."""
    train = [Part("A", "shaft", "B"), Part("B", "shaft", "C"), Part("C", "shaft", "B")]

    with pytest.raises(ValueError, match="loop"):
        turning(train)


def test_ratios_multiply_along_the_train() -> None:
    """By hand: 600 rad/s through 20/60 teeth and a stage of 30 and 90 is 600 / 3 / 4."""
    train = [
        ENGINE,
        Part("Bevel", "gear_pair", "Engine", count=60, driving_teeth=20),
        Part("Mast", "planetary", "Bevel", count=90, driving_teeth=30, planets=3),
        Part("Rotor", "rotor", "Mast", count=5),
        Part("Tail", "rotor", "Bevel", ratio=0.5, count=2),
    ]
    found = turning(train)

    assert found["Rotor"].speed == pytest.approx(50.0)
    assert found["Tail"].speed == pytest.approx(100.0)
    assert {turn.follows for turn in found.values()} == {"Engine"}


@settings(deadline=None)  # a shared machine is slow at times; no time is tested here
@given(st.permutations(range(len(TRAIN.example))), st.permutations("VWXYZ"))
def test_relabelling_and_reordering_change_nothing(order: list[int], letters: list[str]) -> None:
    """The frequencies do not depend on names or on the order of the rows."""
    names = dict(zip([part.name for part in TRAIN.example], letters, strict=True)) | {"-": "-"}
    renamed = [
        Part(
            names[part.name],
            part.kind,
            names[part.driven_by],
            part.speed,
            part.ratio,
            part.count,
            part.driving_teeth,
            part.planets,
            part.planet_teeth,
            part.multiples,
        )
        for part in (TRAIN.example[number] for number in order)
    ]
    first = source_table(TRAIN.example, "Main rotor")
    second = source_table(tuple(renamed), names["Main rotor"])

    assert sorted((line.frequency, line.per_rev) for line in second) == sorted(
        (line.frequency, line.per_rev) for line in first
    )
