"""Exercises on the airframe: response of a mode, distance of a line from it, crossing it."""

from calc.exercises.exercise import Draw, Exercise, Mistake, Step

MODE_OVER_LINE = {
    "order": "1_/rev",
    "shaft_speed": "{natural_frequency:Hz}",
    "natural_frequency": "{shaft_speed:*0.0666666666667 Hz}",
}
"""The two frequencies of a 4/rev line and a mode exchanged."""

EXERCISES = (
    Exercise(
        "line_and_mode",
        "How far a rotor line is from a mode",
        1,
        "A rotor turns at {shaft_speed}; a mode of the airframe lies at {natural_frequency} with a "
        "damping ratio of {damping_ratio}. By how many per cent does {order:bare}/rev lie above "
        "the mode?",
        {
            "shaft_speed": Draw("340", "380", "5", "rpm"),
            "order": "4_/rev",
            "natural_frequency": Draw("18.0", "20.5", "0.1", "Hz"),
            "damping_ratio": "0.02",
        },
        (Step("airframe.separation.separation", "separation"),),
        ("8_pct", "45_pct"),
        (
            "Turn the line into Hz first.",
            (
                "Compare the line with the mode, not the mode with the line: frequency over "
                "natural frequency, less one."
            ),
        ),
        (
            Mistake("the line is taken as the base: mode over line, less one", MODE_OVER_LINE),
            Mistake(
                "it is counted how far the mode lies below the line, with the line as the base",
                MODE_OVER_LINE,
                times=-1.0,
            ),
            Mistake("once per revolution is taken for the line", {"order": "1_/rev"}),
        ),
        "Say of a separation which of the two is the base: the other way round gives another "
        "number.",
        0.03,
    ),
    Exercise(
        "amplification",
        "Amplification of a line near a mode",
        2,
        "A steady force at {forcing_frequency} acts on a mode with a natural frequency of "
        "{natural_frequency} and a damping ratio of {damping_ratio}. By which factor is its static "
        "displacement amplified?",
        {
            "forcing_frequency": Draw("23.0", "24.5", "0.1", "Hz"),
            "natural_frequency": Draw("20.8", "22.2", "0.1", "Hz"),
            "damping_ratio": Draw("0.02", "0.04", "0.005"),
            "force": "500_N",
            "modal_mass": "700_kg",
        },
        (Step("airframe.single_mode.mode_response", "amplification"),),
        ("2", "12"),
        (
            "Write the ratio of the frequencies; the force does not matter for the factor.",
            "Above the mode and away from its peak the factor is nearly one over r² − 1.",
        ),
        (
            Mistake(
                "the frequencies are exchanged in their ratio",
                {
                    "forcing_frequency": "{natural_frequency}",
                    "natural_frequency": "{forcing_frequency}",
                },
            ),
            Mistake(
                "the value at the peak, one over twice the damping ratio, is given",
                {"forcing_frequency": "{natural_frequency}"},
            ),
        ),
        "Away from the peak, distance and not damping sets the response.",
        0.02,
    ),
    Exercise(
        "double_amplitude",
        "Response to a force given peak to peak",
        2,
        "A shaker drives a mode of {modal_mass} modal mass at its natural frequency of "
        "{natural_frequency}; the damping ratio is {damping_ratio}. Its force is {peak_to_peak} "
        "peak to peak. What is the amplitude of the acceleration, from its mean to its peak?",
        {
            "modal_mass": Draw("600", "900", "50", "kg"),
            "natural_frequency": Draw("10", "20", "0.5", "Hz"),
            "damping_ratio": Draw("0.015", "0.035", "0.005"),
            "peak_to_peak": Draw("100", "300", "20", "N"),
        },
        (
            Step(
                "airframe.single_mode.mode_response",
                "acceleration",
                {"force": "{peak_to_peak:*0.5}", "forcing_frequency": "{natural_frequency}"},
            ),
        ),
        ("0.3_m/s2", "12_m/s2"),
        (
            "A single amplitude is half of what is given peak to peak.",
            (
                "At resonance the acceleration is force over mass, times one over twice the "
                "damping ratio."
            ),
        ),
        (
            Mistake(
                "the double amplitude is put in for the single one",
                {"peak_to_peak": "{peak_to_peak:*2}"},
            ),
            Mistake(
                "the root mean square of the force is put in for its amplitude",
                {"peak_to_peak": "{peak_to_peak:*0.70710678}"},
            ),
        ),
        "Amplitude, peak to peak and rms differ by factors of up to 2.8: say which, on both sides.",
        0.015,
    ),
    Exercise(
        "swept_share",
        "Crossing a mode in a run-up",
        3,
        "In a run-up the rotor's revolutions a second rise by {rotor_rate}. Its 2/rev line crosses "
        "a mode at {natural_frequency} with a damping ratio of {damping_ratio}. Which fraction of "
        "the steady resonant response is reached? Use the form of the transient response.",
        {
            "natural_frequency": Draw("5.0", "8.0", "0.2", "Hz"),
            "damping_ratio": Draw("0.02", "0.03", "0.005"),
            "rotor_rate": Draw("0.15", "0.4", "0.05", "Hz/s"),
        },
        (
            Step(
                "airframe.swept_mode.swept_share",
                "swept_share",
                {"sweep_rate": "{rotor_rate:*2}"},
            ),
        ),
        ("0.3", "0.98"),
        (
            (
                "The mode needs time to build up: compare the sweep rate with the square of its "
                "half-power bandwidth."
            ),
            "Twice per revolution sweeps twice as fast as the rotor; enter that rate.",
        ),
        (
            Mistake(
                "the rate of once per revolution is taken for that of 2/rev",
                {"rotor_rate": "{rotor_rate:*0.5}"},
            ),
            Mistake("the damping ratio is doubled", {"damping_ratio": "{damping_ratio:*2}"}),
        ),
        "A quick crossing shakes less than a dwell; a light mode gains most by it.",
        0.01,
    ),
)
