"""Forms: what a reader typed, as a number, as an answer, as a link and as a copy."""
