"""Runs before anything else that Python imports: the rest of its library comes from one pack.

Nothing that is made while importing is garbage, so nobody looks for any.
"""

import gc

from packed_modules import use_pack

gc.disable()
use_pack(__loader__.get_data("stdlib.pack"))

import made_ahead  # noqa: E402

made_ahead.begin()
