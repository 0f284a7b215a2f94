"""The working of a calculation, made from the source of its formula: the two cannot disagree."""

import ast
import inspect
import textwrap
from collections.abc import Callable, Iterator, Mapping
from dataclasses import fields, is_dataclass, replace
from functools import lru_cache
from typing import Any

from calc.declaration import Field, inputs, outputs
from calc.expression import Expression, Scope, UnreadableError, is_formula
from calc.pens import Text
from calc.quantity import Quantity
from calc.step import Step, written

__all__ = ["Step", "steps"]

_DEEPEST = 5
_OPPOSITE: dict[type[ast.cmpop], ast.cmpop] = {
    ast.Lt: ast.GtE(),
    ast.GtE: ast.Lt(),
    ast.Gt: ast.LtE(),
    ast.LtE: ast.Gt(),
    ast.Eq: ast.NotEq(),
    ast.NotEq: ast.Eq(),
}


def steps(formula: Callable[..., Any], values: Mapping[str, Any], digits: int = 4) -> list[Step]:
    """Return the working of a formula for inputs in SI units; values show so many digits.

    Each assignment in the source and each declared number of the result is a step.  Where the
    source cannot be followed, as in a loop that returns, the numbers of the result are shown.
    """
    return list(_Working(formula, values, digits).steps())


