"""How an airframe answers to vibration."""
