import io
import sys

import pytest

from fitwright.cli import main
from fitwright.demo import prepare_demo
from tests.support.bench import trial_shop


@pytest.fixture
def run(capsys, monkeypatch):
    """Run a command with lines on its standard input; exit code, standard output, standard error."""

    def command(*arguments, given=""):
        monkeypatch.setattr(sys, "stdin", io.StringIO(given))
        with pytest.raises(SystemExit) as stopped:
            main([str(each) for each in arguments])
        out, err = capsys.readouterr()
        return stopped.value.code, out, err

    return command


@pytest.fixture
def trial(tmp_path):
    """The folder of a trial shop with the build `trial`."""
    folder = tmp_path / "trial"
    trial_shop(folder).close()
    return folder


@pytest.fixture(scope="session")
def prepared_demo(tmp_path_factory):
    """The demo shop, made once; only to be read or copied."""
    folder = tmp_path_factory.mktemp("demo") / "shop"
    prepare_demo(folder)
    return folder
