"""Exercises: questions whose numbers come from a seed, answered and solved by the formulas."""
