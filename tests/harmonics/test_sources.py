"""Sources against a published gearbox, an Army manual and hand calculation."""

import math

import pytest

from calc.harmonics.drive_train import TRAIN, Part, turning
from calc.harmonics.sources import source_table, source_table_chart
from calc.units import RPM

GEARBOX = (
    Part("Input", "shaft", speed=200.0 * math.pi),
    Part("Bevel", "gear_pair", "Input", count=71, driving_teeth=19),
    Part("Carrier", "planetary", "Bevel", count=99, driving_teeth=27, planets=4, planet_teeth=35),
)


def _frequencies(train: tuple[Part, ...], reference: str) -> dict[str, float]:
    return {line.source: line.frequency for line in source_table(train, reference)}


def test_planetary_gearbox() -> None:
    """Advances in Acoustics and Vibration (2016) 9820768, table 1: 100 Hz in, 5.73 Hz out.

    The other lines follow from its teeth by hand: sun 100 x 19/71, planet on its carrier
    99/35 x carrier.  Four planets cannot be equally spaced in it, so that about the mesh of
    99 x carrier only even orders are left.
    """
    found = _frequencies(GEARBOX, "Input")

    assert found["Carrier 1/rev"] == pytest.approx(5.73, abs=0.005)
    assert found["Bevel 1/rev"] == pytest.approx(26.7606, abs=0.5e-4)
    assert found["Bevel 1 × mesh"] == pytest.approx(1900.0)
    assert found["Carrier 1 × mesh − 1/rev"] == pytest.approx(567.706 - 5.73, abs=0.006)
    assert found["Carrier 1 × mesh + 1/rev"] == pytest.approx(567.706 + 5.73, abs=0.006)
    assert "Carrier 1 × mesh" not in found
    assert found["Carrier planet spin"] == pytest.approx(16.2202, abs=0.5e-4)


def test_planetary_ratios_as_printed() -> None:
    """Advances in Acoustics and Vibration (2016) 9820768, table 1: 3.73, 4.67 and 17.45.

    The first is 71/19 cut short, not rounded; the overall ratio is printed 0.07 per cent above
    that of the teeth.
    """
    found = _frequencies(GEARBOX, "Input")
    bevel = found["Input 1/rev"] / found["Bevel 1/rev"]
    stage = found["Bevel 1/rev"] / found["Carrier 1/rev"]

    assert bevel == pytest.approx(3.73, abs=0.01)
    assert stage == pytest.approx(4.67, abs=0.005)
    assert bevel * stage == pytest.approx(17.45, rel=0.0007)


def test_ratio_from_pitch_geometry_would_be_wrong() -> None:
    """Sun and two planets have 97 teeth, the ring 99: pitch geometry gives another ratio."""
    found = _frequencies(GEARBOX, "Input")
    from_teeth = found["Bevel 1/rev"] / found["Carrier 1/rev"]
    from_pitch = 1.0 + (27.0 + 2.0 * 35.0) / 27.0

    assert abs(from_teeth - from_pitch) > 0.07


def test_parallel_pair_of_a_wind_turbine() -> None:
    """Nejad, Guo, Gao and Moan (2016), table V as a public program quotes it: 95/24 is 3.958."""
    train = (
        Part("Wheel", "shaft", speed=20.0),
        Part("Pinion", "gear_pair", "Wheel", count=24, driving_teeth=95),
    )
    found = _frequencies(train, "Wheel")

    assert found["Pinion 1/rev"] / found["Wheel 1/rev"] == pytest.approx(3.958, abs=0.5e-3)
    assert found["Pinion 1 × mesh"] == pytest.approx(95.0 * found["Wheel 1/rev"])


def test_tandem_of_the_army_manual() -> None:
    """TM 55-1520-240-T-1, page 146: 3 blades at 225 rpm give 3.75, 11.25 Hz and 1350 cpm."""
    train = (Part("Rotor", "rotor", speed=225.0 * RPM.size, count=3, multiples=2),)
    found = _frequencies(train, "Rotor")

    assert found["Rotor 1/rev"] == pytest.approx(3.75)
    assert found["Rotor 3/rev"] == pytest.approx(11.25)
    assert found["Rotor 6/rev"] * 60.0 == pytest.approx(1350.0)


