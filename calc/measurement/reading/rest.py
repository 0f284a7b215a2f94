"""Rest: long stretches in which a channel stays at one value, a stick at rest or a sensor lost."""

from collections.abc import Callable, Iterator

from calc.measurement.reading.cells import unit_of
from calc.measurement.reading.samples import Samples, is_known

STUCK = 0.01
"""From this share of the record a channel that stays at one value is named."""
LEAST_STUCK = 50
AT_REST = 0.5
"""From this share of the record at one value a lever is said to rest, and not to have failed."""
VIBRATES = {"acceleration", "velocity"}
"""What no sensor finds at rest while a rotor turns."""


def at_rest(
    name: str, unit: str, samples: Samples, time_of: Callable[[int], float]
) -> Iterator[str]:
    """Yield what is to be said of a channel that stays at one value, once for all stretches.

    Args:
        name: The channel.
        unit: Its unit.
        samples: Its samples, gaps as NaN; shape (n,).
        time_of: Gives the time of a row in s.
    """
    stretches = stuck(samples)
    if not stretches:
        return
    first, last = max(stretches, key=lambda stretch: stretch[1] - stretch[0])
    at = f"{valued(samples[first], unit)} from {time_of(first):.4g} s to {time_of(last):.4g} s"
    count, share = len(stretches), sum(map(_length, stretches)) / len(samples)
    longest = f", in {count} stretches, the longest at {at}" if count > 1 else f": at {at}"
    if share >= AT_REST and (unit_of(unit) or ("", ""))[0] not in VIBRATES:
        yield (
            f"{name}: does not move for {100.0 * share:.0f} % of the record{longest}. A stick or a "
            "lever rests like this; a sensor of vibration that does has dropped out."
        )
    elif count > 1:
        yield f"{name}: stays at one value{longest}: cable, range or dropout?"
    else:
        yield f"{name}: stays at {at}: cable, range or dropout?"


def stuck(samples: Samples) -> list[tuple[int, int]]:
    """Return the first and last samples of long stretches of one value; gaps do not end one."""
    least = max(LEAST_STUCK, int(STUCK * len(samples)))
    found: list[tuple[int, int]] = []
    for at in range(0, len(samples) - least // 2, least // 2):
        value = samples[at]
        if samples[at + least // 2] != value or (found and at <= found[-1][1]):
            continue
        first, last = at, at
        for row in range(at - 1, -1, -1):
            if samples[row] == value:
                first = row
            elif is_known(samples[row]):
                break
        for row in range(at + 1, len(samples)):
            if samples[row] == value:
                last = row
            elif is_known(samples[row]):
                break
        if last - first >= least:
            found.append((first, last))
    return found


def valued(value: float, unit: str) -> str:
    """Return a value with its unit, if there is one."""
    return f"{value:.4g} {unit}".rstrip()


def _length(stretch: tuple[int, int]) -> int:
    return stretch[1] - stretch[0] + 1
