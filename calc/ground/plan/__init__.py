"""Plan: landing-gear states and rules from which a ground run is planned and judged."""
