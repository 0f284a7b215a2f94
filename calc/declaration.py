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
    """A name that the reader gives to something, or a sentence that a formula returns."""

    label: str
    example: str = ""
    symbol: str = ""


@dataclass(frozen=True, slots=True)
class Table:
    """Rows of one frozen dataclass, whose fields are declared like the inputs of a formula."""

    label: str
    row: type
    example: tuple[Any, ...] = ()
    at_least: int = 0
    at_most: int = 50
    symbol: str = ""

    def check(self, rows: tuple[Any, ...]) -> None:
        """Raise ValueError for too few or too many rows."""
        if not self.at_least <= len(rows) <= self.at_most:
            raise ValueError(
                f"{self.label} must have {self.at_least} to {self.at_most} rows, not {len(rows)}"
            )


@dataclass(frozen=True, slots=True)
class Nothing:
    """What a result of None means, in words."""

    meaning: str


Declaration = Quantity | Choice | Name | Table


class Field(NamedTuple):
    """A declared input or output, under its Python name."""

    name: str
    declaration: Declaration
    default: Any = None

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
    """Return the inputs of a formula (or the columns of a table row), in order."""
    hints = get_type_hints(formula, include_extras=True)
    return [
        Field(name, _declared(name, hints[name]), None if p.default is p.empty else p.default)
        for name, p in inspect.signature(formula).parameters.items()
    ]


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


def _declared(name: str, hint: Any) -> Declaration:
    for declaration in getattr(hint, "__metadata__", ()):
        if isinstance(declaration, Declaration):
            return declaration
    raise TypeError(f"{name} has no declaration")
