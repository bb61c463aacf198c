"""What is shipped: every data file, the two entry points, and nothing unexpected at the top of the repository."""

import json
import re
import shutil
import subprocess
import sys
import tomllib
import zipfile
from importlib import metadata
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
TOP = {"README.md", "DEVELOPERS.md", "pyproject.toml", "registry", "metadata", "tests", "scripts"}
LEFT_OUT = shutil.ignore_patterns("__pycache__", "*.pyc", ".*")


def shipped():
    """Paths inside the package, `registry/metadata/...` for those of metadata/, of all files that must ship."""
    for folder, inside in (("registry", Path("registry")), ("metadata", Path("registry/metadata"))):
        for path in (ROOT / folder).rglob("*"):
            within = path.relative_to(ROOT / folder)
            hidden = any(part.startswith((".", "__pycache__")) for part in within.parts)
            if path.is_file() and not hidden and path.suffix != ".pyc":
                yield (inside / within).as_posix()


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    """The wheel built from a copy, so that the build leaves nothing in the checkout."""
    copy = tmp_path_factory.mktemp("checkout")
    for name in ("registry", "metadata"):
        shutil.copytree(ROOT / name, copy / name, ignore=LEFT_OUT)
    for name in ("README.md", "pyproject.toml"):
        shutil.copy(ROOT / name, copy)
    command = [sys.executable, "-m", "pip", "wheel", "--quiet", "--disable-pip-version-check", "--no-deps"]
    if int(metadata.version("setuptools").split(".")[0]) >= 77:
        command.append("--no-build-isolation")  # quick, and needs no package index
    done = subprocess.run([*command, "-w", copy / "out", copy], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    (file,) = (copy / "out").iterdir()
    with zipfile.ZipFile(file) as archive:
        yield archive


def test_every_file_is_in_the_wheel(wheel):
    ours = {name for name in wheel.namelist() if name.startswith("registry/")}
    assert ours == set(shipped())


def test_entry_points_and_needs(wheel):
    folder = "artwork_rights_registry-0.1.0.dist-info/"
    points = wheel.read(folder + "entry_points.txt").decode()
    assert "[console_scripts]\nregistry = registry.cli:main" in points
    assert "[datasette]\nregistry = registry.web" in points
    says = wheel.read(folder + "METADATA").decode()
    needs = set(re.findall("^Requires-Dist: (.*)$", says, re.MULTILINE))
    assert needs == {"sqlite-utils<5,>=4.2.1", "datasette<1,>=0.65.5", 'pytest; extra == "test"'}
    assert "License-Expression: Apache-2.0" in says
    assert "Apache-2.0" in (ROOT / "README.md").read_text(encoding="utf-8")


def test_an_unpacked_wheel_reads_its_data(wheel, tmp_path):
    wheel.extractall(tmp_path)
    top = "registry/metadata/"
    files = [name.removeprefix(top) for name in shipped() if name.startswith(top) and not name.endswith(".py")]
    code = """if True:
        import json, sys
        from registry import data
        files = json.load(sys.stdin)
        for name in files:
            folder, _, file = name.rpartition("/")
            assert file in data.names(folder), name
            data.read_text(*name.split("/"))
        print(data._root())"""
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=tmp_path, input=json.dumps(files), capture_output=True, text=True
    )
    assert done.returncode == 0, done.stderr
    assert f"{tmp_path}/registry/metadata" in done.stdout


def test_folders_are_listed_as_packages():
    told = set(tomllib.loads((ROOT / "pyproject.toml").read_text())["tool"]["setuptools"]["packages"])
    assert {str(Path(name).parent).replace("/", ".") for name in shipped()} <= told


def test_the_top_of_the_repository():
    done = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True)
    if done.returncode:
        pytest.skip("this is no git checkout")
    tops = {name.split("/")[0] for name in done.stdout.splitlines()}
    assert {name for name in tops if not name.startswith(".")} <= TOP
