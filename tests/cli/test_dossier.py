"""The commands `dossier`, `signing-key` and `verify FILE.pdf`, as somebody types them."""

from __future__ import annotations

import json
import os
import stat
import subprocess
import sys

import pytest

from fitwright.cli import main
from fitwright.dossier.errors import KeyFileError
from fitwright.dossier.key import KEY_NAME, checked_signature, make_key, signature_text, signer_of
from fitwright.wiring import open_shop
from tests.support.dossiers import OWN, change_a_reading, small_shop, with_data


@pytest.fixture
def folder(tmp_path):
    shop = small_shop(tmp_path / "shop")
    shop.close()
    return tmp_path / "shop"


def says(capsys, *words):
    """What a command answers: exit code, standard output, standard error."""
    with pytest.raises(SystemExit) as left:
        main([str(word) for word in words])
    out, error = capsys.readouterr()
    return left.value.code, out, error


def test_a_draft_is_written_and_verified_without_its_shop(folder, tmp_path, capsys):
    file = tmp_path / "a.pdf"
    code, out, _ = says(capsys, "dossier", OWN, "-o", file, "--data", folder)
    assert code == 0
    assert "a draft" in out
    assert "open points" in out
    code, out, _ = says(capsys, "verify", file)
    assert code == 0
    first, *_, last = out.splitlines()
    assert first == "The document agrees with the record it was made from."
    assert last == "That says nothing about the engine."


def test_any_process_writes_the_same_bytes_whatever_its_order_of_hashes(folder, tmp_path):
    written = set()
    for seed in ("0", "1", "77"):
        file = tmp_path / f"{seed}.pdf"
        words = ["dossier", OWN, "--depth", "complete", "-o", str(file), "--data", str(folder)]
        environment = os.environ | {"PYTHONHASHSEED": seed}
        subprocess.run(
            [sys.executable, "-c", "from fitwright.cli import main; main()", *words],
            env=environment,
            check=True,
        )
        written.add(file.read_bytes())
    assert len(written) == 1


def test_a_changed_file_is_told_and_the_exit_code_says_so(folder, tmp_path, capsys):
    file = tmp_path / "a.pdf"
    says(capsys, "dossier", OWN, "-o", file, "--data", folder)
    file.write_bytes(with_data(file.read_bytes(), change_a_reading))
    code, out, _ = says(capsys, "verify", file)
    assert code == 1
    assert "does not agree" in out
    assert "(reading, " in out
    code, out, _ = says(capsys, "verify", file, "--json")
    found = json.loads(out)
    assert code == 1
    assert found["sound"] is False
    assert found["findings"][0]["seq"]


def test_handing_over_writes_a_revision_and_a_draft_writes_nothing(folder, tmp_path, capsys):
    shop = open_shop(folder)
    before = shop.record.head()
    shop.close()
    says(capsys, "dossier", OWN, "-o", tmp_path / "draft.pdf", "--data", folder)
    shop = open_shop(folder)
    assert shop.record.head() == before
    shop.close()
    code, out, _ = says(capsys, "dossier", OWN, "-o", tmp_path / "1.pdf", "--data", folder, "--hand-over")
    assert code == 0
    assert "revision 1" in out
    code, out, _ = says(capsys, "verify", tmp_path / "1.pdf", "--data", folder)
    assert code == 0
    assert "Handed over as revision 1" in out


def test_a_file_that_is_there_is_kept(folder, tmp_path, capsys):
    file = tmp_path / "a.pdf"
    file.write_bytes(b"mine")
    code, _, error = says(capsys, "dossier", OWN, "-o", file, "--data", folder, "--hand-over")
    assert code == 2
    assert "--force" in error
    assert file.read_bytes() == b"mine"
    shop = open_shop(folder)
    assert not shop.bench(OWN).build.work.dossiers, "nothing went out"
    shop.close()


def test_an_unknown_build_and_a_strange_file_are_one_sentence_each(folder, tmp_path, capsys):
    code, _, error = says(capsys, "dossier", "nobody", "-o", tmp_path / "x.pdf", "--data", folder)
    assert code == 2
    assert 'No build "nobody"' in error
    strange = tmp_path / "x.pdf"
    strange.write_bytes(b"hello")
    code, _, error = says(capsys, "verify", strange)
    assert code == 2
    assert "x.pdf: it is no PDF file" in error


def test_a_key_is_made_on_purpose_and_signs_what_is_handed_over(folder, tmp_path, capsys):
    code, out, _ = says(capsys, "signing-key", "--data", folder)
    assert code == 0
    assert "no signing key" in out
    code, out, _ = says(capsys, "signing-key", "--data", folder, "--make")
    assert code == 0
    fingerprint = signer_of(folder).fingerprint
    assert fingerprint in out
    code, _, error = says(capsys, "signing-key", "--data", folder, "--make")
    assert code == 2
    assert "there is a key already" in error
    code, out, _ = says(capsys, "dossier", OWN, "-o", tmp_path / "1.pdf", "--data", folder, "--hand-over")
    assert fingerprint in out
    code, out, _ = says(capsys, "verify", tmp_path / "1.pdf")
    assert code == 0
    assert fingerprint in out
    assert "whose key that is, the file cannot say" in out


def test_nobody_but_its_owner_may_read_the_key(tmp_path):
    make_key(tmp_path)
    path = tmp_path / KEY_NAME
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    path.chmod(0o640)
    with pytest.raises(KeyFileError, match="others may read it"):
        signer_of(tmp_path)
    path.chmod(0o600)
    path.write_text("no key")
    with pytest.raises(KeyFileError, match="no signing key"):
        signer_of(tmp_path)


def test_a_signature_is_of_its_data_and_of_nothing_else(tmp_path):
    signer = make_key(tmp_path)
    text = signature_text(signer, "data")
    assert checked_signature(text, "data").holds
    assert checked_signature(text, "data").fingerprint == signer.fingerprint
    assert not checked_signature(text, "date").holds
    assert signature_text(signer_of(tmp_path), "data") == text, "the same key, the same signature"
    for broken in ("", "{}", "[]", text.replace("Ed25519", "").replace("public_key", "key")):
        assert checked_signature(broken, "data") is None
