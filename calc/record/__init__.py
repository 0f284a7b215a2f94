"""Record: what a page shows of the one record that it has read, view by view."""
