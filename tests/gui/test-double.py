"""Every page and window at 200 % on a screen of 2560 x 1600, in English and in German."""
from driver import tests
from windows import all_is_readable

tests(*all_is_readable(None, 'double-english'), *all_is_readable('de', 'double-german'))
