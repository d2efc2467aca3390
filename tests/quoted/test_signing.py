"""Ed25519 against the vectors of RFC 8032, section 7.1 (TEST 1, TEST 2, TEST 3, TEST SHA(abc)), written from memory.

A digit remembered wrongly would not go unnoticed: key, message and signature of a row must fit each other.
"""

import hashlib

import pytest

from quoting.quoted.signing import NoKeyError, Private, good, key_id

# Secret key, public key, message, signature
VECTORS = {
    "TEST 1": (
        "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
        "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a",
        b"",
        "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555"
        "fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b",
    ),
    "TEST 2": (
        "4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
        "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c",
        b"\x72",
        "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da"
        "085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00",
    ),
    "TEST 3": (
        "c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7",
        "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025",
        b"\xaf\x82",
        "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac"
        "18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a",
    ),
    "TEST SHA(abc)": (
        "833fe62409237b9d62ec77587520911e9a759cec1d19755b7da901b96dca3d42",
        "ec172b93ad5e563bf4932c70e1245034c35467ef2efd4d64ebf819683467e2bf",
        hashlib.sha512(b"abc").digest(),
        "dc2a4459e7369633a52b1bf277839a00201009a3efbf3ecb69bea2186c26b589"
        "09351fc9ac90b3ecfdfbc7c66431e0303dca179c138ac17ad9bef1177331a704",
    ),
}


@pytest.mark.parametrize("name", VECTORS)
def test_keys_and_signatures_are_those_of_the_standard(name):
    secret, public, message, signature = VECTORS[name]
    key = Private.from_seed(bytes.fromhex(secret))
    assert key.public.hex() == public
    assert key.sign(message).hex() == signature
    assert good(bytes.fromhex(public), bytes.fromhex(signature), message)


@pytest.mark.parametrize("name", VECTORS)
def test_any_bit_changed_anywhere_is_no_good(name):
    _, public, message, signature = VECTORS[name]
    parts = [bytes.fromhex(public), bytes.fromhex(signature), message]
    for which, part in enumerate(parts):
        for bit in range(len(part) * 8):
            changed = bytearray(part)
            changed[bit // 8] ^= 1 << bit % 8
            assert not good(*[bytes(changed) if at == which else one for at, one in enumerate(parts)])


@pytest.mark.parametrize("size", [0, 31, 33, 64])
def test_a_public_key_of_another_length_is_good_for_nothing(size):
    assert not good(bytes(size), bytes(64), b"")


def test_a_key_survives_its_file():
    key = Private.new()
    again = Private.from_pem(key.pem)
    assert (again.public, again.id) == (key.public, key.id)
    assert key.id == key_id(key.public) == hashlib.sha256(key.public).hexdigest()[:8]


def test_what_is_no_key_is_told():
    with pytest.raises(NoKeyError, match="no private key"):
        Private.from_pem(b"-----BEGIN NOTHING-----\n-----END NOTHING-----\n")
    from cryptography.hazmat.primitives.asymmetric.ec import SECP256R1, generate_private_key
    from cryptography.hazmat.primitives.serialization import Encoding, NoEncryption, PrivateFormat

    other = generate_private_key(SECP256R1())
    pem = other.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption())
    with pytest.raises(NoKeyError, match="not one for Ed25519"):
        Private.from_pem(pem)
