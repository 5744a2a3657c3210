"""A shop's signature: an Ed25519 key (RFC 8032) kept beside its record, made on purpose.

A signature says that whoever held this key had these data; it never says to whom the key belongs.
"""

from __future__ import annotations

import hashlib
import json
import os
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Final

from fitwright.dossier.errors import KeyFileError
from fitwright.records.canonical import canonical_text

if TYPE_CHECKING:
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

FILE_NAME: Final = "fitwright-signature.json"
KEY_NAME: Final = "signing-key.pem"
FORMAT: Final = "fitwright signature"
_FIELDS: Final = 5
_ABOUT: Final = b"fitwright dossier data, version 1\n"
"""Stands before what is signed, so that no signature for something else passes for one of these."""


@dataclass(frozen=True, slots=True)
class Signer:
    """Somebody with a key."""

    key: Ed25519PrivateKey

    @property
    def public(self) -> bytes:
        """The public key, 32 bytes."""
        return self.key.public_key().public_bytes_raw()

    @property
    def fingerprint(self) -> str:
        """By which the public key is known."""
        return fingerprint_of(self.public)


@dataclass(frozen=True, slots=True)
class Signed:
    """What a signature says once it is checked: by which key, and whether it is of these data."""

    fingerprint: str
    holds: bool


def fingerprint_of(public: bytes) -> str:
    """The SHA-256 of a public key in groups of four, as one reads it aloud.

    >>> fingerprint_of(bytes(32))[:14]
    '6668 7aad f862'
    """
    digest = hashlib.sha256(public).hexdigest()
    return " ".join(digest[at : at + 4] for at in range(0, 32, 4))


def signature_text(signer: Signer, data: str) -> str:
    """The signature over the data of a dossier, as it is attached."""
    signature = signer.key.sign(_ABOUT + hashlib.sha256(data.encode("utf-8")).digest())
    return canonical_text(
        {
            "format": FORMAT,
            "version": 1,
            "algorithm": "Ed25519",
            "public_key": signer.public.hex(),
            "signature": signature.hex(),
        }
    )


def checked_signature(text: str, data: str) -> Signed | None:
    """What an attached signature says of some data; None where it is no signature."""
    from cryptography.exceptions import InvalidSignature
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PublicKey

    try:
        told = json.loads(text)
        if (told["format"], told["version"], told["algorithm"]) != (FORMAT, 1, "Ed25519"):
            return None
        if canonical_text(told) != text or len(told) != _FIELDS:
            return None  # words put beside a signature are not signed
        public, signature = bytes.fromhex(told["public_key"]), bytes.fromhex(told["signature"])
        key = Ed25519PublicKey.from_public_bytes(public)
    except (KeyError, TypeError, ValueError, RecursionError):
        return None
    try:
        key.verify(signature, _ABOUT + hashlib.sha256(data.encode("utf-8")).digest())
    except InvalidSignature:
        return Signed(fingerprint_of(public), holds=False)
    return Signed(fingerprint_of(public), holds=True)


def make_key(folder: Path) -> Signer:
    """Make the key of a shop; only its owner may read the file.

    Raises
    ------
    KeyFileError
        If there is one already, or it cannot be written.
    """
    from cryptography.hazmat.primitives import serialization
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

    path = folder / KEY_NAME
    key = Ed25519PrivateKey.generate()
    content = key.private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    )
    try:
        file = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
        with os.fdopen(file, "wb") as out:
            out.write(content)
            out.flush()
            os.fsync(out.fileno())
    except FileExistsError:
        raise KeyFileError(
            str(path), "there is a key already", "keep it; move it away to make another"
        ) from None
    except OSError as error:
        raise KeyFileError(
            str(path), f"it cannot be written ({error.strerror})", "make room for it"
        ) from error
    return Signer(key)


def signer_of(folder: Path) -> Signer | None:
    """The key of a shop; None where none was made.

    Raises
    ------
    KeyFileError
        If others may read it, or it is no such key.
    """
    from cryptography.hazmat.primitives import serialization
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

    path = folder / KEY_NAME
    try:
        content, mode = path.read_bytes(), path.stat().st_mode
    except FileNotFoundError:
        return None
    except OSError as error:
        raise KeyFileError(
            str(path), f"it cannot be read ({error.strerror})", "let its owner read it"
        ) from error
    if os.name == "posix" and mode & 0o077:
        raise KeyFileError(str(path), "others may read it", f"say chmod 600 {path}")
    try:
        key = serialization.load_pem_private_key(content, password=None)
    except (ValueError, TypeError):
        raise KeyFileError(str(path), "it is no signing key", "put the key back, or make another") from None
    if not isinstance(key, Ed25519PrivateKey):
        raise KeyFileError(str(path), "it is a key of another kind", "put the key back, or make another")
    return Signer(key)
