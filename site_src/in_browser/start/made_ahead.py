"""Code that Python makes for itself while it imports, made when the site is built.

These are the methods of dataclasses and the programs of regular expressions. What is not in the
list is made as usual and put into it: so the site's builder, which starts without a list, gets one.
"""

import _sre
import builtins
import dataclasses
import marshal
import re._compiler
from types import SimpleNamespace

FILE = "/lib/python3.14/site-packages/made_ahead.bin"
code = {}  # of a dataclass's methods, by their source
programs = {}  # what `_sre.compile` is given, by pattern and flags
_compile = re._compiler.compile
_latest = ()


def _run(source, names=None, local=None):
    if source not in code:
        code[source] = compile(source, "<string>", "exec")
    builtins.exec(code[source], names, local)


def _program(*given):
    global _latest
    _latest = given
    return _sre.compile(*given)


def _pattern(pattern, flags=0):
    key = (pattern, int(flags))
    if key in programs:
        return _sre.compile(*programs[key])
    made = _compile(pattern, flags)
    programs[key] = _latest
    return made


def begin():
    """Use the list that the site brings, if it brings one."""
    try:
        with open(FILE, "rb") as file:
            listed = marshal.loads(file.read())  # far faster than `load`
    except FileNotFoundError:
        listed = ({}, {})
    code.update(listed[0])
    programs.update(listed[1])
    dataclasses.exec = _run  # in place of the built-in one, within that module
    re._compiler.compile = _pattern
    re._compiler._sre = SimpleNamespace(**{**vars(_sre), "compile": _program})


def end():
    """From now on everything is made as usual."""
    dataclasses.exec = builtins.exec
    re._compiler.compile = _compile
    re._compiler._sre = _sre
    code.clear()
    programs.clear()
