"""Joins the core with this site's frames and parts; the worker calls `call_json`.

Three things make the first figure come sooner. Nothing that is made while importing is garbage, so
nobody looks for any. The methods that dataclasses write for themselves are compiled when the site
is built, not in every reader's browser; what is not among them is compiled as usual. And frames,
parts and rotor maps come as the objects that the site's builder has made of the site's files.
"""

import builtins
import dataclasses
import gc
import marshal
import os
import pickle

from packed_modules import use_pack

gc.disable()
HERE = os.path.dirname(__file__)


def _content(name):
    with open(os.path.join(HERE, name), "rb") as file:
        return file.read()


use_pack(os.path.join(HERE, "numpy.pack"))
use_pack(os.path.join(HERE, "slipfit.pack"))
compiled = marshal.loads(_content("slipfit_generated.bin"))  # code by its source


def _run(source, names=None, local=None):
    builtins.exec(compiled.get(source, source), names, local)


dataclasses.exec = _run  # in place of the built-in one, within that module

import slipfit.api  # noqa: E402

made = (pickle.loads(_content(f"slipfit_{name}.bin")) for name in ("library", "rotors"))
slipfit.api.use_library(*made)
call_json = slipfit.api.call_json
dataclasses.exec = builtins.exec
compiled.clear()
gc.freeze()
gc.enable()
