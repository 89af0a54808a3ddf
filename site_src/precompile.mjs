// Turns Python sources into compiled modules in an uncompressed zip, inside the pinned runtime
// itself, so that the compiled modules are the ones that this runtime reads.
//
//   node precompile.mjs PYODIDE_FOLDER JOBS.json
//
// JOBS.json is a list of jobs: `source`, a zip to read; `target`, a zip to write; `root`, the folder in
// which the modules will lie in the browser (it shows in tracebacks); `drop`, a pattern of names to
// leave out; `empty`, one of modules to keep without their content; `optimize`, 0 or 2 (2 leaves
// docstrings out); `pack`, the name of the file into which the modules of the package of that name
// go together (see `in_browser/packed_modules.py`). With `numpy`, a zip that this script has made,
// the target's core is imported once and given the site's files: the code that dataclasses generate
// meanwhile and the frames and parts that it has read go into the target too.
import fs from 'node:fs';
import path from 'node:path';
import {pathToFileURL} from 'node:url';

const [folder, jobsFile] = process.argv.slice(2).map(name => path.resolve(name));
const {loadPyodide} = await import(pathToFileURL(path.join(folder, 'pyodide.mjs')).href);
const python = await loadPyodide();

python.runPython(String.raw`
import builtins
import dataclasses
import importlib._bootstrap_external as external
import marshal
import pickle
import re
import sys
import zipfile

WHEN = (2026, 1, 1, 0, 0, 0)  # the same sources give the same archive


def compiled(source, name, optimize):
    code = compile(source, name, "exec", dont_inherit=True, optimize=optimize)
    return bytes(external._code_to_hash_pyc(code, b"\0" * 8, False))  # never compared with a source


def convert(source, target, root, drop, empty, optimize, pack):
    packed = {}
    with zipfile.ZipFile(source) as read, zipfile.ZipFile(target, "w") as write:
        for name in sorted(entry.filename for entry in read.infolist() if not entry.is_dir()):
            if drop and re.search(drop, name):
                continue
            data = b"" if empty and re.search(empty, name) else read.read(name)
            if name.endswith(".py"):
                data = compiled(data, root + name, optimize)
                if pack and name.startswith(pack + "/"):
                    module = name.removesuffix(".py").removesuffix("/__init__").replace("/", ".")
                    packed[module] = (root + name, data[16:])  # without the header of a file
                    continue
                name += "c"
            write.writestr(zipfile.ZipInfo(name, WHEN), data, zipfile.ZIP_STORED)
        if pack:
            entry = zipfile.ZipInfo(f"{pack}.pack", WHEN)
            write.writestr(entry, marshal.dumps(packed), zipfile.ZIP_STORED)


def record(numpy, target, root):
    for name in (numpy, target):
        zipfile.ZipFile(name).extractall(root)
    sys.path_importer_cache.clear()
    from packed_modules import use_pack

    use_pack(root + "numpy.pack")
    use_pack(root + "slipfit.pack")
    code = {}

    def run_and_record(source, names=None, local=None):
        code[source] = compile(source, "<string>", "exec")
        builtins.exec(code[source], names, local)

    dataclasses.exec = run_and_record
    import slipfit.api
    from slipfit_texts import TEXTS

    dataclasses.exec = builtins.exec
    slipfit.api.use_site(TEXTS)
    made = {
        "slipfit_generated.bin": marshal.dumps(code),
        "slipfit_library.bin": pickle.dumps(slipfit.api.library()),
    }
    with zipfile.ZipFile(target) as read:
        kept = {n: read.read(n) for n in read.namelist() if n != "slipfit_texts.pyc"}
    with zipfile.ZipFile(target, "w") as write:
        for name, data in {**kept, **made}.items():
            write.writestr(zipfile.ZipInfo(name, WHEN), data, zipfile.ZIP_STORED)
`);

const convert = python.globals.get('convert');
const jobs = JSON.parse(fs.readFileSync(jobsFile, 'utf8'));
for (const {source, target, root, drop, empty = '', optimize, pack = '', numpy} of jobs) {
  python.FS.writeFile('/source.zip', fs.readFileSync(source));
  convert('/source.zip', '/target.zip', root, drop, empty, optimize, pack);
  if (numpy) {
    python.FS.writeFile('/numpy.zip', fs.readFileSync(numpy));
    python.globals.get('record')('/numpy.zip', '/target.zip', root);
  }
  fs.writeFileSync(target, python.FS.readFile('/target.zip'));
}
