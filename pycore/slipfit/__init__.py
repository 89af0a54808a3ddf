"""Slipfit: multirotor frames written once as data and notes, with every reader's build computed."""

__version__ = "2026.11.0"
