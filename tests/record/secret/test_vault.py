"""What lies beside an encrypted database opens by its key alone, under its own name alone."""

import hashlib

import pytest
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.ciphers.aead import AESGCM
from cryptography.hazmat.primitives.kdf.hkdf import HKDFExpand

from record.secret import KEY, Vault

ROOT_KEY = bytes(range(KEY))
NAME = "ab" * 32


def expanded(use):
    """HKDF-Expand as the cryptography package works it (RFC 5869)."""
    return HKDFExpand(hashes.SHA256(), 32, use).derive(ROOT_KEY)


def test_what_is_hidden_opens_with_aes_gcm_alone_as_the_page_for_developers_says():
    sealed = Vault(ROOT_KEY).hidden(NAME, b"a picture")
    assert sealed[:16] == b"asburied kept 1\n" and b"picture" not in sealed
    plain = AESGCM(expanded(b"asburied files")).decrypt(sealed[16:28], sealed[28:], NAME.encode())
    assert plain == b"a picture"


def test_a_name_is_the_hmac_of_place_and_hash():
    """The construction of HMAC by RFC 2104, from SHA-256 alone."""
    key = expanded(b"asburied names").ljust(64, b"\0")
    inner = hashlib.sha256(bytes(b ^ 0x36 for b in key) + f"photos/{NAME}".encode()).digest()
    outer = hashlib.sha256(bytes(b ^ 0x5C for b in key) + inner).hexdigest()
    assert Vault(ROOT_KEY).name("photos", NAME) == outer
    assert Vault(ROOT_KEY).name("sheets", NAME) != outer


def test_a_changed_a_cut_and_a_swapped_file_do_not_open():
    vault = Vault(ROOT_KEY)
    sealed = vault.hidden(NAME, b"a picture")
    assert vault.shown(NAME, sealed) == b"a picture"
    for place in range(len(sealed)):
        flipped = bytearray(sealed)
        flipped[place] ^= 1
        assert vault.shown(NAME, bytes(flipped)) is None, place
        assert vault.shown(NAME, sealed[:place]) is None
    assert vault.shown("cd" * 32, sealed) is None
    assert vault.shown_cache(NAME, sealed) is None
    assert Vault(bytes(KEY)).shown(NAME, sealed) is None


def test_the_same_file_hidden_twice_looks_different_each_time():
    vault = Vault(ROOT_KEY)
    assert vault.hidden(NAME, b"same") != vault.hidden(NAME, b"same")


def test_a_key_of_another_length_is_refused():
    with pytest.raises(ValueError, match="32 bytes"):
        Vault(b"short")
