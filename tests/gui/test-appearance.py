"""Light and dark, contrast and motion follow the desktop, while the editor runs."""
import os
import subprocess

from driver import PICTURES, Editor, drilled, example, ok, plain_plate, tests, wait_for


class Portal:
    """The desktop's settings, as its portal says them."""

    def __init__(self, **values):
        self.process = subprocess.Popen([os.environ['PINPLATE_PORTAL']], stdin=subprocess.PIPE,
                                        stdout=subprocess.PIPE, text=True, bufsize=1)
        self.process.stdout.readline()
        for key, value in values.items():
            self.say(key.replace('_', '-'), value)

    def say(self, key, value):
        self.process.stdin.write('%s %d\n' % (key, value))

    def end(self):
        self.process.stdin.close()
        self.process.wait()


def lightness(editor, name, where):
    """How light a place of the picture is, from 0 to 1."""
    editor.picture(name)
    path = os.path.join(PICTURES, name + '.png')
    text = subprocess.run(['convert', path, '-format', '%%[fx:p{%d,%d}.intensity]' % where, 'info:'],
                          capture_output=True, text=True, check=True).stdout
    return float(text)


PANEL, STOCK = (1100, 700), (700, 700)  # places with nothing drawn on them


def colours(editor, name):
    return lightness(editor, name, PANEL), lightness(editor, name, STOCK)


# No theme is forced on the toolkit, as the other tests do.
OWN_THEME = {'GTK_THEME': ''}


def dark_and_light():
    portal = Portal()
    editor = Editor(example('spacers.plate'), OWN_THEME)
    ok(min(colours(editor, 'appearance-light')) > 0.7, 'light where the desktop has no wish')
    portal.say('color-scheme', 1)
    wait_for('the dark', lambda: max(colours(editor, 'appearance-dark')) < 0.4)
    ok(True, 'dark as soon as the desktop is: the panels, and the plate on the layout')
    editor.key('ctrl+comma')
    window = editor.dialog('the preferences')
    editor.picture('appearance-dark-window')
    editor.key('Escape')
    wait_for('it to close', lambda: window not in editor.windows())
    portal.say('color-scheme', 2)
    wait_for('the light', lambda: min(colours(editor, 'appearance-light-again')) > 0.7)
    ok(True, 'and light again')
    editor.end()
    portal.end()


def dark_from_the_start():
    portal = Portal(color_scheme=1)
    editor = Editor(example('spacers.plate'), OWN_THEME)
    wait_for('the dark', lambda: max(colours(editor, 'appearance-dark-start')) < 0.4)
    ok(True, 'a dark desktop is found at the start')
    editor.end()
    portal.end()


def contrast():
    portal = Portal()
    editor = Editor(example('spacers.plate'), OWN_THEME)
    before = lightness(editor, 'appearance-usual', PANEL)
    portal.say('contrast', 1)
    wait_for('the contrast',
             lambda: lightness(editor, 'appearance-contrast', PANEL) > max(before, 0.97))
    ok(True, 'high contrast as soon as the desktop wants it')
    portal.say('color-scheme', 1)
    wait_for('the dark', lambda: max(colours(editor, 'appearance-contrast-dark')) < 0.35)
    ok(True, 'and dark high contrast')
    portal.say('contrast', 0)
    portal.say('color-scheme', 0)
    wait_for('the usual', lambda: abs(lightness(editor, 'appearance-usual-again', PANEL) - before)
             < 0.01)
    ok(True, 'and the usual again')
    editor.end()
    portal.end()


def set_toolkit(line):
    """A setting of the toolkit's own, where there is no portal."""
    folder = os.path.join(os.environ['XDG_CONFIG_HOME'], 'gtk-4.0')
    os.makedirs(folder, exist_ok=True)
    path = os.path.join(folder, 'settings.ini')
    with open(path, 'w', encoding='utf-8') as file:
        file.write('[Settings]\n%s\n' % line)
    return path


def without_motion():
    path = set_toolkit('gtk-enable-animations=0')
    editor = Editor(plain_plate([drilled(3, 50, 50)]), OWN_THEME)
    editor.picture('appearance-still')
    seen = []
    editor.key('m')  # what is to be done is said in words that fade in
    for _ in range(20):
        shot = subprocess.run(['import', '-window', 'root', '-define', 'png:exclude-chunk=all',
                               'png:-'], capture_output=True, check=True).stdout
        if not seen or shot != seen[-1]:
            seen.append(shot)
    editor.find('alert', 'Press the two edges or centres to measure between; Escape ends it.')
    ok(len(seen) <= 2, 'with no motion wanted what comes is there at once', len(seen))
    editor.end()
    os.remove(path)


def without_a_portal():
    path = set_toolkit('gtk-application-prefer-dark-theme=1')
    editor = Editor(example('spacers.plate'), OWN_THEME)
    ok(max(colours(editor, 'appearance-no-portal')) < 0.4,
       "where there is no portal the toolkit's own settings hold")
    editor.end()
    os.remove(path)


tests(dark_and_light, dark_from_the_start, contrast, without_motion,
      without_a_portal)
