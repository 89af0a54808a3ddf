"""Flight: from a build's uncertain inputs to trim, currents, the level-flight envelope."""
