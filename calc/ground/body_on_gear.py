"""Body on gear: the lateral and roll modes of a rigid body on its gear, as hub data."""

import math
from dataclasses import dataclass, replace
from typing import Annotated, ClassVar

from calc import linalg
from calc.constants import STANDARD_GRAVITY
from calc.declaration import Method, Table, check
from calc.ground.model.general_support import GeneralSupport
from calc.quantity import Quantity
from calc.units import (
    ANGULAR_DAMPING,
    ANGULAR_STIFFNESS,
    DAMPING,
    FREQUENCY,
    INERTIA,
    LENGTH,
    MASS,
    STIFFNESS,
)
from calc.vocabulary import DAMPING_RATIO

BODY_MASS = Quantity("m", "Mass of the body without blades", MASS, above=0.0, example=2800.0)
ROLL_INERTIA = Quantity(
    "I_{xx}", "Roll inertia about the centre of gravity", INERTIA, above=0.0, example=3500.0
)
CG_HEIGHT = Quantity(
    "h_{cg}", "Height of the centre of gravity above ground", LENGTH, above=0.0, example=1.2
)
HUB_HEIGHT = Quantity("h", "Height of the hub above ground", LENGTH, above=0.0, example=3.0)
TRACK = Quantity("b", "Track of the main gear", LENGTH, above=0.0, example=2.4)
VERTICAL_STIFFNESS = Quantity(
    "k_v", "Vertical stiffness of one side", STIFFNESS, above=0.0, example=2.6e6
)
VERTICAL_DAMPING = Quantity(
    "c_v", "Vertical damping of one side", DAMPING, at_least=0.0, example=16000.0
)
LATERAL_STIFFNESS = Quantity(
    "k_l", "Lateral stiffness at the ground, both sides", STIFFNESS, above=0.0, example=1.87e6
)
LATERAL_DAMPING = Quantity(
    "c_l", "Lateral damping at the ground, both sides", DAMPING, at_least=0.0, example=12000.0
)
UPRIGHT = Quantity(
    r"K_\phi",
    "Roll stiffness of the gear less that of gravity",
    ANGULAR_STIFFNESS,
    above=0.0,
)
ROLL_DAMPING = Quantity(r"C_\phi", "Roll damping of the gear", ANGULAR_DAMPING)
FREQUENCY_ON_GEAR = Quantity("f", "Frequency", FREQUENCY)
RATIO = replace(DAMPING_RATIO, at_least=-math.inf, below=math.inf)
LATERAL_MASS = Quantity("M_y", "Effective hub mass, lateral", MASS)
HUB_STIFFNESS = Quantity("K_y", "Effective hub stiffness, lateral", STIFFNESS)
HUB_DAMPING = Quantity("C_y", "Effective hub damping, lateral", DAMPING)
AXIS_HEIGHT = Quantity("z", "Height of the roll axis above ground", LENGTH)
DAMPING_COUPLING = Quantity(
    "r",
    "Damping that couples the modes, as a fraction",
    covered=(0.0, 0.3),
    covered_by="modes taken one by one leave it out; use the matrices",
)


@dataclass(frozen=True, slots=True)
class Body:
    """A rigid body that stands on its gear, without the blades.

    Attributes:
        body_mass: Mass carried by the gear, blades not counted; scalar, kg.
        roll_inertia: About the centre of gravity; scalar, kg·m².
        cg_height: Height above the ground; scalar, m.
        hub_height: Height of the hub above the ground; scalar, m.
    """

    heading: ClassVar[str] = "Body"

    body_mass: Annotated[float, BODY_MASS]
    roll_inertia: Annotated[float, ROLL_INERTIA]
    cg_height: Annotated[float, CG_HEIGHT]
    hub_height: Annotated[float, HUB_HEIGHT]

    def __post_init__(self) -> None:
        """Refuse a body that cannot exist."""
        check(self)


@dataclass(frozen=True, slots=True)
class Gear:
    """The main gear under a body, both sides alike.

    Attributes:
        track: Distance between the left and the right gear; scalar, m.
        vertical_stiffness: Tyre and strut in series, one side; scalar, N/m.
        vertical_damping: Of one side; scalar, N·s/m.
        lateral_stiffness: At the ground, both sides together; scalar, N/m.
        lateral_damping: At the ground, both sides together; scalar, N·s/m.
    """

    heading: ClassVar[str] = "Landing gear"

    track: Annotated[float, TRACK]
    vertical_stiffness: Annotated[float, VERTICAL_STIFFNESS]
    vertical_damping: Annotated[float, VERTICAL_DAMPING]
    lateral_stiffness: Annotated[float, LATERAL_STIFFNESS]
    lateral_damping: Annotated[float, LATERAL_DAMPING]

    def __post_init__(self) -> None:
        """Refuse a gear that cannot exist."""
        check(self)


@dataclass(frozen=True, slots=True)
class HubMode:
    """A mode of the body on its gear as the hub feels it."""

    frequency: Annotated[float, FREQUENCY_ON_GEAR]
    damping_ratio: Annotated[float, RATIO]
    hub_mass: Annotated[float, LATERAL_MASS]
    hub_stiffness: Annotated[float, HUB_STIFFNESS]
    hub_damping: Annotated[float, HUB_DAMPING]
    axis_height: Annotated[float, AXIS_HEIGHT]


HUB_MODES = Table("Lateral and roll modes at the hub", HubMode)


