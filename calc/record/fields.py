"""Fields: what a reader can ask of a record, view by view, and how an entry is read."""

from collections.abc import Mapping
from typing import Any, NamedTuple

from calc.declaration import Choice, Declaration, Name
from calc.form.reading import checked
from calc.measurement.quantities import OVERLAP, WINDOW
from calc.measurement.read_spectrum import ABOVE_HALF, FILTERED
from calc.quantity import Quantity
from calc.units import FREQUENCY, PERCENT, SHARE, TIME

MEASURES = {"peak": "peak", "rms": "rms", "peak_to_peak": "peak to peak"}
SHOWN_AS = {
    "recorded": "as recorded",
    "acceleration": "acceleration",
    "velocity": "velocity",
    "displacement": "displacement",
}
SCALES = {"linear": "linear", "log": "logarithmic"}
SOURCES = {
    "none": "no drive train",
    "sheet": "the data sheet kept here",
    "form": "the form Forcing frequencies, as kept here",
    "example": "the example drive train of the Plover",
}
SPEEDS = {"measured": "as measured in the record", "entered": "as entered there"}
OVER = {"speed": "rotor speed", "time": "time"}
MEANS = {"removed": "taken out", "kept": "left in"}

_PER_CENT = (PERCENT, SHARE[0])


class Entry(NamedTuple):
    """A field of a view, with the text it starts with; `empty` says what an empty one means."""

    name: str
    declaration: Declaration
    start: str = ""
    empty: str = ""


class View(NamedTuple):
    """A view: its title, what it is for, its fields, and the two of them that zoom changes."""

    title: str
    purpose: str
    entries: tuple[Entry, ...]
    zoom: tuple[str, str] | None = None
    opened: bool = False


class EntryProblem(NamedTuple):
    """Why the entry of a field is not understood."""

    field: str
    message: str


def read(
    entries: tuple[Entry, ...], given: Mapping[str, str]
) -> tuple[dict[str, Any], list[EntryProblem]]:
    """Return the values of the fields of a view in SI units, and what is wrong with entries.

    A field that may be empty, and is, has None.
    """
    values: dict[str, Any] = {}
    problems = []
    for name, declaration, start, empty in entries:
        typed = given.get(name, start).strip()
        if empty and not typed:
            values[name] = None
            continue
        try:
            values[name] = checked(declaration, typed).value
        except ValueError as error:
            problems.append(EntryProblem(name, f"{error}."))
    return values, problems


def _choice(name: str, label: str, options: Mapping[str, str]) -> Entry:
    return Entry(name, Choice(label, options), next(iter(options)))


FROM = Entry("start", Quantity("", "From", TIME, at_least=0.0), empty="beginning")
TO = Entry("end", Quantity("", "To", TIME, above=0.0), empty="end")
LOW = Entry("low", Quantity("", "Lowest frequency", FREQUENCY, at_least=0.0), empty="0")
HIGH = Entry("high", Quantity("", "Highest frequency", FREQUENCY, above=0.0), empty="half the rate")
WINDOW_ENTRY = Entry("window", WINDOW, next(iter(WINDOW.options)))
BLOCK = Entry("block", Quantity("", "Length of a block", TIME, above=0.0), empty="the stretch")
SHORT_BLOCK = Entry("block", Quantity("", "Length of a block", TIME, above=0.0), "2")
OVERLAP_ENTRY = Entry("overlap", OVERLAP, "0.5")
MEASURE = _choice("measure", "Measure", MEASURES)
SHOWN = _choice("shown", "Shown as", SHOWN_AS)
SCALE = _choice("scale", "Scale of amplitude", SCALES)
THRESHOLD = Entry(
    "threshold", Quantity("", "Peaks above, of the largest", _PER_CENT, above=0.0, below=1.0), "5"
)
LINES = _choice("lines", "Expected lines of", SOURCES)
SPEED = _choice("speed", "Speed of the reference shaft", SPEEDS)
SPEED_ACCURACY = Entry(
    "speed_accuracy",
    Quantity("", "Accuracy of the speed, ±", _PER_CENT, at_least=0.0, at_most=0.5),
    "0.1",
)
ABOVE = Entry("above_half", ABOVE_HALF, FILTERED)
ORDERS = Entry("orders", Name("Orders", "1, 2, 3, 4, 8"), "1, 2, 3, 4, 8")
AVERAGED = _choice("averaged", "Over", OVER)
MODE = Entry(
    "frequency", Quantity("", "Frequency of the mode", FREQUENCY, above=0.0), empty="found"
)

STIMULUS = Entry("stimulus", Name("Stimulus, stick or force", longest=200), empty="choose one")
STIR_BLOCK = Entry("block", Quantity("", "Length of a block", TIME, above=0.0), "5")
BAND_LOW = Entry("band_low", Quantity("", "Mode from", FREQUENCY, above=0.0), empty="no mode")
BAND_HIGH = Entry("band_high", Quantity("", "Mode to", FREQUENCY, above=0.0), empty="no mode")
MEAN = _choice("mean", "Mean of the stretch", MEANS)

COMMON = (FROM, TO, MEAN)
"""Fields of all views, beside the channel: the stretch of the record that is looked at."""

VIEWS: dict[str, View] = {
    "history": View(
        "Time history",
        "Largest and smallest value in each step of the drawing.",
        (),
        ("start", "end"),
        opened=True,
    ),
    "spectrum": View(
        "Spectrum",
        "Amplitude of each line; averaged over blocks where they are shorter than the stretch.",
        (WINDOW_ENTRY, BLOCK, OVERLAP_ENTRY, SHOWN, MEASURE, SCALE, LOW, HIGH, THRESHOLD),
        ("low", "high"),
        opened=True,
    ),
    "peaks": View(
        "Peaks explained",
        "Each peak by one expected line, several, or none; and the lines that are missing.",
        (WINDOW_ENTRY, BLOCK, OVERLAP_ENTRY, LOW, HIGH, THRESHOLD, SPEED_ACCURACY, ABOVE),
    ),
    "orders": View(
        "Orders",
        "Amplitude and phase at whole orders of the shaft with the tachometer.",
        (ORDERS, MEASURE),
    ),
    "waterfall": View(
        "Waterfall",
        "Spectra of short blocks over rotor speed or time.",
        (AVERAGED, WINDOW_ENTRY, SHORT_BLOCK, MEASURE, LOW, HIGH),
        ("low", "high"),
    ),
    "decay": View(
        "Decay",
        "Frequency and damping of the free decay in the stretch From to To.",
        (MODE,),
    ),
    "response": View(
        "Response",
        "Response of the channel to a stimulus, with coherence, and the damping of a mode in it.",
        (STIMULUS, WINDOW_ENTRY, STIR_BLOCK, OVERLAP_ENTRY, LOW, HIGH, BAND_LOW, BAND_HIGH),
    ),
}

TRAIN = (LINES, SPEED)
"""Fields about the expected lines, for the views that show them."""
