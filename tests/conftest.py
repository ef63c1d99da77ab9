"""Property tests use the same examples every time; HYPOTHESIS_PROFILE=new looks for new ones."""

import os

from hypothesis import settings

settings.register_profile("same", derandomize=True, deadline=None)
settings.register_profile("new", derandomize=False, deadline=None)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "same"))
