"""What the pages of the exercises ask: an exercise for a seed, an answer judged, sheets."""

from collections.abc import Mapping, Sequence

from calc.exercises.in_html import hints_html, question_html, solution_html
from calc.exercises.judging import Judgement, judged
from calc.exercises.posing import posed
from calc.exercises.sheets import Order, changed, digests, key_csv, key_page, sheet_page


def asked(key: str, seed: int, root: str = "../") -> dict[str, str | list[str]]:
    """Return the question, the hints and the solution of an exercise for a seed, as HTML.

    Raises:
        ValueError: If there is no such exercise or seed.
    """
    found = posed(key, seed)
    return {
        "question": question_html(found),
        "hints": hints_html(found),
        "solution": solution_html(found, root),
    }


def answered(key: str, seed: int, typed: str) -> Judgement:
    """Return what is to be said of an answer.

    Raises:
        ValueError: If the answer is no number with a unit, or there is no such exercise or seed.
    """
    return judged(posed(key, seed), typed)


def prepared(keys: Sequence[str], seed: int, variant: int) -> int:
    """Compute the exercises of one variant ahead, so that a page can show its progress."""
    return len(Order(tuple(keys), seed, variant).of(variant))


def printed(
    order: Mapping[str, object], linked: Mapping[str, str]
) -> dict[str, str | list[str] | dict[str, str]]:
    """Return the sheets, their key, the answers as CSV, digests, and what differs from a link.

    Args:
        order: The fields of an `Order`; `keys` is a list.
        linked: Digests of exercises that a link brought, by key.

    Raises:
        ValueError: If the order cannot be printed.
    """
    keys = order.get("keys")
    wanted = Order(
        tuple(map(str, keys)) if isinstance(keys, list) else (),
        *(order.get("seed"), order.get("variants")),  # type: ignore[arg-type]  # Order checks them
        str(order.get("title", "")),
        str(order.get("paper", "")),
    )
    return {
        "sheet": sheet_page(wanted),
        "key": key_page(wanted),
        "csv": key_csv(wanted),
        "digests": digests(wanted),
        "changed": changed(wanted, linked),
    }
