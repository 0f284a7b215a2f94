"""Figures that are shown step by step, by the names under which pages ask for them."""

from collections.abc import Callable

from scripts.stepped.coleman import coleman
from scripts.stepped.figure import Stepped
from scripts.stepped.mechanism import mechanism
from scripts.stepped.run_up import run_up
from scripts.stepped.transition import transition

STEPPED: dict[str, Callable[[], Stepped]] = {
    "coleman": coleman,
    "mechanism": mechanism,
    "run_up": run_up,
    "transition": transition,
}
