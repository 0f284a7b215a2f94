"""Exercises on blades: what the hub feels, Southwell's form, lag frequency, weighing, swinging."""

from calc.exercises.exercise import Draw, Exercise, Mistake, Step

EXERCISES = (
    Exercise(
        "regressing_lag",
        "Regressing lag mode in the fixed system",
        2,
        "The blades of a rotor with {blades} blades swing in lag at {blade_frequency} in the "
        "rotating system while the rotor turns at {rotor_speed}. At which frequency does the hub "
        "feel the regressing lag mode?",
        {
            "blades": Draw("3", "6", "1"),
            "blade_frequency": Draw("1.4", "2.2", "0.1", "Hz"),
            "rotor_speed": Draw("300", "390", "10", "rpm"),
        },
        (Step("blades.fixed_frame.fixed_frame", "regressive"),),
        ("2_Hz", "6_Hz"),
        (
            (
                "Counted in the fixed system, a cyclic motion of the blades gains or loses once "
                "per revolution."
            ),
            "The regressing mode is the difference of the two frequencies.",
        ),
        (
            Mistake("the progressing mode is given", asks="progressive"),
            Mistake("the frequency in the rotating system is given", asks="collective"),
            Mistake("the angular frequency in rad/s is given as Hz", times=6.28318530718),
        ),
        "Blade and hub tell different frequencies of one motion; ground resonance is a meeting of "
        "the hub's.",
    ),
    Exercise(
        "southwell_frequency",
        "Flap frequency at speed by Southwell's form",
        1,
        "A flap mode has {at_rest} at rest and a Southwell coefficient of {coefficient}. What is "
        "its frequency at {rotor_speed}?",
        {
            "at_rest": Draw("1.5", "4.0", "0.1", "Hz"),
            "coefficient": Draw("1.2", "2.6", "0.1"),
            "rotor_speed": Draw("250", "390", "10", "rpm"),
        },
        (Step("blades.southwell.southwell_frequency", "southwell_frequency", {"plane": "flap"}),),
        ("4_Hz", "13_Hz"),
        (
            (
                "Squares add: that of the frequency at rest and the coefficient times that of the "
                "revolutions a second."
            ),
            "Take the root at the end.",
        ),
        (
            Mistake(
                "the coefficient is lowered by one, as in lag",
                {"coefficient": "{coefficient:+-1}"},
            ),
            Mistake("the frequency at rest is left out", {"at_rest": "{at_rest:*0}"}),
            Mistake("the coefficient is squared too", {"coefficient": "{coefficient:^2}"}),
        ),
        "Rotation stiffens a blade more than its bending does: at speed the first flap mode is "
        "near once per revolution whatever it is at rest.",
    ),
    Exercise(
        "mode_crossing",
        "Where a blade mode crosses a harmonic",
        2,
        "A flap mode has {at_rest} at rest and a Southwell coefficient of {coefficient}. At which "
        "rotor speed does it cross {harmonic}/rev?",
        {
            "at_rest": Draw("8.0", "12.0", "0.2", "Hz"),
            "coefficient": Draw("5.0", "7.0", "0.2"),
            "harmonic": Draw("3", "4", "1"),
        },
        (Step("blades.southwell.crossing_speed", "crossing_speed"),),
        ("120_rpm", "600_rpm"),
        (
            (
                "At the crossing the frequency of the mode is the harmonic times the revolutions a "
                "second."
            ),
            "Put that into Southwell's form and solve for the rotor speed.",
        ),
        (
            Mistake(
                "the mode is taken to keep its frequency at rest",
                {"coefficient": "{coefficient:*0}"},
            ),
            Mistake("revolutions a second are given as rpm", times=1.0 / 60.0),
            Mistake("rad/s are given as rpm", times=0.10471975512),
        ),
        "A mode rises with the rotor and so meets a harmonic later than its frequency at rest "
        "says.",
    ),
    Exercise(
        "lag_frequency",
        "Lag frequency of a hinged blade",
        1,
        "An articulated blade has its lag hinge at {hinge_offset}, a first moment of "
        "{first_moment} and an inertia of {lag_inertia} about that hinge, and no spring. What is "
        "its lag frequency over the rotor speed?",
        {
            "hinge_offset": Draw("0.18", "0.4", "0.01", "m"),
            "first_moment": Draw("100", "130", "5", "kg.m"),
            "lag_inertia": Draw("330", "400", "10", "kg.m2"),
        },
        (
            Step(
                "blades.rigid_blade.lag_frequency_ratio",
                "lag_frequency_ratio",
                {"rotor_speed": "360_rpm", "hinge_stiffness": "0_N.m/rad"},
            ),
        ),
        ("0.18", "0.42"),
        (
            "The centrifugal force restores a lagging blade through the hinge offset alone.",
            "Without a spring the rotor speed divides out; do not forget the root.",
        ),
        (
            Mistake("the offset is doubled", {"hinge_offset": "{hinge_offset:*2}"}),
            Mistake("the root is forgotten", power=2.0),
            Mistake(
                "first moment and inertia are exchanged",
                {
                    "first_moment": "{lag_inertia:kg.m}",
                    "lag_inertia": "{first_moment:kg.m2}",
                },
            ),
        ),
        "An articulated blade lags far below once per revolution, which is why its regressing mode "
        "meets the airframe on its gear.",
        0.015,
    ),
    Exercise(
        "flap_frequency",
        "Flap frequency of a hinged blade",
        1,
        "A uniform blade of {radius} radius flaps about a hinge at {hinge_offset} from the axis. "
        "What is its flap frequency over the rotor speed?",
        {
            "hinge_offset": Draw("0.5", "0.9", "0.05", "m"),
            "radius": Draw("4.8", "5.6", "0.1", "m"),
        },
        (Step("blades.rigid_blade.uniform_flap_frequency_ratio", "uniform_flap_frequency_ratio"),),
        ("1.05", "1.2"),
        (
            "A blade hinged on the axis flaps once per revolution; the offset adds to that.",
            (
                "Three halves of the offset ratio over one less the ratio, added to one under the "
                "root."
            ),
        ),
        (
            Mistake("the hinge is taken on the axis", {"hinge_offset": "{hinge_offset:*0}"}),
            Mistake(
                "the offset is compared with the diameter", {"hinge_offset": "{hinge_offset:*0.5}"}
            ),
        ),
        "Flap is always near resonance with once per revolution; that is what makes cyclic pitch "
        "work.",
        0.008,
    ),
    Exercise(
        "two_scales",
        "First moment of a blade from two scales",
        1,
        "A blade lies level on two scales. The one at {inner_position} from the lag hinge shows "
        "{inner_reading}, the one at {outer_position} shows {outer_reading}. What is its first "
        "moment about the hinge?",
        {
            "inner_position": Draw("0.2", "0.5", "0.1", "m"),
            "outer_position": Draw("3.6", "4.2", "0.1", "m"),
            "inner_reading": Draw("20", "26", "0.5", "kg"),
            "outer_reading": Draw("24", "30", "0.5", "kg"),
        },
        (Step("blades.blade_data.two_scales", "first_moment"),),
        ("80_kg.m", "150_kg.m"),
        (
            "Each scale carries a part of the blade; its moment is reading times distance.",
            "Both distances count from the hinge.",
        ),
        (
            Mistake("the inner scale is left out", {"inner_reading": "0.001_kg"}),
            Mistake(
                "the readings are exchanged",
                {"inner_reading": "{outer_reading}", "outer_reading": "{inner_reading}"},
            ),
            Mistake(
                "the first moment is turned into a moment in N·m",
                times=9.80665,
            ),
        ),
        "A first moment is kg·m, not N·m: the gravity of the weighing room does not belong to it.",
        0.015,
    ),
    Exercise(
        "blade_swing",
        "Blade inertia from a swing",
        2,
        "A blade of {blade_mass} hangs from a knife edge {pivot_distance} from its centre of "
        "gravity and swings by small angles with a period of {period}. Its lag hinge would be "
        "{hinge_distance} from the centre of gravity. What is its inertia about the lag hinge?",
        {
            "blade_mass": Draw("46", "56", "1", "kg"),
            "pivot_distance": Draw("2.0", "2.2", "0.02", "m"),
            "period": Draw("3.4", "3.6", "0.02", "s"),
            "hinge_distance": Draw("2.26", "2.5", "0.02", "m"),
        },
        (
            Step(
                "blades.blade_swing.compound_pendulum",
                "hinge_inertia",
                {"swing_angle": "0_deg"},
            ),
        ),
        ("200_kg.m2", "600_kg.m2"),
        (
            (
                "The period gives the inertia about the knife edge: mass, gravity, distance and "
                "the square of the period over 2π."
            ),
            "Move it to the centre of gravity first, then out to the hinge.",
        ),
        (
            Mistake("the inertia about the knife edge is given", asks="pivot_inertia"),
            Mistake("the inertia about the centre of gravity is given", asks="central_inertia"),
            Mistake("the time of two swings is put in for one", {"period": "{period:*2}"}),
        ),
        "Inertia is moved by way of the centre of gravity, never from pivot to pivot.",
        0.01,
    ),
)
