"""`open` as a user types it: what it refuses, and that the page answers."""

from __future__ import annotations

import os
import re
import socket
import subprocess
import sys
import time
import urllib.request

import pytest
from typer.testing import CliRunner

from coldwright.cli import open as opening
from coldwright.cli.app import app
from coldwright.errors import InputError
from support.shelf import folder_with


def test_a_folder_that_is_none_is_told(tmp_path):
    told = CliRunner().invoke(app, ["open", str(tmp_path / "nowhere"), "--no-browser"])
    assert told.exit_code == 2
    assert "is no folder" in told.output


def test_a_port_in_use_is_told_and_the_usual_one_gives_way(monkeypatch):
    with socket.create_server((opening.HOST, 0)) as busy:
        port = busy.getsockname()[1]
        with pytest.raises(InputError, match="is in use"):
            opening.listening(port)
        monkeypatch.setattr(opening, "USUAL_PORT", port)
        monkeypatch.setattr(opening, "PORTS_TRIED", 200)
        with opening.listening(None) as taken:
            assert taken.getsockname()[1] > port
    with pytest.raises(InputError, match="must be 0 to 65535"):
        opening.listening(70000)


def test_the_page_answers_and_ends_when_it_is_stopped(tmp_path):
    folder_with(tmp_path, "cheese")
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join(sys.path), "PYTHONUNBUFFERED": "1"}
    command = [sys.executable, "-m", "coldwright", "open", str(tmp_path), "--port", "0"]
    with subprocess.Popen(
        [*command, "--no-browser"], stdout=subprocess.PIPE, text=True, env=environment
    ) as running:
        try:
            address = re.search(r"http://127\.0\.0\.1:\d+/", running.stdout.readline())[0]
            for _ in range(200):
                try:
                    with urllib.request.urlopen(address, timeout=5) as answer:
                        assert b"Cheese cupboard" in answer.read()
                    break
                except OSError:  # it does not listen yet
                    time.sleep(0.05)
            else:
                pytest.fail("the page did not answer")
        finally:
            running.terminate()
            running.wait(timeout=20)
    assert not (tmp_path / ".coldwright" / "results").exists()
