"""What each topic was checked against, as pages print it: printed numbers and methods."""

from collections.abc import Sequence

from calc.catalogue import FORMULAS, entry
from scripts.cases import Case, cases, compared, methods, topic_of, topics
from scripts.environment import ROOT
from scripts.references import cite, page_link


def checked(topic: str) -> str:
    """Return what a topic was checked against: published cases, or that there are none; methods."""
    found = cases(topic)
    forms = [name for name in FORMULAS if topic_of(name) == topic]
    bare = [entry(name).title for name in forms if name not in compared()]
    parts = []
    if found:
        head = "| Source | Case | Printed | Computed here | Difference | Allowed |"
        rows = [head, "| - | - | -: | -: | -: | - |", *map(_case_row, found)]
        parts.append("\n".join(rows))
    if bare and len(bare) == len(forms):
        parts.append(_WITHOUT_CASE if not found else _DEFINITIONS_ALONE)
    elif bare:
        parts.append(f"No published case could be read for: {', '.join(bare)}.")
    if methods(topic):
        parts.append("Checked by independent methods:")
        parts.append("\n".join(f"- {method}" for method in methods(topic)))
    return "\n\n".join(parts)


def every_check() -> str:
    """Return what every topic with a form was checked against, one section a topic."""
    parts = []
    for topic in sorted({*map(topic_of, FORMULAS), *topics()}):
        found = checked(topic).replace("(../", "(")
        head = f"### {page_link(_title(topic), f'{topic}.html')} {{ data-search-exclude }}"
        parts.append(f"{head}\n\n{found}")
    return "\n\n".join(parts)


def _title(topic: str) -> str:
    """Return the title of a topic's page."""
    lines = (ROOT / "docs" / f"{topic}.md").read_text(encoding="utf-8").splitlines()
    return next(line.removeprefix("# ") for line in lines if line.startswith("# "))


def coverage() -> str:
    """Return how many calculators are compared with print, by chapter, and how many are not."""
    rows = [
        "| Chapter | Calculators | Compared with print | By independent methods alone |",
        "| - | -: | -: | -: |",
    ]
    chapters = dict.fromkeys(name.partition(".")[0] for name in FORMULAS)
    for chapter in chapters:
        names = [name for name in FORMULAS if name.startswith(f"{chapter}.")]
        rows.append(_coverage_row(chapter.capitalize(), names))
    rows.append(_coverage_row("**All**", list(FORMULAS)))
    return "\n".join(rows)


def tally() -> str:
    """Return the published cases by kind: how each printed value was obtained."""
    found = [case for topic in topics() for case in cases(topic)]
    rows = ["| Printed value | Cases |", "| - | -: |"]
    for status, words in _KINDS.items():
        count = sum(case.status == status and not case.definition for case in found)
        rows.append(f"| {words} | {count} |")
    restated = sum(case.definition for case in found)
    if restated:
        rows.append(f"| puts numbers into a definition; not counted as a check | {restated} |")
    return "\n".join(rows)


def _case_row(case: Case) -> str:
    given = case.given or "; ".join(
        f"{name.replace('_', ' ')} {typed}" for name, typed in case.inputs.items()
    )
    label = case.quantity.label[0].lower() + case.quantity.label[1:]
    text = f"{given} → {label}"
    remarks = "; ".join(filter(None, _remarks(case)))
    case_text = f"{text} ({remarks})" if remarks else text
    allowed = f"{case.tolerance}: {case.reason}" if case.tolerance else "last digit"
    return (
        f"| {cite(case.source)}, {case.where} | {case_text} | {case.printed} "
        f"| {case.ours} | {case.difference} | {allowed} |"
    )


def _coverage_row(title: str, names: Sequence[str]) -> str:
    with_case = sum(name in compared() for name in names)
    return f"| {title} | {len(names)} | {with_case} | {len(names) - with_case} |"


_WITHOUT_CASE = "No published case could be read: nothing here is compared with print."
_DEFINITIONS_ALONE = (
    "These cases put numbers into a definition, which is no check of a formula: "
    "no other published case could be read."
)

_KINDS = {
    "read": "read in the work itself",
    "secondary": "read in a work that quotes it",
    "memory": "from memory, and confirmed by an independent method",
}


def _remarks(case: Case) -> list[str]:
    """Return what a reader must know of a case besides its numbers."""
    said = {"read": "", "secondary": "printed value read in a work that quotes it"}
    return [
        said.get(case.status, "from memory; confirmed by a method named below"),
        "a definition with numbers put in; not counted" if case.definition else "",
        f"note: {case.note}" if case.note else "",
    ]
