"""Numerics: roots, peaks, ranges, steps in time, small matrices and collocation, each once."""
