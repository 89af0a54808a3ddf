"""Figures: named estimates of a build, one file each, listed in `registry.py`."""
