"""The window in German: its words, its decimal comma; and that files, prints and the command keep
their English and their points."""
import os
import subprocess
import tempfile

from driver import PROGRAM, Editor, Failed, equal, example, ok, tests, wait_for

LOCALES = os.environ['PINPLATE_BUILT_LOCALES']


def german():
    """An environment in German; the C library's German is made here, as it may not be installed."""
    if not hasattr(german, 'folder'):
        german.folder = tempfile.mkdtemp(prefix='pinplate-locale-')
        # It warns of what the tests don't need.
        subprocess.run(['localedef', '-i', 'de_DE', '-f', 'UTF-8',
                        os.path.join(german.folder, 'de_DE.UTF-8')], capture_output=True)
        if not os.listdir(german.folder):
            raise Failed('localedef made no German')
    return {'LOCPATH': german.folder, 'LC_ALL': 'de_DE.UTF-8', 'LANGUAGE': 'de',
            'PINPLATE_LOCALES': LOCALES}


def a_plate_is_made_in_german():
    editor = Editor(environment=german())
    editor.find('button', 'Platte öffnen…')
    editor.picture('german-start')
    editor.press_button('Neue Platte…')
    editor.enter('Länge, entlang X', '5,1')
    editor.enter('Breite, entlang Y', '4.5')
    editor.enter('Dicke', '3,2,1')
    editor.find('label', 'hier sollte ein Zeichen oder eine Einheit (mm, in, thou) stehen')
    editor.picture('german-refused')
    editor.enter('Dicke', '0,75')
    editor.press_button('Weiter')
    editor.picture('german-base')
    editor.press_button('Weiter')
    editor.press_button('Platte anlegen')
    editor.wait('the plate', lambda s: s['open'] and 'scale' in s)
    editor.picture('german-made')
    editor.key('ctrl+s')
    path = os.path.join(editor.folder, 'neu')
    editor.type_path(path)
    editor.wait('saving', lambda s: s['saved'])
    stock = editor.read(path + '.plate')['plate']['stock']
    equal((stock['length'], stock['width'], stock['thickness']), (129.54, 114.3, 19.05),
          'decimals are read after a comma and after a point, and written with a point')
    editor.end()


def findings_and_details_are_german():
    editor = Editor(example('bad.plate'), german())
    editor.find('label', 'Bohrung A1 reicht 0,0505 in über die Kante der Fläche')
    ok(True, 'a finding is said in German with its figure')
    seen = [node for node in editor.tree('text box') if node['name'] == 'Länge, entlang X']
    ok(seen, 'the details are named in German')
    editor.picture('german-findings')
    editor.enter('Dicke', '0,625')
    wait_for('the change', lambda: editor.enabled('undo'))
    editor.key('ctrl+s')
    editor.wait('saving', lambda s: s['saved'])
    equal(editor.read()['plate']['stock']['thickness'], 15.875, 'what is typed with a comma is read')
    editor.end()


def prints(environment):
    """What the editor prints of a plate."""
    editor = Editor(example('bad.plate'), environment)
    editor.act('export-svg')
    to = os.path.join(editor.folder, 'drawing.svg')
    editor.type_path(to)
    wait_for('the prints', lambda: any(name.endswith('.svg') for name in os.listdir(editor.folder)))
    editor.wait('the window', lambda s: s['open'])
    found = {}
    for name in sorted(os.listdir(editor.folder)):
        if name.endswith('.svg'):
            with open(os.path.join(editor.folder, name), 'rb') as file:
                found[name] = file.read()
    editor.end()
    return found


def prints_stay_as_they_are():
    english, in_german = prints(None), prints(german())
    ok(english and english == in_german, 'prints are the same bytes in every language')


def command(environment, *arguments):
    return subprocess.run([PROGRAM, *arguments], capture_output=True,
                          env=dict(os.environ, **environment)).stdout


def the_command_stays_english():
    for arguments in (['check', example('bad.plate')], ['check', example('bad.plate'), '--json'],
                      ['figure', 'thread', '1/4-20'], ['--help']):
        ok(command({}, *arguments) == command(german(), *arguments) != b'',
           '%s says the same in every language' % ' '.join(arguments[::2]))


tests(a_plate_is_made_in_german, findings_and_details_are_german, prints_stay_as_they_are,
      the_command_stays_english)
