"""Ed25519 (RFC 8032) over plain bytes; keys are the 32 bytes the standard names."""

from __future__ import annotations

#: SubjectPublicKeyInfo of an Ed25519 key before its 32 bytes: RFC 8410, 4.
BEFORE_KEY = bytes.fromhex("302a300506032b6570032100")


def public_of(seed: bytes) -> bytes:
    """Return the public key (32 bytes) of a private one (32 bytes)."""
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

    return Ed25519PrivateKey.from_private_bytes(seed).public_key().public_bytes_raw()


def sign(seed: bytes, message: bytes) -> bytes:
    """Return the signature (64 bytes); the same key and bytes give the same signature."""
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

    return Ed25519PrivateKey.from_private_bytes(seed).sign(message)


def holds(public: bytes, message: bytes, signature: bytes) -> bool:
    """Return whether ``signature`` was made over ``message`` by the owner of ``public``."""
    from cryptography.exceptions import InvalidSignature
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PublicKey

    try:
        Ed25519PublicKey.from_public_bytes(public).verify(signature, message)
    except (InvalidSignature, ValueError):
        return False
    return True


def to_pem(seed: bytes) -> bytes:
    """Return a private key as PKCS #8 in PEM, which OpenSSL reads (RFC 8410)."""
    from cryptography.hazmat.primitives import serialization as form
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

    return Ed25519PrivateKey.from_private_bytes(seed).private_bytes(
        form.Encoding.PEM, form.PrivateFormat.PKCS8, form.NoEncryption()
    )


def from_pem(pem: bytes) -> bytes:
    """Return the private key that a PEM file holds. Raises ValueError where it holds no such."""
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
    from cryptography.hazmat.primitives.serialization import load_pem_private_key

    try:
        key = load_pem_private_key(pem, password=None)
    except TypeError as fault:
        raise ValueError("it is locked by a password") from fault
    if not isinstance(key, Ed25519PrivateKey):
        raise ValueError("it is no Ed25519 key")
    return key.private_bytes_raw()
