"""What the local names of a formula mean: the quantities that its source takes them for."""

import ast
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from typing import Any

from calc.quantity import Quantity
from calc.working.scope import annotated, declared_outputs
from calc.working.source import parts, returned

Found = Iterator[tuple[str, Quantity]]


def checked(body: Iterable[ast.AST], names: Mapping[str, Any]) -> Found:
    """Yield the names that are checked against a quantity, as in `MACH.check(mach)`."""
    for part in (part for statement in body for part in parts(statement)):
        match part:
            case ast.Call(ast.Attribute(ast.Name(owner), "check"), [ast.Name(name)]):
                quantity = names.get(owner)
                if isinstance(quantity, Quantity):
                    yield name, quantity


def results(
    body: Iterable[ast.AST], names: Mapping[str, Any], outputs: Mapping[str, Quantity]
) -> Found:
    """Yield the names that are returned as a declared output."""
    for part in (part for statement in body for part in parts(statement)):
        if isinstance(part, ast.Return) and part.value:
            whole = ((output, part.value) for output in outputs)
            for output, node in returned(part.value, names) or whole:
                if isinstance(node, ast.Name) and output in outputs:
                    yield node.id, outputs[output]


def passed(body: Iterable[ast.AST], names: Mapping[str, Any]) -> Found:
    """Yield the names that a formula is called with; without the symbol, which may be another's."""
    for part in (part for statement in body for part in parts(statement)):
        if isinstance(part, ast.Call) and isinstance(part.func, ast.Name):
            function = names.get(part.func.id)
            declared = annotated(function) if declared_outputs(function) else {}
            for parameter, node in zip(declared, part.args, strict=False):
                quantity = next((q for q in declared[parameter] if isinstance(q, Quantity)), None)
                if isinstance(node, ast.Name) and quantity:
                    yield node.id, replace(quantity, symbol="")
