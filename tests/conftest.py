"""What holds for all tests: random examples are the same in every run, so that a run can be repeated; and the flag that
sets the reference pictures anew.

New random examples come with `python -m pytest --hypothesis-profile=new`, and from the commands in `tests/notation` and
`tests/mutation`; what they find becomes a test of its own.
"""

import pytest
from hypothesis import settings

settings.register_profile("same", derandomize=True)
settings.register_profile("new", derandomize=False)
settings.load_profile("same")


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--update-pictures",
        action="store_true",
        help="write tests/render/pictures anew from what is drawn now; look at them before you commit them",
    )