class _Working:
    """Follows the source of one formula as it runs for one set of inputs."""

    def __init__(
        self, formula: Callable[..., Any], values: Mapping[str, Any], digits: int, depth: int = 0
    ) -> None:
        bound = inspect.signature(formula).bind(**values)
        bound.apply_defaults()
        self.formula = formula
        self.values = bound.arguments
        self.digits = digits
        self.depth = depth
        self.results = _quantities(outputs(formula))
        self.scope = Scope(
            {**getattr(formula, "__globals__", {}), **self.values}, _quantities(inputs(formula))
        )
        self.reason = ""
        self.over = False

    def steps(self) -> Iterator[Step]:
        """Yield the steps of the working."""
        body = _source(self.formula)
        self.scope.quantities = self._locals(body) | self.scope.quantities
        yield from self._block(body)
        if not self.over:
            yield from self._results()

    def _block(self, body: list[ast.stmt]) -> Iterator[Step]:
        """Follow statements until one returns."""
        for statement in body:
            yield from self._statement(statement)
            if self.over:
                return

    def _statement(self, statement: ast.stmt) -> Iterator[Step]:
        match statement:
            case ast.Assign([ast.Name(name)], expression):
                yield from self._assigned(name, expression)
            case ast.AnnAssign(ast.Name(name), _, ast.expr() as expression):
                yield from self._assigned(name, expression)
            case ast.AugAssign(ast.Name(name), operator, added):
                whole = ast.BinOp(ast.Name(name, ast.Load()), operator, added)
                yield from self._assigned(name, ast.fix_missing_locations(whole))
            case ast.If(test, holds, fails):
                is_so = bool(self.scope.value(test))
                if not isinstance(holds[0], ast.Raise):
                    self.reason = self._condition(test, is_so=is_so)
                yield from self._block(holds if is_so else fails)
            case ast.Return(expression):
                self.over = True
                if expression:
                    yield from self._returned(self._chosen(expression))
            case ast.Assign([ast.Tuple(targets)], expression):
                yield from self._calls(expression)
                self.scope.run(statement)
                for target in targets:
                    if isinstance(target, ast.Name):
                        value = ast.Constant(self.scope.names[target.id])
                        yield from self._line(target.id, value, None)
            case _ if any(isinstance(node, ast.Return) for node in ast.walk(statement)):
                yield from self._results()
            case _:
                self.scope.run(statement)

    def _results(self) -> Iterator[Step]:
        """Yield the declared numbers of the result alone."""
        self.over = True
        result = self.formula(**self.values)
        for name, quantity in self.results.items() if result is not None else ():
            value = getattr(result, name) if is_dataclass(result) else result
            yield written(name, quantity, ast.Constant(value), self.scope, self.digits)

    def _assigned(self, name: str, expression: ast.expr) -> Iterator[Step]:
        """Yield the step of an assignment; another name for the same quantity is none."""
        quantity = self.scope.quantities.get(name) or self.scope.quantity(expression)
        alias = isinstance(expression, ast.Name | ast.Attribute)
        if not (alias and quantity and self.scope.quantity(expression) == quantity):
            yield from self._line(name, expression, quantity)
        else:
            yield from self._calls(expression)
        if quantity:
            self.scope.quantities[name] = quantity
        self.scope.assign(name, self.scope.value(expression))

    def _returned(self, expression: ast.expr) -> Iterator[Step]:
        """Yield a step for each number of the result that has not been shown under its name."""
        for name, node in self._parts(expression):
            quantity = self.results.get(name)
            if not isinstance(node, ast.Name) or self.scope.quantity(node) != quantity:
                yield from self._line(name, self._chosen(node), quantity)

    def _line(self, name: str, node: ast.expr, quantity: Quantity | None) -> Iterator[Step]:
        """Yield a step with its reason and its inner steps, if it has anything to show."""
        step = written(name, quantity, node, self.scope, self.digits)
        inner = tuple(self._calls(node))
        if step.text or inner:
            remark = "; ".join(filter(None, (self.reason, step.remark)))
            self.reason = ""
            yield replace(step, remark=remark, inner=inner)

    def _calls(self, node: ast.AST) -> Iterator[Step]:
        """Yield the workings of the formulas that an expression calls, arguments first."""
        if isinstance(
            node, ast.Lambda | ast.ListComp | ast.SetComp | ast.DictComp | ast.GeneratorExp
        ):
            return
        children = ast.iter_child_nodes(node)
        if isinstance(node, ast.IfExp):
            children = iter([self._chosen(node)])
        for child in children:
            yield from self._calls(child)
        if isinstance(node, ast.Call) and self.depth < _DEEPEST:
            function = self.scope.value(node.func)
            if is_formula(function) and _is_plain(node):
                given = [self.scope.value(argument) for argument in node.args]
                named = {str(word.arg): self.scope.value(word.value) for word in node.keywords}
                values = inspect.signature(function).bind(*given, **named).arguments
                yield from _Working(function, values, self.digits, self.depth + 1).steps()

    def _chosen(self, node: ast.expr) -> ast.expr:
        """Return the branch of a conditional expression that holds."""
        while isinstance(node, ast.IfExp):
            node = node.body if self.scope.value(node.test) else node.orelse
        return node

    def _condition(self, test: ast.expr, *, is_so: bool) -> str:
        """Return why a branch is taken, such as `as μ > 1`, if it can be written."""
        if not is_so and isinstance(test, ast.Compare) and len(test.ops) == 1:
            opposite = _OPPOSITE.get(type(test.ops[0]))
            if opposite is None:
                return ""
            test, is_so = ast.Compare(test.left, [opposite], test.comparators), True
        try:
            return f"as {Expression(Text(), self.scope).write(test).text}" if is_so else ""
        except UnreadableError:
            return ""

    def _locals(self, body: list[ast.stmt]) -> dict[str, Quantity]:
        """Return what local names stand for: checked against a quantity, or returned as one."""
        named: dict[str, Quantity] = {}
        for node in (node for statement in body for node in ast.walk(statement)):
            match node:
                case ast.Call(ast.Attribute(ast.Name(owner), "check"), [ast.Name(name)]):
                    quantity = self.scope.names.get(owner)
                    if isinstance(quantity, Quantity):
                        named.setdefault(name, quantity)
        for node in (node for statement in body for node in ast.walk(statement)):
            if isinstance(node, ast.Return) and node.value:
                for name, value in self._parts(node.value):
                    if isinstance(value, ast.Name) and name in self.results:
                        named.setdefault(value.id, self.results[name])
        return named

    def _parts(self, returned: ast.expr) -> list[tuple[str, ast.expr]]:
        """Return what a result consists of, by output: its fields, or the one value."""
        match returned:
            case ast.Call(ast.Name(name), arguments, keywords):
                kind = self.scope.names.get(name)
                if isinstance(kind, type) and is_dataclass(kind) and _is_plain(returned):
                    positional = zip((f.name for f in fields(kind)), arguments, strict=False)
                    return [*positional, *((str(word.arg), word.value) for word in keywords)]
        return [(self.formula.__name__, returned)]


def _is_plain(call: ast.expr) -> bool:
    """Return whether the arguments of a call are written out, none unpacked from a collection."""
    return isinstance(call, ast.Call) and not (
        any(isinstance(argument, ast.Starred) for argument in call.args)
        or any(word.arg is None for word in call.keywords)
    )


def _quantities(declared: list[Field]) -> dict[str, Quantity]:
    return {f.name: f.declaration for f in declared if isinstance(f.declaration, Quantity)}


@lru_cache(maxsize=256)
def _source(formula: Callable[..., Any]) -> list[ast.stmt]:
    """Return the statements of a formula after its docstring."""
    try:
        tree = ast.parse(textwrap.dedent(inspect.getsource(formula)))
    except OSError:
        return []
    [function] = tree.body
    body = function.body if isinstance(function, ast.FunctionDef) else []
    return body[1:] if ast.get_docstring(function) is not None else body
