"""Exercises on ground resonance: dampers, their tests, coalescence, margins, hub mass."""

from calc.exercises.exercise import Draw, Exercise, Mistake, Step

PLOVER = {
    "blades": "4",
    "blade_mass": "50_kg",
    "first_moment": "115_kg.m",
    "lag_inertia": "350_kg.m2",
    "hinge_offset": "0.25_m",
    "lag_stiffness": "0_N.m/rad",
}
"""The rotor of the Plover, an invented helicopter, without its lag dampers."""

EXERCISES = (
    Exercise(
        "linear_damper",
        "Lag damping of a damper on an arm",
        1,
        "Each blade has one linear lag damper with a rate of {damper_rate} on an arm of {arm} from "
        "the lag hinge. What is its lag damping about the hinge?",
        {
            "damper_rate": Draw("40000", "70000", "500", "N.s/m"),
            "arm": Draw("0.16", "0.24", "0.01", "m"),
            "dampers_per_blade": "1",
        },
        (Step("ground.damper.linear_damper", "linear_damper"),),
        ("900_N.m.s/rad", "4500_N.m.s/rad"),
        (
            "The arm counts twice: it turns rate into speed at the damper, and force into moment.",
            "Rate times the square of the arm.",
        ),
        (
            Mistake("the arm is counted once", {"arm": "{arm:^0.5}"}),
            Mistake("twice the arm is put in", {"arm": "{arm:*2}"}),
        ),
        "Ten per cent of the arm are twenty per cent of the damping.",
    ),
    Exercise(
        "blade_decay",
        "Lag damping from a decay",
        2,
        "A blade with an inertia of {lag_inertia} about its lag hinge is pulled aside and let go. "
        "Peaks of one sign are {period} apart; the first is {first_peak}, and after {cycles} full "
        "cycles one is {later_peak}. What is the damping ratio?",
        {
            "lag_inertia": "350_kg.m2",
            "period": Draw("0.80", "0.90", "0.01", "s"),
            "first_peak": Draw("1.8", "2.4", "0.1", "deg"),
            "later_peak": Draw("0.3", "0.8", "0.05", "deg"),
            "cycles": Draw("2", "4", "1"),
        },
        (Step("ground.damper_test.decay_damping", "damping_ratio"),),
        ("0.03", "0.2"),
        (
            (
                "The logarithmic decrement is the natural logarithm of the ratio of the peaks, "
                "shared among the cycles between them."
            ),
            "Divided by 2π it is nearly the damping ratio.",
        ),
        (
            Mistake("the logarithm is not divided by the cycles", {"cycles": "1"}),
            Mistake("the decrement is given for the damping ratio", asks="decrement"),
            Mistake("the logarithm to base ten is taken", times=0.4342944819),
            Mistake("the peaks of both signs are counted as cycles", {"cycles": "{cycles:*2}"}),
        ),
        "Damping from a decay belongs to its amplitude; read a large and a small part of it apart.",
        0.02,
    ),
    Exercise(
        "damper_rig",
        "Damper rate from the energy of a cycle",
        2,
        "On a rig, a lag damper takes {cycle_energy} in each cycle at {frequency}; the loop is "
        "{double_stroke} wide from end to end. What is the damper rate?",
        {
            "cycle_energy": Draw("20", "40", "1", "J"),
            "frequency": Draw("1.1", "1.5", "0.1", "Hz"),
            "double_stroke": Draw("8", "12", "0.5", "mm"),
            "arm": "0.2_m",
        },
        (
            Step(
                "ground.damper_test.energy_damping",
                "damper_rate",
                {"stroke_amplitude": "{double_stroke:*0.5}"},
            ),
        ),
        ("20000_N.s/m", "150000_N.s/m"),
        (
            "The amplitude is half of the width of the loop.",
            "Energy of a cycle over 2π² times frequency times amplitude squared.",
        ),
        (
            Mistake(
                "the width of the loop is put in for its amplitude",
                {"double_stroke": "{double_stroke:*2}"},
            ),
            Mistake("the frequency in Hz is put in as if it were rad/s", times=6.28318530718),
        ),
        "Single for double amplitude is a factor of four in the damping.",
    ),
    Exercise(
        "interblade",
        "Lag damping of interblade dampers",
        2,
        "A rotor with {blades} blades has dampers between neighbouring blades, each with "
        "{interblade_damping} about the lag hinge. What lag damping do the cyclic lag motions "
        "find?",
        {
            "blades": Draw("5", "8", "1"),
            "interblade_damping": Draw("1000", "2000", "50", "N.m.s/rad"),
        },
        (Step("ground.damper.interblade_damper", "interblade_damper"),),
        ("500_N.m.s/rad", "5000_N.m.s/rad"),
        (
            "A damper between blades feels the difference of their motions.",
            "Neighbours are one blade spacing apart in phase: two times one less its cosine.",
        ),
        (
            Mistake("the factor of two is forgotten", times=0.5),
            Mistake(
                "neighbours are taken as a quarter of a turn apart, as with four blades",
                {"blades": "4"},
            ),
        ),
        "The same damper is worth less the more blades there are, and nothing when all lag "
        "together.",
    ),
    Exercise(
        "added_mass",
        "Effective hub mass from an added mass",
        2,
        "On its gear a helicopter sways at {frequency}. With {added_mass} fixed at the hub it "
        "sways at {with_mass}. What is the effective hub mass of the mode?",
        {
            "frequency": Draw("3.3", "3.6", "0.05", "Hz"),
            "with_mass": Draw("3.05", "3.2", "0.05", "Hz"),
            "added_mass": Draw("150", "250", "10", "kg"),
        },
        (
            Step(
                "ground.shake_test.added_mass",
                "added_mass",
                {"frequency_with_mass": "{with_mass}"},
            ),
        ),
        ("300_kg", "5000_kg"),
        (
            "The stiffness stays: mass times frequency squared is the same before and after.",
            "Solve for the mass that was there before.",
        ),
        (
            Mistake(
                "the frequencies are not squared",
                {"frequency": "{frequency:^0.5}", "with_mass": "{with_mass:^0.5}"},
            ),
            Mistake("the added mass is entered twice", {"added_mass": "{added_mass:*2}"}),
        ),
        "A small change of frequency is a difference of two near numbers: read both to a "
        "hundredth.",
        0.02,
    ),
    Exercise(
        "coalescence",
        "Coalescence speed",
        2,
        "The rotor below stands on a support with one lateral mode. At which rotor speed does the "
        "regressing lag mode meet the mode of the support? Use the form of the Deutsch criterion; "
        "the support mass is without the blades.",
        {
            **PLOVER,
            "lag_damping": "2000_N.m.s/rad",
            "support_mass": Draw("1300", "1600", "50", "kg"),
            "support_stiffness": Draw("580000", "700000", "10000", "N/m"),
            "support_damping": "4000_N.s/m",
        },
        (
            Step(
                "ground.criterion.damping_product",
                "coalescence",
                {"hub_mass": "without_blades"},
            ),
        ),
        ("180_rpm", "400_rpm"),
        (
            "The support's frequency counts with the mass of all blades on it.",
            "The regressing mode is rotor speed times one less the lag frequency ratio.",
        ),
        (
            Mistake("the mass of the blades is left out", {"blade_mass": "0.01_kg"}),
            Mistake("the support's frequency itself is given", asks="support_frequency"),
            Mistake("one blade is counted, not all", {"blade_mass": "{blade_mass:*0.25}"}),
        ),
        "The rotor meets its support well below nominal speed: each run-up goes through it.",
        0.006,
    ),
    Exercise(
        "damping_margin",
        "Margin of the Deutsch criterion",
        3,
        "With lag damping of {lag_damping} a blade and {support_damping} at the support, by which "
        "factor does the product of damping exceed what the criterion for one support mode asks "
        "for? Below 1 the aircraft is unstable by this estimate.",
        {
            **PLOVER,
            "lag_damping": Draw("1400", "2400", "100", "N.m.s/rad"),
            "support_damping": Draw("3000", "7000", "250", "N.s/m"),
            "support_mass": "1400_kg",
            "support_stiffness": "640000_N/m",
        },
        (
            Step(
                "ground.criterion.damping_product",
                "single_margin",
                {"hub_mass": "without_blades"},
            ),
        ),
        ("0.1", "3"),
        (
            "Find the coalescence and the lag frequency ratio there.",
            (
                "The product asked for goes with the square of the first moment and of the "
                "support's frequency."
            ),
        ),
        (
            Mistake("the criterion for both directions alike is taken", asks="isotropic_margin"),
            Mistake("the damping of all four lag dampers is put in for one", times=4.0),
        ),
        "Both dampings multiply: without either of them, the other is worth nothing.",
        0.02,
    ),
    Exercise(
        "required_damping",
        "Lag damping that a run-up needs",
        3,
        "The Plover stands on full weight. How much lag damping must each blade have so that no "
        "rotor speed up to the highest one is unstable? Use the form of the required lag damping "
        "with the numbers below.",
        {
            **PLOVER,
            "lag_damping": "2000_N.m.s/rad",
            "mass_x": "3000_kg",
            "mass_y": Draw("1350", "1500", "50", "kg"),
            "stiffness_x": "600000_N/m",
            "stiffness_y": Draw("600000", "680000", "20000", "N/m"),
            "damping_x": "6000_N.s/m",
            "damping_y": Draw("6000", "9000", "500", "N.s/m"),
            "lowest_speed": "40_rpm",
            "highest_speed": "400_rpm",
            "hub_mass": "without_blades",
        },
        (Step("ground.required_damping.required_lag_damping", "required_lag_damping"),),
        ("500_N.m.s/rad", "8000_N.m.s/rad"),
        (
            "More damping at the support asks for less at the blades.",
            "Enter every number; the answer is found by eigenvalues over the range of speed.",
        ),
        (
            Mistake("the damping of the support is halved", {"damping_y": "{damping_y:*0.5}"}),
            Mistake("the hub masses are entered as with the blades", {"hub_mass": "with_blades"}),
        ),
        "A damper lost is damping lost where it multiplies: the answer is the least, not the aim.",
        0.015,
    ),
)
