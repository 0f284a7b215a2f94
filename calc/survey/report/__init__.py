"""The report of a survey: its blocks, what the reader selects, and its ways to be written."""
