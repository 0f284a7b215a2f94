"""Every formula that has a form, under the name its shared links use."""

from collections.abc import Callable
from dataclasses import dataclass
from importlib import import_module
from typing import Any


@dataclass(frozen=True, slots=True)
class Entry:
    """How a formula is found and shown: its title, other names, and the figure it draws.

    `chart` names a function beside the formula that takes the same inputs and draws them.
    """

    title: str
    aliases: str = ""
    chart: str = ""


FORMULAS: dict[str, Entry] = {}


def formula(name: str) -> Callable[..., Any]:
    """Return a formula of the catalogue; its module is imported on first use."""
    return _function(name, name.rpartition(".")[2])


def chart(name: str) -> Callable[..., Any] | None:
    """Return the function that draws a formula's figure, or None if it has none."""
    return _function(name, entry(name).chart) if entry(name).chart else None


def entry(name: str) -> Entry:
    """Return the catalogue's entry of a formula."""
    if name not in FORMULAS:
        raise ValueError(f"No formula is called {name}")
    return FORMULAS[name]


def _function(name: str, function: str) -> Callable[..., Any]:
    entry(name)
    return getattr(import_module(f"calc.{name.rpartition('.')[0]}"), function)  # type: ignore[no-any-return]
