"""Flight modes: wing, autorotation, power by parts, and what they do to rotor speed and limits."""
