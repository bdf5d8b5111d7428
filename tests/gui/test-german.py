"""The window in German: its words, its decimal comma; and that files, prints and the command keep
their English and their points."""
import os
import subprocess
import tempfile

from driver import (PROGRAM, Editor, Failed, by_number, drilled, equal, example, ok, plain_plate,
                    tests, wait_for)
from windows import in_language


def german():
    """An environment in German, made once."""
    if not hasattr(german, 'made'):
        german.made = in_language('de')
    return german.made


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


def select(editor, number):
    editor.act('select-none')
    for _ in range(editor.state()['records']):
        editor.act('select-next', '<int32 1>')
        if editor.state()['first'] == number:
            return
    raise Failed('number %d can not be selected' % number)


def saved(editor):
    editor.act('save')
    editor.wait('saving', lambda s: s['saved'])
    return editor.read()


def all_that_is_typed_is_read():
    """Each way to type a figure, and what the file then has: 13/64 in is 5.159375 mm."""
    editor = Editor(plain_plate([drilled(3, 100, 75)]), german())
    select(editor, 3)
    for typed, wanted in (('5,1', 5.1), ('5.2', 5.2), ('6,35 mm', 6.35), ('0,25in', 6.35),
                          ('13/64in', 5.159375), ('1 1/8 in', 28.575), ('2*2,5', 5), ('#7', 5.1054)):
        editor.enter('Durchmesser', typed)
        equal(by_number(saved(editor)['holes'], 3)['steps'][0]['diameter'], wanted,
              '%s is read' % typed)
    editor.find('label', 'Bohrer Nr. 7, 0,2010 in')
    ok(True, 'what a named size was taken as is said in German')
    editor.enter('Durchmesser', '13/4')
    editor.find('label', 'Millimeter, 3,25 mm; für Zoll in anhängen')
    ok(True, 'what was doubtful too')
    editor.enter('Spitzenwinkel', '118,5')
    equal(by_number(saved(editor)['holes'], 3)['steps'][0]['point'], 118.5, 'an angle is read')
    editor.picture('german-typed')
    editor.end()


def a_size_is_typed_in_german():
    editor = Editor(example('grafting-blades.plate'), german())
    screw = next(f for f in editor.read()['fittings'] if f['kind'] == 'shoulder-screw')
    select(editor, screw['id'])
    # A shoulder screw of ASME B18.3 for another of its sizes, and back by the English words.
    for typed, wanted in (('Passschraube 1/4', 'shoulder screw 1/4'),
                          ('shoulder screw 3/16', 'shoulder screw 3/16')):
        editor.enter('Größe', typed)
        equal(by_number(saved(editor)['fittings'], screw['id'])['size'], wanted,
              '%s is read, and kept in English' % typed)
    editor.find('label', 'Passschraube 3/16')
    ok(True, 'and shown in German')
    editor.end()


def the_clipboard_has_points():
    """What is copied in German is pasted in English with the same figures."""
    hole = drilled(3, 100.125, 75.5, 5.1054)
    editor = Editor(plain_plate([hole], name='de'), german())
    editor.click(*editor.place(100.125, 75.5))
    editor.wait('selecting', lambda s: s['first'] == 3)
    editor.key('ctrl+c', 'ctrl+v')
    editor.wait('pasting', lambda s: s['records'] == 4)
    holes = saved(editor)['holes']
    equal([h['steps'][0]['diameter'] for h in holes], [5.1054, 5.1054], 'a pasted hole is the same')
    equal(holes[1]['at'], [105.125, 70.5], 'beside its first')
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
    tables = []
    for environment in ({}, german()):
        path = os.path.join(tempfile.mkdtemp(prefix='pinplate-table-'), 'holes.csv')
        command(environment, 'holes', example('grafting-blades.plate'), '--to', path)
        with open(path, 'rb') as file:
            tables.append(file.read())
    ok(tables[0] == tables[1] != b'', 'the hole table is the same bytes in every language')


tests(a_plate_is_made_in_german, findings_and_details_are_german, all_that_is_typed_is_read,
      a_size_is_typed_in_german, the_clipboard_has_points, prints_stay_as_they_are,
      the_command_stays_english)
