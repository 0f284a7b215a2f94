"""Record: what a page shows of a record that it has read, and what a command writes of one."""
