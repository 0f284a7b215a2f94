"""What the names in a formula stand for while its working is followed."""

import ast
import inspect
import math
from collections.abc import Callable, Hashable
from dataclasses import dataclass, field, is_dataclass
from functools import cache, lru_cache
from types import CodeType
from typing import Any, get_type_hints

from calc.declaration import Field, inputs, outputs
from calc.quantity import Quantity


@dataclass(slots=True)
class Scope:
    """The values of names, and the quantities that some of them are declared to be."""

    names: dict[str, Any]
    quantities: dict[str, Quantity]
    known: dict[ast.expr, Any] = field(default_factory=dict)

    def value(self, node: ast.expr) -> Any:
        """Return the value of an expression; each is computed once until a name changes."""
        if isinstance(node, ast.Constant):
            return node.value
        if node not in self.known:
            self.known[node] = eval(_compiled(node), self.names)  # noqa: S307  our own source
        return self.known[node]

    def run(self, statement: ast.stmt) -> None:
        """Run a statement."""
        code = compile(ast.Module([statement], []), "<working>", "exec")
        exec(code, self.names)  # noqa: S102  our own source
        self.known.clear()

    def assign(self, name: str, value: Any) -> None:
        """Give a name its value."""
        self.names[name] = value
        self.known.clear()

    def quantity(self, node: ast.expr) -> Quantity | None:
        """Return what a name, a field or the result of a formula is declared to be."""
        match node:
            case ast.Name(name):
                return self.quantities.get(name)
            case ast.Attribute(owner, name):
                return _fields(self.value(owner).__class__).get(name)
            case ast.Call(function):
                return only_output(self.value(function))
        return None

    def is_taken(self, symbol: str, name: str = "") -> bool:
        """Return whether another name already has a symbol."""
        return any(q.symbol == symbol for other, q in self.quantities.items() if other != name)


@lru_cache(maxsize=512)
def declared_inputs(function: Any) -> tuple[Field, ...]:
    """Return the inputs of a formula; nothing for a function that is none."""
    return _declared(function)[0]


@lru_cache(maxsize=512)
def declared_outputs(function: Any) -> tuple[Field, ...]:
    """Return the outputs of a formula; nothing for a function that is none."""
    return _declared(function)[1]


def _declared(function: Any) -> tuple[tuple[Field, ...], tuple[Field, ...]]:
    """Return inputs and outputs of a public function that declares all of them."""
    if not inspect.isfunction(function) or function.__name__.startswith("_"):
        return (), ()
    try:
        return tuple(inputs(function)), tuple(outputs(function))
    except (KeyError, NameError, TypeError):
        return (), ()


def only_output(function: Callable[..., Any]) -> Quantity | None:
    """Return the declaration of a formula's result, if it is one number."""
    match declared_outputs(function):
        case [Field(_, Quantity() as quantity)]:
            return quantity
    return None


def is_number(value: Any) -> bool:
    """Return whether a value is one finite real number."""
    return isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value)


@lru_cache(maxsize=4096)
def _compiled(node: ast.expr) -> CodeType:
    return compile(ast.Expression(ast.fix_missing_locations(node)), "<working>", "eval")


@cache
def _fields(kind: Hashable) -> dict[str, Quantity]:
    """Return the declared numbers among the fields of a dataclass."""
    hints = get_type_hints(kind, include_extras=True) if is_dataclass(kind) else {}
    found = {name: getattr(hint, "__metadata__", ()) for name, hint in hints.items()}
    return {n: d for n, declared in found.items() for d in declared if isinstance(d, Quantity)}
