// Turns Python sources into compiled modules in an uncompressed zip, inside the pinned runtime
// itself, so that the compiled modules are the ones that this runtime reads.
//
//   node precompile.mjs PYODIDE_FOLDER JOBS.json
//
// JOBS.json is a list of {source, target, root, drop, optimize}: a zip to read, a zip to write, the
// folder in which the modules will lie in the browser (it shows in tracebacks), a pattern of names
// to leave out, and 0 or 2 (2 leaves docstrings out).
import fs from 'node:fs';
import path from 'node:path';
import {pathToFileURL} from 'node:url';

const [folder, jobsFile] = process.argv.slice(2).map(name => path.resolve(name));
const {loadPyodide} = await import(pathToFileURL(path.join(folder, 'pyodide.mjs')).href);
const python = await loadPyodide();

python.runPython(String.raw`
import importlib._bootstrap_external as external
import re
import zipfile

WHEN = (2026, 1, 1, 0, 0, 0)  # the same sources give the same archive


def compiled(source, name, optimize):
    code = compile(source, name, "exec", dont_inherit=True, optimize=optimize)
    return bytes(external._code_to_hash_pyc(code, b"\0" * 8, False))  # never compared with a source


def convert(source, target, root, drop, optimize):
    with zipfile.ZipFile(source) as read, zipfile.ZipFile(target, "w") as write:
        for name in sorted(entry.filename for entry in read.infolist() if not entry.is_dir()):
            if drop and re.search(drop, name):
                continue
            data = read.read(name)
            if name.endswith(".py"):
                data, name = compiled(data, root + name, optimize), name + "c"
            write.writestr(zipfile.ZipInfo(name, WHEN), data, zipfile.ZIP_STORED)
`);

const convert = python.globals.get('convert');
for (const {source, target, root, drop, optimize} of JSON.parse(fs.readFileSync(jobsFile, 'utf8'))) {
  python.FS.writeFile('/source.zip', fs.readFileSync(source));
  convert('/source.zip', '/target.zip', root, drop, optimize);
  fs.writeFileSync(target, python.FS.readFile('/target.zip'));
}
