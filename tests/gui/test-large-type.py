"""Every page and window with type as much larger, in per cent, as it is told, as the desktop's
setting for large text makes it: no label is cut or shortened, and no window is larger than the
screen. What finds no room is scrolled."""
import subprocess
import sys

from driver import tests
import windows
from windows import Scaled, all_is_readable

# What is scrolled reaches out of sight; a path is shown by its end, the toolkit shortens the title
# of a window for the buttons beside it, and the size of a section stands beside its name if it can.
windows.TOO_LONG = (windows.TOO_LONG, 'outside ', 'ellipsized /',
                    'ellipsized Preview of the prints', 'ellipsized 200 mm through the plate')


def press_by_name(editor, name, role='button'):
    """What is wanted may have been scrolled out of sight."""
    editor.do('%s::%s' % (role, name), 'Click')


Scaled.press_button = press_by_name


def in_type_of(per_cent, visit):
    def test():
        # What a desktop's settings daemon tells the toolkit: dots an inch, of 96.
        subprocess.run(['xprop', '-root', '-f', 'RESOURCE_MANAGER', '8s', '-set',
                        'RESOURCE_MANAGER', 'Xft.dpi:\t%d\n' % (96 * per_cent // 100)], check=True)
        visit()
    test.__name__ = '%d_per_cent_%s' % (per_cent, visit.__name__)
    return test


PER_CENT = int(sys.argv[1])
tests(*[in_type_of(PER_CENT, visit)
        for visit in all_is_readable(None, 'large-type-%d' % PER_CENT)])
