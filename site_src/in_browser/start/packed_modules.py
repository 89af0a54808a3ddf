"""Modules that come in one file: looking for each in a zip or a file system takes longer than
running it.

A pack is a marshalled dictionary from a module's name to the path in which its source would lie and
its code, as `precompile.mjs` writes it.
"""

import marshal
import sys
from _frozen_importlib_external import SourcelessFileLoader, spec_from_file_location


class PackedLoader(SourcelessFileLoader):
    """Loads a module from a pack; files beside it are read from where they lie."""

    def __init__(self, name, path, modules):
        super().__init__(name, path)
        self.modules = modules

    def get_code(self, name):
        return marshal.loads(self.modules.pop(name)[1])


class Pack:
    """A finder of the modules in one file."""

    def __init__(self, content):
        self.modules = marshal.loads(content)

    def find_spec(self, name, _path=None, _target=None):
        if name not in self.modules:
            return None
        path = self.modules[name][0]
        folder, _, leaf = path.rpartition("/")
        inside = [folder] if leaf == "__init__.py" else None
        loader = PackedLoader(name, path, self.modules)
        return spec_from_file_location(name, path, loader=loader, submodule_search_locations=inside)


def use_pack(content):
    """Find modules in a pack before they are looked for anywhere else."""
    sys.meta_path.insert(0, Pack(content))
