"""A tour of every page and window of the editor, in any language, for tests that look at each."""
import gettext
import os
import shutil
import signal
import subprocess
import tempfile
import time

from driver import (ROOT, Editor, Failed, drilled, example, ok, plain_plate, tests, wait_for,
                    write_table)

LOCALES = os.environ['PINPLATE_BUILT_LOCALES']
FIGURES = ('thread', 'drill', 'tap', 'engagement', 'fit', 'bevel', 'sine', 'cusp',
           'location-error', 'holding', 'batch')
SECOND = 2  # the number of the window that comes after the first


class Scaled(Editor):
    """An editor shown GDK_SCALE times as large: its places are the same, its pixels more."""

    def point(self, x, y, window=None):
        scale = int(os.environ.get('GDK_SCALE', '1'))
        super().point(x * scale, y * scale, window)


def in_language(language, locale=None):
    """An environment in a language of po/, with its locale made here: it may not be installed."""
    if not language:
        return {}
    locale = locale or {'de': 'de_DE', 'es': 'es_ES'}[language]
    folder = tempfile.mkdtemp(prefix='pinplate-locale-')
    # It warns of what the tests don't need.
    subprocess.run(['localedef', '-i', locale, '-f', 'UTF-8',
                    os.path.join(folder, locale + '.UTF-8')], capture_output=True)
    if not os.listdir(folder):
        raise Failed('localedef made no ' + locale)
    return {'LOCPATH': folder, 'LC_ALL': locale + '.UTF-8', 'LANGUAGE': language,
            'PINPLATE_LOCALES': LOCALES}


def with_labels(environment):
    """The environment of an editor that tells which of its labels can't be read."""
    folder = tempfile.mkdtemp(prefix='pinplate-labels-')
    return dict(environment, LD_PRELOAD=os.environ['PINPLATE_LABELS_MODULE'],
                PINPLATE_LABELS=os.path.join(folder, 'labels'),
                ASAN_OPTIONS=os.environ.get('ASAN_OPTIONS', '') + ':verify_asan_link_order=0')


def unreadable(editor, environment):
    """What of the labels on the screen is cut, shortened or lies on another."""
    path = environment['PINPLATE_LABELS']
    before = None
    for _ in range(20):
        editor.process.send_signal(signal.SIGUSR1)
        wait_for('the labels', lambda: os.path.exists(path))
        with open(path, encoding='utf-8') as file:
            now = file.read().split('\n')[:-2]
        os.remove(path)
        if now == before:
            break
        before = now
        time.sleep(0.1)
    return now


