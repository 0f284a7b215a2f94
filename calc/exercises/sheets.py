"""Sheets: chosen exercises on paper, a variant a learner, with a key and a table of the answers.

A sheet depends on its exercises, seed and variants alone.  A digest of each exercise goes into the
link of the sheets, so that a later release can say what it would print otherwise.
"""

import hashlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from html import escape

from calc import VERSION
from calc.digits import significant
from calc.exercises.book import exercise, page_of
from calc.exercises.in_html import given, mistakes_html, question_html, solution_html
from calc.exercises.judging import in_words, within
from calc.exercises.posing import Posed, posed
from calc.form.calculation import NOTICE
from calc.spreadsheet import rows_of
from calc.survey.printed import page

MOST_EXERCISES = 20
MOST_VARIANTS = 60
LARGEST_SEED = 9_999_999
LONGEST_TITLE = 80
PAPERS = ("A4", "Letter")
DIGEST = 6
"""Hexadecimal digits of a digest in a link."""

GROUND = (
    "Ground resonance can destroy an aircraft within seconds. No answer here says that a rotor may "
    "turn: approved manuals and a qualified crew decide."
)
CAUTIONS: Mapping[str, str] = {
    "ground": GROUND,
    "cases": GROUND,
    "measurement": "A weight that comes off a running rotor is a projectile. Weights and their "
    "places are those of the approved procedure.",
    "flight": "No rotor speed, airspeed or time here is that of an aircraft: the approved flight "
    "manual decides.",
}
"""What stands on top of a sheet with exercises of a chapter."""

STYLE = """
.sheet{break-after:page}.sheet:last-child{break-after:auto}
.exercise{break-inside:avoid;margin:1.2rem 0}.key .exercise{break-inside:auto}
.exercise h3{margin:.4rem 0}.blank{border-bottom:1px solid #1b2733;display:inline-block}
.answer-line{margin:.8rem 0}.room{height:2.6cm}.small{font-size:8.5pt;color:#475467}
.step{margin:.25rem 0}.step math{font-size:1rem;display:inline math}
.remark{margin-left:1rem;color:#475467}
details>summary{font-weight:600}
"""


@dataclass(frozen=True, slots=True)
class Order:
    """What an instructor orders: exercises by key, seed, number of variants, title and paper."""

    keys: tuple[str, ...]
    seed: int
    variants: int
    title: str = ""
    paper: str = PAPERS[0]

    def __post_init__(self) -> None:
        """Refuse what cannot be printed."""
        if not 1 <= len(self.keys) <= MOST_EXERCISES or len(set(self.keys)) < len(self.keys):
            raise ValueError(f"Choose 1 to {MOST_EXERCISES} exercises, each once")
        for key in self.keys:
            exercise(key)
        if not _is_whole(self.seed) or not 1 <= self.seed <= LARGEST_SEED:
            raise ValueError(f"The seed is a whole number from 1 to {LARGEST_SEED}")
        if not _is_whole(self.variants) or not 1 <= self.variants <= MOST_VARIANTS:
            raise ValueError(f"The number of variants is a whole number from 1 to {MOST_VARIANTS}")
        if len(self.title) > LONGEST_TITLE or not self.title.isprintable():
            raise ValueError(f"The title has at most {LONGEST_TITLE} characters, on one line")
        if self.paper not in PAPERS:
            raise ValueError(f"The paper is {' or '.join(PAPERS)}")

    @property
    def heading(self) -> str:
        """The title of the sheets."""
        return self.title.strip() or "Exercises"

    def of(self, variant: int) -> list[Posed]:
        """Return the exercises of a variant, counted from 1."""
        return [posed(key, seed_of(self.seed, variant)) for key in self.keys]


def seed_of(seed: int, variant: int) -> int:
    """Return the seed of the exercises of a variant: the seed of the sheets and two digits.

    Examples:
        >>> seed_of(7, 3)
        703
    """
    return 100 * seed + variant


def sheet_page(order: Order) -> str:
    """Return the sheets of all variants as one page, the same bytes for the same order."""
    parts = [_sheet(order, variant) for variant in range(1, order.variants + 1)]
    return page(order.heading, parts, _foot(order), STYLE + _paper(order))


def key_page(order: Order) -> str:
    """Return the key: every answer with its working and what the usual mistakes would give."""
    parts = [
        (
            f"<h1>{escape(order.heading)}: key</h1>"
            f"<p>Seed {order.seed}, {order.variants} variants. "
            f"Rotorcraft vibration handbook {VERSION}. {NOTICE}</p>"
        )
    ]
    parts += [_key(order, variant) for variant in range(1, order.variants + 1)]
    return page(f"{order.heading}: key", parts, f"Key. {_foot(order)}", STYLE + _paper(order))


