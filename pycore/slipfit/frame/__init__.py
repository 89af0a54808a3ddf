"""Frames: what an author drew, as data (`frame.py`), and how its file is read (`reading.py`)."""
