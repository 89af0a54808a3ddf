"""Joins the core with this site's frames and parts; the worker calls `call_json`.

Frames, parts and rotor maps come as the objects that the site's builder has made of the site's
files. `start/sitecustomize.py` has run before.
"""

import gc
import os
import pickle

import made_ahead
from packed_modules import use_pack

HERE = os.path.dirname(__file__)


def _content(name):
    with open(os.path.join(HERE, name), "rb") as file:
        return file.read()


use_pack(_content("numpy.pack"))
use_pack(_content("slipfit.pack"))

import slipfit.api  # noqa: E402

made = (pickle.loads(_content(f"slipfit_{name}.bin")) for name in ("library", "rotors"))
slipfit.api.use_library(*made)
call_json = slipfit.api.call_json
made_ahead.end()
gc.freeze()
gc.enable()
