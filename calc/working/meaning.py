"""What the names in a formula mean: the quantities that its source declares or takes them for."""

import ast
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from calc.quantity import Quantity
from calc.working.scope import annotated, declared_outputs, is_quantity
from calc.working.source import parts, restless, returned, statements

Found = Iterator[tuple[str, Quantity]]


@dataclass(frozen=True, slots=True)
class Meaning:
    """The quantities of a formula's names, and the names that have no one value.

    `passed` are names that are only known by what they are passed to.
    """

    results: Mapping[str, Quantity]
    quantities: Mapping[str, Quantity]
    passed: Mapping[str, Quantity]
    restless: frozenset[str]


@lru_cache(maxsize=256)
def meaning(formula: Callable[..., Any]) -> Meaning:
    """Return what the names of a formula mean; what is said first of a name holds."""
    body, names = statements(formula), getattr(formula, "__globals__", {})
    outputs = {
        f.name: f.declaration
        for f in declared_outputs(formula)
        if isinstance(f.declaration, Quantity)
    }
    declared = annotated(formula).items()
    found = [(name, q) for name, all_of in declared for q in all_of if is_quantity(q)]
    given = [(name, q) for name, q in found if name != "return"]
    known = [*given, *_checked(body, names), *_results(body, names, outputs)]
    own = [(formula.__name__, q) for name, q in found if name == "return"]
    return Meaning(
        results=outputs or dict(own),
        quantities=dict(reversed(known)),
        passed=dict(_passed(body, names)),
        restless=frozenset(restless(body)),
    )


def _checked(body: Iterable[ast.AST], names: Mapping[str, Any]) -> Found:
    """Yield the names that are checked against a quantity, as in `MACH.check(mach)`."""
    for part in (part for statement in body for part in parts(statement)):
        match part:
            case ast.Call(ast.Attribute(ast.Name(owner), "check"), [ast.Name(name)]):
                quantity = names.get(owner)
                if isinstance(quantity, Quantity):
                    yield name, quantity


def _results(
    body: Iterable[ast.AST], names: Mapping[str, Any], outputs: Mapping[str, Quantity]
) -> Found:
    """Yield the names that are returned as a declared output."""
    for part in (part for statement in body for part in parts(statement)):
        if isinstance(part, ast.Return) and part.value:
            whole = ((output, part.value) for output in outputs)
            for output, node in returned(part.value, names) or whole:
                if isinstance(node, ast.Name) and output in outputs:
                    yield node.id, outputs[output]


def _passed(body: Iterable[ast.AST], names: Mapping[str, Any]) -> Found:
    """Yield the names that a formula is called with."""
    for part in (part for statement in body for part in parts(statement)):
        if isinstance(part, ast.Call) and isinstance(part.func, ast.Name):
            function = names.get(part.func.id)
            declared = annotated(function) if declared_outputs(function) else {}
            for parameter, node in zip(declared, part.args, strict=False):
                quantity = next((q for q in declared[parameter] if is_quantity(q)), None)
                if isinstance(node, ast.Name) and quantity:
                    yield node.id, quantity
