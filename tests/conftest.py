"""What holds for all tests: random examples are the same in every run, so that a run can be repeated.

New random examples come with `python -m pytest --hypothesis-profile=new`, and from the commands in `tests/notation` and
`tests/mutation`; what they find becomes a test of its own.
"""

from hypothesis import settings

settings.register_profile("same", derandomize=True)
settings.register_profile("new", derandomize=False)
settings.load_profile("same")
