"""What an author needs and a reader's browser does not: a frame to begin with, checked pages."""
