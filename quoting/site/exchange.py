"""Two folders exchanged in one step, where the system can: at no moment is either of the two names without a folder.

Linux: renameat2(2) with RENAME_EXCHANGE, since kernel 3.15, on ext4, XFS, Btrfs, tmpfs and others.  macOS:
renamex_np(2) with RENAME_SWAP, on APFS.  Windows and most network file systems have nothing of the kind.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import ctypes
import errno
import os
import sys
from pathlib import Path

AT_FDCWD = -100  # <fcntl.h> of Linux: a path counts from the folder that we are in
RENAME_EXCHANGE = 2  # <linux/fs.h>: 1 << 1
RENAME_SWAP = 2  # <sys/stdio.h> of macOS
# What a system answers that has no such call, or has it for other file systems only
CANNOT = {errno.ENOSYS, errno.EINVAL, errno.ENOTSUP, errno.EOPNOTSUPP}


def exchange(one: Path, other: Path) -> bool:
    """Each gets the name of the other, in one step; False where the system has no such step, and nothing is done.

    Raises OSError where it refuses; then, too, nothing is done.
    """
    call = "renameat2" if sys.platform == "linux" else "renamex_np" if sys.platform == "darwin" else ""
    function = getattr(ctypes.CDLL(None, use_errno=True), call, None) if call else None
    if function is None:
        return False
    first, second = os.fsencode(one), os.fsencode(other)
    if sys.platform == "linux":
        failed = function(AT_FDCWD, first, AT_FDCWD, second, ctypes.c_uint(RENAME_EXCHANGE))
    else:
        failed = function(first, second, ctypes.c_uint(RENAME_SWAP))
    if not failed:
        return True
    fault = ctypes.get_errno()
    if fault in CANNOT:
        return False
    raise OSError(fault, os.strerror(fault), str(other))
