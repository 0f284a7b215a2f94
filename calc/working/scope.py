"""What the names in a formula stand for while its working is written."""

import ast
import inspect
import math
from collections.abc import Callable, Hashable, Mapping
from dataclasses import dataclass, field, is_dataclass
from functools import cache, lru_cache
from types import CodeType
from typing import Any, get_type_hints

from calc.declaration import Field, inputs, outputs
from calc.quantity import Constant, Quantity


@dataclass(slots=True)
class Scope:
    """The values of names, the quantities that some are declared to be, what others stand for.

    `meanings` are expressions that can be put in for a name, `origins` are calls that a name was
    taken out of.
    """

    names: dict[str, Any]
    quantities: dict[str, Quantity]
    meanings: dict[str, ast.expr] = field(default_factory=dict)
    origins: dict[str, ast.expr] = field(default_factory=dict)
    known: dict[ast.expr, Any] = field(default_factory=dict)

    def value(self, node: ast.expr) -> Any:
        """Return the value of an expression; each is computed once."""
        if isinstance(node, ast.Constant):
            return node.value
        if isinstance(node, ast.Name) and node.id in self.names:
            return self.names[node.id]
        if node not in self.known:
            self.known[node] = eval(_compiled(node), self.names)  # noqa: S307  our own source
        return self.known[node]

    def quantity(self, node: ast.expr) -> Quantity | None:
        """Return what a name, a field or the result of a formula is declared to be."""
        match node:
            case ast.Name(name) if name in self.quantities:
                return self.quantities[name]
            case ast.Name():
                return _constant(self.value(node))
            case ast.Attribute(owner, name):
                found = _fields(self.value(owner).__class__).get(name)
                return found or _constant(self.value(node))
            case ast.Call(function):
                return only_output(self.value(function))
        return None

    def meaning(self, name: str) -> ast.expr | None:
        """Return the expression that an undeclared name stands for."""
        return self.meanings.get(name)

    def is_taken(self, symbol: str, value: float, name: str = "") -> bool:
        """Return whether another name has a symbol for another value."""
        others = (n for n, q in self.quantities.items() if q.symbol == symbol and n != name)
        return any(not is_same(self.names.get(other), value) for other in others)


def is_same(one: Any, other: float) -> bool:
    """Return whether two numbers differ by no more than rounding."""
    return is_number(one) and math.isclose(one, other, rel_tol=1e-9)


def _constant(value: Any) -> Quantity | None:
    return value.quantity if isinstance(value, Constant) else None


@lru_cache(maxsize=512)
def declared_outputs(function: Any) -> tuple[Field, ...]:
    """Return the outputs of a public function that declares all it takes and gives, or nothing."""
    if not inspect.isfunction(function) or function.__name__.startswith("_"):
        return ()
    try:
        inputs(function)
        return tuple(outputs(function))
    except (KeyError, NameError, TypeError):
        return ()


def only_output(function: Callable[..., Any]) -> Quantity | None:
    """Return the declaration of a formula's result, if it is one number."""
    match declared_outputs(function):
        case [Field(_, Quantity() as quantity)]:
            return quantity
    return None


@lru_cache(maxsize=512)
def annotated(function: Any) -> Mapping[str, tuple[Any, ...]]:
    """Return what is declared of the parameters and the result of any function, by name."""
    if not inspect.isfunction(function):
        return {}
    try:
        hints = get_type_hints(function, include_extras=True)
    except (NameError, TypeError):
        return {}
    return {name: getattr(hint, "__metadata__", ()) for name, hint in hints.items()}


def is_number(value: Any) -> bool:
    """Return whether a value is one finite real number."""
    return isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value)


def is_quantity(declared: Any) -> bool:
    """Return whether something that is declared is a number."""
    return isinstance(declared, Quantity)


@lru_cache(maxsize=4096)
def _compiled(node: ast.expr) -> CodeType:
    return compile(ast.Expression(ast.fix_missing_locations(node)), "<working>", "eval")


@cache
def _fields(kind: Hashable) -> dict[str, Quantity]:
    """Return the declared numbers among the fields of a dataclass."""
    hints = get_type_hints(kind, include_extras=True) if is_dataclass(kind) else {}
    found = {name: getattr(hint, "__metadata__", ()) for name, hint in hints.items()}
    return {n: d for n, declared in found.items() for d in declared if isinstance(d, Quantity)}
