"""Fit: does a part go where the frame wants it, by how many millimetres, and what would."""
