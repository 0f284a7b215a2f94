"""Changes: the formulas that give other numbers than in an earlier release, and why.

The old and the new numbers are not typed here: `releases/` keeps what each release gave, and a
test finds every number that differs without a change recorded, and every change without one.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Change:
    """What a release computes otherwise than the one before it.

    Attributes:
        version: The first release with the new numbers.
        formulas: The formulas whose results changed, by their names in links.
        what: What is computed otherwise, one sentence.
        why: Why, one sentence or more.
        renamed: The new name of a result by its old one.
    """

    version: str
    formulas: tuple[str, ...]
    what: str
    why: str
    renamed: Mapping[str, str] = field(default_factory=dict)


CHANGES: tuple[Change, ...] = (
    Change(
        "0.2.0",
        (
            "rotor.stall_onset.stall_onset_airspeed",
            "rotor.stall_boundary.stall_boundary_blade_loading",
            "rotor.airspeed_limits.airspeed_limits",
        ),
        "Retreating-blade stall is given at the tip and at the inboard station, each by itself, "
        "under names of their own; before, the larger of the two angles was held against the "
        "limit.",
        "The tip is limiting while shaft power drives the rotor, the inboard station in "
        "autorotation; the larger angle put the onset of a powered rotor too low at high blade "
        "loading.",
        {
            "airspeed": "tip_airspeed",
            "airspeed_limits": "rows",
        },
    ),
    Change(
        "0.2.0",
        ("harmonics.coincidence.coincidence",),
        "An avoid band that goes on beyond the speeds of interest has no end.",
        "Before, the end of the search stood there as the end of the band.",
    ),
    Change(
        "0.2.0",
        ("ground.run_plan.plan", "ground.step_order.order_check"),
        "A ground run takes smaller steps, stops at a stand-off from an unstable band or at a "
        "least damping, and takes the bad end of the uncertainties inside their corners too.",
        "Before, a step was held up to the edge of the band as given; damping may fall by more "
        "than a quarter within one large step, and is not always least at a corner.",
    ),
)


def since(formula: str, release: str) -> list[Change]:
    """Return the changes of a formula after a release, the oldest first."""
    found = [
        change
        for change in CHANGES
        if formula in change.formulas and place(change.version) > place(release)
    ]
    return sorted(found, key=lambda change: place(change.version))


def name_now(formula: str, result: str) -> str:
    """Return the name of a result that was quoted under an earlier one."""
    for change in CHANGES:
        if formula in change.formulas:
            result = change.renamed.get(result, result)
    return result


def place(version: str) -> tuple[int, ...]:
    """Return the place of a release in the order of releases.

    Examples:
        >>> place("0.10.0") > place("0.9.1"), place("1.0") == place("1.0.0")
        (True, True)
    """
    numbers = [int(part) for part in version.split(".")]
    return tuple(numbers + [0] * (3 - len(numbers)))
