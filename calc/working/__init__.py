"""Working: the steps of a calculation, made from the source of its formula."""

from calc.working.latex import LaTeX
from calc.working.mathml import MathML
from calc.working.pens import Text
from calc.working.run import Run, run
from calc.working.step import Step
from calc.working.steps import flat, steps

__all__ = ["LaTeX", "MathML", "Run", "Step", "Text", "flat", "run", "steps"]
