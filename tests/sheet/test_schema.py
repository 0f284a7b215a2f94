"""The published schema of the file of a data sheet, judged by a general library."""

import tomllib

import jsonschema
import pytest

from calc.sheet.file import written
from calc.sheet.schema import schema
from calc.sheet.sheet import blank
from tests.sheet.test_file import EXAMPLES, drawn, random_sheet

VALIDATOR = jsonschema.Draft202012Validator(schema())


def test_schema_keeps_the_standard() -> None:
    """The schema is one of the dialect that it names (JSON Schema, draft 2020-12)."""
    jsonschema.Draft202012Validator.check_schema(schema())


@pytest.mark.parametrize("text", [written(blank())] + [p.read_text("utf-8") for p in EXAMPLES])
def test_file_keeps_the_schema(text: str) -> None:
    """A blank sheet and every example keep it."""
    assert list(VALIDATOR.iter_errors(tomllib.loads(text))) == []


def test_random_sheet_keeps_the_schema() -> None:
    """What is written keeps the schema, whatever is known."""
    for seed in range(20):
        content = tomllib.loads(written(random_sheet(drawn(seed))))
        assert list(VALIDATOR.iter_errors(content)) == []


@pytest.mark.parametrize(
    "wrong",
    [
        {"rotorcraft": {"radius": 4.8}},
        {"rotorcraft": {"radius": {"value": "4.8 m", "from": "hearsay"}}},
        {"rotorcraft": {"radios": "4.8 m"}},
        {"hub": {"hub_mass": "perhaps"}},
        {"drive_train": {"name": "Mast"}},
        {"altitudes": [{}] * 7},
        {"format": 3},
    ],
)
def test_schema_refuses_what_the_reader_refuses(wrong: dict[str, object]) -> None:
    """A wrong type, word, name or number of rows is found by the schema too."""
    assert list(VALIDATOR.iter_errors({"format": 2} | wrong))
