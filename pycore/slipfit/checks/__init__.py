"""Checks: verdicts on a build, of fit (clear, snug, clashes) and of limits (inside, near, past)."""
