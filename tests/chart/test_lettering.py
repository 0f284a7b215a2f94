"""Labels: none overlaps another."""

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from calc.chart.lettering import Lettering, around, best, shifted, spread, width, wrapped

AREA = (0.0, 0.0, 640.0, 400.0)


@given(
    st.lists(st.tuples(st.floats(-50.0, 450.0), st.floats(5.0, 60.0)), max_size=9),
)
def test_spread_labels_keep_their_order_and_do_not_overlap(
    labels: list[tuple[float, float]],
) -> None:
    """In any order given, those above stay above, inside the range, without overlap."""
    places = [place for place, _ in labels]
    sizes = [size for _, size in labels]
    moved = spread(places, sizes, 0.0, 600.0)

    order = sorted(range(len(places)), key=lambda i: places[i])
    for i, j in pairwise(order):
        assert moved[j] - moved[i] >= (sizes[i] + sizes[j]) / 2.0 - 1e-6
    assert all(
        s / 2.0 - 1e-6 <= m <= 600.0 - s / 2.0 + 1e-6 for m, s in zip(moved, sizes, strict=True)
    )


def test_labels_with_room_stay_where_they_are() -> None:
    """Nothing moves without need."""
    assert spread([10.0, 50.0, 90.0], [20.0, 20.0, 20.0], 0.0, 100.0) == [10.0, 50.0, 90.0]


def test_labels_in_one_place_move_as_little_as_it_takes() -> None:
    """None is preferred: two part evenly, and of three the middle one stays."""
    assert spread([50.0] * 2, [20.0] * 2, 0.0, 100.0) == [40.0, 60.0]
    assert spread([50.0] * 3, [20.0] * 3, 0.0, 100.0) == [30.0, 50.0, 70.0]


def test_too_many_labels_share_the_room() -> None:
    """They overlap by equal shares rather than leave the figure."""
    moved = spread([50.0] * 4, [50.0] * 4, 0.0, 100.0)

    assert moved == [12.5, 37.5, 62.5, 87.5]


@given(st.text(st.characters(codec="ascii", categories=("L", "Zs")), max_size=80))
def test_wrapped_text_keeps_its_words(text: str) -> None:
    """Lines are within the width unless one word alone is wider."""
    lines = wrapped(text, 100.0)

    assert " ".join(lines).split() == text.split()
    assert all(width(line) <= 100.0 or " " not in line for line in lines)


def test_best_place_avoids_labels_before_lines() -> None:
    """A place over a line is worse than a free one, a place over a label worse than over a line."""
    right, left, above, below = around(320.0, 200.0, 10.0, "label")
    line = {(column, 25) for column in range(40, 80)}

    assert best([right, left], [], line, AREA) == left
    assert best([right, left], [left], line, AREA) == right
    assert best([right, left, above, below], [right, left, above], set(), AREA) == below


def test_best_place_stays_in_the_area() -> None:
    """At the right edge a label goes to the left."""
    choices = around(630.0, 200.0, 10.0, "label")

    assert best(choices, [], set(), AREA) == choices[1]


def test_shifted_labels_do_not_overlap() -> None:
    """Neighbouring rows are a line apart."""
    first, second = shifted(Lettering(0.0, 0.0, ("label",)), (0, 1))

    assert not first.overlaps(second)
    assert first.overlaps(first)


def test_text_is_escaped() -> None:
    """A label is text, never markup."""
    assert "&lt;b&gt;" in Lettering(0.0, 0.0, ("<b>",)).svg()
