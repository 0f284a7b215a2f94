"""The environment that the commands make for themselves, and what they say when they cannot."""

import ast
import os
import socket
import subprocess
import sys
from pathlib import Path

import pytest

from scripts import environment, serve
from scripts.environment import BUILD_LOCK, ROOT, TEST_LOCK, ready


@pytest.fixture
def done(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Return the steps taken instead of making environments and installing packages."""
    steps: list[str] = []

    def create(folder: Path) -> None:
        steps.append("create")
        for mark in folder.glob("*"):
            if mark.is_file():
                mark.unlink()
        python = folder / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
        python.parent.mkdir(parents=True, exist_ok=True)
        python.touch()

    def install(_: Path, lock: str) -> None:
        steps.append(lock)

    monkeypatch.setattr(environment, "_create", create)
    monkeypatch.setattr(environment, "_install", install)
    return steps


def test_environment_is_made_once(tmp_path: Path, done: list[str]) -> None:
    """A second run installs nothing; a new lock is added to what is there."""
    ready(BUILD_LOCK, folder=tmp_path)
    ready(BUILD_LOCK, folder=tmp_path)
    ready(BUILD_LOCK, TEST_LOCK, folder=tmp_path)
    ready(BUILD_LOCK, folder=tmp_path)

    assert done == ["create", BUILD_LOCK, TEST_LOCK]


def test_changed_lock_makes_the_environment_anew(tmp_path: Path, done: list[str]) -> None:
    """What an older lock installed does not stay."""
    ready(BUILD_LOCK, TEST_LOCK, folder=tmp_path)
    done.clear()
    (tmp_path / f"{TEST_LOCK}.sha256").write_text("of an older lock")

    ready(BUILD_LOCK, TEST_LOCK, folder=tmp_path)

    assert done == ["create", BUILD_LOCK, TEST_LOCK]


def test_old_python_is_told_so(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """The message says what is needed and what is there."""
    monkeypatch.setattr(sys, "version_info", (3, 10, 0))

    with pytest.raises(SystemExit, match=r"Python 3\.11 or newer is needed; this is 3\."):
        ready(BUILD_LOCK, folder=tmp_path)


def test_old_python_can_read_the_commands() -> None:
    """The commands parse as Python 3.8, so that an old Python gets the message above."""
    for name in "environment.py", "serve.py", "test.py":
        source = (ROOT / "scripts" / name).read_text(encoding="utf-8")
        ast.parse(source, name, feature_version=(3, 8))


def test_failed_installation_is_explained(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    """Without a network pip fails; the reader is told what to do, and a later run starts again."""
    monkeypatch.setenv("PIP_NO_INDEX", "1")
    monkeypatch.setenv("PIP_CONFIG_FILE", os.devnull)
    monkeypatch.delenv("PIP_FIND_LINKS", raising=False)

    with pytest.raises(SystemExit, match="first run needs a network"):
        ready(BUILD_LOCK, folder=tmp_path / "environment")

    assert "No matching distribution" in capfd.readouterr().err
    assert not (tmp_path / "environment" / f"{BUILD_LOCK}.sha256").exists()


def test_port_in_use_is_explained(tmp_path: Path) -> None:
    """The message offers another port."""
    with socket.create_server(("127.0.0.1", 0)) as other:
        port = other.getsockname()[1]

        with pytest.raises(SystemExit, match=f"serve.py --port {port + 1}"):
            serve.server(tmp_path, port)


def test_locks_have_hashes_and_name_no_host() -> None:
    """What is installed is what was locked, from wherever pip is set up to look."""
    for lock in BUILD_LOCK, TEST_LOCK:
        text = (ROOT / lock).read_text(encoding="utf-8")
        packages = [line for line in text.splitlines() if "==" in line]
        assert len(packages) > 30
        assert all(line.endswith("\\") for line in packages)
        assert text.count("--hash=sha256:") > len(packages)
        assert "://" not in text


def test_commands_start_from_any_folder(tmp_path: Path) -> None:
    """The commands find the project from where they lie."""
    command = [sys.executable, str(ROOT / "scripts" / "serve.py"), "--help"]

    result = subprocess.run(command, cwd=tmp_path, check=True, capture_output=True, text=True)

    assert "--port" in result.stdout
