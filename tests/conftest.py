"""What holds for all tests."""

import os
import tempfile

from hypothesis import settings

# No test reads or leaves anything in the cache of whoever runs it
CACHE = tempfile.TemporaryDirectory(prefix="bevelbook-cache-")
os.environ["XDG_CACHE_HOME"] = CACHE.name

# A deadline tells how busy the machine is, and not whether the code is right
settings.register_profile("patient", deadline=None)
settings.load_profile("patient")
