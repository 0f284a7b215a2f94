"""Card words: what stands on every ground-run card, whatever the aircraft.

The lists are common practice without a source; the test authority adapts them.
"""

from calc.survey.card.card import Card
from calc.survey.card.dwell import LEFT, LONGEST
from calc.survey.card.followed import HEAVY

DANGER = (
    "<p><strong>DANGER. Ground resonance destroys an aircraft within seconds. This card is "
    "analysis and approves nothing.</strong></p>"
    "<p>A rotor turns only under the approved test plan and the approved manuals, released step by "
    "step by the test authority, with a qualified crew, everybody else outside the danger area, "
    "and a way to stop that was tried before the first turn. In this run nobody lifts off to get "
    "out of it; tied down or tethered, that is deadly.</p>"
    "<p><strong>Anyone may call STOP; the pilot acts on it without discussion.</strong> Measured "
    "damping decides about each next step, never the prediction printed here.</p>"
    "<p><strong>Droop stops.</strong> A stir at a rotor speed at which the droop stops are in "
    "pounds them, and a blade that sails can strike the boom or people. No stir below the rotor "
    "speed at which droop and lag stops are known to be out, in run-up and run-down, however low "
    "the steps of this card begin.</p>"
)

RUN = ("Card number, issue", "Date, start and end", "Place, surface, slope", "Approved plan")

ROLES = (
    "Released by (test authority)",
    "Test conductor",
    "Pilot",
    "Vibration engineer",
    "Safety officer, ground crew",
)

CONFIGURATION = (
    "Aircraft, serial number",
    "Rotor head, hours",
    "Mass{mass}",
    "Centre of gravity",
    "Fuel, start",
    "Fuel, end",
    "Tyre pressure, left / right",
    "Tyre pressure, nose or tail",
    "Oleo pressure, left / right",
    "Oleo pressure, nose or tail",
    "Oleo extension, left / right",
    "Oleo extension, nose or tail",
    "Wind, gusts, direction to heading",
    "Air temperature, pressure",
    "Brakes, chocks, castors",
    "Restraint: free, tethered, tied down to",
    "Stability augmentation, off or on",
    "Damper and strut temperature",
    "Track and balance, last done",
    "Door, cowling, load changes",
)

ON_STOP = (
    "Stir, collective, cyclic, throttle: in which order",
    "Engines: which is shut down, when",
    "Rotor brake: from which rotor speed, or not at all",
    "Run-down: speeds not to dwell at, droop stops in below",
)

OF_BLADES = ("Blade serial", "Lag damper serial", "Damper rate or state", "Damper tested on")

EVERY = "the run needs every damper"

LIMITS = (
    "Hub or gearbox acceleration",
    "Cabin acceleration",
    "Lag angle, or lag damper load",
    "Mast bending",
    "Rotor speed, lowest and highest",
    "Rotor speed, held within{held}",
    "Droop and lag stops out above, rpm; no stir below",
    "Collective pitch, weight on the rotor",
    "Stick stir: amplitude, cycles",
    "Longest time at a step",
    "Wind and gusts",
    "Damper and strut temperature",
    "Engine and gearbox",
)

CHANNELS = (
    ("Rotor speed: one pulse per revolution", "every order; the mean revolution"),
    ("Propeller or tail rotor speed: pulse", "lines that do not follow the rotor"),
    ("Hub or gearbox acceleration, not rotating, longitudinal", "mode, direction, damping"),
    ("Hub or gearbox acceleration, not rotating, lateral", "mode, direction, damping"),
    ("Cabin acceleration, two directions", "what the crew feels"),
    ("Lag angle, three blades or more", "blade pattern; a blade that differs"),
    ("Lag damper load, each blade", "a damper that differs or fails"),
    ("Mast bending, two directions", "hub loads"),
    ("Strut strokes", "whether the struts move"),
    ("Stick, two directions, and collective", "input of the stir; coherence"),
    ("Damper and strut temperature", "the damping belongs to it"),
)