class Tour:
    """Calls `look(editor, name)` at each place; `language` is one of po/, or None for English."""

    def __init__(self, look, language=None, environment=None):
        self.look = look
        self.environment = environment
        folder = (environment or {}).get('PINPLATE_LOCALES', LOCALES)
        self.say = gettext.translation('pinplate', folder, [language]).gettext if language else str

    def editor(self, plate=None):
        # Each begins with nothing left behind by another.
        state = tempfile.mkdtemp(prefix='pinplate-state-')
        return Scaled(plate, dict(self.environment or {}, XDG_STATE_HOME=state))

    def leave(self, editor, keys='Escape'):
        """Closes what is open before the main window."""
        window = editor.dialog()
        editor.key(keys)
        wait_for('it to close', lambda: window not in editor.windows())

    def stop_at(self, editor, action, name, parameter=None):
        editor.act(action, parameter)
        editor.dialog(name)
        self.look(editor, name)
        self.leave(editor)

    # --- the pages ---------------------------------------------------------------------------

    def start(self):
        editor = self.editor()
        editor.find('button', self.say('Open a plate…'))
        self.look(editor, 'start')
        editor.press_button(self.say('New plate…'))
        editor.find('text box', self.say('Thickness'))
        self.look(editor, 'new-stock')
        editor.press_button(self.say('Next'))
        editor.click(*editor.middle(editor.find('combo box', self.say('Base'))))
        editor.key('Down', 'Return')
        editor.find('text box', self.say('Round pin, X'))
        self.look(editor, 'new-base')
        editor.press_button(self.say('Next'))
        editor.find('combo box', self.say('Datum'))
        self.look(editor, 'new-datum')
        editor.press_button(self.say('Make the plate'))
        editor.wait('the plate', lambda s: s['open'] and 'scale' in s)
        self.look(editor, 'new-made')
        editor.end()

    def a_plate(self):
        editor = self.editor(example('grafting-blades.plate'))
        self.look(editor, 'plate')
        self.main_menu(editor)
        plate = editor.read()
        for kind in ('stations', 'holes', 'recesses', 'fittings', 'keep_clears', 'bases',
                     'operations', 'parts'):
            seen = set()
            for thing in plate.get(kind, []):
                sort = thing.get('kind', '')
                if sort not in seen:
                    seen.add(sort)
                    self.detail(editor, thing['id'], '-'.join(filter(None, (kind, sort))))
        editor.act('select-all')
        editor.wait('all', lambda s: s['selected'] > 3)
        self.look(editor, 'details-several')
        for tab in ('Features', 'Operations'):
            editor.press_button(self.say(tab), 'tab')
            self.look(editor, tab.lower())
        editor.click(*editor.place(-5, 10))
        editor.key('ctrl+Next')
        editor.wait('an operation', lambda s: s['operation'] != 0)
        self.look(editor, 'operation')
        editor.end()

    def main_menu(self, editor):
        editor.key('F10')
        editor.find('menu item', self.say('Figures'))
        self.look(editor, 'menu')
        editor.key('Escape')

    def detail(self, editor, number, name):
        editor.act('select-none')
        state = editor.state()
        for _ in range(state['records']):
            editor.act('select-next', '<int32 1>')
            state = editor.state()
            if state['first'] == number:
                self.look(editor, 'details-' + name)
                return

    def findings(self):
        for name in ('bad', 'bad-hardware', 'bad-operations', 'bad-inclined'):
            editor = self.editor(example(name + '.plate'))
            self.look(editor, name)
            editor.end()

    # --- the windows -------------------------------------------------------------------------

    def forms(self):
        editor = self.editor(plain_plate([drilled(3, 100, 75), drilled(4, 105, 75),
                                          drilled(5, 2, 40)]))
        self.look(editor, 'plain')
        for action, name in (('limits', 'limits'), ('keys', 'keys'), ('preferences', 'preferences'),
                             ('find-command', 'commands'),
                             ('new-face', 'face'), ('preview', 'preview'), ('open', 'open'),
                             ('add-part', 'add'),
                             ('save-as', 'save'), ('measured', 'table'),
                             ('export-pdf', 'pdf'), ('export-svg', 'svg')):
            self.stop_at(editor, action, name)
        editor.call('Activate', 'about', '[]', '{}', path=ROOT)
        editor.dialog('about')
        self.look(editor, 'about')
        self.leave(editor)
        editor.act('select-all')
        editor.wait('all', lambda s: s['selected'] > 2)
        for name in ('repeat', 'repeat-round', 'turn', 'move-by'):
            self.stop_at(editor, name, name)
        editor.act('select-none')
        editor.act('section')
        self.look(editor, 'section')
        editor.end()

    def accepting(self):
        editor = self.editor(plain_plate([drilled(3, 4, 75)]))
        editor.wait('a stop', lambda s: s['stop'] > 0)
        row = [n for n in editor.tree('list item')
               if n['width'] > 1 and n['x'] > editor.state()['x'] and n['y'] > 300][0]
        editor.click(*editor.middle(row))
        editor.press_button(self.say('Accept…'))
        editor.dialog()
        self.look(editor, 'accept')
        editor.type('1')
        editor.key('Return')
        editor.find('button', self.say('Take back'))
        self.look(editor, 'accepted')
        editor.key('ctrl+w')
        editor.dialog('the question')
        self.look(editor, 'question')
        self.leave(editor)
        editor.end()

    def figures(self):
        editor = self.editor(plain_plate([drilled(3, 50, 50)]))
        editor.key('ctrl+e')
        editor.wait('a figure', lambda s: s.get('figure') == 'thread', number=SECOND)
        for figure in FIGURES:
            editor.wait(figure, lambda s: s['figure'] == figure, number=SECOND)
            self.look(editor, 'figure-' + figure)
            editor.key('ctrl+Next')
        editor.end()

    def suggestions(self):
        editor = self.editor(plain_plate([drilled(3, 100, 75), drilled(4, 105, 75),
                                          drilled(5, 2, 40)]))
        editor.act('suggest-moves')
        window = editor.dialog()
        self.look(editor, 'moves')
        editor.answer_in(window, self.say('Look for it'))
        editor.find_in_dialog('button', self.say('Accept'))
        self.look(editor, 'moves-found')
        editor.answer(self.say('Refuse'))
        editor.end()
        editor = self.editor(example('grafting-blades.plate'))
        editor.act('suggest-stations')
        editor.dialog()
        self.look(editor, 'stations')
        self.leave(editor, 'alt+F4')
        editor.end()

    def outline(self):
        editor = self.editor(plain_plate())
        path = os.path.join(editor.folder, 'budding-blade.svg')
        shutil.copy(example('budding-blade.svg'), path)
        editor.act('import-outline')
        editor.type_path(path)
        editor.dialog('the outline')
        editor.find_in_dialog('button', self.say('Add the part'))
        self.look(editor, 'outline')
        self.leave(editor)
        editor.end()

    # --- what is had again -------------------------------------------------------------------

    def refit(self):
        editor = self.editor(example('grafting-blades.plate'))
        part = os.path.join(editor.folder, 'budding-blade.platepart')
        shutil.copy(example('budding-blade.platepart'), part)
        editor.act('refit')
        editor.type_path(part)
        wait_for('the answers', lambda: "'searching': <false>" in editor.call(
            'Describe', 'refit-state') and "'answers': <0>" not in editor.call(
            'Describe', 'refit-state'))
        self.look(editor, 'refit')
        editor.key('Escape')
        editor.end()

    def rack(self):
        editor = self.editor(example('spacers.plate'))
        rack = os.path.join(editor.folder, 'rack')
        os.mkdir(rack)
        for name in ('grafting-blades.plate', 'spacers.plate'):
            shutil.copy(example(name), rack)
        with open(os.path.join(rack, 'broken.plate'), 'w', encoding='utf-8') as file:
            file.write('{"format": ')
        part = os.path.join(editor.folder, 'budding-blade.platepart')
        shutil.copy(example('budding-blade.platepart'), part)
        editor.act('rack')
        wait_for('the rack', lambda: editor.window_named(self.say('Rack')))
        self.look(editor, 'rack-empty')
        editor.call('Activate', 'take-part', "[<'%s'>]" % part, '{}', number=SECOND)
        editor.call('Activate', 'take-folder', "[<'%s'>]" % rack, '{}', number=SECOND)
        editor.wait('the answer', lambda s: s['best'] == 'one-hole', number=SECOND)
        self.look(editor, 'rack')
        editor.end()

    def measured(self):
        editor = self.editor(example('grafting-blades.plate'))
        path = write_table(editor, 0.03)
        editor.act('measured')
        editor.type_path(path)
        wait_for('the deviations', lambda: editor.window_named(self.say('Measured')))
        self.look(editor, 'measured')
        editor.end()

    def whole(self):
        """Its parts, each of which can be walked by itself."""
        return (self.start, self.a_plate, self.findings, self.forms, self.accepting, self.figures,
                self.suggestions, self.outline, self.refit, self.rack, self.measured)


# --- what is looked for ------------------------------------------------------------------------

CHOOSERS = ('open', 'add', 'save', 'table', 'pdf', 'svg')  # the toolkit's own, and its labels too
TOO_LONG = 'cut Everything wrong'  # the names of some examples are


def all_is_readable(language, prefix=None):
    """Every page and window in a language: each leaves a picture, and has no label that is cut,
    shortened or lies on another."""
    environment = with_labels(in_language(language))
    prefix = prefix or language or 'english'

    def look(editor, name):
        editor.picture('%s-%s' % (prefix, name))
        if name not in CHOOSERS:
            bad = [line for line in unreadable(editor, environment)
                   if not line.startswith(TOO_LONG)]
            ok(not bad, '%s: all of %s can be read' % (prefix, name), '\n'.join(bad))
    return Tour(look, language, environment).whole()
