"""Harmonics: the frequencies that rotors and drive trains excite, and where they coincide."""