BEFORE = (
    (
        "Every lag damper inspected as the approved maintenance data asks; tyre and strut "
        "pressures written down."
    ),
    "The word for stop, its channel, and what the pilot does on it, briefed and tried.",
    "Telemetry seen by people who do not sit in the aircraft; every channel checked.",
    "Danger area clear, fire cover in place, wind inside its limit.",
    (
        "Rotor speed at which droop and lag stops are out, from the approved documents, written "
        "above the steps of each run. A step below it is not stirred, so that its damping is not "
        "measured: how the run passes it, or begins above it, is decided and signed before."
    ),
    (
        "Rotor speed can be held within what is printed at each step (±); where it cannot, the "
        "test authority decides before the run. The speed that was held is written down."
    ),
    "Track and balance inside their limits: steps lie where 1/rev is on a mode.",
)

KNOWN = (
    (
        "The steps are planned on the hub data of the sheet, two directions, with the rules that "
        "the form of the ground-run plan starts with; the test authority sets its own there."
    ),
    (
        "Measured modes of the sheet can only end a run earlier. Air and flap, pitch and lag "
        "coupling, a flexible drive and stability augmentation are in neither."
    ),
    (
        "A mode keeps its letter and its place through a run: its frequency and damping go on "
        "without a jump as rotor speed rises. Beside the letter stands where its kinetic energy "
        "is at that step, in lag of the blades or in longitudinal or lateral motion of the hub; "
        "this changes where two frequencies come near each other. A run has the modes that are "
        "the least damped at any of its steps, or have up to twice that damping; where one of "
        f"them has more than that and more than {HEAVY:.0%} of critical, it is not read."
    ),
    (
        "Damping measured at a step decides about the next. If it is not as predicted, the "
        "prediction is put right first, and the card made again."
    ),
)

TIMES = (
    (
        f"Settling: until a transient has decayed to {LEFT:.0%}, ln(1/{LEFT:g}) / (2π ζ f), at the "
        "damping ratio at the bad end and at the lowest of the frequencies followed, less its "
        "uncertainty."
    ),
    (
        "Record: one decay of that length after the stir, or three bins of a Hann window between a "
        "followed mode and the next mode or any expected line, whichever is longer. Zero padding "
        "does not help."
    ),
    (
        "The time of the stir itself comes on top: it is in the approved plan, and the same at "
        "every step."
    ),
    (
        f"A mode nearer to a line than a record of {LONGEST:.0f} s tells apart is named: take the "
        "mean revolution out before the decay is read."
    ),
    (
        "The crew holds a step for the time printed there. The last column of the expected lines "
        "is no time for the crew: it is the record that would tell the nearest two lines apart, "
        "for whoever reads these lines; a shorter record shows them as one."
    ),
    (
        "± at a rotor speed is half the distance to the nearest step of the run, so that no two "
        "steps overlap; how nearly the aircraft can be held is not known here."
    ),
    (
        "1/rev on a mode: once per revolution is within its half-power bandwidth, the damping "
        "ratio to either side of the frequency. The response to imbalance is near its peak: the "
        "amplitude limit decides, and the hold is no longer than the time printed."
    ),
    "A drifting rotor speed smears every line: resample the record over the pulse.",
    "Three bins, one per cent, and the longest record are common practice, no source.",
)


def stops(found: Card) -> list[str]:
    """Return the stop criteria of a card in numbers."""
    one = found.states[0].stop
    light = [state.planned.name for state in found.states if state.is_light and state.steps]
    weight = f"More than {one.lift:.0%} of the weight is on the rotor ({', '.join(light)})."
    return [
        "STOP is called by anyone, for whatever reason.",
        (
            "A measured damping ratio is below “stop below” of its step, for any lettered mode; "
            f"any mode is below {one.damping_ratio:.1%} of critical, or below "
            f"{one.ratio:.0%} of what is predicted for it."
        ),
        (
            "A measured frequency is off the one predicted for the mode of its letter by more than "
            f"{one.frequency:.0%}."
        ),
        "The amplitude passes its limit, or does not fall when the stir stops.",
        (
            f"The next step is more than {one.trend:.0%} of the way to where a straight line "
            "through the damping ratios of the mode of one letter at the last three steps reaches "
            f"zero, or within {one.trend_clear:.0%} of that speed. It is “zero at” in the step."
        ),
        *([weight] if light else []),
        "The coherence of stick and response is below 0.9 at a mode: its damping is not used.",
        (
            "A limit of the day is met, wind or gusts leave theirs, or a channel, the telemetry or "
            "the radio that the step needs is lost."
        ),
        (
            "A reading is not understood; more damping than predicted is no reserve. A repeat in "
            "the hope of a better number is no result."
        ),
        "A step would be left out, taken out of order, or is not on this card.",
    ]
