"""The source of a formula, as statements and expressions."""

import ast
import inspect
import textwrap
from collections.abc import Callable, Iterable, Mapping
from dataclasses import fields, is_dataclass
from functools import lru_cache
from typing import Any

_OWN_NAMES = (
    ast.FunctionDef,
    ast.Lambda,
    ast.ListComp,
    ast.SetComp,
    ast.DictComp,
    ast.GeneratorExp,
)
_OPPOSITE: dict[type[ast.cmpop], ast.cmpop] = {
    ast.Lt: ast.GtE(),
    ast.GtE: ast.Lt(),
    ast.Gt: ast.LtE(),
    ast.LtE: ast.Gt(),
    ast.Eq: ast.NotEq(),
    ast.NotEq: ast.Eq(),
}


@lru_cache(maxsize=512)
def parameters(function: Callable[..., Any]) -> dict[str, Any]:
    """Return the parameters of a function, each with its default or `inspect.Parameter.empty`."""
    return {name: p.default for name, p in inspect.signature(function).parameters.items()}


@lru_cache(maxsize=256)
def definition(formula: Callable[..., Any]) -> ast.FunctionDef | None:
    """Return the definition of a formula; None if it has no source."""
    try:
        tree = ast.parse(textwrap.dedent(inspect.getsource(formula)))
    except OSError:
        return None
    match tree.body:
        case [ast.FunctionDef() as function]:
            return function
    return None


@lru_cache(maxsize=256)
def statements(formula: Callable[..., Any]) -> list[ast.stmt]:
    """Return the statements of a formula after its docstring; none if it has no source."""
    function = definition(formula)
    if function is None:
        return []
    return function.body[1:] if ast.get_docstring(function) else function.body


@lru_cache(maxsize=4096)
def parts(node: ast.AST) -> tuple[ast.AST, ...]:
    """Return all that is in a node, but for functions and comprehensions: they have own names."""
    if isinstance(node, _OWN_NAMES):
        return ()
    return (node, *(part for child in ast.iter_child_nodes(node) for part in parts(child)))


@lru_cache(maxsize=4096)
def has_return(node: ast.AST) -> bool:
    """Return whether a statement may end its function."""
    return any(isinstance(part, ast.Return) for part in parts(node))


@lru_cache(maxsize=4096)
def calls_in(node: ast.AST) -> tuple[ast.Call, ...]:
    """Return the calls in an expression."""
    return tuple(part for part in parts(node) if isinstance(part, ast.Call))


@lru_cache(maxsize=4096)
def names_in(node: ast.AST) -> tuple[ast.Name, ...]:
    """Return the names in an expression."""
    return tuple(part for part in parts(node) if isinstance(part, ast.Name))


@lru_cache(maxsize=4096)
def assignments(statement: ast.stmt) -> list[tuple[str, ast.expr, ast.expr | None]]:
    """Return name, value and annotation of each name that a statement assigns an expression."""
    match statement:
        case ast.Assign([ast.Name(name)], value):
            return [(name, value, None)]
        case ast.AnnAssign(ast.Name(name), annotation, ast.expr() as value):
            return [(name, value, annotation)]
        case ast.Assign([ast.Tuple(targets)], ast.Tuple(values)) if len(targets) == len(values):
            pairs = zip(targets, values, strict=True)
            return [(t.id, value, None) for t, value in pairs if isinstance(t, ast.Name)]
    return []


@lru_cache(maxsize=4096)
def unpacked(statement: ast.stmt) -> dict[str, ast.expr]:
    """Return the names that a statement takes out of one call, each with it."""
    match statement:
        case ast.Assign([ast.Tuple(targets)], ast.Call() as value):
            return {target.id: value for target in targets if isinstance(target, ast.Name)}
    return {}


def restless(body: Iterable[ast.stmt]) -> set[str]:
    """Return the names that are set in a loop or to something made of themselves."""
    found: set[str] = set()
    for statement in body:
        for part in parts(statement):
            if isinstance(part, ast.For | ast.While | ast.AugAssign):
                found |= {p.id for p in names_in(part) if isinstance(p.ctx, ast.Store)}
        for name, value, _ in assignments(statement):
            found |= {name for p in names_in(value) if p.id == name}
    return found


def returned(expression: ast.expr, names: Mapping[str, Any]) -> list[tuple[str, ast.expr]]:
    """Return the fields of a dataclass that an expression makes; nothing for any other one."""
    match expression:
        case ast.Call(ast.Name(name), arguments, keywords):
            kind = names.get(name)
            unpacked = any(isinstance(argument, ast.Starred) for argument in arguments)
            named = [(word.arg, word.value) for word in keywords if word.arg]
            if isinstance(kind, type) and is_dataclass(kind) and not unpacked:
                placed = zip((f.name for f in fields(kind)), arguments, strict=False)
                return [*placed, *named]
    return []


def opposite(test: ast.expr) -> ast.expr | None:
    """Return the comparison that holds when another does not, if there is one."""
    match test:
        case ast.Compare(left, [sign], right) if type(sign) in _OPPOSITE:
            return ast.Compare(left, [_OPPOSITE[type(sign)]], right)
    return None
