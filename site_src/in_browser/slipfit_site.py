"""Joins the core with this site's frames and parts; the worker calls `call_json`.

Two things make the first figure come sooner. Nothing that is made while importing is garbage, so
nobody looks for any. And the methods that dataclasses write for themselves are compiled when the
site is built, not in every reader's browser; what is not among them is compiled as usual.
"""

import builtins
import dataclasses
import gc
import marshal
import os

gc.disable()


with open(os.path.join(os.path.dirname(__file__), "slipfit_generated.bin"), "rb") as file:
    compiled = marshal.load(file)  # code by its source, as `precompile.mjs` has recorded it


def _run(source, names=None, local=None):
    builtins.exec(compiled.get(source, source), names, local)


dataclasses.exec = _run  # in place of the built-in one, within that module

from slipfit_texts import TEXTS  # noqa: E402

import slipfit.api  # noqa: E402

slipfit.api.use_site(TEXTS)
call_json = slipfit.api.call_json
dataclasses.exec = builtins.exec
compiled.clear()
gc.freeze()
gc.enable()
