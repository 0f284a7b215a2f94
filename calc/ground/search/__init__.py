"""Search: what the topics look for over rotor speed and damping."""
