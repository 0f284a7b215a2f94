"""Small cases: several steps, from what was measured or planned to what it means."""

from calc.exercises.exercise import Draw, Exercise, Mistake, Step
from calc.exercises.flight import WING
from calc.exercises.ground import PLOVER

PASSAGE = "harmonics.blade_passage.blade_passage_frequency"
HUB_DATA = "ground.shake_test.hub_data"
OF_THE_TEST = {"modes": "{frequency},{damping},{modal_mass},0,1"}

EXERCISES = (
    Exercise(
        "two_suspects",
        "A spectrum to a cause: two suspects",
        3,
        "Near {about:bare} Hz a cabin floor shows one broad line at {main_speed} of the main "
        "rotor. Two sources are suspected: the second multiple of blade passage of the main rotor, "
        "which has {main_blades} blades, and the blade passage of the tail rotor, which has "
        "{tail_blades} blades and turns {ratio} times as fast. How long must a record be so that a "
        "Hann window, which needs {line_width} bins, shows two lines if both are there?",
        {
            "main_speed": Draw("345", "375", "5", "rpm"),
            "main_blades": "4",
            "tail_blades": "2",
            "ratio": Draw("4.05", "4.2", "0.01"),
            "line_width": "3",
            "about": "{main_speed:*0.1333333333 =0 Hz}",
        },
        (
            Step(
                PASSAGE,
                "blade_passage_frequency",
                {"blades": "{main_blades}", "rotor_speed": "{main_speed}", "multiple": "2"},
                name="first_frequency",
            ),
            Step(
                PASSAGE,
                "blade_passage_frequency",
                {
                    "blades": "{tail_blades}",
                    "rotor_speed": "{main_speed:*{ratio}}",
                    "multiple": "1",
                },
                name="second_frequency",
            ),
            Step("harmonics.beats.beat", "record_length"),
        ),
        ("0.8_s", "8_s"),
        (
            "Work out both frequencies: each counts revolutions of its own shaft.",
            "Three bins must fit between them, and a bin is one over the length of the record.",
        ),
        (
            Mistake("one bin, which is the beat period, is taken as enough", {"line_width": "1"}),
            Mistake("half the difference is taken", times=2.0),
            Mistake("the beat frequency is given", asks="beat_frequency"),
        ),
        "A cause is named only after the record can tell it from its neighbour.",
        0.02,
    ),
    Exercise(
        "line_that_follows",
        "A spectrum to a cause: the line that follows",
        3,
        "At {first_speed} of the main rotor a line stands at {line}. If it is the blade passage of "
        "a tail rotor with {tail_blades} blades, geared {ratio} to 1 to the main rotor, it follows "
        "when rotor speed is brought to {second_speed}; a mode of the airframe would stay. At "
        "which frequency must the line then be looked for?",
        {
            "first_speed": Draw("365", "380", "5", "rpm"),
            "second_speed": Draw("340", "350", "2", "rpm"),
            "tail_blades": Draw("2", "4", "1"),
            "ratio": Draw("4.6", "5.4", "0.1"),
            "line": "{first_speed:*{ratio} *{tail_blades} *0.0166666666667 =1 Hz}",
        },
        (
            Step(
                PASSAGE,
                "blade_passage_frequency",
                {
                    "blades": "{tail_blades}",
                    "rotor_speed": "{second_speed:*{ratio}}",
                    "multiple": "1",
                },
            ),
        ),
        ("45_Hz", "130_Hz"),
        (
            "The gear ratio does not change: the line moves as the main rotor does.",
            "Tail rotor speed is main rotor speed times the ratio.",
        ),
        (
            Mistake("the line is taken to stay, as a mode does", {"second_speed": "{first_speed}"}),
            Mistake("the blades are left out", {"tail_blades": "1"}),
            Mistake("the main rotor's own shaft is taken", {"ratio": "1"}),
        ),
        "A line that follows is forced; a peak that stays is a mode. Change one speed at a time.",
    ),
    Exercise(
        "shake_test_to_verdict",
        "A shake test to a verdict",
        3,
        "A helicopter was shaken on its gear with dummy blades of {dummy_mass} each in place of "
        "its {blades} blades. Its lateral mode lies at {frequency} with a damping ratio of "
        "{damping} and a modal mass of {modal_mass}, for a hub motion of 1. Each blade has "
        "{lag_damping} of lag damping. What is the margin of the Deutsch criterion for one support "
        "mode? Below 1 the estimate is unstable.",
        {
            "frequency": Draw("3.0", "3.4", "0.1", "Hz"),
            "damping": Draw("0.06", "0.14", "0.01"),
            "modal_mass": Draw("1500", "1700", "20", "kg"),
            "blades_fitted": "dummies",
            "dummy_mass": "50_kg",
            "blades": "4",
            "blade_mass": "50_kg",
            "first_moment": "115_kg.m",
            "lag_inertia": "350_kg.m2",
            "hinge_offset": "0.25_m",
            "lag_stiffness": "0_N.m/rad",
            "lag_damping": Draw("1600", "2400", "100", "N.m.s/rad"),
        },
        (
            Step(HUB_DATA, "modes.0.hub_mass", OF_THE_TEST, name="support_mass"),
            Step(HUB_DATA, "modes.0.hub_stiffness", OF_THE_TEST, name="support_stiffness"),
            Step(HUB_DATA, "modes.0.hub_damping", OF_THE_TEST, name="support_damping"),
            Step(
                "ground.criterion.damping_product",
                "single_margin",
                {"hub_mass": "without_blades"},
            ),
        ),
        ("0.1", "4"),
        (
            (
                "Take the dummies off the modal mass; stiffness and damping of the support stay as "
                "they were measured."
            ),
            (
                "Put mass, stiffness and damping of the support into the form of the Deutsch "
                "criterion, hub mass without the blades."
            ),
        ),
        (
            Mistake("the dummies are not taken off the mass", {"blades_fitted": "off"}),
            Mistake("the criterion for both directions alike is taken", asks="isotropic_margin"),
            Mistake(
                "the loss factor, twice the damping ratio, is put in", {"damping": "{damping:*2}"}
            ),
        ),
        "A margin is an estimate at one speed of one state; the verdict is that of the sweep over "
        "every state, with a damper out.",
        0.02,
    ),
    Exercise(
        "avoid_band",
        "A mode to an avoid band",
        3,
        "A pylon of the Curlew, an invented compound, has a mode at {frequency}, which is taken as "
        "exact. Rotor speed shall keep {margin} clear of the crossing of {order:bare}/rev and that "
        "mode. Up from which rotor speed is 1/rev to be "
        "avoided? Use the form of the avoid bands with this line and this mode alone.",
        {
            "frequency": Draw("3.0", "4.0", "0.1", "Hz"),
            "margin": Draw("4", "8", "1", "pct"),
            "order": "1_/rev",
        },
        (
            Step(
                "harmonics.coincidence.coincidence",
                "avoid.0.low",
                {
                    "sources": "rotor 1/rev,rotor,{order},0_Hz",
                    "modes": "pylon,{frequency},0,0.02",
                    "rotor_low": "60_rpm",
                    "rotor_high": "290_rpm",
                    "rotor_speed": "280_rpm",
                    "second_low": "500_rpm",
                    "second_high": "1300_rpm",
                    "second_speed": "1150_rpm",
                },
            ),
        ),
        ("100_rpm", "280_rpm"),
        (
            "The crossing itself is where the revolutions a second equal the frequency.",
            (
                "The margin is a difference over the mean of the two frequencies: half of it below "
                "one, half above, over each other."
            ),
        ),
        (
            Mistake("the upper end of the band is given", asks="avoid.0.high"),
            Mistake("the margin is left out", {"margin": "0.001_pct"}),
            Mistake("the margin is doubled", {"margin": "{margin:*2}"}),
        ),
        "A band to avoid is analysis; a placard is the approved manual's.",
        0.006,
    ),
    Exercise(
        "unloaded_rotor",
        "What a wing leaves for the rotor",
        3,
        "The Curlew, an invented compound of {mass}, flies level at {airspeed} in air of "
        "{density}; its wing has {wing_area} at {wing_angle}. Its rotor has {blades} blades of "
        "{chord} chord and {radius} radius and turns at {rotor_speed}. What is the blade loading "
        "if rotor thrust is the lift that the wing leaves?",
        {
            "mass": Draw("8200", "9000", "100", "kg"),
            "airspeed": Draw("110", "150", "5", "kt"),
            "density": Draw("1.0", "1.15", "0.05", "kg/m3"),
            "wing_area": "22_m2",
            "wing_angle": Draw("4", "5.5", "0.5", "deg"),
            "wing_lift_slope": "4.5_1/rad",
            **WING,
            "blades": "6",
            "chord": "0.4_m",
            "radius": "7.9_m",
            "rotor_speed": Draw("220", "250", "5", "rpm"),
        },
        (
            Step("flight.wing.wing_state", "rotor_lift", {"load_factor": "1"}, name="thrust"),
            Step("rotor.blade_loading.rotor_loading", "blade_loading"),
        ),
        ("0.015", "0.12"),
        (
            "Weight less wing lift is what the rotor carries.",
            "Divide by density, blade area and the square of the tip speed.",
        ),
        (
            Mistake("the wing is left out", {"wing_area": "0.0001_m2"}),
            Mistake("the density of sea level is used", {"density": "1.225_kg/m3"}),
            Mistake("the thrust coefficient is given", asks="thrust_coefficient"),
        ),
        "A wing takes load off the blades; a rotor that is slowed for it takes some of that back, "
        "with the square of its speed.",
        0.015,
    ),
    Exercise(
        "damping_to_stop",
        "Measured decays to a decision to stop",
        3,
        "On a ground run the decays of one mode give damping ratios of {first_ratio} at "
        "{first_speed}, {second_ratio} at {second_speed} and {third_ratio} at {third_speed}. At "
        "which rotor speed does a straight line through them come to no damping at all?",
        {
            "first_speed": Draw("150", "180", "2", "rpm"),
            "second_speed": "{first_speed:+10}",
            "third_speed": "{first_speed:+20}",
            "first_ratio": Draw("5.0", "7.0", "0.2", "pct"),
            "fall": Draw("0.6", "1.4", "0.1", "pct"),
            "second_ratio": "{first_ratio:+-{fall:bare}}",
            "third_ratio": "{second_ratio:+-{fall:bare}}",
        },
        (
            Step(
                "measurement.damping_trend.damping_run",
                "modes.0.zero_speed",
                {
                    "readings": "{first_speed},A,3_Hz,{first_ratio},0.001,2;"
                    "{second_speed},A,3_Hz,{second_ratio},0.001,2;"
                    "{third_speed},A,3_Hz,{third_ratio},0.001,2",
                    "floor": "1_pct",
                    "prediction": "none",
                    **PLOVER,
                    "lag_damping": "2000_N.m.s/rad",
                    "mass_x": "3000_kg",
                    "mass_y": "1400_kg",
                    "stiffness_x": "600000_N/m",
                    "stiffness_y": "640000_N/m",
                    "damping_x": "6000_N.s/m",
                    "damping_y": "4000_N.s/m",
                    "hub_mass": "without_blades",
                },
            ),
        ),
        ("180_rpm", "330_rpm"),
        (
            "Each step of rotor speed takes the same damping away.",
            "How many more such steps does the last reading hold? The run ends well before.",
        ),
        (
            Mistake(
                "the steps are counted from the first reading, from the last speed on",
                {
                    "first_speed": "{third_speed}",
                    "second_speed": "{third_speed:+10}",
                    "third_speed": "{third_speed:+20}",
                },
            ),
            Mistake("the speed at which the run has to stop is given", asks="modes.0.stop_speed"),
        ),
        "The line says where it ends, not how far to go: damping may fall faster than a line, and "
        "the run stops while there is damping left.",
        0.01,
    ),
)
