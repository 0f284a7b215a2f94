"""Exercises on the rotor: tip speed, Mach number, advance ratio, air, blade loading, stall."""

from calc.exercises.exercise import Draw, Exercise, Mistake, Step

RPM_AS_RADIANS = "the rotor speed in rpm is put in as if it were rad/s"
TURNS_AS_RADIANS = "revolutions per second are put in as rad/s, so that 2π is missing"
DIAMETER = "the diameter is put in for the radius"
KNOTS = "the airspeed in knots is put in as if it were m/s"

EXERCISES = (
    Exercise(
        "tip_speed",
        "Tip speed of a rotor",
        1,
        "A rotor of {radius} radius turns at {rotor_speed}. What is its tip speed?",
        {
            "radius": Draw("4.2", "7.2", "0.1", "m"),
            "rotor_speed": Draw("230", "330", "5", "rpm"),
        },
        (Step("rotor.tip_speed.tip_speed", "tip_speed"),),
        ("120_m/s", "240_m/s"),
        (
            "A point on a turning body moves at rotor speed times its distance from the axis.",
            "Rotor speed counts in rad/s: one revolution is 2π rad, one minute is 60 s.",
        ),
        (
            Mistake(RPM_AS_RADIANS, {"rotor_speed": "{rotor_speed:rad/s}"}),
            Mistake(DIAMETER, {"radius": "{radius:*2}"}),
            Mistake("the radius is taken for a diameter and halved", {"radius": "{radius:*0.5}"}),
            Mistake(
                TURNS_AS_RADIANS,
                {"rotor_speed": "{rotor_speed:*0.0166666666667 rad/s}"},
            ),
        ),
        "Rotors of every size turn at much the same tip speed, about 200 m/s (common practice, no "
        "source): a result far from it is a sign of a wrong unit.",
    ),
    Exercise(
        "advancing_tip_mach",
        "Mach number of the advancing tip",
        1,
        "A rotor has a tip speed of {tip_speed} and the air a speed of sound of {speed_of_sound}. "
        "What is the Mach number of the advancing tip in level flight at {airspeed} true airspeed?",
        {
            "tip_speed": Draw("180", "220", "1", "m/s"),
            "airspeed": Draw("100", "160", "2", "kt"),
            "speed_of_sound": Draw("325", "345", "1", "m/s"),
        },
        (Step("rotor.tip_speed.advancing_tip_mach", "advancing_tip_mach"),),
        ("0.65", "0.92"),
        (
            "On the advancing side, at 90 deg of azimuth, rotation and flight add.",
            "Turn the airspeed into m/s before it is added: 1 kt is 1852 m in an hour.",
        ),
        (
            Mistake(KNOTS, {"airspeed": "{airspeed:m/s}"}),
            Mistake("the airspeed is left out", {"airspeed": "{airspeed:*0}"}),
        ),
        "The advancing tip is the fastest point of the rotorcraft, and the airspeed alone says "
        "nothing of it.",
    ),
    Exercise(
        "mach_limited_airspeed",
        "Airspeed at a tip Mach limit on a cold day",
        2,
        "The advancing tip shall stay at or below Mach {mach_limit}. The rotor has {radius} radius "
        "and turns at {rotor_speed}; the pressure altitude is {pressure_altitude} and the air is "
        "{cold:bare} K colder than standard. Which true airspeed does the limit allow?",
        {
            "radius": Draw("4.6", "5.2", "0.1", "m"),
            "rotor_speed": Draw("370", "400", "5", "rpm"),
            "pressure_altitude": Draw("2000", "4000", "100", "m"),
            "cold": Draw("16", "30", "1", "K"),
            "mach_limit": Draw("0.86", "0.92", "0.01"),
        },
        (
            Step(
                "rotor.tip_speed.tip_state",
                "mach_limited_airspeed",
                {"temperature_offset": "{cold:*-1}", "airspeed": "0_m/s"},
            ),
        ),
        ("35_m/s", "130_m/s"),
        (
            (
                "The speed of sound goes with the square root of the absolute temperature; find "
                "the temperature at the altitude first, then take the offset away."
            ),
            "The airspeed allowed is the Mach limit times the speed of sound, less the tip speed.",
        ),
        (
            Mistake("the day is taken as standard", {"cold": "{cold:*0}"}),
            Mistake("the day is taken as warmer by the offset", {"cold": "{cold:*-1}"}),
            Mistake(
                "the speed of sound of sea level is used",
                {"pressure_altitude": "{pressure_altitude:*0}"},
            ),
        ),
        "Cold air makes the advancing tip the limit: the same airspeed is a higher Mach number.",
        0.02,
    ),
    Exercise(
        "advance_ratio",
        "Advance ratio",
        1,
        "A rotor of {radius} radius turns at {rotor_speed} in level flight at {airspeed}; its disc "
        "incidence is {disc_incidence}. What is its advance ratio?",
        {
            "radius": Draw("4.5", "6.5", "0.1", "m"),
            "rotor_speed": Draw("280", "400", "5", "rpm"),
            "airspeed": Draw("90", "150", "2", "kt"),
            "disc_incidence": Draw("2", "8", "1", "deg"),
        },
        (Step("rotor.advance_ratio.reverse_flow", "advance_ratio"),),
        ("0.18", "0.5"),
        (
            "The advance ratio compares the airspeed along the disc with the tip speed.",
            (
                "Turn the airspeed into m/s and the rotor speed into rad/s; the cosine of the "
                "incidence hardly matters."
            ),
        ),
        (
            Mistake(KNOTS, {"airspeed": "{airspeed:m/s}"}),
            Mistake(DIAMETER, {"radius": "{radius:*2}"}),
            Mistake(RPM_AS_RADIANS, {"rotor_speed": "{rotor_speed:rad/s}"}),
        ),
        "Speeds in the same unit before they are compared.",
    ),
    Exercise(
        "reverse_flow",
        "Reverse-flow fraction of the disc",
        2,
        "A slowed rotor of {radius} radius turns at {rotor_speed} at {airspeed} true airspeed, its "
        "disc along the flight path. On which fraction of the disc does the air come from behind "
        "the blade?",
        {
            "radius": Draw("6.5", "8.5", "0.1", "m"),
            "rotor_speed": Draw("150", "210", "5", "rpm"),
            "airspeed": Draw("150", "200", "2", "kt"),
        },
        (
            Step(
                "rotor.advance_ratio.reverse_flow",
                "reverse_flow_fraction",
                {"disc_incidence": "0_deg"},
            ),
        ),
        ("0.03", "0.2"),
        (
            "The region of reverse flow is a circle that touches the axis, on the retreating side.",
            "Its diameter is the advance ratio times the radius; compare the two areas.",
        ),
        (
            Mistake("the advance ratio is given for the area", asks="advance_ratio"),
            Mistake(KNOTS, {"airspeed": "{airspeed:m/s}"}),
            Mistake("the square is halved and not divided by four", times=2.0),
        ),
        "The area goes with the square of the advance ratio: small at 0.3, not to be ignored at "
        "twice that.",
        0.015,
    ),
    Exercise(
        "solidity",
        "Solidity of a rotor",
        1,
        "A rotor of {radius} radius has {blades} rectangular blades of {chord} chord. What is its "
        "solidity?",
        {
            "blades": Draw("3", "6", "1"),
            "chord": Draw("320", "480", "10", "mm"),
            "radius": Draw("4.8", "7.0", "0.1", "m"),
        },
        (Step("rotor.blade_loading.solidity", "solidity"),),
        ("0.04", "0.16"),
        (
            "Solidity is the area of all blades over the area of the disc.",
            "The radius divides out once; what is left is blades times chord over π times radius.",
        ),
        (
            Mistake("one blade is counted", {"blades": "1"}),
            Mistake(DIAMETER, {"radius": "{radius:*2}"}),
            Mistake("π is forgotten", times=3.14159265359),
        ),
        "Each blade covers a few hundredths of the disc: a result near one is a wrong unit.",
    ),
    Exercise(
        "density_altitude",
        "Density altitude of a hot day",
        2,
        "The altimeter shows {pressure_altitude} pressure altitude, and the air is "
        "{temperature_offset:bare} K warmer than standard. What is the density altitude?",
        {
            "pressure_altitude": Draw("1000", "2600", "100", "m"),
            "temperature_offset": Draw("12", "30", "1", "K"),
        },
        (
            Step("rotor.atmosphere.standard_atmosphere", "density", name="density"),
            Step("rotor.atmosphere.density_altitude", "density_altitude"),
        ),
        ("1200_m", "4200_m"),
        (
            (
                "Find the density first: pressure from the altitude, temperature from standard "
                "plus the offset."
            ),
            (
                "The density altitude is the altitude at which the standard atmosphere has that "
                "density; as a check, it rises by about 36 m for each kelvin."
            ),
        ),
        (
            Mistake(
                "the pressure altitude is given for the density altitude",
                {"temperature_offset": "{temperature_offset:*0}"},
            ),
            Mistake(
                "the air is taken as colder than standard",
                {"temperature_offset": "{temperature_offset:*-1}"},
            ),
        ),
        "A hot day puts the rotor into thinner air than the altimeter says.",
        0.02,
    ),
    Exercise(
        "blade_loading",
        "Blade loading in hover at altitude",
        2,
        "A helicopter of {mass} mass hovers at a pressure altitude of {pressure_altitude} in the "
        "standard atmosphere. Its rotor has {blades} blades of {chord} chord and {radius} radius "
        "and turns at {rotor_speed}. What is the blade loading, thrust coefficient over solidity, "
        "if thrust equals weight?",
        {
            "mass": Draw("2600", "3400", "50", "kg"),
            "pressure_altitude": Draw("1500", "3500", "100", "m"),
            "blades": "4",
            "chord": "0.45_m",
            "radius": "4.8_m",
            "rotor_speed": Draw("345", "375", "5", "rpm"),
        },
        (
            Step(
                "rotor.atmosphere.standard_atmosphere",
                "density",
                {"temperature_offset": "0_K"},
                name="density",
            ),
            Step(
                "rotor.level_flight.rotor_force",
                "thrust",
                {"airspeed": "0_m/s", "drag_area": "1_m2"},
                name="thrust",
            ),
            Step("rotor.blade_loading.rotor_loading", "blade_loading"),
        ),
        ("0.06", "0.16"),
        (
            "Weight is mass times 9.80665 m/s²; the density is that of the altitude.",
            (
                "Divide the thrust by density, blade area (blades, chord, radius) and the square "
                "of the tip speed."
            ),
        ),
        (
            Mistake("the mass in kg is put in for the weight in N", {"thrust": "{mass:N}"}),
            Mistake("the density of sea level is used", {"density": "1.225_kg/m3"}),
            Mistake("the thrust coefficient is given", asks="thrust_coefficient"),
            Mistake("the mean lift coefficient is given", asks="mean_lift_coefficient"),
        ),
        "Altitude raises the blade loading of the same weight, and with it the nearness of stall.",
    ),
    Exercise(
        "lock_number",
        "Lock number",
        1,
        "A blade of {radius} radius and {chord} chord has a flap inertia of {flap_inertia} and a "
        "lift slope of {lift_slope}. What is its Lock number in air of {density}?",
        {
            "radius": Draw("4.6", "5.6", "0.1", "m"),
            "chord": Draw("0.36", "0.5", "0.02", "m"),
            "flap_inertia": Draw("300", "520", "10", "kg.m2"),
            "lift_slope": "5.7_1/rad",
            "density": Draw("0.95", "1.2", "0.05", "kg/m3"),
        },
        (Step("rotor.blade_loading.lock_number", "lock_number"),),
        ("2", "11"),
        (
            "The Lock number compares air forces on a flapping blade with its inertia.",
            "The radius counts to the fourth power.",
        ),
        (
            Mistake("the density of sea level is used", {"density": "1.225_kg/m3"}),
            Mistake(DIAMETER, {"radius": "{radius:*2}"}),
            Mistake(
                "the lift slope is turned from per degree, which it is not",
                {"lift_slope": "{lift_slope:1/deg}"},
            ),
        ),
        "Heavy blades have a small Lock number; the fourth power makes an error of the radius "
        "count four times.",
        0.015,
    ),
    Exercise(
        "stall_onset",
        "Retreating-blade stall in a turn",
        3,
        "The Plover, an invented helicopter, flies a steady turn at a load factor of {load_factor} "
        "at a pressure altitude of {pressure_altitude} on a standard day. At which true airspeed "
        "does the retreating blade tip reach the angle of attack limit? Use the form of stall "
        "onset with the numbers below.",
        {
            "load_factor": Draw("1.1", "1.3", "0.05"),
            "pressure_altitude": Draw("300", "1200", "100", "m"),
            "mass": Draw("2500", "2800", "50", "kg"),
            "radius": "4.8_m",
            "chord": "0.45_m",
            "blades": "4",
            "rotor_speed": "360_rpm",
            "twist": "-8_deg",
            "lift_slope": "5.7_1/rad",
            "drag_area": "1.3_m2",
            "temperature_offset": "0_K",
            "wing_lift_share": "0",
            "propeller_thrust_share": "0",
            "angle_limit": "12_deg",
        },
        (Step("rotor.stall_onset.stall_onset_airspeed", "tip_airspeed"),),
        ("20_m/s", "110_m/s"),
        (
            "The rotor carries load factor times weight.",
            "Enter every number with its unit; a twist that is washed out is negative.",
        ),
        (
            Mistake("the load factor is left at 1", {"load_factor": "1"}),
            Mistake(
                "the pressure altitude is left at sea level",
                {"pressure_altitude": "{pressure_altitude:*0}"},
            ),
            Mistake("the twist is entered without its sign", {"twist": "{twist:*-1}"}),
        ),
        "A turn brings stall onset down by tens of knots: it is the load on the blades that "
        "stalls, not the airspeed alone.",
        0.015,
    ),
)
