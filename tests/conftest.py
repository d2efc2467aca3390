"""What holds for all tests."""

from hypothesis import settings

# A deadline tells how busy the machine is, and not whether the code is right
settings.register_profile("patient", deadline=None)
settings.load_profile("patient")
