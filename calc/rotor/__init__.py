"""Main rotor: speeds, forces and limits."""
