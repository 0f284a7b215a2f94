"""Lines: how one number of a working becomes a line, with the formulas that it is made of."""

import ast
from abc import ABC, abstractmethod
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from typing import Any

from calc.declaration import Method
from calc.digits import significant
from calc.quantity import Quantity
from calc.working.calls import argument_nodes, arguments, methods, title
from calc.working.expression import named
from calc.working.meaning import meaning
from calc.working.pens import Text
from calc.working.run import Run
from calc.working.scope import (
    Scope,
    annotated,
    declared_outputs,
    is_number,
    is_quantity,
    is_same,
    only_output,
)
from calc.working.source import calls_in, parameters, parts
from calc.working.step import Step, written

_DEEPEST = 6


@dataclass(slots=True)
class Shown:
    """What a working has shown so far: nothing in it is shown twice."""

    lines: set[str] = field(default_factory=set)
    numbers: set[tuple[str, Any]] = field(default_factory=set)
    calls: set[str] = field(default_factory=set)
    methods: set[str] = field(default_factory=set)
    headings: dict[str, dict[str, Any]] = field(default_factory=dict)


class Lines(ABC):
    """Writes lines of the working of one formula that has been run."""

    def __init__(self, done: Run, pen: Text, digits: int, shown: Shown, depth: int = 0) -> None:
        """Start where nothing of a formula is written; what was shown before is not shown again."""
        self.done = done
        self.pen = pen
        self.digits = digits
        self.shown = shown
        self.depth = depth
        self.meaning = meaning(done.formula)
        self.scope = Scope(
            {**getattr(done.formula, "__globals__", {}), **done.names},
            dict(self.meaning.quantities),
        )
        self.reason = ""
        self.condition = ""

    @abstractmethod
    def _inside(self, function: Callable[..., Any], values: dict[str, Any]) -> Iterator[Step]:
        """Yield the lines of a function that was called with some values."""

    def _line(self, node: ast.expr, quantity: Quantity, *, own: bool = True) -> Iterator[Step]:
        """Yield the line of a number, after the lines of the formulas in it; none twice."""
        node = self._chosen(node)
        yield from self._calls(node)
        own = own and not self._is_another(node, quantity)
        symbol = quantity.symbol if own and quantity.symbol else quantity.label
        value = self.scope.value(node)
        again = isinstance(node, ast.Name | ast.Attribute) and quantity.units[0] != quantity.si
        bare = isinstance(node, ast.Constant | ast.Name | ast.Attribute | ast.Call)
        if again or (bare and (symbol, value) in self.shown.numbers):
            return
        searches = methods(node, self.scope)
        self._because(searches)
        step = written(quantity, node, self.scope, self.pen, self.digits, own=own)
        if step.line not in self.shown.lines:
            self.shown.lines.add(step.line)
            self.shown.numbers.add((step.symbol, step.value))
            yield replace(step, remark=self.reason, condition=self.condition)
        self.reason = self.condition = ""
        for call, found in searches:
            yield from self._at_answer(call, found)

    def _is_another(self, node: ast.expr, quantity: Quantity) -> bool:
        """Return whether a number in an expression has the symbol of its result."""
        value = self.scope.value(node)
        found = [p for p in parts(node) if isinstance(p, ast.Name | ast.Attribute | ast.Call)]
        return any(
            known.symbol == quantity.symbol and not is_same(self.scope.value(part), value)
            for part in found
            if (known := self.scope.quantity(part))
        )

    def _because(self, searches: list[tuple[ast.Call, Method]]) -> None:
        words = [found.words for _, found in searches if found.words not in self.shown.methods]
        self.shown.methods.update(words)
        self.reason = "; ".join(filter(None, (self.reason, *dict.fromkeys(words))))

    def _at_answer(self, call: ast.Call, found: Method) -> Iterator[Step]:
        """Yield what shows that the answer of a search is one."""
        if found.at_answer is None:
            return
        answer = self.scope.value(call)
        given = arguments(call, self.scope)
        first, *others = parameters(found.at_answer)
        values = {first: answer} | {name: given[name] for name in others if name in given}
        inner = list(self._inside(found.at_answer, values))
        if inner:
            yield replace(inner[0], remark="at the answer")
            yield from inner[1:]

    def _calls(self, node: ast.AST) -> Iterator[Step]:
        """Yield the workings of the formulas that an expression calls, arguments first."""
        if not calls_in(node):
            return
        if isinstance(node, ast.IfExp):
            node = self._chosen(node)
        for child in ast.iter_child_nodes(node):
            yield from self._calls(child)
        if isinstance(node, ast.Call) and self._is_formula(node):
            yield from self._called(node)

    def _called(self, node: ast.Call) -> Iterator[Step]:
        """Yield the working of a formula that is called: under a heading where it is a whole."""
        function = self.scope.value(node.func)
        values = arguments(node, self.scope)
        key = f"{function.__module__}.{function.__name__}{sorted(values.items())!r}"
        if key in self.shown.calls or self.depth >= _DEEPEST:
            return
        self.shown.calls.add(key)
        yield from self._given(node, function)
        inner = list(self._inside(function, values))
        if self.scope.value(node) is self.done.result or self._reads_on(inner, values, function):
            yield from inner
        elif inner:
            yield Step("", heading=self._heading(function, values), inner=tuple(inner))

    def _heading(self, function: Callable[..., Any], values: dict[str, Any]) -> str:
        """Return the title of a formula; where it stood already, with what is another now."""
        words = title(function)
        before = self.shown.headings.setdefault(words, values)
        declared = annotated(function)
        others = [
            f"{named(Text(), quantity).text} = {significant(value)} {quantity.si.name}".rstrip()
            for name, value in values.items()
            for quantity in filter(is_quantity, declared.get(name, ()))
            if is_number(value) and value != before.get(name)
        ]
        return ", ".join([words, *others])

    def _given(self, node: ast.Call, function: Callable[..., Any]) -> Iterator[Step]:
        """Yield the lines of what a formula is called with that is computed on the spot."""
        declared = annotated(function)
        for name, argument in argument_nodes(node, function).items():
            quantity = next(filter(is_quantity, declared.get(name, ())), None)
            if quantity is None or not isinstance(argument, ast.BinOp):
                continue
            value = self.scope.value(argument)
            if is_number(value) and not self.scope.is_taken(quantity.symbol, value):
                yield from self._line(argument, quantity)

    def _reads_on(
        self, inner: list[Step], values: dict[str, Any], function: Callable[..., Any]
    ) -> bool:
        """Return whether the lines of a formula can stand among those of the one that calls it.

        They can if the formula returns one number and no symbol in them means another one here.
        """
        if only_output(function) is None:
            return False
        declared = annotated(function)
        given = [
            (quantity.symbol, value)
            for name, value in values.items()
            for quantity in filter(is_quantity, declared.get(name, ()))
        ]
        lines = [(step.symbol, step.value) for step in inner]
        return not any(self.scope.is_taken(symbol, value) for symbol, value in given + lines)

    def _is_formula(self, node: ast.expr) -> bool:
        """Return whether an expression is a call of a formula."""
        return isinstance(node, ast.Call) and bool(declared_outputs(self.scope.value(node.func)))

    def _chosen(self, node: ast.expr) -> ast.expr:
        """Return the branch of a conditional expression that holds."""
        while isinstance(node, ast.IfExp):
            node = node.body if self.scope.value(node.test) else node.orelse
        return node
