// Turns Python sources into compiled modules in an uncompressed zip, inside the pinned runtime
// itself, so that the compiled modules are the ones that this runtime reads.
//
//   node precompile.mjs PYODIDE_FOLDER JOBS.json [RUNTIME_FOLDER]
//
// JOBS.json is a list of jobs: `source`, a zip to read; `target`, a zip to write; `root`, the folder in
// which the modules will lie in the browser (it shows in tracebacks); `drop`, a pattern of names to
// leave out; `empty`, one of modules to keep without their content; `add`, more sources, by name;
// `optimize`, 0 or 2 (2 leaves docstrings out); `pack`, the name of the file into which those modules
// go together that `packed`, a pattern, names (see `in_browser/start/packed_modules.py`).
//
// With RUNTIME_FOLDER, which this script has filled, Python starts from there; each target's core is
// imported and given the site's files, and what Python made for itself until then (see
// `in_browser/start/made_ahead.py`) and the frames and parts that were read go into the target too.
import fs from 'node:fs';
import path from 'node:path';
import {pathToFileURL} from 'node:url';

process.on('uncaughtException', error => {  // without a megabyte of the runtime's one line
  console.error(error.message);
  process.exit(1);
});
const [folder, jobsFile, runtime] = process.argv.slice(2).map(name => path.resolve(name));
const {loadPyodide} = await import(pathToFileURL(path.join(folder, 'pyodide.mjs')).href);
const python = await loadPyodide(runtime ? {stdLibURL: path.join(runtime, 'stdlib.zip')} : {});

python.runPython(String.raw`
import ast
import importlib._bootstrap_external as external
import marshal
import pickle
import re
import zipfile

WHEN = (2026, 1, 1, 0, 0, 0)  # the same sources give the same archive


def without_docstrings(source):
    """Syntax without the docstrings of functions; a dataclass without one makes one, at length."""
    tree = ast.parse(source)
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef) and ast.get_docstring(node, clean=False) is not None:
            node.body = node.body[1:] or [ast.Pass(lineno=node.lineno, col_offset=0)]
    return ast.fix_missing_locations(tree)


def compiled(source, name, optimize):
    source = source if optimize else without_docstrings(source)
    code = compile(source, name, "exec", dont_inherit=True, optimize=optimize)
    return bytes(external._code_to_hash_pyc(code, b"\0" * 8, False))  # never compared with a source


def convert(source, target, root, drop, empty, optimize, pack, packed, add):
    together = {}
    with zipfile.ZipFile(source) as read, zipfile.ZipFile(target, "w") as write:
        names = {entry.filename for entry in read.infolist() if not entry.is_dir()}
        for name in sorted({*names, *add}):
            if drop and re.search(drop, name):
                continue
            data = add[name].encode() if name in add else read.read(name)
            if empty and re.search(empty, name):
                data = b""
            if name.endswith(".py"):
                data = compiled(data, root + name, optimize)
                if packed and re.search(packed, name):
                    module = name.removesuffix(".py").removesuffix("/__init__").replace("/", ".")
                    together[module] = (root + name, data[16:])  # without the header of a file
                    continue
                name += "c"
            write.writestr(zipfile.ZipInfo(name, WHEN), data, zipfile.ZIP_STORED)
        if pack:
            write.writestr(zipfile.ZipInfo(pack, WHEN), marshal.dumps(together), zipfile.ZIP_STORED)


def record(numpy, target, root):
    for name in (numpy, target):
        zipfile.ZipFile(name).extractall(root)
    from packed_modules import use_pack

    for name in ("numpy.pack", "slipfit.pack"):
        with open(root + name, "rb") as file:
            use_pack(file.read())
    import made_ahead
    import slipfit.api
    from slipfit_texts import TEXTS

    slipfit.api.use_site(TEXTS)
    programs = {  # as plain numbers: in the list they come as numbers with names
        key: (pattern, int(flags), [int(number) for number in program], *groups)
        for key, (pattern, flags, program, *groups) in made_ahead.programs.items()
    }
    made = {
        "made_ahead.bin": marshal.dumps((made_ahead.code, programs)),
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
for (const job of jobs) {
  const {source, target, root, drop, empty = '', optimize, pack = '', packed = '', add = {}} = job;
  python.FS.writeFile('/source.zip', fs.readFileSync(source));
  convert('/source.zip', '/target.zip', root, drop, empty, optimize, pack, packed, python.toPy(add));
  if (runtime) {
    python.FS.writeFile('/numpy.zip', fs.readFileSync(path.join(runtime, 'numpy.zip')));
    python.globals.get('record')('/numpy.zip', '/target.zip', root);
  }
  fs.writeFileSync(target, python.FS.readFile('/target.zip'));
}
