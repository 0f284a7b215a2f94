"""How an airframe responds to vibration."""
