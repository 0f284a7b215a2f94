"""The ground-run card: the steps of a run, what they stand on, and the sheet to fill in."""
