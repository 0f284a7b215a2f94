"""What answers still need is what the survey says they lack, and leads to where it is entered."""

import re
from dataclasses import replace

import pytest

from calc.sheet.exchange import held
from calc.sheet.layout import section
from calc.sheet.sheet import blank
from calc.survey.card.card import card
from calc.survey.needs import needs
from calc.survey.survey import GROUPS
from tests.survey.crafts import example, random_craft

SHEETS = {
    "blank": blank(),
    "dunlin": example("dunlin"),
    **{f"random {seed}": random_craft(seed, slow=False) for seed in range(8)},
}


@pytest.mark.parametrize("name", SHEETS)
def test_needs_are_what_the_survey_lacks(name: str) -> None:
    """The same answers in the same order, each with all that is missing for it; last the card."""
    sheet = SHEETS[name]
    *found, last = needs(held(sheet))
    assert tuple(lack["label"] for lack in last["missing"]) == card(sheet).lacks
    asked = [one for group in GROUPS for one in group(sheet)]

    assert [one["title"] for one in found] == [one.title for one in asked]
    assert [tuple(lack["label"] for lack in one["missing"]) for one in found] == [
        one.missing for one in asked
    ]


def test_card_of_measured_modes_alone_is_told_what_it_lacks() -> None:
    """A sheet whose answers can all be given lacks the hub and its states for a card with steps."""
    whole = example("plover")
    hub = {key: value for key, value in blank().values.items() if key.startswith("hub.")}
    sheet = replace(
        whole, values={**whole.values, **hub}, rows={**whole.rows, "landing_gear_states": ()}
    )
    *answers, last = needs(held(sheet))

    assert not any(answer["missing"] for answer in answers)
    assert last["title"] == "Ground-run card with steps"
    places = {lack["place"].partition(".")[0] for lack in last["missing"]}
    assert places == {"hub", "landing_gear_states"}


@pytest.mark.parametrize("name", SHEETS)
def test_each_need_leads_to_a_field_or_a_table(name: str) -> None:
    """A place is a section with a field, or a table that has no rows."""
    places = [lack["place"] for one in needs(held(SHEETS[name])) for lack in one["missing"]]
    for place in places:
        found = re.fullmatch(r"(\w+)(?: row \d+)?(?:\.(\w+))?", place)
        assert found is not None
        key, field = found.groups()
        if field:
            assert section(key).field(field)
        else:
            assert section(key).is_table
            assert not SHEETS[name].rows.get(key)
