"""Schema: the JSON Schema of the file of a data sheet, made from the declarations."""

from typing import Any

from calc.declaration import Choice, Field
from calc.quantity import Quantity
from calc.sheet.layout import Section, sections
from calc.sheet.reader import LONGEST_TEXT
from calc.sheet.sheet import ORIGINS, UNKNOWN
from calc.sheet.upgrade import FORMAT

TOLERANCE = (
    "How far the value may be off on either side, with a unit. Per cent is a fraction of the "
    "value; of a quantity that may itself be in per cent it is so many hundredths"
)
DIALECT = "https://json-schema.org/draft/2020-12/schema"


def schema() -> dict[str, Any]:
    """Return the schema of the format that is written, draft 2020-12.

    It says which sections and fields there are, which words a field may have, and in words which
    units and limits; the reader of the handbook judges the numbers themselves.
    """
    texts = {key: {"type": "string", "maxLength": most} for key, most in LONGEST_TEXT.items()}
    return {
        "$schema": DIALECT,
        "title": "Data sheet of a rotorcraft",
        "description": "Each value is a text with its unit, or a table with the text under value, "
        "where it came from under from, and how far it may be off on either side under tolerance.",
        "type": "object",
        "required": ["format"],
        "additionalProperties": False,
        "properties": {
            "format": {"const": FORMAT},
            **texts,
            **{part.key: _section(part) for part in sections()},
        },
    }


def _section(part: Section) -> dict[str, Any]:
    found = {
        "title": part.title,
        "type": "object",
        "additionalProperties": False,
        "properties": {field.name: _field(field) for field in part.fields},
    }
    if not part.is_table:
        return found
    return {"title": part.title, "type": "array", "maxItems": part.most, "items": found}


def _field(field: Field) -> dict[str, Any]:
    text: dict[str, Any] = {"type": "string"}
    about = ""
    if isinstance(field.declaration, Choice):
        text = {"enum": [*field.declaration.options, UNKNOWN]}
    elif isinstance(field.declaration, Quantity):
        quantity = field.declaration
        units = ", ".join(unit.name for unit in quantity.units if unit.name)
        about = f"{quantity.limits(quantity.units[0])}; {f'in {units}' if units else 'no unit'}"
    full = {
        "type": "object",
        "additionalProperties": False,
        "properties": {
            "value": text,
            "from": {"enum": list(ORIGINS)},
            "tolerance": {"type": "string", "description": TOLERANCE},
        },
    }
    described = {"description": about} if about else {}
    return {"title": field.declaration.label, **described, "anyOf": [text, full]}
