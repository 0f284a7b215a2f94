"""Numerics: roots, peaks, steps in time, small matrices and collocation, each written once."""
