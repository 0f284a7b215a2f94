"""Uncertainty: the sum of the parts of a measured amplitude, and which part decides."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated

from calc.declaration import Method, Name, Table
from calc.quantity import Constant, LimitError, Quantity
from calc.units import SHARE

PART = Name("Part", "calibration")
UNCERTAINTY = Quantity("u", "Standard uncertainty, relative", SHARE, at_least=0.0, example=0.02)
COMBINED = Quantity("u_c", "Combined standard uncertainty, relative", SHARE)
EXPANDED = Quantity("U", "Expanded uncertainty, coverage factor 2, relative", SHARE)
OF_VARIANCE = Quantity("", "Share of the variance", SHARE)
COVERAGE = Constant(2.0, Quantity("k", "Coverage factor"))


@dataclass(frozen=True, slots=True)
class UncertaintyPart:
    """One part of an uncertainty, independent of the others."""

    name: Annotated[str, PART]
    uncertainty: Annotated[float, UNCERTAINTY]


PARTS = Table(
    "Parts of the uncertainty",
    UncertaintyPart,
    example=(
        UncertaintyPart("calibration", 0.025),
        UncertaintyPart("frequency response", 0.03),
        UncertaintyPart("mounting and cross-axis", 0.03),
        UncertaintyPart("window, flat top", 0.001),
        UncertaintyPart("smear", 0.01),
        UncertaintyPart("repeatability", 0.05),
    ),
    at_least=1,
    at_most=30,
)


@dataclass(frozen=True, slots=True)
class PartOfVariance:
    """A part, and how much of the variance it is."""

    name: Annotated[str, PART]
    uncertainty: Annotated[float, UNCERTAINTY]
    share: Annotated[float, OF_VARIANCE]


@dataclass(frozen=True, slots=True)
class Budget:
    """The sum of an uncertainty budget, and its parts from the largest down."""

    combined: Annotated[float, COMBINED]
    expanded: Annotated[float, EXPANDED]
    largest: Annotated[str, Name("Largest part")]
    parts: Annotated[tuple[PartOfVariance, ...], Table("Parts, largest first", PartOfVariance)]


def combined_uncertainty(
    components: Sequence[float],
) -> Annotated[float, Method("the root of the sum of the squares of the parts")]:
    r"""Return the combined uncertainty of independent parts.

    $$ u_c = \sqrt{\sum_i u_i^2} $$

    Args:
        components: Standard uncertainties, all relative or all in one unit; shape (n,).

    Returns:
        The combined standard uncertainty, in the same unit; scalar.

    Raises:
        ValueError: If there is no part, or one is negative or not finite.

    Source:
        JCGM 100 (2008), clause 5.1.2, uncorrelated inputs; from memory.

    Examples:
        >>> combined_uncertainty([0.03, 0.04])
        0.05
    """
    if not components:
        raise ValueError("An uncertainty needs at least one part")
    for part in components:
        if not (math.isfinite(part) and part >= 0.0):
            raise LimitError(UNCERTAINTY, part)
    return math.hypot(*components)


def uncertainty_budget(
    parts: Annotated[tuple[UncertaintyPart, ...], PARTS],
) -> Budget:
    r"""Return the sum of an uncertainty budget, and what each part is of it.

    $$ u_c = \sqrt{\sum_i u_i^2}, \qquad U = 2 u_c $$

    Parts are independent, relative to the amplitude and standard uncertainties: a bound $\pm a$
    without more knowledge is entered as $a / \sqrt 3$.

    Args:
        parts: Each part with its name; rows.

    Returns:
        Combined and expanded uncertainty, the largest part, and all parts from the largest down.

    Raises:
        ValueError: If a part breaks its limits.

    Source:
        JCGM 100 (2008), clauses 4.3.7, 5.1.2 and 6.2; from memory.

    Examples:
        >>> parts = (UncertaintyPart("calibration", 0.03), UncertaintyPart("repeats", 0.04))
        >>> uncertainty_budget(parts).largest
        'repeats, 64 % of the variance'
    """
    PARTS.check(parts)
    combined = combined_uncertainty([part.uncertainty for part in parts])
    ordered = sorted(parts, key=lambda part: -part.uncertainty)
    found = tuple(
        PartOfVariance(
            part.name,
            part.uncertainty,
            (part.uncertainty / combined) ** 2 if combined else 0.0,
        )
        for part in ordered
    )
    first = found[0]
    return Budget(
        combined=combined,
        expanded=COVERAGE * combined,
        largest=f"{first.name}, {100.0 * first.share:.0f} % of the variance",
        parts=found,
    )
