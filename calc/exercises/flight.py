"""Exercises on flight modes: wing, propellers, loss of power, autorotation, whirl of a nacelle."""

from calc.exercises.exercise import Draw, Exercise, Mistake, Step

KNOTS = "the airspeed in knots is put in as if it were m/s"
SEA_LEVEL = "the density of sea level is used"

WING = {
    "wing_aspect_ratio": "6.5",
    "wing_span_efficiency": "0.8",
    "wing_profile_drag_coefficient": "0.012",
    "wing_maximum_lift_coefficient": "1.2",
}
"""The rest of the wing of the Curlew, an invented compound."""

EXERCISES = (
    Exercise(
        "wing_lift_share",
        "Wing lift share of a compound",
        2,
        "A compound of {mass} flies level at {airspeed} in air of {density}. Its wing has an area "
        "of {wing_area} at {wing_angle} to the flight path and a lift slope of {wing_lift_slope}. "
        "Which share of the lift does the wing carry?",
        {
            "mass": Draw("8000", "9000", "100", "kg"),
            "airspeed": Draw("120", "160", "2", "kt"),
            "density": Draw("1.0", "1.15", "0.05", "kg/m3"),
            "wing_area": "22_m2",
            "wing_angle": Draw("4", "6", "0.5", "deg"),
            "wing_lift_slope": "4.5_1/rad",
            **WING,
        },
        (Step("flight.wing.wing_state", "lift_share", {"load_factor": "1"}),),
        ("0.2", "0.85"),
        (
            (
                "Lift is dynamic pressure times area times lift coefficient, and that is slope "
                "times angle in radians."
            ),
            "Divide by the weight: mass times 9.80665 m/s².",
        ),
        (
            Mistake(SEA_LEVEL, {"density": "1.225_kg/m3"}),
            Mistake(
                "the mass in kg is put in for the weight in N",
                {"mass": "{mass:*0.101971621298}"},
            ),
            Mistake("the half of the dynamic pressure is forgotten", times=2.0),
        ),
        "The wing's share goes with the square of the airspeed: the rotor is unloaded only fast.",
        0.015,
    ),
    Exercise(
        "airspeed_of_lift_share",
        "Airspeed at which the wing carries a share",
        2,
        "The wing of a compound of {mass} has an area of {wing_area} at {wing_angle} and a lift "
        "slope of {wing_lift_slope}. At which airspeed does it carry {lift_share} of the lift in "
        "level flight in air of {density}?",
        {
            "mass": Draw("8000", "9000", "100", "kg"),
            "wing_area": "22_m2",
            "wing_angle": Draw("4", "6", "0.5", "deg"),
            "wing_lift_slope": "4.5_1/rad",
            "lift_share": Draw("30", "60", "5", "pct"),
            "density": Draw("0.9", "1.15", "0.05", "kg/m3"),
            "wing_maximum_lift_coefficient": "1.2",
        },
        (Step("flight.wing.airspeed_of_lift_share", "airspeed_of_share", {"load_factor": "1"}),),
        ("40_m/s", "130_m/s"),
        (
            (
                "Set dynamic pressure times area times lift coefficient equal to the share of the "
                "weight."
            ),
            "Solve for the airspeed; the angle counts in radians.",
        ),
        (
            Mistake(SEA_LEVEL, {"density": "1.225_kg/m3"}),
            Mistake(
                "the mass in kg is put in for the weight in N",
                {"mass": "{mass:*0.101971621298}"},
            ),
            Mistake("the half of the dynamic pressure is forgotten", times=0.70710678),
        ),
        "Twice the share takes 1.4 times the airspeed.",
        0.01,
    ),
    Exercise(
        "helical_tip_mach",
        "Helical tip Mach number of a propeller",
        1,
        "A propeller of {diameter} diameter turns at {propeller_speed} at {airspeed} true airspeed "
        "in air with a speed of sound of {speed_of_sound}. What is its helical tip Mach number?",
        {
            "diameter": Draw("2.6", "3.2", "0.1", "m"),
            "propeller_speed": Draw("1000", "1250", "50", "rpm"),
            "airspeed": Draw("150", "190", "5", "kt"),
            "speed_of_sound": Draw("325", "340", "1", "m/s"),
        },
        (Step("rotor.tip_speed.helical_tip_mach", "helical_tip_mach"),),
        ("0.42", "0.75"),
        (
            "The tip moves round and forward at the same time: its path is a helix.",
            "Add the squares of tip speed and airspeed and take the root.",
        ),
        (
            Mistake("the diameter is put in for the radius", {"diameter": "{diameter:*2}"}),
            Mistake(KNOTS, {"airspeed": "{airspeed:m/s}"}),
            Mistake("the airspeed is left out", {"airspeed": "{airspeed:*0}"}),
        ),
        "For a propeller the airspeed stands across the rotation, so squares add; for a rotor in "
        "flight it lies along it.",
        0.01,
    ),
    Exercise(
        "propeller_power",
        "Power of two propellers",
        2,
        "Two propellers of {propeller_diameter} diameter and a quality factor of "
        "{propeller_quality} give {propeller_thrust} of thrust together at {airspeed} in air of "
        "{density}. Which shaft power do they take together?",
        {
            "propellers": "2",
            "propeller_diameter": Draw("2.7", "3.1", "0.1", "m"),
            "propeller_quality": Draw("0.84", "0.9", "0.01"),
            "propeller_thrust": Draw("8000", "14000", "500", "N"),
            "airspeed": Draw("110", "160", "5", "kt"),
            "density": Draw("1.0", "1.2", "0.05", "kg/m3"),
        },
        (Step("flight.propeller.propeller_power", "power"),),
        ("450_kW", "1800_kW"),
        (
            "Each propeller carries half of the thrust on its own disc: find its induced speed.",
            "Power is thrust times the speed through the disc, over the quality factor.",
        ),
        (
            Mistake(KNOTS, {"airspeed": "{airspeed:m/s}"}),
            Mistake("the power of one propeller is given", times=0.5),
            Mistake("the quality factor is left out", {"propeller_quality": "1"}),
        ),
        "Most of the power is thrust times airspeed; the induced part is what a larger disc saves.",
        0.012,
    ),
    Exercise(
        "rotor_decay",
        "Time in hand after loss of power",
        2,
        "A rotor with its drive has an inertia of {inertia} and turns at {rotor_speed} on "
        "{power} of shaft power. All power is lost at once, pitch stays, and the torque falls with "
        "the square of rotor speed. After how long is rotor speed at {speed_ratio} of its value?",
        {
            "inertia": Draw("7500", "9500", "100", "kg.m2"),
            "rotor_speed": Draw("240", "260", "5", "rpm"),
            "power": Draw("1300", "1800", "50", "kW"),
            "speed_ratio": Draw("80", "90", "1", "pct"),
        },
        (Step("flight.decay.rotor_decay_time", "decay_time", {"law": "square"}),),
        ("0.2_s", "2_s"),
        (
            "The time constant is inertia times rotor speed squared over power.",
            (
                "With torque as the square of speed, time is the time constant times one over the "
                "ratio, less one."
            ),
        ),
        (
            Mistake("the time constant is given", asks="time_constant"),
            Mistake(
                "the energy, with its half, is taken for the time constant",
                {"inertia": "{inertia:*0.5}"},
            ),
            Mistake(
                "the rotor speed in rpm is put in as if it were rad/s",
                {"rotor_speed": "{rotor_speed:rad/s}"},
            ),
        ),
        "About a second: the first action after loss of power is a matter of reflex, and the "
        "flight manual says which.",
        0.015,
    ),
    Exercise(
        "rotor_energy",
        "Energy of a turning rotor",
        1,
        "A rotor with an inertia of {inertia} turns at {rotor_speed} on a helicopter of {mass}. To "
        "which height could its energy lift the helicopter?",
        {
            "inertia": Draw("1400", "2200", "50", "kg.m2"),
            "rotor_speed": Draw("340", "380", "5", "rpm"),
            "mass": Draw("2600", "3400", "50", "kg"),
        },
        (
            Step(
                "flight.decay.rotor_energy",
                "energy_height",
                {"radius": "4.8_m", "power": "500_kW", "speed_ratio": "90_pct"},
            ),
        ),
        ("15_m", "80_m"),
        (
            "The energy is half the inertia times the square of the rotor speed, in rad/s.",
            "Divide it by the weight: mass times 9.80665 m/s².",
        ),
        (
            Mistake("the half is forgotten", times=2.0),
            Mistake(
                "the rotor speed in rpm is put in as if it were rad/s",
                {"rotor_speed": "{rotor_speed:rad/s}"},
            ),
            Mistake(
                "revolutions per second are put in as rad/s",
                {"rotor_speed": "{rotor_speed:*0.0166666666667 rad/s}"},
            ),
            Mistake(
                "the mass in kg is put in for the weight in N",
                {"mass": "{mass:*0.101971621298}"},
            ),
        ),
        "Only the part above the least rotor speed can be spent.",
        0.012,
    ),
    Exercise(
        "vertical_descent",
        "Vertical descent in autorotation",
        1,
        "A helicopter of {mass} with a rotor of {radius} radius descends vertically in "
        "autorotation in air of {density}. The rotor is taken as a disc with a drag coefficient "
        "of {drag_coefficient}. At which speed does it come down?",
        {
            "mass": Draw("2500", "3200", "50", "kg"),
            "radius": Draw("4.6", "5.4", "0.1", "m"),
            "density": Draw("1.0", "1.15", "0.05", "kg/m3"),
            "drag_coefficient": "1.25",
        },
        (Step("flight.autorotation.vertical_descent_speed", "vertical_descent_speed"),),
        ("15_m/s", "32_m/s"),
        (
            "The drag of the disc carries the weight.",
            "Weight over half the density, disc area and coefficient is the square of the speed.",
        ),
        (
            Mistake("the diameter is put in for the radius", {"radius": "{radius:*2}"}),
            Mistake(
                "the mass in kg is put in for the weight in N",
                {"mass": "{mass:*0.101971621298}"},
            ),
            Mistake("the half of the dynamic pressure is forgotten", times=0.70710678),
        ),
        "Some 20 m/s: without forward speed and a flare that is no landing.",
        0.012,
    ),
    Exercise(
        "nacelle_whirl",
        "Backward whirl of a nacelle",
        3,
        "A nacelle swings in pitch and in yaw at {pitch_frequency}; its inertia about the pivot is "
        "{nacelle_inertia}. Its propeller has a polar inertia of {propeller_inertia} and turns at "
        "{propeller_speed}. At which frequency does the backward whirl lie?",
        {
            "pitch_frequency": Draw("7.0", "9.0", "0.2", "Hz"),
            "nacelle_inertia": Draw("360", "460", "10", "kg.m2"),
            "propeller_inertia": Draw("26", "34", "1", "kg.m2"),
            "propeller_speed": Draw("1000", "1200", "50", "rpm"),
        },
        (
            Step(
                "flight.nacelle_whirl.whirl_frequencies",
                "backward",
                {"yaw_frequency": "{pitch_frequency}"},
            ),
        ),
        ("5.5_Hz", "8.9_Hz"),
        (
            (
                "The gyroscopic moment splits the two equal frequencies: one falls, one rises, and "
                "their product stays."
            ),
            "Their difference is polar inertia times propeller speed over nacelle inertia, in Hz.",
        ),
        (
            Mistake("the forward whirl is given", asks="forward"),
            Mistake("the propeller is taken to stand still", {"propeller_inertia": "0.001_kg.m2"}),
            Mistake(
                "the propeller speed in rpm is put in as if it were Hz",
                {"propeller_speed": "{propeller_speed:Hz}"},
            ),
        ),
        "A mode measured with the propeller at rest is not the mode in flight.",
        0.008,
    ),
)
