"""What a formula calls: with which arguments, and how a search finds its answer."""

import ast
import inspect
from collections.abc import Callable, Iterator
from typing import Any

from calc.catalogue import FORMULAS
from calc.declaration import Method
from calc.working.scope import Scope, annotated
from calc.working.source import calls_in, names_in, parameters


def arguments(node: ast.Call, scope: Scope) -> dict[str, Any]:
    """Return what a function is called with, by the names of its parameters."""
    placed: list[Any] = []
    named: dict[str, Any] = {}
    for argument in node.args:
        if isinstance(argument, ast.Starred):
            placed += scope.value(argument.value)
        else:
            placed.append(scope.value(argument))
    for word in node.keywords:
        value = scope.value(word.value)
        named |= {word.arg: value} if word.arg else value
    return dict(zip(parameters(scope.value(node.func)), placed, strict=False)) | named


def argument_nodes(node: ast.Call, function: Callable[..., Any]) -> dict[str, ast.expr]:
    """Return the expressions that a function is called with; none if some are unpacked."""
    unpacked = any(isinstance(argument, ast.Starred) for argument in node.args)
    if unpacked or any(word.arg is None for word in node.keywords):
        return {}
    named = {word.arg: word.value for word in node.keywords if word.arg}
    placed = zip(parameters(function), node.args, strict=False)
    return dict(placed) | named


def methods(node: ast.AST, scope: Scope) -> list[tuple[ast.Call, Method]]:
    """Return the calls that an expression comes from which declare how they find their result."""
    found = [(call, _method(scope.value(call.func))) for call in _made_of(node, scope)]
    return [(call, declared) for call, declared in found if declared]


def _made_of(node: ast.AST, scope: Scope) -> Iterator[ast.Call]:
    """Yield the calls in an expression, and in what its undeclared names stand for."""
    yield from calls_in(node)
    for name in names_in(node):
        if origin := scope.origins.get(name.id):
            yield from _made_of(origin, scope)


def title(function: Callable[..., Any]) -> str:
    """Return the title of a formula's form, or its name in words."""
    place = f"{function.__module__}.{function.__name__}".removeprefix("calc.")
    words = function.__name__.replace("_", " ")
    return FORMULAS[place].title if place in FORMULAS else words[0].upper() + words[1:]


def _method(function: Any) -> Method | None:
    found = annotated(function).get("return", ()) if inspect.isfunction(function) else ()
    return next((declared for declared in found if isinstance(declared, Method)), None)
