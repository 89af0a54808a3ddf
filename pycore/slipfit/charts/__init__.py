"""Charts: one file each, listed in `registry.py`."""
