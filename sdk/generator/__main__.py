"""Generate the SDK from openapi/v1.json: `python sdk/generator`, and `--check` to find drift.

Needs datamodel-code-generator and ruff beside the Python that runs it. The same document and the same
versions of the two give the same bytes.
"""

from __future__ import annotations

import argparse
import json
import subprocess
import sys
import tempfile
from pathlib import Path

import facade
from operations import RefusedError, read
from sides import Schema, exact

_ROOT = Path(__file__).parents[2]
_HEADER = "# Generated from the OpenAPI document by sdk/generator. Do not edit.\n# ruff: noqa\n"
_FLAGS = [
    *("--input-file-type", "openapi", "--formatters", "builtin", "--ignore-pyproject", "--disable-timestamp"),
    *("--target-python-version", "3.11", "--target-pydantic-version", "2.12", "--disable-future-imports"),
    *("--use-annotated", "--use-type-alias", "--strict-nullable", "--use-default-kwarg"),
    *("--enum-field-as-literal", "all", "--allow-population-by-field-name"),
    *("--use-schema-description", "--use-field-description"),
]
_MAPPING_FLAGS = ["--output-model-type", "typing.TypedDict", "--no-use-closed-typed-dict"]


def generated(document: Schema) -> dict[str, str]:
    """Return the source of each generated module by its file name. Raises RefusedError."""
    contract = read(document)
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        both = {**exact(contract.asked, "Money"), **contract.answered}
        asked = exact(contract.asked, "Decimal | str")
        modules = {
            "models": _classes(both, "What is asked and answered, as pydantic models.", [], folder),
            "mappings": _classes(asked, "What is asked, as plain mappings.", _MAPPING_FLAGS, folder),
            "resources": facade.resources(contract.operations),
        }
        for module, source in modules.items():
            (folder / f"{module}.py").write_text(source, "utf-8")
        _run("ruff", "check", "--isolated", "--quiet", "--fix", "--ignore-noqa", "--select=F401,I001", name)
        _run("ruff", "format", "--isolated", "--quiet", "--line-length=110", "--target-version=py311", name)
        return {f"{module}.py": (folder / f"{module}.py").read_text("utf-8") for module in modules}


def _classes(schemas: dict[str, Schema], title: str, flags: list[str], folder: Path) -> str:
    document = {
        "openapi": "3.1.0",
        "info": {"title": title, "version": "1"},
        "paths": {},
        "components": {"schemas": schemas},
    }
    source, target = folder / "schemas.json", folder / "schemas.py"
    source.write_text(json.dumps(document), "utf-8")
    header = f'{_HEADER}"""{title}"""\n\nfrom .money import Money\n'
    files = ["--custom-file-header", header, "--input", str(source), "--output", str(target)]
    _run("datamodel_code_generator", *_FLAGS, *flags, *files)
    return target.read_text("utf-8")


def _run(module: str, *arguments: str) -> None:
    command = [sys.executable, "-m", module, *arguments]
    ran = subprocess.run(command, capture_output=True, text=True, check=False)
    if ran.returncode:
        raise RefusedError(f"{module} failed: {ran.stderr.strip() or ran.stdout.strip()}")


def main() -> int:
    """Write the generated modules, or with --check compare them; return the exit status."""
    parser = argparse.ArgumentParser(prog="python sdk/generator", description=__doc__)
    parser.add_argument("--check", action="store_true", help="write nothing; exit with 1 on drift")
    parser.add_argument("--document", type=Path, default=_ROOT / "openapi" / "v1.json", help="what to read")
    parser.add_argument("--package", type=Path, default=_ROOT / "sdk/branchwright_sdk", help="where to write")
    options = parser.parse_args()
    try:
        files = generated(json.loads(options.document.read_text("utf-8")))
    except (OSError, ValueError, RefusedError) as error:
        print(f"{options.document}: {error}", file=sys.stderr)
        return 2
    changed = [name for name, source in files.items() if _present(options.package / name) != source]
    for name in changed:
        if not options.check:
            (options.package / name).write_text(files[name], "utf-8")
        print(f"{options.package / name}: {'differs from the document' if options.check else 'written'}")
    return 1 if changed and options.check else 0


def _present(path: Path) -> str | None:
    return path.read_text("utf-8") if path.exists() else None


if __name__ == "__main__":
    sys.exit(main())
