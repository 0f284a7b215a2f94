"""Survey: every calculation that a data sheet can feed, asked as a form asks it."""
