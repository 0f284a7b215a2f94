"""A propeller as blade elements in space, turned and moved by finite amounts.

Nothing of `calc` is used, nothing is linearised and no integral is in closed form: each element
has a place, a velocity through the air and a lift at right angles to it; forces and moments are
summed over rings, blades and azimuths.
"""

from dataclasses import dataclass
from typing import Any

import numpy as np

RINGS, TURNS = 400, 24


@dataclass(frozen=True)
class Screw:
    """A propeller of straight blades, each element set so that it has a lift coefficient."""

    blades: int
    radius: float
    chord: float
    slope: float
    speed: float
    lift_coefficient: float = 0.0

    def loads(
        self,
        density: float,
        axial: float,
        wind: Any = (0.0, 0.0, 0.0),
        rates: Any = (0.0, 0.0, 0.0),
    ) -> tuple[Any, Any, Any]:
        """Return mean force, mean moment about the hub, and thrust and bending moment by azimuth.

        The shaft is the first axis.  `wind` is added to the velocity of the hub through the air,
        `rates` are those of the shaft.  The lift of an undisturbed element is at right angles to
        its own velocity at the axial speed.
        """
        force, moment = np.zeros(3), np.zeros(3)
        edges = np.linspace(0.0, self.radius, RINGS + 1)
        r = 0.5 * (edges[1:] + edges[:-1])
        width = self.radius / RINGS
        thrusts, bendings = [], []
        for turn in range(TURNS):
            psi = 2.0 * np.pi * turn / TURNS
            out = np.array([0.0, np.cos(psi), np.sin(psi)])
            ahead = np.array([0.0, -np.sin(psi), np.cos(psi)])
            place = r[:, None] * out
            undisturbed = np.arctan2(axial, self.speed * r)
            setting = undisturbed + self.lift_coefficient / self.slope
            velocity = (
                np.array([axial, 0.0, 0.0])
                + np.asarray(wind)
                + np.cross(np.asarray(rates), place)
                + self.speed * r[:, None] * ahead
            )
            up, on = velocity[:, 0], velocity @ ahead
            angle = setting - np.arctan2(up, on)
            square = up**2 + on**2
            lift = 0.5 * density * self.chord * self.slope * square * angle * width
            along = np.sqrt(square)
            element = (lift * on / along)[:, None] * np.array([1.0, 0.0, 0.0])
            element = element - (lift * up / along)[:, None] * ahead
            force += self.blades * element.sum(axis=0) / TURNS
            moment += self.blades * np.cross(place, element).sum(axis=0) / TURNS
            thrusts.append(element[:, 0].sum())
            bendings.append((element[:, 0] * r).sum())
        return force, moment, (np.array(thrusts), np.array(bendings))
