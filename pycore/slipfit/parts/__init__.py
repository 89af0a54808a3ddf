"""Parts: what a reader chooses for a frame, one frozen dataclass per kind (list in `kinds.py`)."""
