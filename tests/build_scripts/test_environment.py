"""The environment: made once, kept while nothing changed, made anew when something did, never half good.

The clones here need one tiny package that lies beside them, so that no index is asked.
"""

from __future__ import annotations

import ast
import base64
import hashlib
import os
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from build_scripts import environment
from build_scripts.environment import Environment, MissingError, fingerprint, is_good

SAYS = "import sys, tiny; print('inside', tiny.VERSION, sys.argv[1:]); sys.exit(7)\n"


def make_wheel(folder: Path, version: str) -> str:
    """A package of one line, and the pinned, hashed requirement for it."""
    file = folder / f"tiny-{version}-py3-none-any.whl"
    metadata = f"tiny-{version}.dist-info"
    files = {
        "tiny.py": f"VERSION = '{version}'\n",
        f"{metadata}/METADATA": f"Metadata-Version: 2.1\nName: tiny\nVersion: {version}\n",
        f"{metadata}/WHEEL": "Wheel-Version: 1.0\nGenerator: test\nRoot-Is-Purelib: true\nTag: py3-none-any\n",
    }
    with zipfile.ZipFile(file, "w") as wheel:
        record = ""
        for name, text in files.items():
            wheel.writestr(name, text)
            digest = base64.urlsafe_b64encode(hashlib.sha256(text.encode()).digest()).rstrip(b"=").decode()
            record += f"{name},sha256={digest},{len(text)}\n"
        wheel.writestr(f"{metadata}/RECORD", f"{record}{metadata}/RECORD,,\n")
    return f"tiny @ {file.as_uri()} --hash=sha256:{hashlib.sha256(file.read_bytes()).hexdigest()}\n"


@pytest.fixture
def clone(tmp_path, root):
    """A clone with the way in, a command line that says what it was given, and one tiny requirement."""
    scripts = tmp_path / "build_scripts"
    scripts.mkdir()
    for name in ("__init__", "__main__", "environment", "exit_codes"):
        shutil.copy(root / "build_scripts" / f"{name}.py", scripts)
    (scripts / "command_line.py").write_text(SAYS, encoding="utf-8")
    (tmp_path / "requirements").mkdir()
    require(tmp_path, "1.0")
    return tmp_path


def require(clone: Path, version: str) -> None:
    for name in environment.SETS:
        (clone / "requirements" / f"{name}.txt").write_text(make_wheel(clone, version), encoding="utf-8")


def enter(clone: Path, *words: str, **variables: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "build_scripts", *words],
        cwd=clone,
        check=False,
        capture_output=True,
        encoding="utf-8",
        stdin=subprocess.DEVNULL,
        env=os.environ | variables,
    )


def test_the_first_run_makes_the_environment_and_later_ones_use_it(clone):
    first = enter(clone, "calc", "--list")
    assert "Making an environment in .environment" in first.stderr
    assert (first.returncode, first.stdout) == (7, "inside 1.0 ['calc', '--list']\n")

    second = enter(clone, "calc")
    assert (second.returncode, second.stdout, second.stderr) == (7, "inside 1.0 ['calc']\n", "")

    require(clone, "2.0")
    changed = enter(clone, "calc")
    assert "Making an environment in .environment" in changed.stderr
    assert changed.stdout == "inside 2.0 ['calc']\n"

    (clone / ".environment" / "unfinished").touch()
    cut_short = enter(clone, "calc")
    assert "Making an environment in .environment" in cut_short.stderr
    assert cut_short.stdout == "inside 2.0 ['calc']\n"
    assert not (clone / ".environment" / "unfinished").exists()


def test_a_failed_install_is_one_paragraph_and_leaves_nothing_that_looks_good(clone):
    for name in environment.SETS:
        (clone / "requirements" / f"{name}.txt").write_text("tiny==9.9 --hash=sha256:" + "0" * 64, encoding="utf-8")
    unreachable = {
        "PIP_CONFIG_FILE": os.devnull,
        "PIP_INDEX_URL": "http://127.0.0.1:9/none/",
        "PIP_FIND_LINKS": "",
        "PIP_EXTRA_INDEX_URL": "",
        "PIP_RETRIES": "0",
    }
    failed = enter(clone, "calc", **unreachable)
    assert failed.returncode == 3
    assert "The Python packages could not be installed. pip says: ERROR: " in failed.stderr
    assert "then run the same command again" in failed.stderr
    assert "Traceback" not in failed.stderr
    assert failed.stdout == ""
    assert (clone / ".environment" / "unfinished").exists()
    assert not list((clone / ".environment").glob("*.stamp"))


def test_a_package_that_is_not_the_pinned_one_is_refused(clone):
    for name in environment.SETS:
        file = clone / "requirements" / f"{name}.txt"
        text = file.read_text(encoding="utf-8")
        file.write_text(text[: text.index("sha256:") + 7] + "0" * 64 + "\n", encoding="utf-8")
    failed = enter(clone, "calc")
    assert failed.returncode == 3
    assert "DO NOT MATCH THE HASHES" in failed.stderr
    assert not list((clone / ".environment").glob("*.stamp"))


