// Turns Python sources into compiled modules in an uncompressed zip, inside the pinned runtime
// itself, so that the compiled modules are the ones that this runtime reads.
//
//   node precompile.mjs PYODIDE_FOLDER JOBS.json
//
// JOBS.json is a list of jobs: `source`, a zip to read; `target`, a zip to write; `root`, the folder in
// which the modules will lie in the browser (it shows in tracebacks); `drop`, a pattern of names to
// leave out; `empty`, one of modules to keep without their content; `optimize`, 0 or 2 (2 leaves
// docstrings out). With `numpy`, a zip that this script has made, the target is imported once, and
// the code that dataclasses generate meanwhile goes into it, compiled.
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
import re
import sys
import zipfile

WHEN = (2026, 1, 1, 0, 0, 0)  # the same sources give the same archive


def compiled(source, name, optimize):
    code = compile(source, name, "exec", dont_inherit=True, optimize=optimize)
    return bytes(external._code_to_hash_pyc(code, b"\0" * 8, False))  # never compared with a source


def convert(source, target, root, drop, empty, optimize):
    with zipfile.ZipFile(source) as read, zipfile.ZipFile(target, "w") as write:
        for name in sorted(entry.filename for entry in read.infolist() if not entry.is_dir()):
            if drop and re.search(drop, name):
                continue
            data = b"" if empty and re.search(empty, name) else read.read(name)
            if name.endswith(".py"):
                data, name = compiled(data, root + name, optimize), name + "c"
            write.writestr(zipfile.ZipInfo(name, WHEN), data, zipfile.ZIP_STORED)


def record_generated(numpy, target, root):
    for name in (numpy, target):
        zipfile.ZipFile(name).extractall(root)
    sys.path_importer_cache.clear()
    code = {}

    def run_and_record(source, names=None, local=None):
        code[source] = compile(source, "<string>", "exec")
        builtins.exec(code[source], names, local)

    dataclasses.exec = run_and_record
    import slipfit.api

    dataclasses.exec = builtins.exec
    with zipfile.ZipFile(target, "a") as write:
        entry = zipfile.ZipInfo("slipfit_generated.bin", WHEN)
        write.writestr(entry, marshal.dumps(code), zipfile.ZIP_STORED)
`);

const convert = python.globals.get('convert');
for (const {source, target, root, drop, empty = '', optimize, numpy} of JSON.parse(fs.readFileSync(jobsFile, 'utf8'))) {
  python.FS.writeFile('/source.zip', fs.readFileSync(source));
  convert('/source.zip', '/target.zip', root, drop, empty, optimize);
  if (numpy) {
    python.FS.writeFile('/numpy.zip', fs.readFileSync(numpy));
    python.globals.get('record_generated')('/numpy.zip', '/target.zip', root);
  }
  fs.writeFileSync(target, python.FS.readFile('/target.zip'));
}
