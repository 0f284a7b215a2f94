"""The working of a calculation, made from the source of its formula: the two cannot disagree."""

import ast
from collections.abc import Callable, Iterable, Iterator
from dataclasses import is_dataclass, replace
from typing import Any

from calc.quantity import Quantity
from calc.working.calls import methods
from calc.working.expression import Expression, UnreadableError
from calc.working.lines import Lines, Shown
from calc.working.pens import Text
from calc.working.run import Run, run
from calc.working.scope import (
    is_number,
    is_quantity,
)
from calc.working.source import (
    assignments,
    has_return,
    names_in,
    opposite,
    returned,
    statements,
    unpacked,
)
from calc.working.step import Step


def steps(done: Run, pen: Text | None = None, digits: int = 4) -> list[Step]:
    """Return the working of a formula that has been run; values show so many digits.

    Each assignment to a declared name and each declared number of the result is a line, once.
    What the source does not say in arithmetic is shown by its value and the declared method; a
    working without any arithmetic or method is none.
    """
    found = list(_Working(done, pen or Text(), digits, Shown()).steps())
    says_more = any(s.evaluable or s.remark for s in flat(found))
    return found if says_more else []


def flat(found: Iterable[Step]) -> Iterator[Step]:
    """Yield the lines of a working, those below a heading after it."""
    for step in found:
        yield step
        yield from flat(step.inner)


class _Working(Lines):
    """Follows the statements of one formula that has been run."""

    over = False

    def steps(self) -> Iterator[Step]:
        """Yield the lines of the working."""
        for name, value in self.done.values.items():
            quantity = self.scope.quantities.get(name)
            if quantity:
                self.shown.numbers.add((quantity.symbol or quantity.label, value))
        yield from self._block(statements(self.done.formula))
        if not self.over:
            yield from self._fields(self.done.result)

    def _block(self, body: list[ast.stmt]) -> Iterator[Step]:
        """Follow statements until one returns."""
        for statement in body:
            yield from self._statement(statement)
            if self.over:
                return

    def _statement(self, statement: ast.stmt) -> Iterator[Step]:
        if isinstance(statement, ast.If):
            if self._is_restless(statement.test):
                self.over = True
                yield from self._fields(self.done.result)
                return
            is_so = bool(self.scope.value(statement.test))
            chosen = statement.body if is_so else statement.orelse
            ends = isinstance(statement.body[-1], ast.Return)
            if (chosen or ends) and not isinstance(statement.body[0], ast.Raise):
                self.condition = self._condition(statement.test, is_so=is_so)
            yield from self._block(chosen)
        elif isinstance(statement, ast.Return):
            self.over = True
            if statement.value:
                yield from self._returned(statement.value)
        elif has_return(statement):
            self.over = True
            yield from self._fields(self.done.result)
        else:
            self.scope.origins |= unpacked(statement)
            for name, value, annotation in assignments(statement):
                yield from self._assigned(name, value, annotation)

    def _assigned(
        self, name: str, expression: ast.expr, annotation: ast.expr | None
    ) -> Iterator[Step]:
        """Yield the line of an assignment; an undeclared name is put in where it is used."""
        value = self.scope.names[name]
        if name in self.meaning.restless:
            return
        self.scope.known[expression] = value
        quantity = self._declared(annotation) or self.scope.quantities.get(name)
        meant = self.scope.quantity(expression)
        quantity = quantity or meant or self.meaning.passed.get(name)
        if quantity:
            self.scope.quantities[name] = quantity
        if isinstance(expression, ast.Name) and meant == quantity:
            return
        if quantity and is_number(value):
            own = not self.scope.is_taken(quantity.symbol, value, name)
            if not own:
                self.scope.quantities[name] = replace(quantity, symbol="")
            yield from self._line(expression, quantity, own=own)
        else:
            self.scope.meanings[name] = self.scope.origins[name] = self._chosen(expression)
            yield from self._calls(expression)

    def _declared(self, annotation: ast.expr | None) -> Quantity | None:
        """Return the quantity in the annotation of a local name."""
        match annotation:
            case ast.Subscript(_, ast.Tuple([_, *declared])):
                return next(filter(is_quantity, map(self.scope.value, declared)), None)
        return None

    def _returned(self, expression: ast.expr) -> Iterator[Step]:
        """Yield a line for each number of the result that has not been shown under its name."""
        result = self.done.result
        if result is None:
            return
        self.scope.known[expression] = result
        expression = self._chosen(expression)
        self.scope.known[expression] = result
        found = returned(expression, self.scope.names)
        for name, node in found:
            self.scope.known[self._chosen(node)] = getattr(result, name)
        if not found and not is_number(result):
            if isinstance(expression, ast.Call) and self._is_formula(expression):
                yield from self._called(expression)
            else:
                yield from self._calls(expression)
                yield from self._fields(result, expression)
            return
        for name, node in found or [(self.done.formula.__name__, expression)]:
            quantity = self.meaning.results.get(name)
            if quantity and is_number(self.scope.value(self._chosen(node))):
                yield from self._line(node, quantity)
            else:
                yield from self._calls(node)

    def _fields(self, result: Any, node: ast.expr | None = None) -> Iterator[Step]:
        """Yield the declared numbers of a result by their values, and how they were found."""
        if node is not None:
            self._because(methods(node, self.scope))
        for name, quantity in self.meaning.results.items() if result is not None else ():
            value = getattr(result, name) if is_dataclass(result) else result
            if is_number(value):
                yield from self._line(ast.Constant(value), quantity)

    def _inside(self, function: Callable[..., Any], values: dict[str, Any]) -> Iterator[Step]:
        """Yield the lines of a function that was called with some values."""
        done = run(function, values)
        yield from _Working(done, self.pen, self.digits, self.shown, self.depth + 1).steps()

    def _is_restless(self, node: ast.expr) -> bool:
        return any(name.id in self.meaning.restless for name in names_in(node))

    def _condition(self, test: ast.expr, *, is_so: bool) -> str:
        """Return the comparison that holds, such as `μ > 1`, or nothing if it cannot be written."""
        held = test if is_so else opposite(test)
        try:
            return Expression(self.pen, self.scope, 6).write(held).text if held else ""
        except UnreadableError:
            return ""