@dataclass(frozen=True, slots=True)
class BodyOnGear:
    """Both modes, and the single mode of a body that rolls about an axis on the ground."""

    modes: Annotated[tuple[HubMode, ...], HUB_MODES]
    damping_coupling: Annotated[float, DAMPING_COUPLING]
    ground_axis_mass: Annotated[
        float, Quantity(r"I_{axis}/h^2", "Hub mass if the gear did not yield sideways", MASS)
    ]
    ground_axis_stiffness: Annotated[
        float,
        Quantity(r"K_\phi/h^2", "Hub stiffness if the gear did not yield sideways", STIFFNESS),
    ]
    ground_axis_damping: Annotated[
        float, Quantity(r"C_\phi/h^2", "Hub damping if the gear did not yield sideways", DAMPING)
    ]


def body_on_gear(
    body: Body,
    gear: Gear,
) -> BodyOnGear:
    r"""Return the lateral and roll modes of a rigid body on its gear as effective hub data.

    With the lateral motion $y$ of the centre of gravity and the roll angle $\phi$, which moves
    the hub the same way:

    $$ M = \begin{bmatrix} m & 0 \\ 0 & I_{xx} \end{bmatrix}, \quad
    K = \begin{bmatrix} k_l & -k_l h_{cg} \\
    -k_l h_{cg} & k_l h_{cg}^2 + \frac{1}{2} k_v b^2 - m g h_{cg} \end{bmatrix}, \quad
    C = \begin{bmatrix} c_l & -c_l h_{cg} \\
    -c_l h_{cg} & c_l h_{cg}^2 + \frac{1}{2} c_v b^2 \end{bmatrix} $$
    $$ y_{hub} = y + (h - h_{cg}) \phi = \varphi^\mathsf{T} q, \qquad
    M_y = \frac{v^\mathsf{T} M v}{(\varphi^\mathsf{T} v)^2}, \quad
    K_y = \omega^2 M_y, \quad
    C_y = \frac{v^\mathsf{T} C v}{(\varphi^\mathsf{T} v)^2} $$

    Small motion, both sides alike, weight carried by both.  The hub mass is without the blades if
    the body is.  The last three outputs are for a gear that does not yield sideways:
    $M_y = (I_{xx} + m h_{cg}^2) / h^2$ and the roll stiffness and damping over $h^2$.

    Args:
        body: Mass, roll inertia and heights of the body.
        gear: Track, stiffness and damping of the gear.

    Returns:
        The two modes in ascending order of frequency, and the hub data of a stiff gear.

    Raises:
        ValueError: If an argument is not finite or breaks its limits, or the body would topple.

    Source:
        Newton's equations of a rigid body; derived here.

    Examples:
        >>> found = body_on_gear(
        ...     Body(5200.0, 6000.0, 1.5, 3.6), Gear(2.6, 700e3, 18e3, 1e12, 0.0)
        ... )
        >>> round(found.modes[0].hub_mass, 3) == round(found.ground_axis_mass, 3)
        True
    """
    roll = roll_stiffness(body, gear)
    axis_inertia = body.roll_inertia + body.body_mass * body.cg_height**2
    modes, coupling = _modes(lateral_support(body, gear), body.cg_height)
    return BodyOnGear(
        modes=modes,
        damping_coupling=coupling,
        ground_axis_mass=axis_inertia / body.hub_height**2,
        ground_axis_stiffness=roll / body.hub_height**2,
        ground_axis_damping=roll_damping(gear) / body.hub_height**2,
    )


def roll_stiffness(body: Body, gear: Gear) -> Annotated[float, UPRIGHT]:
    """Return the stiffness of the gear in roll less that of gravity about the ground, N·m/rad."""
    gravity = body.body_mass * STANDARD_GRAVITY * body.cg_height
    stiffness = gear.vertical_stiffness * gear.track**2 / 2.0 - gravity
    UPRIGHT.check(stiffness)
    return stiffness


def roll_damping(gear: Gear) -> Annotated[float, ROLL_DAMPING]:
    """Return the damping of the gear in roll, N·m·s/rad."""
    return gear.vertical_damping * gear.track**2 / 2.0


def lateral_support(body: Body, gear: Gear) -> GeneralSupport:
    """Return the matrices of lateral motion and roll; the second coordinate is the roll angle."""
    height = body.cg_height
    stiffness, damping = (
        ((side, -side * height), (-side * height, side * height**2 + turn))
        for side, turn in (
            (gear.lateral_stiffness, roll_stiffness(body, gear)),
            (gear.lateral_damping, roll_damping(gear)),
        )
    )
    mass = ((body.body_mass, 0.0), (0.0, body.roll_inertia))
    return GeneralSupport(mass, damping, stiffness, (0.0, 0.0), (1.0, body.hub_height - height))


def _modes(
    support: GeneralSupport, cg_height: float
) -> Annotated[
    tuple[tuple[HubMode, ...], float], Method("eigenvalues of the stiffness over the mass")
]:
    """Return the modes at the hub and how far damping couples them."""
    squares, columns = linalg.generalized_symmetric_eigen(support.stiffness, support.mass)
    shapes = list(zip(*columns, strict=True))

    def damping(one: int, other: int) -> float:
        rows = zip(shapes[one], support.damping, strict=True)
        return math.fsum(
            a * c * b for a, row in rows for c, b in zip(row, shapes[other], strict=True)
        )

    modes = []
    for number, (square, shape) in enumerate(zip(squares, shapes, strict=True)):
        hub = sum(a * b for a, b in zip(support.y, shape, strict=True))
        rate, mass = math.sqrt(square), 1.0 / hub**2
        modes.append(
            HubMode(
                frequency=rate / (2.0 * math.pi),
                damping_ratio=damping(number, number) / (2.0 * rate),
                hub_mass=mass,
                hub_stiffness=square * mass,
                hub_damping=damping(number, number) * mass,
                axis_height=cg_height - shape[0] / shape[1],
            )
        )
    both = math.sqrt(damping(0, 0) * damping(1, 1))
    return tuple(modes), abs(damping(0, 1)) / both if both else 0.0
