"""Provenance: the data of a sheet as tables, each value with where it comes from."""

from collections.abc import Iterator

from calc.declaration import Field
from calc.form.showing import shown
from calc.sheet.layout import REPORT, sections
from calc.sheet.sheet import ORIGINS, UNKNOWN, Sheet, Value, in_words
from calc.survey.report.blocks import Grid


def provenance(sheet: Sheet) -> Iterator[Grid]:
    """Yield a table for each section of a sheet but its title block; one without rows has none."""
    for part in sections():
        if part.key == REPORT:
            continue
        if not part.is_table:
            values = {f.name: sheet.value(f"{part.key}.{f.name}") for f in part.fields}
            rows = [[f.declaration.label, *_value(f, values[f.name])] for f in part.fields]
            yield Grid(part.title, ["Quantity", "Value", "From", "Tolerance"], rows)
        elif sheet.rows.get(part.key):
            heads = [f.declaration.label for f in part.fields]
            table = sheet.rows[part.key]
            cells = [[_cell(f, row.get(f.name)) for f in part.fields] for row in table]
            yield Grid(part.title, heads, cells)


def _value(f: Field, value: Value | None) -> list[str]:
    if value is None:
        return [f"{_usual(f)} (usual value)", "", ""]
    return [in_words(f, value), ORIGINS[value.origin], value.tolerance]


def _cell(f: Field, value: Value | None) -> str:
    if value is None:
        return _usual(f)
    said = [in_words(f, value)]
    said += [f"± {value.tolerance}"] if value.tolerance else []
    said += [f"({value.origin})"] if value.origin != UNKNOWN else []
    return " ".join(said)


def _usual(f: Field) -> str:
    return shown(f.declaration, f.start)
