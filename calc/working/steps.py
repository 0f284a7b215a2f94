"""The working of a calculation, made from the source of its formula: the two cannot disagree."""

import ast
import inspect
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import is_dataclass, replace
from typing import Any

from calc.declaration import Field, arguments
from calc.quantity import Quantity
from calc.working.expression import Expression, UnreadableError
from calc.working.meaning import checked, passed, results
from calc.working.pens import Text
from calc.working.scope import Scope, declared_inputs, declared_outputs
from calc.working.source import assignment, has_calls, opposite, parts, returned, statements
from calc.working.step import Step, purpose, written

_DEEPEST = 5


def steps(formula: Callable[..., Any], values: Mapping[str, Any], digits: int = 4) -> list[Step]:
    """Return the working of a formula for inputs in SI units; values show so many digits.

    Each assignment in the source and each declared number of the result is a step.  Where the
    source cannot be followed, as in a loop that returns, the numbers of the result are shown.
    """
    return list(_Working(formula, arguments(formula, values), digits).steps())


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
        self.results = _quantities(declared_outputs(formula))
        self.scope = Scope(
            {**getattr(formula, "__globals__", {}), **self.values},
            _quantities(f for f in declared_inputs(formula) if f.name in self.values),
        )
        self.passed: dict[str, Quantity] = {}
        self.reason = ""
        self.over = False

    def steps(self) -> Iterator[Step]:
        """Yield the steps of the working."""
        body = statements(self.formula)
        names = self.scope.names
        for name, quantity in (*checked(body, names), *results(body, names, self.results)):
            self.scope.quantities.setdefault(name, quantity)
        self.passed = dict(passed(body, names))
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
        if named := assignment(statement):
            yield from self._assigned(*named)
        elif isinstance(statement, ast.If):
            is_so = bool(self.scope.value(statement.test))
            if not isinstance(statement.body[0], ast.Raise):
                self.reason = self._condition(statement.test, is_so=is_so)
            yield from self._block(statement.body if is_so else statement.orelse)
        elif isinstance(statement, ast.Return):
            if statement.value:
                yield from self._returned(self._chosen(statement.value))
            self.over = True
        elif any(isinstance(part, ast.Return) for part in parts(statement)):
            yield from self._results()
        else:
            if isinstance(statement, ast.Assign):
                yield from self._calls(statement.value)
            self.scope.run(statement)
            yield from self._unpacked(statement)

    def _results(self) -> Iterator[Step]:
        """Yield the declared numbers of the result alone."""
        self.over = True
        result = self.formula(**self.values)
        yield from self._fields(result)

    def _fields(self, result: Any) -> Iterator[Step]:
        """Yield the declared numbers of a result by their values."""
        for name, quantity in self.results.items() if result is not None else ():
            value = getattr(result, name) if is_dataclass(result) else result
            yield from self._line(name, ast.Constant(value), quantity)

    def _assigned(self, name: str, expression: ast.expr) -> Iterator[Step]:
        """Yield the step of an assignment; another name for the same quantity is none."""
        value = self.scope.value(expression)
        meant = self.scope.quantity(expression)
        quantity = self.scope.quantities.get(name) or meant or self.passed.get(name)
        if isinstance(expression, ast.Name) and meant and meant == quantity:
            self.scope.quantities[name] = meant
            self.scope.assign(name, value)
            return
        if quantity and name not in self.values and self.scope.is_taken(quantity.symbol, name):
            quantity = replace(quantity, symbol="")
        if isinstance(expression, ast.Attribute) and meant and meant == quantity:
            yield from self._calls(expression)
        else:
            yield from self._line(name, expression, quantity)
        if quantity:
            self.scope.quantities[name] = quantity
        self.scope.assign(name, value)

    def _unpacked(self, statement: ast.stmt) -> Iterator[Step]:
        """Yield a step for each name that an assignment to several has set to a number."""
        match statement:
            case ast.Assign([ast.Tuple(targets)], _):
                for target in targets:
                    if isinstance(target, ast.Name):
                        value = ast.Constant(self.scope.names[target.id])
                        yield from self._line(target.id, value, None)

    def _returned(self, expression: ast.expr) -> Iterator[Step]:
        """Yield a step for each number of the result that has not been shown under its name."""
        found = returned(expression, self.scope.names)
        value = self.scope.value(expression)
        if not found and is_dataclass(value) and not self._is_formula(expression):
            yield from self._calls(expression)
            self.reason = "; ".join(filter(None, (self.reason, purpose(expression, self.scope))))
            yield from self._fields(value)
            return
        for name, part in found or [(self.formula.__name__, expression)]:
            node = self._chosen(part)
            quantity = self.results.get(name)
            if not isinstance(node, ast.Name) or self.scope.quantity(node) != quantity:
                yield from self._line(name, node, quantity)

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
        if isinstance(node, ast.IfExp):
            node = self._chosen(node)
        if not has_calls(node):
            return
        for child in ast.iter_child_nodes(node):
            yield from self._calls(child)
        if isinstance(node, ast.Call) and self._is_formula(node) and self.depth < _DEEPEST:
            function = self.scope.value(node.func)
            values = self._arguments(node, function)
            yield from _Working(function, values, self.digits, self.depth + 1).steps()

    def _is_formula(self, node: ast.expr) -> bool:
        """Return whether an expression is a call of a formula."""
        return isinstance(node, ast.Call) and bool(declared_outputs(self.scope.value(node.func)))

    def _arguments(self, node: ast.Call, function: Callable[..., Any]) -> dict[str, Any]:
        """Return what a formula is called with, by the names of its inputs."""
        placed: list[Any] = []
        named: dict[str, Any] = {}
        for argument in node.args:
            if isinstance(argument, ast.Starred):
                placed += self.scope.value(argument.value)
            else:
                placed.append(self.scope.value(argument))
        for word in node.keywords:
            value = self.scope.value(word.value)
            named |= {word.arg: value} if word.arg else value
        return inspect.signature(function).bind(*placed, **named).arguments

    def _chosen(self, node: ast.expr) -> ast.expr:
        """Return the branch of a conditional expression that holds."""
        while isinstance(node, ast.IfExp):
            node = node.body if self.scope.value(node.test) else node.orelse
        return node

    def _condition(self, test: ast.expr, *, is_so: bool) -> str:
        """Return why a branch is taken, such as `as μ > 1`, or nothing if it cannot be written."""
        held = test if is_so else opposite(test)
        try:
            return f"as {Expression(Text(), self.scope).write(held).text}" if held else ""
        except UnreadableError:
            return ""


def _quantities(declared: Iterable[Field]) -> dict[str, Quantity]:
    return {f.name: f.declaration for f in declared if isinstance(f.declaration, Quantity)}
