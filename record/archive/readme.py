"""README.txt of a bag: what it is and how to check it, for whoever finds it in thirty years."""

from __future__ import annotations

_HEAD = """\
THE RECORD OF A BURIED SHELTER: {site}
{rule}

This folder holds what was written down about the shelter while it was built and since: entries
that were only ever added to, pictures, day sheets, and editions of the owner's manual.
Recorded to {recorded_to} (a claim of the writer's clock). Copy for: {reader}.

It can tell where pipes, wires, stores and ways out are. Keep it as you would keep the keys. It
gives no rating of any kind; look, measure and test before you dig, drill, weld or enter.

{held}
WHAT IS HERE

  data/links.jsonl      one line an entry: who wrote it, as their how-manieth, and when; the hash
                        of what it says ("content") and of their line before ("prev")
  data/contents.jsonl   what entries say, one line each; which entry a line belongs to is told by
                        its hash alone
  data/checkpoint.txt   the site, and for each writer how many entries and the hash of the last
  data/csv/             the same once more as tables, a file for each kind, for a spreadsheet
  data/schema/          what each kind of entry means and what its fields hold, in words
  data/photos/ data/sheets/ data/editions/    files, each named by its SHA-256
{reserved}\
  data/signatures/      for each day that somebody signed: the text, the signature, the key
  bagit.txt, bag-info.txt, manifest-sha256.txt, tagmanifest-sha256.txt
                        a bag in the sense of RFC 8493 (BagIt 1.0): the hash of every file
{signature}
A content line is read with a text editor. "kind" and "v" name the page in data/schema; "about" is
the tag of the thing; "on" and "at" when it was so; "did" who did it, "saw" who watched, "by" who
told it; "readers" who may see it; "seen" the other writers' last lines that its writer knew;
"body" the fields: a measured one holds the crew's own "text", and "si", the number in the SI unit
named in "unit"; "replaces" names the entries that it puts right, and "because" says why; "salt" is
sixteen random bytes, so that nobody can guess what a missing line says.

What a later entry puts right still stands here. The newest entry about a field counts that had
seen the others; where two had not seen each other, both stand until an entry names both.


HOW TO CHECK IT

With the usual tools of a Unix system, in this folder. Lines set in by four blanks are to be typed.

1. Every file is as it was packed. Each line must end in OK:

    sha256sum --check --quiet tagmanifest-sha256.txt
    sha256sum --check --quiet manifest-sha256.txt

2. Every chain holds. The hash of a line is of all its bytes, its line feed too. First every line
by itself, then the hashes of all links, and the hashes that links name as the line before:

    export LC_ALL=C && work=$(mktemp -d) && mkdir "$work/links" "$work/contents"
    split -a 6 -l 1 data/links.jsonl "$work/links/"
    find "$work/links" -type f -exec sha256sum {{}} + | cut -c 1-64 | sort > "$work/hashes"
    grep -o '"prev":"[0-9a-f]*"' data/links.jsonl | cut -d '"' -f 4 | sort -u > "$work/before"

Every line that is named as the one before is here: this prints nothing.

    comm -13 "$work/hashes" "$work/before" | tee "$work/wrong" && test ! -s "$work/wrong"

Those that no other names are the last of each writer, and stand in the checkpoint: no difference.

    comm -23 "$work/hashes" "$work/before" > "$work/last"
    sed 1d data/checkpoint.txt | cut -d ' ' -f 3 | sort | diff - "$work/last"

Every content line is one that a link was sealed with: this prints nothing.

    split -a 6 -l 1 data/contents.jsonl "$work/contents/"
    find "$work/contents" -type f -exec sha256sum {{}} + | cut -c 1-64 | sort > "$work/told"
    grep -o '"content":"[0-9a-f]*"' data/links.jsonl | cut -d '"' -f 4 | sort > "$work/sealed"
    comm -23 "$work/told" "$work/sealed" | tee "$work/wrong" && test ! -s "$work/wrong"

3. It is the record that you know. This is its checkpoint:
   {checkpoint}
Hold it against what this prints, and against checkpoints that you have from elsewhere, such as
the one printed in a manual. An older one counts fewer entries; its hashes stand in "$work/hashes".

    sha256sum data/checkpoint.txt
"""
_SIGNED = """
4. Signatures hold. Each folder in data/signatures is named by the entry that holds the signature:
in its line in data/contents.jsonl stand the key, the signature and the chains that signed.txt
has. Each must say that it verified (OpenSSL 1.1.1 or newer; RFC 8032, Ed25519).

    for each in data/signatures/*/; do
    openssl pkeyutl -verify -pubin -inkey "$each/key.pem" -rawin -in "$each/signed.txt" \\
    -sigfile "$each/signature.bin" || exit 1
    done

The hashes that signed.txt names are hashes of links, and nobody has put others in their place:

    grep -h -o '[0-9a-f]\\{64\\}$' data/signatures/*/signed.txt | sort -u > "$work/signed"
    comm -23 "$work/signed" "$work/hashes" | tee "$work/wrong" && test ! -s "$work/wrong"

Whose a key is, an entry of the kind writer-key says; whether it was given up since, one of the
kind key-given-up. Ask the person whether the key is theirs: no file can prove that.
"""
_BAG_SIGNED = """
{step}. All of it is as {signer} packed it. This must say that it verified; what it verifies is the
list that step 1 has checked every other list by:

    openssl pkeyutl -verify -pubin -inkey signature/key.pem -rawin -in tagmanifest-sha256.txt \\
    -sigfile signature/signature.bin

An entry of the kind writer-key introduces the key. This prints its public half; find it there:

    openssl pkey -pubin -in signature/key.pem -outform DER | tail -c 32 | od -An -v -tx1 \\
    | tr -d ' \\n' | tee "$work/key"
    grep -q "\\"public_key\\":\\"$(cat "$work/key")\\"" data/contents.jsonl
"""
_TAIL = """
When done:

    rm -r "$work"
"""
_SIGNATURE = """\
  signature/            over tagmanifest-sha256.txt, and so over all else; the key it is held to
"""
_RESERVED = """\
  data/reserved/        which panels and which ground are to be left alone for what is not told
                        here; worked out of the whole record, and good while nothing that this
                        copy lacks came in since. Its SHA-256 is
                        {reserved}
"""
_ALL = "Of all {entries} entries it holds what they say.\n"
_SOME = (
    "Of {entries} entries it holds what {contents} say. Of the others only the link is here: when\n"
    "it was written and by whom, so that the chains can be checked, and nothing of what it says.\n"
    "What is not told here may still be there: ask the owner before you open, drill or dig.\n"
)
_HELD_BACK = (
    "Of them {held_back} were held back by whoever packed this, with the sheets, pictures and\n"
    "editions that tell of the same; they know what it is, and this folder does not.\n"
)


def readme(
    *,
    site: str,
    reader: str,
    checkpoint: str,
    entries: int,
    contents: int,
    signed: bool,
    recorded_to: str,
    held_back: int = 0,
    reserved: str = "",
    signer: str = "",
) -> bytes:
    """
    Return the text of README.txt; ``contents`` of ``entries`` are told.

    ``held_back`` of the others would be told to this reader, but for whoever packed it;
    ``reserved`` is the hash of the file that says what is reserved for what is not told;
    ``signer`` is who signs the whole bag, "" where nobody does.
    """
    told = _ALL if contents == entries else _SOME + (_HELD_BACK if held_back else "")
    head = _HEAD.format(
        site=site,
        rule="=" * min(len(site) + 31, 88),
        recorded_to=recorded_to,
        reader=reader,
        checkpoint=checkpoint,
        reserved=_RESERVED.format(reserved=reserved) if reserved else "",
        signature=_SIGNATURE if signer else "",
        held=told.format(entries=entries, contents=contents, held_back=held_back),
    )
    steps = _SIGNED if signed else ""
    if signer:
        steps += _BAG_SIGNED.format(step=5 if signed else 4, signer=signer)
    return (head + steps + _TAIL).encode("utf-8")
