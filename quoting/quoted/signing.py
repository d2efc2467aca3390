"""Ed25519 (RFC 8032): keys, signatures, and whether one is good.  The only file that knows the cryptography library.

>>> seed = bytes.fromhex("9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60")  # RFC 8032, 7.1, TEST 1
>>> key = Private.from_seed(seed)
>>> key.public.hex()[:16], key.sign(b"").hex()[:16], good(key.public, key.sign(b""), b"")
('d75a980182b10ab7', 'e5564300c360ac72', True)
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import hashlib

from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey, Ed25519PublicKey
from cryptography.hazmat.primitives.serialization import (
    Encoding,
    NoEncryption,
    PrivateFormat,
    PublicFormat,
    load_pem_private_key,
)

PUBLIC_BYTES = 32


class NoKeyError(ValueError):
    """What was read is no private key for Ed25519."""


class Private:
    """A private key.  It never prints itself."""

    def __init__(self, key: Ed25519PrivateKey) -> None:
        self._key = key

    @classmethod
    def new(cls) -> Private:
        """One from the system's own source of chance."""
        return cls(Ed25519PrivateKey.generate())

    @classmethod
    def from_seed(cls, seed: bytes) -> Private:
        """The key of a seed of 32 bytes, as RFC 8032 has it."""
        return cls(Ed25519PrivateKey.from_private_bytes(seed))

    @classmethod
    def from_pem(cls, pem: bytes) -> Private:
        """The key in a file.   Raises NoKeyError."""
        try:
            key = load_pem_private_key(pem, None)
        except (ValueError, TypeError) as fault:
            raise NoKeyError("this is no private key") from fault
        if not isinstance(key, Ed25519PrivateKey):
            raise NoKeyError("this private key is not one for Ed25519")
        return cls(key)

    @property
    def pem(self) -> bytes:
        """The key as a file: PKCS #8 (RFC 5958; for Ed25519 RFC 8410) in PEM."""
        return self._key.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption())

    @property
    def public(self) -> bytes:
        """The 32 bytes that everybody may have."""
        return self._key.public_key().public_bytes(Encoding.Raw, PublicFormat.Raw)

    @property
    def id(self) -> str:
        """The id of its public key."""
        return key_id(self.public)

    def sign(self, message: bytes) -> bytes:
        """The signature, 64 bytes."""
        return self._key.sign(message)


def key_id(public: bytes) -> str:
    """What a public key is called: the first four bytes of its SHA-256, in hexadecimal digits."""
    return hashlib.sha256(public).hexdigest()[:8]


def good(public: bytes, signature: bytes, message: bytes) -> bool:
    """Whether the signature is this key's for just this message."""
    try:
        Ed25519PublicKey.from_public_bytes(public).verify(signature, message)
    except (InvalidSignature, ValueError):
        return False
    return True
