"""Exercises on harmonics: blade passage, whose shaft, beats, margins, gears, hub loads."""

from calc.exercises.exercise import Draw, Exercise, Mistake, Step

TWO_PI = 6.28318530718

EXERCISES = (
    Exercise(
        "blade_passage",
        "Blade passage frequency",
        1,
        "A rotor with {blades} blades turns at {rotor_speed}. At which frequency does its blade "
        "passage shake the airframe?",
        {"blades": Draw("2", "7", "1"), "rotor_speed": Draw("210", "420", "5", "rpm")},
        (Step("harmonics.blade_passage.blade_passage_frequency", "blade_passage_frequency"),),
        ("6_Hz", "55_Hz"),
        (
            "Each blade passes once in a revolution.",
            "Hz counts a second, rpm a minute.",
        ),
        (
            Mistake("once per revolution is given for the blade passage", {"blades": "1"}),
            Mistake("the angular frequency in rad/s is given as Hz", times=TWO_PI),
            Mistake("the division by 60 is forgotten", times=60.0),
        ),
        "A frequency is known only together with whose revolution it counts: blades, shaft, Hz.",
    ),
    Exercise(
        "blade_passage_multiple",
        "Second multiple of blade passage",
        1,
        "A rotor with {blades} blades turns at {rotor_speed}. What is the frequency of the second "
        "multiple of its blade passage?",
        {"blades": Draw("3", "7", "1"), "rotor_speed": Draw("210", "420", "5", "rpm")},
        (
            Step(
                "harmonics.blade_passage.blade_passage_frequency",
                "blade_passage_frequency",
                {"multiple": "2"},
            ),
        ),
        ("15_Hz", "110_Hz"),
        (
            "The second multiple of an N-bladed rotor is 2N per revolution.",
            "Multiply by the revolutions a second.",
        ),
        (
            Mistake("the first multiple is given", times=0.5),
            Mistake("twice per revolution is given", {"blades": "1"}),
            Mistake("the angular frequency in rad/s is given as Hz", times=TWO_PI),
        ),
        "Say “8/rev”, not “the second harmonic”: of what would stay open.",
    ),
    Exercise(
        "propeller_beat",
        "Beat of two propellers",
        2,
        "Two propellers with {blades} blades each are governed one by one and turn at {first:rpm} "
        "and {second:rpm}. How long does one beat of their blade passages last?",
        {
            "blades": Draw("3", "6", "1"),
            "first": Draw("1120", "1148", "2", "cpm"),
            "second": Draw("1153", "1160", "1", "cpm"),
        },
        (
            Step(
                "harmonics.blade_passage.blade_passage_frequency",
                "blade_passage_frequency",
                {"rotor_speed": "{first:rpm}", "multiple": "1"},
                name="first_frequency",
            ),
            Step(
                "harmonics.blade_passage.blade_passage_frequency",
                "blade_passage_frequency",
                {"rotor_speed": "{second:rpm}", "multiple": "1"},
                name="second_frequency",
            ),
            Step("harmonics.beats.beat", "beat_period"),
        ),
        ("0.2_s", "5_s"),
        (
            "Find both blade passage frequencies and take one from the other.",
            "The beat is heard at the whole difference, and its period is one over that.",
        ),
        (
            Mistake("half the difference is taken as the beat frequency", times=2.0),
            Mistake("once per revolution is taken for the blade passage", {"blades": "1"}),
            Mistake("the beat frequency is given for the period", asks="beat_frequency"),
        ),
        "A beat of a second or so is a pair of sources that are nearly alike, not one that "
        "changes.",
    ),
    Exercise(
        "record_length",
        "Record that tells two lines apart",
        2,
        "A 4/rev line of a rotor at {rotor_frequency} and a line of its drive at {drive_frequency} "
        "stand close together. How long must the record be so that a spectrum with a Hann window, "
        "which needs a spacing of {line_width} bins, shows both?",
        {
            "rotor_frequency": Draw("23.2", "24.0", "0.1", "Hz"),
            "drive_frequency": Draw("24.1", "24.8", "0.1", "Hz"),
            "line_width": "3",
        },
        (
            Step(
                "harmonics.beats.beat",
                "record_length",
                {
                    "first_frequency": "{rotor_frequency}",
                    "second_frequency": "{drive_frequency}",
                },
            ),
        ),
        ("1.8_s", "20_s"),
        (
            "A bin of a spectrum is one over the length of the record.",
            "Three bins must fit into the difference of the frequencies.",
        ),
        (
            Mistake("one bin, which is the beat period, is taken as enough", {"line_width": "1"}),
            Mistake("half the difference is taken", times=2.0),
        ),
        "Resolution is bought with time alone: no more samples a second and no zero padding help.",
    ),
    Exercise(
        "whose_revolution",
        "Whose revolution",
        2,
        "A tail rotor with {tail_blades} blades turns {ratio} times as fast as the main rotor, "
        "which has {main_blades} blades and turns at {main_speed}. At which frequency does the "
        "tail rotor's blade passage shake the airframe?",
        {
            "tail_blades": Draw("2", "4", "1"),
            "main_blades": Draw("5", "6", "1"),
            "ratio": Draw("4.6", "5.4", "0.1"),
            "main_speed": Draw("300", "390", "10", "rpm"),
        },
        (
            Step(
                "harmonics.blade_passage.blade_passage_frequency",
                "blade_passage_frequency",
                {"blades": "{tail_blades}", "rotor_speed": "{main_speed:*{ratio}}"},
            ),
        ),
        ("30_Hz", "160_Hz"),
        (
            "Take the speed of the tail rotor's own shaft.",
            "Its blades pass once in a revolution of that shaft.",
        ),
        (
            Mistake("the main rotor's shaft is taken", {"ratio": "1"}),
            Mistake("the main rotor's blades are counted", {"tail_blades": "{main_blades}"}),
            Mistake("the blades are left out", {"tail_blades": "1"}),
        ),
        "“Per rev” without a shaft is no frequency.",
    ),
    Exercise(
        "separation_margin",
        "Margin that an amplification asks for",
        2,
        "A mode has a damping ratio of {damping_ratio}. A steady line above it shall be amplified "
        "no more than {wanted} times. By which factor must the line lie above the natural "
        "frequency?",
        {
            "damping_ratio": Draw("0.02", "0.05", "0.005"),
            "wanted": Draw("3", "6", "0.5"),
        },
        (Step("harmonics.separation_margin.separation_margin", "upper_ratio"),),
        ("1.02", "1.3"),
        (
            (
                "Far enough from its peak the damping hardly counts: what is left is one over "
                "r² − 1 for a line above the mode."
            ),
            "Set that to the amplification wanted and solve for r.",
        ),
        (
            Mistake("the ratio of a line below the mode is given", asks="lower_ratio"),
            Mistake("the margin alone is given", asks="margin"),
        ),
        "To bring an amplification down to five takes a tenth of the frequency: damping does not "
        "help there, distance does.",
        0.005,
    ),
    Exercise(
        "planetary_mesh",
        "Mesh frequency of a planetary stage",
        2,
        "The sun of a planetary stage has {sun_teeth} teeth and turns at {sun_frequency}; its ring "
        "of {ring_teeth} teeth is fixed, and there are {planets} planets of {planet_teeth} teeth. "
        "At which frequency do the teeth mesh?",
        {
            "sun_teeth": "31",
            "ring_teeth": "105",
            "planet_teeth": "37",
            "planets": "4",
            "sun_frequency": Draw("20", "32", "0.5", "Hz"),
        },
        (Step("harmonics.planetary.planetary_stage", "mesh"),),
        ("400_Hz", "900_Hz"),
        (
            "The carrier turns slower than the sun by the ratio 1 + ring teeth over sun teeth.",
            "The ring stands still: each turn of the carrier meshes all its teeth once.",
        ),
        (
            Mistake(
                "sun teeth times sun speed is taken, as if the carrier stood still",
                times=136.0 / 105.0,
            ),
            Mistake("the carrier frequency is given", asks="carrier"),
            Mistake("the planet pass is given", asks="planet_pass"),
            Mistake("the spin of the planets is given", asks="planet_spin"),
        ),
        "In a planetary stage the gear that moves is not the gear that counts.",
    ),
    Exercise(
        "avoid_crossing",
        "Rotor speed at which a line crosses a mode",
        1,
        "A mode of the airframe at {natural_frequency} is excited by {order:bare}/rev of the "
        "rotor. At which rotor speed do they meet?",
        {
            "natural_frequency": Draw("5.0", "7.4", "0.1", "Hz"),
            "order": Draw("1", "2", "1", "/rev"),
        },
        (
            Step(
                "airframe.separation.separation",
                "crossing_speed",
                {"shaft_speed": "360_rpm", "damping_ratio": "0.02"},
            ),
        ),
        ("140_rpm", "450_rpm"),
        (
            "At the crossing, order times revolutions a second equals the frequency of the mode.",
            "Type the answer in rpm, Hz or rad/s, as you like.",
        ),
        (
            Mistake("the order is multiplied where it divides", {"order": "{order:*0.25}"}),
            Mistake("revolutions a second are given as rpm", times=1.0 / 60.0),
            Mistake("rad/s are given as rpm", times=0.10471975512),
        ),
        "The same mode is met again by each order at its own rotor speed.",
    ),
)
