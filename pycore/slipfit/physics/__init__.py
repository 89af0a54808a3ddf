"""Formulas of flight, drive and heat: one module per topic, numbers and arrays in SI units."""
