"""Coincidence: the speeds at which excitations cross modes or one another, and those left free."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Annotated

from calc.declaration import Choice, Name, Table
from calc.harmonics.closest_lines import (
    AT_THE_MARGIN,
    CLOSEST_MODES,
    CLOSEST_PAIRS,
    AtTheMargin,
    ClosestMode,
    ClosestPair,
    at_the_margin,
    closest_modes,
    closest_pairs,
    per_cent,
)
from calc.harmonics.coincidence_figure import coincidence_chart
from calc.harmonics.meetings import (
    CANCELS,
    HUB_BLADES,
    MARGIN,
    MODES,
    ROTOR,
    SECOND,
    SOURCES,
    Meeting,
    Mode,
    Source,
    meetings,
    seen_through_the_hub,
)
from calc.harmonics.operating_speeds import OperatingSpeeds
from calc.harmonics.speed_bands import (
    Limits,
    Range,
    found_ends,
    gaps,
    in_words,
    inward,
    merged,
    outward,
    rotor_ranges,
    second_ranges,
    with_other,
)
from calc.quantity import Quantity
from calc.units import ROTATION

__all__ = ["AvoidBand", "Coincidence", "FreeBand", "coincidence", "coincidence_chart"]

FROM = Quantity(r"\Omega_a", "From", ROTATION, at_least=0.0)
TO = Quantity(r"\Omega_b", "To", ROTATION, at_least=0.0)
INNER_FROM = Quantity(r"\Omega_{a0}", "From, frequencies exact", ROTATION, at_least=0.0)
INNER_TO = Quantity(r"\Omega_{b0}", "To, frequencies exact", ROTATION, at_least=0.0)
SHAFTS = {ROTOR: "Rotor speed", SECOND: "Propeller speed"}
POINT = "at the operating speeds alone, without a range about them,"
AXIS = Choice("Speed", {ROTOR: "rotor", SECOND: "propeller"})


@dataclass(frozen=True, slots=True)
class Advice:
    """What to avoid and what is free, in a sentence."""

    sentence: Annotated[str, Name("In words")]


@dataclass(frozen=True, slots=True)
class AvoidBand:
    """A range of a speed to avoid, with the edges that it has if all frequencies are exact.

    An edge is None where the range goes on beyond the speeds of interest.
    """

    speed: Annotated[str, AXIS]
    low: Annotated[float | None, FROM]
    high: Annotated[float | None, TO]
    inner_low: Annotated[float | None, INNER_FROM]
    inner_high: Annotated[float | None, INNER_TO]
    reasons: Annotated[str, Name("Because")]
    beyond: Annotated[str, Name("Goes on beyond")]


@dataclass(frozen=True, slots=True)
class FreeBand:
    """A range of a speed in which nothing coincides."""

    speed: Annotated[str, AXIS]
    low: Annotated[float, FROM]
    high: Annotated[float, TO]


@dataclass(frozen=True, slots=True)
class Coincidence:
    """Avoid bands and free ranges, in words and as rows, and how far lines are in operation."""

    verdict: Annotated[str, Name("In operation")]
    advice: Annotated[tuple[Advice, ...], Table("Avoid bands in words", Advice)]
    closest_modes: Annotated[tuple[ClosestMode, ...], CLOSEST_MODES]
    closest_pairs: Annotated[tuple[ClosestPair, ...], CLOSEST_PAIRS]
    at_the_margin: Annotated[tuple[AtTheMargin, ...], AT_THE_MARGIN]
    avoid: Annotated[tuple[AvoidBand, ...], Table("Avoid bands", AvoidBand)]
    free: Annotated[tuple[FreeBand, ...], Table("Free ranges", FreeBand)]


def coincidence(
    sources: Annotated[tuple[Source, ...], SOURCES],
    modes: Annotated[tuple[Mode, ...], MODES],
    speeds: OperatingSpeeds,
    margin: Annotated[float, MARGIN] = 0.05,
    blades: Annotated[int, HUB_BLADES] = 0,
) -> Coincidence:
    r"""Return the avoid bands of one or two independent speeds, and how far lines are in operation.

    $$ \frac{2 |f_1 - f_2|}{f_1 + f_2} \le t \iff \frac{1}{q} \le \frac{f_1}{f_2} \le q,
       \quad q = \frac{1 + t/2}{1 - t/2} $$

    A mode may lie anywhere within its tolerance, which widens its bands; the inner edges leave it
    out.  Two excitations of different shafts coincide along a wedge: a band of one speed is taken
    over the operating range of the other.  Bands that overlap are one.  A shaft that no excitation
    follows has no bands, so that one independent speed is enough.  With the number of blades given,
    a whole order of the rotor above one that is no multiple of it is said to cancel at the hub: it
    reaches the airframe only where the blades differ.  Its bands stay.

    Args:
        sources: Excitations, and the shaft whose orders they are; rows.
        modes: What can resonate; rows.
        speeds: Speeds of interest, operating speeds and their ranges.
        margin: Difference of two frequencies over their mean that is too near; scalar.
        blades: Number of blades of the rotor, 0 where the hub is not asked; scalar.

    Returns:
        How near lines come in operation, ranges to avoid, and ranges left free.

    Raises:
        ValueError: If an excitation, a mode or a speed cannot exist, a number is not finite or
            breaks its limits, or a highest speed is not above the lowest.

    Source:
        Relative separation of two frequencies; ranges in closed form.

    Examples:
        >>> from calc.units import RPM
        >>> speeds = OperatingSpeeds(RPM.si(300.0), RPM.si(420.0), RPM.si(330.0))
        >>> modes = (Mode("the first lateral mode", 12.58),)
        >>> found = coincidence((Source("2/rev", "rotor", 2.0),), modes, speeds, 0.033)
        >>> for advice in found.advice:
        ...     print(advice.sentence)
        Rotor speed: avoid 365 to 391 rpm: 2/rev crosses the first lateral mode
        Rotor speed: free 300 to 364 rpm
        Rotor speed: free 392 to 420 rpm
    """
    SOURCES.check(sources)
    MODES.check(modes)
    MARGIN.check(margin)
    HUB_BLADES.check(blades)
    named = seen_through_the_hub(sources, blades)
    met = meetings(named, modes, margin)
    ranges = _ranges(named, met, speeds)
    nearest_modes = closest_modes(named, modes, speeds)
    nearest_pairs = closest_pairs(named, speeds)
    return Coincidence(
        verdict=_verdict(nearest_modes, nearest_pairs, speeds, margin),
        advice=tuple(map(Advice, _sentences(met, ranges, speeds))),
        closest_modes=nearest_modes,
        closest_pairs=nearest_pairs,
        at_the_margin=at_the_margin(modes, margin),
        avoid=tuple(
            _avoid_band(shaft, found, speeds.of_interest(shaft))
            for shaft, row in ranges.items()
            for found in row
        ),
        free=tuple(
            FreeBand(shaft, *gap)
            for shaft, row in ranges.items()
            for gap in gaps(row, *speeds.of_interest(shaft))
        ),
    )


def _ranges(
    sources: Iterable[Source], met: Iterable[Meeting], speeds: OperatingSpeeds
) -> dict[str, list[Range]]:
    """Return the ranges to avoid of each shaft that an excitation follows."""
    met = list(met)
    turning = {source.follows for source in sources}
    found = {
        ROTOR: rotor_ranges(met, speeds.operating(SECOND)),
        SECOND: second_ranges(met, speeds.operating(ROTOR)),
    }
    return {
        shaft: merged(ranges, *speeds.of_interest(shaft))
        for shaft, ranges in found.items()
        if shaft in turning
    }


def _avoid_band(shaft: str, found: Range, limits: Limits) -> AvoidBand:
    """Return a range to avoid as a row, with the ends of the search in words."""
    outer = found_ends(found.low, found.high, limits)
    sides = zip(outer, ("the start of the search", "the end of the search"), strict=True)
    return AvoidBand(
        shaft,
        *outer,
        *found_ends(found.inner_low, found.inner_high, limits),
        "; ".join(found.reasons),
        " and ".join(words for end, words in sides if end is None),
    )


def _verdict(
    with_modes: Sequence[ClosestMode],
    pairs: Sequence[ClosestPair],
    speeds: OperatingSpeeds,
    margin: float,
) -> str:
    """Return in words whether the operating speeds, or their ranges, keep the margin."""
    place = "over the operating ranges" if speeds.has_ranges() else POINT
    near = [
        f"{count} {what}"
        for count, what in (
            (_within(with_modes, margin), "within the margin of a mode"),
            (_within(pairs, margin), "of two excitations within the margin of one another"),
        )
        if count
    ]
    rows: list[ClosestMode | ClosestPair] = [*with_modes, *pairs]
    cancelled = _within((row for row in rows if CANCELS in row.words), margin)
    if not near:
        return f"{place} nothing lies within the margin"
    hub = f"; {cancelled} of an order that {CANCELS}" if cancelled else ""
    return f"{place} there are coincidences: {' and '.join(near)}{hub}"


def _within(rows: Iterable[ClosestMode | ClosestPair], margin: float) -> int:
    return sum(row.least_separation <= margin for row in rows)


def _sentences(
    met: Iterable[Meeting], ranges: dict[str, list[Range]], speeds: OperatingSpeeds
) -> Iterator[str]:
    met = list(met)
    wedges = any((m.first.follows, m.second.follows) == (ROTOR, SECOND) for m in met)
    others = {
        ROTOR: with_other("propeller", speeds.operating(SECOND)),
        SECOND: with_other("rotor", speeds.operating(ROTOR)),
    }
    for shaft, row in ranges.items():
        other = f" {others[shaft]}" if wedges else ""
        limits = speeds.of_interest(shaft)
        for low, high, reasons in _whole(row, limits):
            band = in_words(low, high)
            yield f"{SHAFTS[shaft]}: avoid {band}: {', and '.join(reasons)}"
        for gap in gaps(row, *limits):
            if whole := inward(*gap, limits):
                yield f"{SHAFTS[shaft]}: free {whole[0]} to {whole[1]} rpm{other}"
    for m in met:
        if m.always:
            apart = abs(m.second.rate - m.first.rate) / (m.second.rate + m.first.rate)
            yield f"At every speed: {m.words}, {per_cent(2.0 * apart)} apart"


def _whole(
    row: Iterable[Range], limits: Limits
) -> Iterator[tuple[int | None, int | None, tuple[str, ...]]]:
    """Yield ranges to avoid in whole rpm, those that then touch as one; None for no end found."""
    found: list[tuple[Limits, tuple[str, ...]]] = []
    for band in row:
        low = band.low
        before: tuple[str, ...] = ()
        if found and outward(low, low)[0] <= outward(found[-1][0][1], found[-1][0][1])[1]:
            (low, _), before = found.pop()
        found.append(((low, band.high), before + band.reasons))
    for ends, reasons in found:
        pairs = zip(found_ends(*ends, limits), outward(*ends), strict=True)
        first, last = (None if end is None else whole for end, whole in pairs)
        yield first, last, reasons