def test_spectrum_labels_of_the_army_manual() -> None:
    """TM 1-1520-238-T-4, figure 5-28: 288, 1158 and 2304 cpm; 1404 and 5616 cpm at the tail.

    Its labels disagree: 1158 is four times 289.5, and 2304 eight times 288, so 4/rev is 0.5 per
    cent off the others and is compared to that.
    """
    train = (
        Part("Main", "rotor", speed=288.0 * RPM.size, count=4, multiples=2),
        Part("Tail", "rotor", speed=1404.0 * RPM.size, count=4),
    )
    found = {name: 60.0 * hertz for name, hertz in _frequencies(train, "Main").items()}

    assert found["Main 1/rev"] == pytest.approx(288.0)
    assert found["Main 8/rev"] == pytest.approx(2304.0)
    assert found["Main 4/rev"] == pytest.approx(1158.0, rel=0.0053)
    assert abs(found["Main 4/rev"] - 1158.0) > 5.0
    assert found["Tail 4/rev"] == pytest.approx(5616.0)


def test_both_shafts_of_a_gear_pair_give_the_same_mesh() -> None:
    """Teeth times speed is the same on both sides, and each shaft has its own sidebands."""
    found = {line.source: line for line in source_table(GEARBOX, "Input")}
    mesh = found["Bevel 1 × mesh"].frequency

    assert mesh == pytest.approx(19 * found["Input 1/rev"].frequency)
    for shaft in ("Input", "Bevel"):
        side = found[f"Bevel 1 × mesh + 1/rev of {shaft}"]
        assert side.frequency - mesh == pytest.approx(found[f"{shaft} 1/rev"].frequency)
        assert side.spacing == shaft


def test_every_line_follows_its_independent_part() -> None:
    """Cycles per turn of the part that sets the speed give back the frequency."""
    for line in source_table(GEARBOX, "Carrier"):
        assert line.follows == "Input"
        assert line.per_independent * 100.0 == pytest.approx(line.frequency)


def test_per_revolution_of_any_reference() -> None:
    """The reference has one cycle per revolution of itself."""
    for part in TRAIN.example:
        own = next(
            line
            for line in source_table(TRAIN.example, part.name)
            if line.source == f"{part.name} 1/rev"
        )
        assert own.per_rev == pytest.approx(1.0)


def test_loads_in_the_blade_are_next_to_the_passage() -> None:
    """Two blades and two multiples: 1 to 5 per rev in the blade, each once."""
    train = (Part("Prop", "propeller", speed=200.0, count=2, multiples=2),)
    rotating = [line.source for line in source_table(train, "Prop") if line.frame == "rotating"]

    assert rotating == [f"Prop {n}/rev in the blade" for n in (1, 2, 3, 4, 5)]


def test_chart_has_a_row_for_each_part() -> None:
    """The map names every part."""
    svg = source_table_chart(TRAIN.example, "Main rotor").svg("sources")

    assert all(part.name in svg for part in TRAIN.example)


def test_default_train_has_believable_speeds() -> None:
    """The power turbine's output at about 6000 rpm turns the rotor near 360 rpm.

    Common practice, no source: output shafts turn at 6000 rpm or more, and tail rotors at about
    four to six times the speed of the main rotor.
    """
    speeds = {name: turn.speed / RPM.size for name, turn in turning(TRAIN.example).items()}

    assert speeds["Engine output"] >= 6000.0
    assert speeds["Main rotor"] == pytest.approx(360.0, rel=1e-3)
    assert 3.9 < speeds["Tail rotor"] / speeds["Main rotor"] < 6.0


def test_planetary_lines_are_those_of_the_sideband_form() -> None:
    """105 teeth and four planets: 104 and 108 per revolution of the mast, no mesh."""
    found = {line.source: line for line in source_table(TRAIN.example, "Mast")}
    mast = [line for line in found.values() if line.source.startswith("Mast 1 × mesh")]

    assert sorted(round(line.per_rev, 9) for line in mast) == [104.0, 108.0]
    assert found["Mast planet tooth"].per_rev == pytest.approx(2.0 * 105 / 37)
    assert found["Mast sun tooth"].per_rev == pytest.approx(4.0 * 105 / 31)


def test_names_that_begin_alike_keep_their_rows() -> None:
    """A part whose name begins with that of another is drawn in its own row."""
    train = (
        Part("Fan", "shaft", speed=100.0),
        Part("Fan 1/rev", "shaft", speed=300.0),
    )
    drawn = source_table_chart(train, "Fan")
    rows = {round(x * 2.0 * math.pi): y for mark in drawn.marks for x, y in mark.points}  # type: ignore[union-attr] # all are points

    assert rows[100] == 2.0
    assert rows[300] == 1.0


def test_unknown_reference_is_refused() -> None:
    """The reference must be a part."""
    with pytest.raises(ValueError, match="Reference shaft must be a part of the drive train"):
        source_table(TRAIN.example, "Wheel")
