"""A newcomer's run: from the first page to a printed drawing, with no file prepared but the outline that
comes with the program. Every step is done with the pointer and the keys, each leaves a picture, and
nothing may be complained of; in English and in German: each a test of its own."""
import gettext
import os
import subprocess
import tempfile

from driver import Editor, Failed, equal, example, ok, wait_for

LOCALES = os.environ['PINPLATE_BUILT_LOCALES']
INCH = 25.4


def german_environment():
    folder = tempfile.mkdtemp(prefix='pinplate-locale-')
    # It warns of what the tests don't need.
    subprocess.run(['localedef', '-i', 'de_DE', '-f', 'UTF-8', os.path.join(folder, 'de_DE.UTF-8')],
                   capture_output=True)
    if not os.listdir(folder):
        raise Failed('localedef made no German')
    return {'LOCPATH': folder, 'LC_ALL': 'de_DE.UTF-8', 'LANGUAGE': 'de',
            'PINPLATE_LOCALES': LOCALES}


class Newcomer:
    """One run in one language. What is on the screen is looked for by its English words."""

    def __init__(self, language):
        self.language = language or 'english'
        self.say = gettext.translation('pinplate', LOCALES, [language]).gettext if language \
            else str
        self.editor = Editor(environment=german_environment() if language else None)
        self.count = 0

    def look(self, name):
        self.count += 1
        self.editor.picture('newcomer-%s-%02d-%s' % (self.language, self.count, name))

    def press(self, words):
        self.editor.press_button(self.say(words))

    def enter(self, words, text):
        self.editor.enter(self.say(words), text)

    def enter_in_window(self, words, text):
        editor = self.editor
        editor.enter_in(editor.dialog(), self.say(words), text)
        editor.key('Tab')

    def command(self, words):
        editor = self.editor
        editor.key('ctrl+k')
        window = editor.dialog('the list of commands')
        editor.type(self.say(words).rstrip('…').lower())
        editor.key('Return')
        wait_for('the list to close', lambda: window not in editor.windows())

    def carry(self, name, x, y, before_drop=None):
        editor = self.editor
        start, end = editor.middle(editor.find('list item', name)), editor.place(x, y)
        editor.press(*start)
        editor.move(start, end, steps=20)
        editor.wait('the ghost', lambda s: s['dragging'])
        if before_drop:
            before_drop()
        editor.release()
        return editor.wait('the drop', lambda s: not s['dragging'] and s['undo'])

    # --- the steps -----------------------------------------------------------------------------

    def make_a_plate(self):
        editor = self.editor
        self.look('first')
        self.press('New plate…')
        self.enter('Name of the plate', 'First plate')
        self.enter('Thickness', '3/4')
        self.look('stock')
        self.press('Next')
        editor.click(*editor.middle(editor.find('combo box', self.say('Base'))))
        editor.key('Down', 'Return')
        editor.find('text box', self.say('Round pin, X'))
        self.look('base')
        self.press('Next')
        self.look('datum')
        self.press('Make the plate')
        state = editor.wait('the plate', lambda s: s['open'] and 'scale' in s)
        equal((state['stop'], state['caution']), (0, 0), 'nothing is wrong with the new plate')
        self.look('plate')

    def read_a_part(self):
        editor = self.editor
        records = editor.state()['records']
        self.command('Read an outline…')
        editor.type_path(example('grafting-blade.svg'))
        editor.dialog()
        self.enter_in_window('Name', 'Blade')
        self.enter_in_window('Thickness', '0.1' if self.language == 'english' else '0,1')
        self.look('part')
        editor.answer(self.say('Add the part'))
        editor.wait('the part', lambda s: s['records'] == records + 1)
        editor.find('list item', 'Blade')

    def put_stations(self):
        """The first one hangs over the edge, is seen to, and is moved in; then there are two."""
        editor = self.editor

        def seen():
            editor.wait('the live finding', lambda s: s['stop'] + s['caution'] > 0)
            self.look('ghost')
        self.carry('Blade', 4 * INCH, 0.35 * INCH, seen)
        editor.wait('what hangs over', lambda s: s['stop'] + s['caution'] > 0)
        self.look('over-the-edge')
        editor.drag(editor.place(4.8 * INCH, 0.35 * INCH), editor.place(4.8 * INCH, 2 * INCH))
        state = editor.wait('no stop', lambda s: s['stop'] == 0 and not s['dragging'])
        self.look('station')
        editor.key('r')
        self.enter_in_window('Places along X', '1')
        self.enter_in_window('Places along Y', '2')
        self.enter_in_window('Pitch along Y', '2')
        self.look('repeat')
        editor.answer(self.say('Repeat'))
        state = editor.wait('two stations', lambda s: s['selected'] >= 1 and not s['dragging']
                            and s['records'] > state['records'])
        equal(state['stop'], 0, 'two stations without a stop')
        self.look('two-stations')

    def clear_findings(self):
        """What is left is read, and let stand with a reason."""
        editor = self.editor
        for number in range(1, 20):
            if not editor.state()['caution']:
                break
            before = editor.state()['caution']
            row = [n for n in editor.tree('list item')
                   if n['name'].startswith('%s ' % self.say('caution')) and n['width'] > 1][0]
            editor.click(*editor.middle(row))
            self.press('Accept…')
            editor.dialog()
            editor.type('The pins are fitted one by one')
            if number == 1:
                self.look('reason')
            editor.key('Return')
            editor.wait('accepting', lambda s, b=before: s['caution'] == b - 1)
        state = editor.state()
        equal((state['stop'], state['caution']), (0, 0), 'no stop and no caution is left')
        self.look('cleared')

    def add_a_hole(self):
        editor = self.editor
        records = editor.state()['records']
        self.carry(self.say('Tapped %s') % '1/4-20', 7.2 * INCH, 4.2 * INCH)
        state = editor.wait('the hole', lambda s: s['records'] == records + 1)
        equal(state['stop'], 0, 'a tapped hole of the maker\'s own')
        self.look('hole')

    def save_and_print(self):
        editor = self.editor
        editor.key('ctrl+s')
        path = os.path.join(editor.folder, 'first')
        editor.type_path(path)
        editor.wait('saving', lambda s: s['saved'])
        plate = editor.read(path + '.plate')
        equal((len(plate['stations']), len(plate['recesses']), len(plate['parts'])), (2, 2, 1),
              'saved with two stations, each in its nest')
        equal(len([f for f in plate['fittings'] if f['kind'] in ('shoulder-screw', 'hold-down')]), 6,
              'on locators and hold-downs through the part\'s own holes')
        editor.key('ctrl+shift+p')
        window = editor.dialog('the preview')
        self.look('preview')
        editor.key('Escape')
        wait_for('the preview to close', lambda: window not in editor.windows())
        self.command('Prints as PDF…')
        prints = os.path.join(editor.folder, 'first.pdf')
        editor.type_path(prints)
        wait_for('the file', lambda: os.path.exists(prints))
        self.look('printed')
        text = subprocess.run(['pdftotext', '-layout', prints, '-'], capture_output=True, text=True,
                              check=True).stdout
        ok('First plate' in text and '1/4-20' in text, 'the drawing is printed', text[:800])

    def run(self):
        self.make_a_plate()
        self.read_a_part()
        self.put_stations()
        self.clear_findings()
        self.add_a_hole()
        self.save_and_print()
        # Nobody has said anything on stderr: tested as the editor ends.
        self.editor.errors.seek(0)
        equal(self.editor.errors.read(), '', 'no warning was written')
        self.editor.end()