def key_csv(order: Order) -> str:
    """Return the answers of all variants as comma-separated values."""
    rows = [
        ["variant", "number", "exercise", "title", "seed", "answer", "from", "to", "unit"],
    ]
    for variant in range(1, order.variants + 1):
        for number, found in enumerate(order.of(variant), 1):
            unit = found.quantity.units[0]
            spread = abs(found.answer) * found.exercise.tolerance
            values = (found.answer, found.answer - spread, found.answer + spread)
            rows.append(
                [
                    *(str(variant), str(number), found.exercise.key, found.exercise.title),
                    str(found.seed),
                    *(f"{unit.reading(value):.6g}" for value in values),
                    unit.name,
                ]
            )
    return rows_of(rows, "\n")


def digests(order: Order) -> dict[str, str]:
    """Return for each exercise a digest of its questions and one of its answers."""
    found: dict[str, tuple[list[str], list[str]]] = {key: ([], []) for key in order.keys}
    for variant in range(1, order.variants + 1):
        for one in order.of(variant):
            questions, answers = found[one.exercise.key]
            questions.append(_asked(one))
            answers.append(f"{significant(one.answer)} {one.exercise.tolerance}")
    return {
        key: f"{_digest(questions)}.{_digest(answers)}"
        for key, (questions, answers) in found.items()
    }


def changed(order: Order, linked: Mapping[str, str]) -> list[str]:
    """Return what would be printed otherwise than when a link with digests was made."""
    said = []
    for key, now in digests(order).items():
        then = linked.get(key, "")
        if not then or then == now:
            continue
        title = exercise(key).title
        question, _, answer = then.partition(".")
        if question != now.partition(".")[0]:
            said.append(f"{title}: the question or its numbers are others than in the link")
        if answer != now.partition(".")[2]:
            said.append(f"{title}: the answer or its tolerance is another than in the link")
    return said


def _is_whole(value: object) -> bool:
    return isinstance(value, int) and not isinstance(value, bool)


def _asked(found: Posed) -> str:
    """Return all that a question says, as text."""
    listed = [f"{declaration.label}: {value}" for declaration, value in given(found)]
    return "\n".join([found.said(found.exercise.text), *listed])


def _digest(texts: Sequence[str]) -> str:
    return hashlib.sha256("\n".join(texts).encode()).hexdigest()[:DIGEST]


def _sheet(order: Order, variant: int) -> str:
    blank = '<span class="blank" style="width:{}cm"></span>'.format
    head = (
        f"<h1>{escape(order.heading)}</h1><p>Variant {variant} of seed {order.seed} &emsp; "
        f"Name {blank(7)} &emsp; Date {blank(3)}</p>"
        f'<p class="small">{NOTICE}</p>'
    )
    parts = []
    for number, found in enumerate(order.of(variant), 1):
        parts.append(
            f'<div class="exercise"><h3>{number}. {escape(found.exercise.title)}</h3>'
            f'{question_html(found)}<div class="room"></div>'
            f'<p class="answer-line">Answer {blank(4)} unit {blank(2)}{escape(within(found))}</p>'
            f'<p class="small">Check it: {address_of(found)}</p></div>'
        )
    cautions = dict.fromkeys(
        CAUTIONS[chapter] for key in order.keys if (chapter := page_of(key)) in CAUTIONS
    )
    caution = "".join(f'<p class="caution">{escape(text)}</p>' for text in cautions)
    return f'<section class="sheet">{head}{caution}{"".join(parts)}</section>'


def _key(order: Order, variant: int) -> str:
    parts = [
        f'<div class="exercise"><h3>{number}. {escape(found.exercise.title)}: '
        f"{escape(in_words(found))}</h3>"
        f"{question_html(found)}{solution_html(found)}{mistakes_html(found)}</div>"
        for number, found in enumerate(order.of(variant), 1)
    ]
    return f'<section class="sheet key"><h2>Variant {variant}</h2>{"".join(parts)}</section>'


def address_of(found: Posed) -> str:
    """Return where an exercise with its numbers stands, from the top of the handbook."""
    key = found.exercise.key
    return f"exercises/{page_of(key)}.html#{key}={found.seed}"


def _foot(order: Order) -> str:
    return f"{order.heading}. Seed {order.seed}. Rotorcraft vibration handbook"


def _paper(order: Order) -> str:
    return f"@page{{size:{order.paper}}}"
