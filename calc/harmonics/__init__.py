"""Harmonics: the frequencies at which rotors shake, and what reaches the airframe."""
