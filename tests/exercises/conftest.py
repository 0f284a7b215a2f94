"""A learner's browser, which has never been here before and asks nothing of anybody else."""

from tests.sheet.conftest import context

__all__ = ["context"]
