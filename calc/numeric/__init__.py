"""Numerics: roots, peaks, small matrices and collocation, each written once."""
