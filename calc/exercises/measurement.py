"""Exercises on measurement: units of a line, levels, unbalance and one plane of balance."""

from calc.exercises.exercise import Draw, Exercise, Mistake, Step

TWO_PI = 6.28318530718

EXERCISES = (
    Exercise(
        "velocity_to_displacement",
        "Double amplitude of a line read as velocity",
        2,
        "A once-per-revolution line of a rotor at {rotor_speed} is read as {velocity} peak. What "
        "is its displacement from peak to peak?",
        {
            "rotor_speed": Draw("330", "390", "6", "cpm"),
            "velocity": Draw("4", "9", "0.5", "mm/s"),
        },
        (
            Step(
                "measurement.levels.velocity_line",
                "measures.2.displacement",
                {"frequency": "{rotor_speed}", "measure": "peak"},
            ),
        ),
        ("0.1_mm", "0.8_mm"),
        (
            "Displacement is velocity over the angular frequency of the line, in rad/s.",
            "From peak to peak is twice the peak.",
        ),
        (
            Mistake("the single amplitude is given for the double one", times=0.5),
            Mistake("the frequency in Hz is put in as if it were rad/s", times=TWO_PI),
            Mistake(
                "the reading is taken as rms, which it is not",
                {"velocity": "{velocity:*1.41421356}"},
            ),
        ),
        "A reading needs three words besides its number: unit, measure and frequency.",
    ),
    Exercise(
        "rms_of_acceleration",
        "Acceleration of a line, peak and rms",
        1,
        "A line at {frequency} has {velocity} peak. What is its acceleration as rms?",
        {
            "frequency": Draw("18", "30", "0.5", "Hz"),
            "velocity": Draw("5", "15", "0.5", "mm/s"),
        },
        (
            Step(
                "measurement.levels.velocity_line",
                "measures.1.acceleration",
                {"measure": "peak"},
            ),
        ),
        ("0.3_m/s2", "2.5_m/s2"),
        (
            "Acceleration is velocity times the angular frequency, in rad/s.",
            "The rms of one steady line is its peak over the root of two.",
        ),
        (
            Mistake("the peak is given for the rms", times=1.41421356237),
            Mistake("the frequency in Hz is put in as if it were rad/s", times=1.0 / TWO_PI),
            Mistake("the peak is halved, as if by two and not by its root", times=0.70710678),
        ),
        "The root of two holds for one steady line alone, not for a record of many.",
    ),
    Exercise(
        "unbalance_force",
        "Force of a small mass on a propeller",
        1,
        "A mass of {mass} sits {radius} from the axis of a propeller that turns at {rotor_speed}. "
        "Which force turns with it?",
        {
            "mass": Draw("20", "80", "5", "g"),
            "radius": Draw("0.15", "0.25", "0.01", "m"),
            "rotor_speed": Draw("1000", "1250", "50", "rpm"),
        },
        (Step("measurement.residual_unbalance.unbalance_force", "unbalance_force"),),
        ("30_N", "400_N"),
        (
            "Mass times radius times the square of the speed of rotation.",
            "The speed counts in rad/s, and it is squared.",
        ),
        (
            Mistake(
                "the rotor speed in rpm is put in as if it were rad/s",
                {"rotor_speed": "{rotor_speed:rad/s}"},
            ),
            Mistake("the diameter is put in for the radius", {"radius": "{radius:*2}"}),
            Mistake(
                "revolutions per second are put in as rad/s",
                {"rotor_speed": "{rotor_speed:*0.0166666666667 rad/s}"},
            ),
        ),
        "Some grams pull as a weight of many kilograms: the speed counts twice.",
        0.012,
    ),
    Exercise(
        "permissible_unbalance",
        "Permissible unbalance of a rotor",
        2,
        "A fan wheel of {mass} turns at {rotor_speed} and is to be balanced to a grade of {grade}. "
        "How far from the axis may its centre of gravity stay?",
        {
            "mass": Draw("30", "45", "1", "kg"),
            "rotor_speed": Draw("1000", "1250", "50", "rpm"),
            "grade": Draw("2.5", "6.3", "3.8", "mm/s"),
        },
        (Step("measurement.residual_unbalance.permissible_unbalance", "eccentricity"),),
        ("0.015_mm", "0.07_mm"),
        (
            "The grade is the speed at which the centre of gravity may move round the axis.",
            "Divide by the speed of rotation in rad/s; the mass does not count here.",
        ),
        (
            Mistake(
                "the rotor speed in rpm is put in as if it were rad/s",
                {"rotor_speed": "{rotor_speed:rad/s}"},
            ),
            Mistake("the frequency in Hz is put in as if it were rad/s", times=TWO_PI),
        ),
        "A grade is the same speed for every rotor; what it allows in distance falls with rotor "
        "speed.",
    ),
    Exercise(
        "balance_one_plane",
        "Correction weight in one plane",
        3,
        "A propeller reads {before_amplitude} at {before_phase} without and {after_amplitude} at "
        "{after_phase} with a trial mass of {trial_mass}, which is then removed. How large is the "
        "correction mass at the same radius? Work with vectors, or use the form.",
        {
            "before_amplitude": Draw("7.0", "9.0", "0.2", "mm/s"),
            "before_phase": Draw("40", "70", "2", "deg"),
            "trial_mass": Draw("30", "50", "5", "g"),
            "after_amplitude": Draw("4.5", "6.5", "0.2", "mm/s"),
            "after_phase": Draw("100", "130", "2", "deg"),
        },
        (
            Step(
                "measurement.balance.single_plane",
                "correction_mass",
                {
                    "phase_shown": "lag",
                    "angle_counted": "against",
                    "trial_angle": "0_deg",
                    "trial_left": "removed",
                    "scatter": "0.1_mm/s",
                    "weight_limit": "150_g",
                },
            ),
        ),
        ("20_g", "100_g"),
        (
            "The trial mass changed the reading by a vector: subtract with amplitude and phase.",
            "Trial mass times the first amplitude over the size of that change.",
        ),
        (
            Mistake(
                "the amplitudes are subtracted and the phases left out",
                {"after_phase": "{before_phase}"},
            ),
            Mistake(
                "the readings with and without the trial mass are exchanged",
                {
                    "before_amplitude": "{after_amplitude}",
                    "before_phase": "{after_phase}",
                    "after_amplitude": "{before_amplitude}",
                    "after_phase": "{before_phase}",
                },
            ),
        ),
        "A reading is a vector: amplitudes that hardly differ may hide a large change.",
        0.015,
    ),
    Exercise(
        "half_power",
        "Damping from the half-power points",
        1,
        "A resonance peak of a shake test falls to its half power at {lower} and at {upper}. What "
        "is the damping ratio of the mode?",
        {
            "lower": Draw("2.90", "2.96", "0.01", "Hz"),
            "upper": Draw("3.04", "3.16", "0.01", "Hz"),
        },
        (
            Step(
                "measurement.response.half_power",
                "damping_ratio",
                {"block_length": "100_s", "window": "hann"},
            ),
        ),
        ("0.01", "0.06"),
        (
            "At half power the amplitude is the peak over the root of two.",
            "The width between the points, over twice the natural frequency, is the damping ratio.",
        ),
        (
            Mistake("the two in front of the natural frequency is forgotten", times=2.0),
            Mistake("half of the width is taken, and the two as well", times=0.5),
        ),
        "The loss factor is twice the damping ratio: a factor of two between two people who agree.",
        0.015,
    ),
    Exercise(
        "alias",
        "A line that is not where it stands",
        1,
        "A gear mesh at {frequency} is recorded at {sample_rate} without a filter. "
        "At which frequency does it stand in the spectrum?",
        {
            "frequency": Draw("1110", "1190", "5", "Hz"),
            "sample_rate": Draw("900", "1000", "20", "Hz"),
        },
        (Step("measurement.spectrum.aliased_frequency", "aliased_frequency"),),
        ("90_Hz", "300_Hz"),
        (
            "A spectrum ends at half the sampling rate; what lies above is folded down.",
            "Take the sampling rate off the frequency.",
        ),
        (
            Mistake("the line is taken to stand where it is", {"sample_rate": "{sample_rate:*4}"}),
            Mistake("half the sampling rate is taken off", {"sample_rate": "{sample_rate:*0.5}"}),
        ),
        "Change the sampling rate: a true line stays, a folded one moves.",
    ),
    Exercise(
        "late_pulse",
        "Phase from a late pulse",
        2,
        "The pulse of a tachometer comes {timing_error} late. By which angle is the phase of "
        "{order:bare}/rev wrong at {rotor_speed}?",
        {
            "timing_error": Draw("0.0010", "0.0030", "0.0001", "s"),
            "order": Draw("2", "4", "1", "/rev"),
            "rotor_speed": Draw("330", "390", "10", "rpm"),
        },
        (Step("measurement.orders.timing_phase_error", "timing_phase_error"),),
        ("2_deg", "30_deg"),
        (
            "The shaft turns on by rotor speed times the delay.",
            "The phase of an order counts its own cycles.",
        ),
        (
            Mistake("the phase of once per revolution is given", {"order": "1_/rev"}),
            Mistake(
                "revolutions per second are put in as rad/s",
                {"rotor_speed": "{rotor_speed:*0.0166666666667 rad/s}"},
            ),
        ),
        "A delay that does no harm at 1/rev turns a correction of a higher order by many degrees.",
    ),
)
