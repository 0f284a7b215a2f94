"""Records, such as a rotor, as parameters of a formula."""

from dataclasses import dataclass, replace
from typing import Annotated

import pytest

from calc.declaration import Choice, Name, Table, arguments, check, inputs
from calc.quantity import LimitError, Quantity

MASS = Quantity("m", "Mass", above=0.0, example=2.0)
COUNT = Quantity("n", "Count", whole=True, at_least=1, example=3)
MANY = replace(COUNT, at_least=3)
KIND = Choice("Kind", {"hard": "is hard", "soft": "is soft"})
FORCE = Quantity("F", "Force", example=1.0)


@dataclass(frozen=True)
class Body:
    """A record."""

    count: Annotated[int, COUNT]
    mass: Annotated[float, MASS]
    kind: Annotated[str, KIND] = "hard"


ManyBodies = Annotated[Body, {"count": MANY}]
LightBodies = Annotated[ManyBodies, {"mass": 0.1}]


def plain(body: Body, force: Annotated[float, FORCE] = 7.0) -> Annotated[float, FORCE]:
    """Take a record as it is."""
    return force * body.count * body.mass


def narrow(force: Annotated[float, FORCE], body: ManyBodies) -> Annotated[float, FORCE]:
    """Take a record of which one field is declared more narrowly."""
    return force * body.count


def light(body: LightBodies) -> Annotated[float, FORCE]:
    """Take a record of which one field is narrower and one is fixed."""
    return body.count * body.mass


def test_a_record_stands_for_its_fields() -> None:
    """Names, defaults and declarations are those of the record, which each field names."""
    fields = inputs(plain)

    assert [f.name for f in fields] == ["count", "mass", "kind", "force"]
    assert [f.start for f in fields] == [3, 2.0, "hard", 7.0]
    assert [f.record.endswith("test_declaration.Body") for f in fields] == [True] * 3 + [False]


def test_an_annotation_narrows_a_field() -> None:
    """The narrower declaration holds for this formula, and the record keeps its own."""
    assert [f.declaration for f in inputs(narrow)] == [FORCE, MANY, MASS, KIND]
    assert [f.declaration for f in inputs(Body)] == [COUNT, MASS, KIND]


def test_a_fixed_field_is_not_asked_for() -> None:
    """A value in the annotation takes the field out of the form; it is set in the record."""
    assert [(f.name, f.declaration) for f in inputs(light)] == [("count", MANY), ("kind", KIND)]
    assert arguments(light, {"count": 4})["body"] == Body(4, 0.1)


def test_arguments_make_the_records() -> None:
    """Flat values become a record and the rest; what is left out keeps its default."""
    assert arguments(plain, {"mass": 5.0, "count": 1, "force": 2.0}) == {
        "body": Body(1, 5.0),
        "force": 2.0,
    }
    assert plain(**arguments(plain, {"count": 2, "mass": 3.0})) == 42.0


@pytest.mark.parametrize(
    ("body", "label"),
    [(Body(1, 0.0), "Mass"), (Body(0, 1.0), "Count"), (Body(1, 1.0, "wet"), "Kind")],
)
def test_a_record_and_a_row_are_checked_field_by_field(body: Body, label: str) -> None:
    """What cannot exist is refused by its label, alone or as a row of a table."""
    with pytest.raises(ValueError, match=f"{label} must be"):
        check(body)
    with pytest.raises(ValueError, match=f"{label} must be"):
        Table("Bodies", Body).check((Body(1, 1.0), body))


def test_names_are_not_checked() -> None:
    """Any text is a name."""

    @dataclass(frozen=True)
    class Named:
        name: Annotated[str, Name("Name")]
        mass: Annotated[float, MASS]

    check(Named("", 1.0))
    with pytest.raises(LimitError):
        check(Named("", -1.0))
