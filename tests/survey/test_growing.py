"""Unstable and lightly damped cases: warnings of an answer, and what a comparison says first."""

from typing import Any

from calc.sheet.file import written
from calc.sheet.sheet import Sheet, Value
from calc.survey.asked import Place, changed
from calc.survey.asking import quoted, reported
from calc.survey.growing import NAMED, Case, listed
from calc.survey.report.blocks import Grid
from calc.survey.review.review import review
from calc.survey.survey import GROUPS, Answer, answer_to
from tests.survey.crafts import example


def ground(sheet: Sheet, key: str = "ground_resonance") -> Answer:
    """Return an answer about ground resonance."""
    return next(
        answer_to(asked, sheet, group)
        for group in GROUPS
        for asked in group(sheet)
        if asked.key == key
    )


def weaker(damping: str, share: str = "0") -> Sheet:
    """Return the Curlew with weaker lag dampers, of which a degraded one has a share left."""
    sheet = changed(example("curlew"), Place("lag", -1, "lag_damping"), Value(damping))
    return changed(sheet, Place("lag", -1, "damper_share"), Value(share))


def test_unstable_and_lightly_damped_cases_are_warnings() -> None:
    """Each case of the table that is unstable, or below 1 per cent of critical, is named once."""
    one = ground(weaker("3600 N·m·s/rad"))
    assert one.calculation is not None
    rows = one.calculation.result.cases
    unstable, light = (
        next(text for text in one.warnings if text.startswith(head))
        for head in ("Unstable", "Lightly damped, below 1% of critical")
    )

    assert {row.verdict for row in rows} >= {"unstable", "stable"}
    for row in rows:
        words = f"{row.state}, {row.dampers}"
        assert (words in unstable.split(": ", 1)[1].split("; ")) == (row.growth_rate > 0.0)
        assert (f"{words}, " in light) == (0.0 < row.damping_ratio < 0.01)


def test_stable_cases_are_no_warning() -> None:
    """Dampers six times as strong leave nothing to warn of."""
    one = ground(weaker("27000 N·m·s/rad", "0.5"))
    assert one.calculation is not None
    verdicts = [row.verdict for row in one.calculation.result.cases]

    assert any("Unstable" in text for text in one.warnings) == ("unstable" in verdicts)
    assert any("Lightly" in text for text in one.warnings) == any("lightly" in v for v in verdicts)


def test_states_of_a_hub_are_warned_of() -> None:
    """Without lag dampers that do anything every landing-gear state of the Plover is unstable."""
    sheet = changed(example("plover"), Place("lag", -1, "lag_damping"), Value("1 N·m·s/rad"))
    whole = Sheet(sheet.title, sheet.note, sheet.values, {**sheet.rows, "measured_modes": ()})
    one = ground(whole, "ground_resonance_states")
    assert one.calculation is not None
    names = dict.fromkeys(band.name for band in one.calculation.result.bands)

    assert names
    assert f"Unstable, a disturbance grows: {'; '.join(names)}" in one.warnings


def test_comparison_says_first_what_became_unstable() -> None:
    """A degraded damper with another share left is the same case; the growth rate goes with it."""
    strong, weak = weaker("4500 N·m·s/rad", "0.5"), weaker("3600 N·m·s/rad")
    answers = ([ground(strong)], [ground(weak)])
    before, after = (
        {(row.state, row.dampers.partition(" at ")[0]): row.growth_rate > 0.0 for row in rows}
        for rows in (one.calculation.result.cases for (one,) in answers if one.calculation)
    )
    there = change(review(strong, weak, "0" * 64, answers))
    back = change(review(weak, strong, "0" * 64, (answers[1], answers[0])))
    new = [case for case in after if after[case] and not before[case]]

    assert new
    assert there.startswith("newly unstable: ")
    assert there.partition("; Growth rate")[0].count(";") == len(new) - 1
    assert "; Growth rate of the least stable mode: up, +" in there
    assert back.startswith("unstable no more: ")
    assert "; Growth rate of the least stable mode: down, −" in back


def change(blocks: Any) -> str:
    """Return what the table at the top of a comparison says of the change."""
    grid = next(b for b in blocks if isinstance(b, Grid) and b.heads[0] == "Result")
    return str(grid.rows[0][3])


def test_report_has_the_warnings_at_a_glance_and_a_quote_the_rows() -> None:
    """The cell that was empty says yes; what is quoted has the cases and the modes in rows."""
    sheet = weaker("3600 N·m·s/rad")
    small = Sheet(sheet.title, sheet.note, sheet.values, {**sheet.rows, "blade_segments": ()})
    text = written(small)
    line = next(
        line
        for line in reported(text, "markdown").splitlines()
        if line.startswith("| Ground resonance of the measured modes | Verdict")
    )

    assert line.split(" | ")[2] == "yes"
    quote = quoted(text, "ground_resonance", "")["text"]
    assert "full weight | one damper out | unstable" in quote
    assert "full weight | 2.3 Hz" in quote


def test_long_table_is_quoted_in_part() -> None:
    """Twenty rows and how many more; by hand 60 lines of the drive train of the Curlew."""
    text = written(example("curlew"))
    quote = quoted(text, "forcing_frequencies", "")["text"]

    assert "… 40 more, in the link." in quote
    assert "Forcing frequencies: Forcing" not in quote
    assert "\n60 rows\n" in quote


def test_many_cases_are_named_in_part() -> None:
    """Some names, and how many more."""
    names = [Case(f"state {n}", "", unstable=True, damping_ratio=0.0).words for n in range(9)]

    assert listed(names).endswith(f"state {NAMED - 1}; and {9 - NAMED} more")
