"""Working: the steps of a calculation, made from the source of its formula."""

from calc.working.step import Step
from calc.working.steps import steps

__all__ = ["Step", "steps"]