@pytest.fixture
def place(tmp_path):
    """An environment whose files are there and whose stamps all fit, without anything installed."""
    made = Environment(tmp_path)
    made.folder.mkdir()
    made.npm_folder.mkdir()
    (tmp_path / "requirements").mkdir()
    for name in environment.SETS:
        made.requirements(name).write_text(f"{name}==1.0\n", encoding="utf-8")
        made.stamp(name).write_text(environment.set_fingerprint(made, name), encoding="utf-8")
    (tmp_path / "package.json").write_text("{}", encoding="utf-8")
    (tmp_path / "package-lock.json").write_text("{}", encoding="utf-8")
    made.npm_stamp.write_text(environment.npm_fingerprint(made), encoding="utf-8")
    return made


def test_a_stamp_is_good_for_what_it_was_made_from_and_for_nothing_else(place, monkeypatch):
    assert is_good(place.stamp("test"), environment.set_fingerprint(place, "test"))
    assert is_good(place.npm_stamp, environment.npm_fingerprint(place))

    monkeypatch.setattr(environment, "python_facts", lambda: "cpython 3.99.0 somewhere else")
    assert not is_good(place.stamp("test"), environment.set_fingerprint(place, "test"))
    monkeypatch.undo()

    place.requirements("test").write_text("test==1.1\n", encoding="utf-8")
    assert not is_good(place.stamp("test"), environment.set_fingerprint(place, "test"))
    assert is_good(place.stamp("build"), environment.set_fingerprint(place, "build"))

    (place.root / "package-lock.json").write_text('{"changed": true}', encoding="utf-8")
    assert not is_good(place.npm_stamp, environment.npm_fingerprint(place))


def test_a_missing_stamp_is_not_good(place):
    place.stamp("build").unlink()
    assert not is_good(place.stamp("build"), environment.set_fingerprint(place, "build"))


def test_a_fingerprint_tells_parts_apart_from_their_sum():
    assert fingerprint("ab", "c") != fingerprint("a", "bc")
    assert fingerprint("ab", "c") == fingerprint("ab", b"c")


def test_with_everything_good_nothing_is_done(place, capsys):
    environment.prepare(place, "test", with_npm=True)
    assert capsys.readouterr().err == ""
    assert not place.lock_file.exists()


def test_without_venv_it_says_what_to_install(place, monkeypatch):
    place.stamp("build").unlink()
    monkeypatch.setattr(environment.importlib.util, "find_spec", lambda name: None)
    with pytest.raises(MissingError) as missing:
        environment.prepare(place, "build", with_npm=False)
    version = f"{sys.version_info.major}.{sys.version_info.minor}"
    assert f"apt install python{version}-venv" in str(missing.value)
    assert "run the same command again" in str(missing.value)


def test_npm_that_fails_is_one_paragraph_and_leaves_no_stamp(place, monkeypatch):
    place.npm_stamp.unlink()
    monkeypatch.setattr(Environment, "node", property(lambda self: Path(sys.executable)))
    fails = place.root / "npm.py"
    words = "import os; print('npm error code', os.environ['NODE_USE_SYSTEM_CA']); raise SystemExit(1)"
    fails.write_text(words, encoding="utf-8")
    monkeypatch.setattr(Environment, "npm", property(lambda self: fails))
    place.python.parent.mkdir(parents=True, exist_ok=True)
    place.python.touch()
    with pytest.raises(MissingError) as missing:
        environment.prepare(place, "build", with_npm=True)
    assert str(missing.value).startswith("The npm packages could not be installed. npm says: npm error code 1\n")
    assert not place.npm_stamp.exists()


def test_a_second_command_waits_until_the_first_has_installed(place, root):
    waits = "import sys; from pathlib import Path; from build_scripts.environment import alone\n"
    waits += "with alone(Path(sys.argv[1])): print('mine')\n"
    with environment.alone(place.lock_file):
        second = subprocess.Popen(
            [sys.executable, "-c", waits, str(place.lock_file)],
            cwd=root,
            encoding="utf-8",
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
        )
        assert second.stderr.readline() == "Another command is preparing the environment; waiting for it ...\n"
        assert second.poll() is None
    assert second.communicate() == ("mine\n", "")
    assert second.returncode == 0


@pytest.mark.parametrize("version", [(2, 7), (3, 6), (3, 10)])
def test_an_old_python_is_told_which_one_is_needed(root, version):
    pretend = f"import runpy, sys; sys.version_info = {version}; "
    pretend += "runpy.run_module('build_scripts', run_name='__main__')"
    done = subprocess.run([sys.executable, "-c", pretend], cwd=root, check=False, capture_output=True, encoding="utf-8")
    assert (done.returncode, done.stdout) == (3, "")
    assert done.stderr == (
        f"Threepin needs Python 3.11 or newer, and this is Python {version[0]}.{version[1]}: "
        "install a newer one and run the same command with it.\n"
    )


@pytest.mark.parametrize("name", ["__init__.py", "__main__.py"])
def test_the_way_in_can_be_read_by_an_old_python(root, name):
    text = (root / "build_scripts" / name).read_bytes().decode("ascii")
    tree = ast.parse(text, feature_version=(3, 7))
    too_new = (ast.JoinedStr, ast.AnnAssign, ast.NamedExpr, ast.FunctionDef, ast.Match)
    assert not [node for node in ast.walk(tree) if isinstance(node, too_new)]
    assert "__future__" not in text
