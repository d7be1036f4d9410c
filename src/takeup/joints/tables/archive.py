"""The parts of a workbook's archive, none of them larger than may be held.     (joints/tables/archive.py)

An archive of a kilobyte may say that it holds a gigabyte, or hold one and say otherwise. So every part is inflated
here first, with a bound on all of them together; a reader of workbooks sees the file only after that.
"""

from __future__ import annotations

import io
import struct
import zipfile
import zlib

from takeup.reading.sheet import LARGEST_FILE

_MOST_PARTS = 1_000
_LOCAL_HEADER = 30  # bytes before a part's name; lengths of name and extra field stand in its last four
_CHUNK = 1 << 20


class NotAnArchive(ValueError):
    """The bytes are no archive of a workbook; the message says why."""


def parts(content: bytes) -> dict[str, bytes]:
    """Return every part by its name.

    Raises:
        NotAnArchive: It cannot be opened, or would not fit.
    """
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            every = archive.infolist()
    except (zipfile.BadZipFile, ValueError, NotImplementedError, struct.error, EOFError, OSError) as error:
        raise NotAnArchive("the workbook is broken: its archive cannot be opened; save it again") from error
    if len(every) > _MOST_PARTS or sum(one.file_size for one in every) > LARGEST_FILE:
        raise NotAnArchive(f"the workbook unpacks to more than {LARGEST_FILE} bytes or {_MOST_PARTS} parts")
    if len({one.filename for one in every}) < len(every):
        raise NotAnArchive("the workbook is broken: two parts of its archive have the same name; save it again")
    found, left = {}, LARGEST_FILE
    for one in every:
        found[one.filename] = _inflated(content, one, left)
        left -= len(found[one.filename])
    return found


def _inflated(content: bytes, one: zipfile.ZipInfo, most: int) -> bytes:
    """Return a part, whatever its header says of its size."""
    if one.flag_bits & 1:
        raise NotAnArchive("the workbook is protected by a password; save it without")
    begin = one.header_offset
    header = content[begin : begin + _LOCAL_HEADER]
    if len(header) < _LOCAL_HEADER:
        raise NotAnArchive("the workbook is broken: a part of its archive is cut off; save it again")
    begin += _LOCAL_HEADER + sum(struct.unpack("<HH", header[-4:]))
    packed = content[begin : begin + one.compress_size]
    if one.compress_type == zipfile.ZIP_STORED:
        found = packed
    elif one.compress_type == zipfile.ZIP_DEFLATED:
        found = _unpacked(packed, min(most, one.file_size))
    else:
        raise NotAnArchive("the workbook is packed in a way that is not read; save it again as .xlsx")
    if len(found) != one.file_size or zlib.crc32(found) != one.CRC:
        raise NotAnArchive("the workbook is broken: a part of its archive is not what it says; save it again")
    return found


def _unpacked(packed: bytes, most: int) -> bytes:
    """Return at most one byte more than `most`."""
    machine, found, size = zlib.decompressobj(-zlib.MAX_WBITS), [], 0
    try:
        while size <= most and not machine.eof:
            piece = machine.decompress(packed, min(_CHUNK, most + 1 - size))
            packed = machine.unconsumed_tail
            if not piece:
                break
            found.append(piece)
            size += len(piece)
    except zlib.error as error:
        raise NotAnArchive("the workbook is broken: a part of its archive cannot be unpacked; save it again") from error
    return b"".join(found)


__all__ = ["NotAnArchive", "parts"]
