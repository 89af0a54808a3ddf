"""Drawings: a build as plain geometry to scale, from the numbers that its verdicts are made of."""
