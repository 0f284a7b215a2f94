"""Reading: text of a logger taken apart into columns, a time axis, pulses and notices."""
