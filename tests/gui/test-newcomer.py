"""A newcomer's run in English; see newcomer.py."""
from driver import tests
from newcomer import Newcomer


def in_english():
    Newcomer(None).run()


tests(in_english)
