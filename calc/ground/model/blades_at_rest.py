"""Blades at rest: what blades, or dummies in their place, are to a hub that a shaker moves."""

from dataclasses import dataclass

from calc.declaration import Choice
from calc.ground.model.aircraft import Rotor

BLADES_FITTED = Choice(
    "On the hub in the test",
    {
        "dummies": "dummy masses at the lag hinges",
        "off": "nothing: blades off",
        "locked": "blades, locked in lag",
        "free": "blades, free in lag, dampers and springs off",
        "damped": "blades, free in lag, dampers and springs connected",
    },
)


@dataclass(frozen=True, slots=True)
class OnHub:
    """What moves with the hub at rest: a mass, and blades that follow in lag."""

    mass: float
    follows: float  # N_b S² / 2
    inertia: float
    damping: float
    stiffness: float

    def pull(self, s: complex) -> tuple[complex, complex]:
        """Return the force on the hub over its motion, and how that changes with s."""
        force, change = self.mass * s**2, 2.0 * self.mass * s
        if self.follows:
            blade = self.inertia * s**2 + self.damping * s + self.stiffness
            bend = 2.0 * self.inertia * s + self.damping
            force -= self.follows * s**4 / blade
            change -= self.follows * (4.0 * s**3 / blade - s**4 * bend / blade**2)
        return force, change

    def felt(self, pulse: float) -> tuple[float, float]:
        """Return the mass and the damping that a steady motion of the hub feels."""
        force, _ = self.pull(1j * pulse)
        return -force.real / pulse**2, force.imag / pulse


def on_hub(rotor: Rotor, blades_fitted: str, dummy_mass: float) -> OnHub:
    """Return what is on the hub in a test."""
    follows = 0.5 * rotor.blades * rotor.first_moment**2
    mass = rotor.blades * rotor.blade_mass
    dampings = {"free": (0.0, 0.0), "damped": (rotor.lag_damping, rotor.lag_stiffness)}
    if blades_fitted in dampings:
        return OnHub(mass, follows, rotor.lag_inertia, *dampings[blades_fitted])
    masses = {"off": 0.0, "dummies": rotor.blades * dummy_mass, "locked": mass}
    return OnHub(masses[blades_fitted], 0.0, rotor.lag_inertia, 0.0, 0.0)
