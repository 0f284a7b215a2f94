"""Answers as a page shows them: bounded, with a figure that can be linked."""

import re
from types import ModuleType
from unittest.mock import Mock

import pytest

from calc import VERSION
from calc.catalogue import FORMULAS, formula
from calc.declaration import Table, inputs
from calc.form.answer import LONGEST_DATA, answer, result_html
from calc.form.calculation import NOTICE, calculate, latest, start
from calc.form.copying import copies
from calc.form.result_table import LONGEST_TABLE
from calc.ground import modal_support, time_history, whirl_view
from calc.harmonics import run_up

LARGEST = 200_000  # bytes
RUN_UP = "harmonics.run_up.run_up"
OTHER = "harmonics.beats.beat"
"""A calculation whose run is kept in place of the one before."""


def filled(name: str) -> dict[str, str]:
    """Return the entries of a form with as many rows as its tables hold, those of the example."""
    entries = start(name)
    for f in inputs(formula(name)):
        if isinstance(f.declaration, Table):
            rows = [row for row in entries[f.name].split(";") if row] * f.declaration.at_most
            entries[f.name] = ";".join(rows[: f.declaration.at_most])
    return entries


def test_answer_has_a_largest_size() -> None:
    """Every form with tables, filled to the last row, has an answer of at most 200 kB.

    That of a run-up, which has too many crossings then, is measured in the test below.
    """
    names = {name for name in FORMULAS if filled(name) != start(name)}

    for name in names - {RUN_UP}:
        assert len(result_html(calculate(name, filled(name))).encode()) <= LARGEST, name
    assert RUN_UP in names


def test_rows_that_are_not_shown_are_said_and_in_the_file() -> None:
    """A long table is cut; a sentence says so, and the CSV copy has every row."""
    entries = filled(RUN_UP) | {"stages": ";".join([start(RUN_UP)["stages"]] * 3)}
    calculation = latest(RUN_UP, entries)
    ((_, rows),) = calculation.results
    html = result_html(calculation)

    assert len(html.encode()) <= LARGEST
    assert f"The first {LONGEST_TABLE} of {len(rows)} rows; the CSV copy has them all." in html
    assert "The figure has too much in it to be shown." in html
    assert copies(RUN_UP, entries, "page.html")["csv"].count("\nrow,") == len(rows)


def test_printed_result_says_where_it_comes_from() -> None:
    """A sheet of paper has the version, the calculator, its address and the notice."""
    html = result_html(calculate(RUN_UP, start(RUN_UP)))
    origin = html.partition('<p class="printed-only">')[2].partition("</p>")[0]

    assert VERSION in origin
    assert f"{RUN_UP}, " in origin
    assert "harmonics/run_up.html#run_up" in origin
    assert origin.endswith("#run_up</span>")
    assert NOTICE in origin


def test_table_that_leads_stands_above_the_figure() -> None:
    """The weights to add come before the figure, the forecast after it."""
    name = "measurement.balance_planes.several_planes"
    html = result_html(calculate(name, start(name)))
    weights, figure, forecast = (
        html.index(text) for text in ("Weights to add<", "<figure", "Forecast with these weights<")
    )

    assert weights < figure < forecast


def test_figure_has_an_id_a_caption_and_a_link() -> None:
    """A figure of a form is found by its link, says what it is, and shows the head of its data."""
    name = "ground.time_history.time_history"
    calculation = calculate(name, start(name))
    html = result_html(calculation)
    chart = calculation.chart

    assert chart is not None
    assert '<figure class="live" id="time_history-figure">' in html
    assert f'<span class="figure-title">{chart.title}</span>' in html
    assert 'href="#time_history-figure"' in html
    data = len(chart.table()) - 1
    assert data > LONGEST_DATA
    assert f"The first {LONGEST_DATA} of {data} rows; the CSV file has them all." in html
    assert len(re.findall("<tr>", html.partition("figure-data")[2])) == LONGEST_DATA + 1


@pytest.mark.parametrize(
    ("name", "module", "analysis"),
    [
        ("ground.time_history.time_history", time_history, "history"),
        ("ground.whirl_view.bunching", whirl_view, "history"),
        ("ground.modal_support.modal_support", modal_support, "sweep_of"),
        ("harmonics.run_up.run_up", run_up, "_approach"),
    ],
)
def test_answer_is_calculated_once(
    monkeypatch: pytest.MonkeyPatch, name: str, module: ModuleType, analysis: str
) -> None:
    """Result, figure, working and spoken text come from one run; other units take no second one."""
    counted = Mock(wraps=getattr(module, analysis))
    monkeypatch.setattr(module, analysis, counted)
    calculate(OTHER, start(OTHER))
    calculate(name, start(name))
    alone = counted.call_count
    calculate(OTHER, start(OTHER))
    answer(name, start(name))

    assert alone > 0
    assert counted.call_count == 2 * alone

    answer(name, start(name), system="us")
    assert counted.call_count == 2 * alone
