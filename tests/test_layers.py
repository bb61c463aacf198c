"""Imports go one way, from a short list of packages; facts, law and clearance have no clock, no file, no database."""

import ast
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
LAYERS = ["facts", "law", "clearance", "catalogue", "exchange", "web", "cli"]  # each may import those before it
PURE = {"facts", "law", "clearance"}
BESIDE = ["errors", "data", "rulebook"]
PACKAGES = {"sqlite_utils", "datasette"}
OUTSIDE = PACKAGES | {"io", "os", "pathlib", "random", "shutil", "socket", "sqlite3", "subprocess", "time"}
CALLS = {"open", "today", "now", "utcnow", "read_text", "read_bytes", "write_text", "write_bytes"}


def imported(tree, package):
    """Dotted names that a module imports, relative ones made whole."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            start = package.split(".")[: len(package.split(".")) - node.level + 1] if node.level else []
            base = ".".join([*start, *filter(None, [node.module])])
            yield from ([f"{base}.{alias.name}" for alias in node.names] if base == "registry" else [base])


def called(tree):
    """Last names of what a module calls: `today` for date.today()."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Call):
            yield getattr(node.func, "attr", getattr(node.func, "id", ""))


def may_import(layer, other):
    """True when a module of `layer` may import `registry.<other>`; BESIDE stand beside the layers."""
    if other == "errors":
        return True
    if layer == "rulebook":
        return other in ("data", "facts", "law")
    if layer in BESIDE:
        return False
    if other in ("data", "rulebook"):
        return LAYERS.index(layer) >= LAYERS.index("catalogue")
    return other in LAYERS and LAYERS.index(other) <= LAYERS.index(layer)


def faults(source, package, layer):
    """What is wrong with the source of a module of registry.<layer>, as short sentences."""
    tree = ast.parse(source)
    for name in imported(tree, package):
        top, _, rest = name.partition(".")
        if top == "registry" and not may_import(layer, rest.partition(".")[0]):
            yield f"{layer} may not import {name}"
        if top != "registry" and top not in PACKAGES | sys.stdlib_module_names:
            yield f"{name} is neither of the standard library nor one of our packages"
        if layer in PURE and top in OUTSIDE:
            yield f"{layer} is pure and may not import {name}"
    if layer in PURE:
        yield from (f"{layer} is pure and may not call {name}()" for name in called(tree) if name in CALLS)


def modules():
    return sorted({*(ROOT / "registry").rglob("*.py")} - {ROOT / "registry/__init__.py"})


@pytest.mark.parametrize("path", modules(), ids=lambda path: str(path.relative_to(ROOT)))
def test_a_module_keeps_to_its_layer(path):
    parts = path.relative_to(ROOT).with_suffix("").parts
    layer = parts[1]
    assert layer in [*LAYERS, *BESIDE], f"{path.name} is in no layer"
    assert list(faults(path.read_text(encoding="utf-8"), ".".join(parts[:-1]), layer)) == []


def test_tests_and_scripts_need_nothing_but_pytest_more():
    paths = [path for folder in ("tests", "scripts") for path in sorted((ROOT / folder).rglob("*.py"))]
    ours = {path.stem for path in paths} | {path.parent.name for path in paths}
    known = ours | PACKAGES | sys.stdlib_module_names | {"pytest", "registry", "scripts", "tests"}
    for path in paths:
        package = ".".join(path.relative_to(ROOT).parts[:-1])
        names = imported(ast.parse(path.read_text(encoding="utf-8")), package)
        assert {name.partition(".")[0] for name in names} - known == set(), path


@pytest.mark.parametrize(
    "layer, source",
    [
        ("facts", "from registry.law import act"),
        ("law", "import registry.catalogue.works"),
        ("clearance", "def later():\n    from ..catalogue import jobs"),
        ("exchange", "from registry.web import guard"),
        ("web", "from registry import cli"),
        ("law", "from registry.data import read_text"),
        ("facts", "from .. import data"),
        ("errors", "from registry.facts import work"),
        ("data", "from registry import facts"),
        ("law", "from registry.rulebook import rulebook"),
        ("clearance", "from registry import rulebook"),
        ("rulebook", "from registry.catalogue import works"),
        ("catalogue", "from registry import tools"),
        ("web", "import click"),
        ("cli", "from yaml import safe_load"),
        ("facts", "day = datetime.date.today()"),
        ("law", "from datetime import datetime\nnow = datetime.now()"),
        ("clearance", "import time"),
        ("law", "text = open('us.toml').read()"),
        ("facts", "text = somewhere.read_text()"),
        ("law", "from pathlib import Path"),
        ("clearance", "import sqlite_utils"),
    ],
)
def test_a_fault_is_found(layer, source):
    assert len(list(faults(source, f"registry.{layer}", layer))) == 1


@pytest.mark.parametrize(
    "layer, source",
    [
        ("law", "from registry.facts.work import Work\nfrom ..errors import BadLaw\nfrom . import act\nimport tomllib"),
        ("catalogue", "from registry import clearance, data, errors\nimport sqlite_utils\ndate.today()"),
        ("catalogue", "from registry.rulebook import rulebook"),
        ("rulebook", "from registry import data\nfrom registry.law.load import make_laws\nfrom registry.facts import edtf"),
        ("cli", "from registry.web import guard\nfrom datasette import cli\nopen('x')"),
        ("facts", "from datetime import date, time\ntime(0)\ndate.fromisoformat('2026-01-01')"),
    ],
)
def test_what_is_allowed_passes(layer, source):
    assert list(faults(source, f"registry.{layer}", layer)) == []
