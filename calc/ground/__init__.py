"""Ground resonance: blades that lag on a hub that an elastic undercarriage carries."""
