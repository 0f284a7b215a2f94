"""What a formula takes and returns, read from its annotations."""

import inspect
from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields, is_dataclass
from functools import cache
from types import NoneType, UnionType
from typing import Annotated, Any, NamedTuple, Union, get_args, get_origin, get_type_hints

from calc.quantity import Quantity


@dataclass(frozen=True, slots=True)
class Choice:
    """An input that is one of a few words; `options` maps each to what a page shows."""

    label: str
    options: Mapping[str, str]
    symbol: str = ""

    def check(self, value: str) -> None:
        """Raise ValueError for a word that is not an option."""
        if value not in self.options:
            raise ValueError(f"{self.label} must be one of {', '.join(self.options)}, not {value}")


@dataclass(frozen=True, slots=True)
class Name:
    """A name that the reader gives to something, or a sentence that a formula returns.

    `longest` is how many characters a reader may enter.  `states` are the quantities whose numbers
    a sentence gives, each with the first of its units behind it; a form shows them in the unit
    that its reader chose.
    """

    label: str
    example: str = ""
    symbol: str = ""
    longest: int = 60
    states: tuple[Quantity, ...] = ()


@dataclass(frozen=True, slots=True)
class Table:
    """Rows of one frozen dataclass, whose fields are declared like the inputs of a formula.

    A table of results that leads is what a reader came for, and stands above the figure.
    """

    label: str
    row: type
    example: tuple[Any, ...] = ()
    at_least: int = 0
    at_most: int = 50
    symbol: str = ""
    leads: bool = False

    def check(self, rows: tuple[Any, ...]) -> None:
        """Raise ValueError for too few or too many rows, or for a row that cannot exist."""
        if not self.at_least <= len(rows) <= self.at_most:
            raise ValueError(
                f"{self.label} must have {self.at_least} to {self.at_most} rows, not {len(rows)}"
            )
        for row in rows:
            check(row)


@dataclass(frozen=True, slots=True)
class Nothing:
    """What a result of None means, in words."""

    meaning: str


@dataclass(frozen=True, slots=True)
class Method:
    """How a function that is no straight formula finds its result, as the working says it.

    `at_answer` is a function that is evaluated at what was found, to show that it holds; it takes
    the result first, and of the arguments of the search those that it names.
    """

    words: str
    at_answer: Callable[..., Any] | None = None


Declaration = Quantity | Choice | Name | Table


class Field(NamedTuple):
    """A declared input or output, under its Python name, and the record that it is part of.

    `heading` is what a form calls that record.
    """

    name: str
    declaration: Declaration
    default: Any = None
    record: str = ""
    heading: str = ""

    @property
    def start(self) -> Any:
        """The value a form starts with."""
        if self.default is not None:
            return self.default
        if isinstance(self.declaration, Choice):
            return next(iter(self.declaration.options))
        if isinstance(self.declaration, Quantity) and self.declaration.whole:
            return int(self.declaration.example)
        return self.declaration.example


@cache
def inputs(formula: Callable[..., Any]) -> list[Field]:
    """Return the inputs of a formula (or the columns of a table row), in order.

    A parameter that is a record, such as a rotor, stands for the fields of the record.
    """
    hints = get_type_hints(formula, include_extras=True)
    found: list[Field] = []
    for name, parameter in inspect.signature(formula).parameters.items():
        if _record(hints[name]):
            found += _fields(hints[name])
        else:
            default = None if parameter.default is parameter.empty else parameter.default
            found.append(Field(name, _declared(name, hints[name]), default))
    return found


def arguments(formula: Callable[..., Any], values: Mapping[str, Any]) -> dict[str, Any]:
    """Return what a formula is called with for values of its inputs: each record made of its own.

    Raises:
        ValueError: If a record cannot exist.
    """
    records = _records(formula)
    asked = {name: [f.name for f in _fields(hint)] for name, hint in records.items()}
    taken = {key for keys in asked.values() for key in keys}
    made = {
        name: _record(hint)(
            **{key: values[key] for key in asked[name] if key in values} | _fixed(hint)
        )
        for name, hint in records.items()
    }
    return {key: value for key, value in values.items() if key not in taken} | made


def check(record: Any) -> None:
    """Refuse a record, or a row of a table, of which a number or a word cannot exist."""
    kind: Any = type(record)
    for field in inputs(kind):
        if isinstance(field.declaration, Quantity | Choice):
            field.declaration.check(getattr(record, field.name))


@cache
def outputs(formula: Callable[..., Any]) -> list[Field]:
    """Return the outputs of a formula: its value, or the fields of its dataclass."""
    hint = get_type_hints(formula, include_extras=True)["return"]
    result = _result(hint)
    if not is_dataclass(result):
        return [Field(formula.__name__, _declared(formula.__name__, hint))]
    hints = get_type_hints(result, include_extras=True)
    return [Field(f.name, _declared(f.name, hints[f.name])) for f in fields(result)]


@cache
def nothing(formula: Callable[..., Any]) -> str:
    """Return what it means, in words, when a formula returns None."""
    hint = get_type_hints(formula, include_extras=True)["return"]
    return next(
        (m.meaning for m in getattr(hint, "__metadata__", ()) if isinstance(m, Nothing)), ""
    )


def _result(hint: Any) -> Any:
    """Return the class that an annotation of a result stands for, whatever is declared of it."""
    if get_origin(hint) is Annotated:
        hint = hint.__origin__
    if get_origin(hint) in (Union, UnionType):
        hint = next(choice for choice in get_args(hint) if choice is not NoneType)
    return hint


@cache
def _records(formula: Callable[..., Any]) -> dict[str, Any]:
    """Return the parameters of a formula that are records, with their annotations."""
    hints = get_type_hints(formula, include_extras=True)
    return {name: hint for name, hint in hints.items() if name != "return" and _record(hint)}


def _record(hint: Any) -> Any:
    """Return the dataclass that a parameter is annotated with, or None."""
    kind = hint.__origin__ if get_origin(hint) is Annotated else hint
    return kind if isinstance(kind, type) and is_dataclass(kind) else None


def _fields(hint: Any) -> list[Field]:
    """Return the fields of a record that a form asks for, as the annotation narrows them.

    A mapping in the annotation gives a field another declaration for one form, or a fixed value;
    a field with a fixed value is not asked for.  The class of a record of a form has a heading.
    """
    record, own = _record(hint), _own(hint)
    place = f"{record.__module__}.{record.__name__}".removeprefix("calc.")
    return [
        field._replace(
            declaration=own.get(field.name, field.declaration),
            record=place,
            heading=getattr(record, "heading", ""),
        )
        for field in inputs(record)
        if field.name not in _fixed(hint)
    ]


def _fixed(hint: Any) -> dict[str, Any]:
    """Return the fields of a record that an annotation gives a value."""
    return {name: own for name, own in _own(hint).items() if not isinstance(own, Declaration)}


def _own(hint: Any) -> dict[str, Any]:
    """Return what an annotation says of single fields of a record; what is said last holds."""
    said = (m for m in getattr(hint, "__metadata__", ()) if isinstance(m, Mapping))
    return {name: own for mapping in said for name, own in mapping.items()}


def _declared(name: str, hint: Any) -> Declaration:
    for declaration in getattr(hint, "__metadata__", ()):
        if isinstance(declaration, Declaration):
            return declaration
    raise TypeError(f"{name} has no declaration")
