"""A newcomer's run in German; see newcomer.py."""
from driver import tests
from newcomer import Newcomer


def in_german():
    Newcomer('de').run()


tests(in_german)
