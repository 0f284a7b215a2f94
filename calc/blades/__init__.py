"""Natural frequencies of blades."""
