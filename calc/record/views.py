"""Views: what a page asks to see of the record that it has read, and what it takes away of it."""

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from calc.declaration import Choice
from calc.quantity import InputsError
from calc.record.decay import decay
from calc.record.explained import peaks
from calc.record.fields import COMMON, TRAIN, VIEWS, Entry, EntryProblem, read
from calc.record.history import history
from calc.record.look import Look, look
from calc.record.response import response
from calc.record.shown import Seen, csv, html, text
from calc.record.spectra import spectrum
from calc.record.turning import orders, waterfall

SEEN: Mapping[str, Callable[[Look], Seen]] = {
    "history": history,
    "spectrum": spectrum,
    "peaks": peaks,
    "orders": orders,
    "waterfall": waterfall,
    "decay": decay,
    "response": response,
}


def shown(view: str, entries: Mapping[str, str], kept: Mapping[str, Any]) -> dict[str, Any]:
    """Return what a view shows: HTML and a sentence, or the problems of its fields.

    Args:
        view: The name of the view.
        entries: What its fields and those of all views hold, and the `channel`.
        kept: The drive train that the browser keeps, as `expected` takes it.

    Raises:
        ValueError: If there is nothing to show, in words for the reader.
    """
    values, problems = read(_fields(view), entries)
    if problems:
        return _refused(problems)
    try:
        seen = SEEN[view](look(entries, values, kept))
    except InputsError as error:  # the sentence once, and every field that it is about
        first, *others = error.inputs
        return _refused([EntryProblem(first, f"{error}."), *(EntryProblem(n, "") for n in others)])
    return {"html": html(seen, f"record-{view}"), "words": f"{seen.sentence}.", "problems": []}


def taken(view: str, entries: Mapping[str, str], kept: Mapping[str, Any], kind: str) -> str:
    """Return what is taken away of a view.

    Args:
        view: The name of the view.
        entries: As `shown` takes them.
        kept: As `shown` takes it.
        kind: `text` or `markdown` to paste, `csv` or `svg` for a file.

    Raises:
        ValueError: If a field is wrong, or there is nothing to show.
    """
    values, problems = read(_fields(view), entries)
    if problems:
        raise ValueError(" ".join(problem.message for problem in problems))
    looked = look(entries, values, kept)
    seen = SEEN[view](looked)
    if kind == "svg":
        if seen.chart is None:
            raise ValueError("There is no figure")
        return seen.chart.file()
    about = [("File", looked.record.name), ("Channel", looked.channel.name)]
    about += [(f.declaration.label, _entered(f, entries)) for f in _fields(view)]
    return csv(seen, about) if kind == "csv" else text(seen, about, kind)


def _fields(view: str) -> tuple[Entry, ...]:
    return (*COMMON, *TRAIN, *VIEWS[view].entries)


def _entered(f: Entry, entries: Mapping[str, str]) -> str:
    typed = entries.get(f.name, f.start).strip()
    if isinstance(f.declaration, Choice):
        return f.declaration.options.get(typed, typed)
    units = getattr(f.declaration, "units", ())
    return f"{typed} {units[0].name}".strip() if typed and units else typed or f.empty


def _refused(problems: Sequence[EntryProblem]) -> dict[str, Any]:
    told = [{"field": problem.field, "message": problem.message} for problem in problems]
    return {"html": "", "words": "", "problems": told}
