"""A formula evaluated once: its result, and the values of its local names for the working."""

import ast
import copy
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from types import CodeType, FunctionType
from typing import Any

from calc.working.source import definition, parameters


@dataclass(frozen=True, slots=True)
class Run:
    """What a formula was called with, what it returned, and its local names when it did."""

    formula: Callable[..., Any]
    values: Mapping[str, Any]
    result: Any
    names: Mapping[str, Any]


def run(formula: Callable[..., Any], values: Mapping[str, Any]) -> Run:
    """Return a formula evaluated for inputs in SI units; what it raises is raised.

    The last run is kept: the same result in other units takes no second one.
    """
    return _run(_Call(formula, repr(values), values))


@dataclass(frozen=True, slots=True)
class _Call:
    """A formula with its inputs, which are compared as written: 0.0 equals -0.0, and differs."""

    formula: Callable[..., Any]
    written: str
    values: Mapping[str, Any] = field(compare=False)


@lru_cache(maxsize=1)
def _run(call: _Call) -> Run:
    given = parameters(call.formula) | dict(call.values)
    traced = _traced(call.formula)
    if traced is None:
        return Run(call.formula, given, call.formula(**call.values), given)
    result, names = traced(**call.values)
    return Run(call.formula, given, result, names)


@lru_cache(maxsize=256)
def _traced(formula: Callable[..., Any]) -> Callable[..., tuple[Any, dict[str, Any]]] | None:
    """Return a formula compiled so that it returns its local names as well; None without source."""
    function = definition(formula)
    if function is None or not isinstance(formula, FunctionType) or formula.__closure__:
        return None
    body = [_WithLocals().visit(copy.deepcopy(statement)) for statement in function.body]
    end = ast.Return(_with_locals(ast.Constant(None)))
    bare = ast.FunctionDef(
        name=function.name, args=_bare(function.args), body=[*body, end], decorator_list=[]
    )
    tree = ast.fix_missing_locations(ast.Module([bare], []))
    code = compile(tree, formula.__code__.co_filename, "exec")
    own = next(part for part in code.co_consts if isinstance(part, CodeType))
    made = FunctionType(own, formula.__globals__, function.name, formula.__defaults__)
    made.__kwdefaults__ = formula.__kwdefaults__
    return made


class _WithLocals(ast.NodeTransformer):
    """Lets each `return` of a function, but not of those inside it, return its names as well."""

    def visit_Return(self, node: ast.Return) -> ast.Return:
        return ast.Return(_with_locals(node.value or ast.Constant(None)))

    def visit_FunctionDef(self, node: ast.FunctionDef) -> ast.FunctionDef:
        return node

    def visit_Lambda(self, node: ast.Lambda) -> ast.Lambda:
        return node


def _with_locals(value: ast.expr) -> ast.expr:
    names = ast.Call(ast.Name("locals", ast.Load()), [], [])
    return ast.Tuple([value, names], ast.Load())


def _bare(arguments: ast.arguments) -> ast.arguments:
    """Return the parameters of a function without annotations and defaults."""
    return ast.arguments(
        posonlyargs=[ast.arg(a.arg) for a in arguments.posonlyargs],
        args=[ast.arg(a.arg) for a in arguments.args],
        vararg=arguments.vararg and ast.arg(arguments.vararg.arg),
        kwonlyargs=[ast.arg(a.arg) for a in arguments.kwonlyargs],
        kw_defaults=[None] * len(arguments.kwonlyargs),
        kwarg=arguments.kwarg and ast.arg(arguments.kwarg.arg),
        defaults=[],
    )
