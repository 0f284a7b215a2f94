"""What differs between the surveys of two sheets."""
