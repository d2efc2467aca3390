"""What holds for all tests."""

import atexit
import os
import shutil
import tempfile

from hypothesis import HealthCheck, settings

# No test reads or leaves anything in the cache of whoever runs it
CACHE = tempfile.mkdtemp(prefix="bevelbook-cache-")
atexit.register(shutil.rmtree, CACHE, ignore_errors=True)
os.environ["XDG_CACHE_HOME"] = CACHE

# A deadline tells how busy the machine is, and not whether the code is right; so does the time that drawing takes
settings.register_profile("patient", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("patient")
