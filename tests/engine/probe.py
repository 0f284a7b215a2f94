"""Functions that the tests put into `calc` to look at the engine from inside."""

import importlib
import inspect
import sys
import time
from dataclasses import dataclass
from typing import Annotated, get_type_hints

PROBES = (
    *("probe.after", "probe.doors", "probe.imported", "probe.own_source", "probe.point"),
    *("probe.interpreter", "probe.refused", "probe.told"),
    *(
        "linalg.eigenvalues",
        "linalg.eigenvalues_of_sums",
        "linalg.generalized_symmetric_eigen",
        "linalg.solve",
    ),
    *("linalg.multipliers", "linalg.symmetric_eigen", "linalg.transition"),
    *("probe.transformed", "probe.read_between"),
)


@dataclass(frozen=True)
class Point:
    """A point with what JSON cannot say."""

    x: Annotated[float, "metre"]
    infinite: float
    root: complex


def point(x: float) -> Point:
    """Return a point."""
    return Point(x, float("inf"), 1.0 - 2.0j)


def own_source() -> list[object]:
    """Return what a page may want to show of a function: source, docstring, annotations."""
    hints = get_type_hints(Point, include_extras=True)
    return [inspect.getsource(point), inspect.getdoc(point), hints["x"].__metadata__[0]]


def imported(names: list[str]) -> list[str]:
    """Return those of the modules `names` that cannot be imported, with the reason."""
    missing = []
    for name in names:
        try:
            importlib.import_module(name)
        except ImportError as error:
            missing.append(f"{name}: {error}")
    return missing


def interpreter() -> str:
    """Return the platform on which this runs."""
    return sys.platform


def doors(names: list[str]) -> list[str]:
    """Return those of `names` that the worker still has."""
    js = importlib.import_module("js")
    return [name for name in names if getattr(js, name, None) is not None]


def after(seconds: float, answer: str) -> str:
    """Return `answer` after some seconds of work."""
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        pass
    return answer


def refused(x: float) -> float:
    """Refuse any value."""
    raise ValueError(f"x must not be {x}")


def transformed(samples: list[float], weights: list[float], step: int) -> list[list[float]]:
    """Return what the Fourier transforms of `calc.linalg` make of samples, as lists."""
    from calc import linalg  # noqa: PLC0415 - the probe also runs where there is no package

    count = len(weights)
    crosses, *powers = linalg.mean_cross_powers(samples, samples[::-1], weights, step)
    found = [
        *linalg.spectrum_of(samples),
        *linalg.weighted_lines(samples[:count], weights),
        linalg.mean_powers(samples, weights, step),
        linalg.cosine_series(weights[:4], count),
        [cross.real for cross in crosses],
        [cross.imag for cross in crosses],
        *powers,
    ]
    return [list(part) for part in found]


def read_between(samples: list[float], pieces: list[float], count: int) -> list[float]:
    """Return samples read between one another by `calc.linalg`, as a list."""
    from calc import linalg  # noqa: PLC0415 - the probe also runs where there is no package

    return list(linalg.resampled(samples, pieces, count))


def told(text: str, last: bool) -> list[object]:  # noqa: FBT001 - from JSON
    """Return what was passed."""
    return [text, last]
