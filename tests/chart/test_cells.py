"""Maps: large rectangles that cover exactly the cells of each class."""

from hypothesis import given
from hypothesis import strategies as st

from calc.chart import Axis, Cells, Chart

ROWS = st.integers(1, 9).flatmap(
    lambda wide: st.lists(
        st.lists(st.integers(0, 3), min_size=wide, max_size=wide), min_size=1, max_size=9
    )
)
CLASSES = ("clear", "far", "near", "on a mode")


def of(rows: list[list[int]]) -> Cells:
    """Return a map whose edges are whole numbers."""
    edges_x = [float(i) for i in range(len(rows[0]) + 1)]
    edges_y = [float(j) for j in range(len(rows) + 1)]
    return Cells(edges_x, edges_y, rows, CLASSES, hatched=(3,))


@given(ROWS)
def test_rectangles_cover_each_cell_once_and_blank_cells_never(rows: list[list[int]]) -> None:
    """Painted again from the rectangles, the map is the same."""
    painted = [[0] * len(row) for row in rows]
    for left, right, low, high, kind in of(rows).rectangles():
        for j in range(int(low), int(high)):
            for i in range(int(left), int(right)):
                assert painted[j][i] == 0
                painted[j][i] = kind

    assert painted == rows


def test_equal_rows_make_one_rectangle() -> None:
    """A large area of one class costs no more than a small one."""
    assert list(of([[1] * 50] * 50).rectangles()) == [(0.0, 50.0, 0.0, 50.0, 1)]


def test_map_has_a_path_and_a_key_for_each_class() -> None:
    """Classes that are not on the map have a key too; class 0 has none."""
    chart = Chart("Map", "", Axis("x"), Axis("y"), [of([[0, 1], [3, 1]])])
    svg = chart.svg("map")

    assert svg.count('shape-rendering="crispEdges"') == 2
    assert [name for name in CLASSES if f">{name}</tspan>" in svg] == list(CLASSES[1:])


def test_table_lists_the_rectangles() -> None:
    """The data of a map can be read without seeing it."""
    chart = Chart("Map", "", Axis("x"), Axis("y"), [of([[0, 1], [3, 1]])])

    assert chart.table() == [
        ["x from", "x to", "y from", "y to", "Class"],
        ["1", "2", "0", "2", "far"],
        ["0", "1", "1", "2", "on a mode"],
    ]
