"""Data sheet: one rotorcraft, entered once, from which every formula takes its inputs."""
