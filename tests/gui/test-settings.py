"""What is chosen in the preferences: each setting changes what the maker gets, and is found again
after a restart."""
import os
import re
import subprocess
import tempfile

from driver import (PROGRAM, SOURCE, Editor, by_number, drilled, equal, ok, plain_plate, tests,
                    wait_for)


def kept():
    """An environment whose settings are kept in a file, by the program's own schema."""
    if not hasattr(kept, 'folder'):
        kept.folder = tempfile.mkdtemp(prefix='pinplate-schema-')
        subprocess.run(['glib-compile-schemas', '--strict', '--targetdir=' + kept.folder,
                        os.path.join(SOURCE, 'data')], check=True)
    return {'GSETTINGS_SCHEMA_DIR': kept.folder, 'GSETTINGS_BACKEND': 'keyfile',
            'XDG_CONFIG_HOME': tempfile.mkdtemp(prefix='pinplate-config-')}


def close(editor, environment):
    """Closes as a maker does, so that what is kept is written, and starts again."""
    editor.key('ctrl+q')
    editor.process.wait(60)
    editor.start([PROGRAM], environment)


def preferences(editor):
    editor.key('ctrl+comma')
    return editor.dialog('the preferences')


def leave(editor, window):
    editor.key('Escape')
    wait_for('the preferences to close', lambda: window not in editor.windows())


def choose_in(editor, window, name, down):
    node = editor.find_in_dialog('combo box', name)
    editor.point(node['x'] + node['width'] / 2, node['y'] + node['height'] / 2, window)
    editor.click_here()
    wait_for('its list', lambda: [n for n in editor.tree('list') if n['name'] == name])
    editor.key(*['Down'] * down, 'Return')


def chosen(editor, name):
    return editor.find_in_dialog('combo box', name)['description']


def tick(editor, window, name):
    node = editor.find_in_dialog('checkbox', name)
    editor.point(node['x'] + 8, node['y'] + node['height'] / 2, window)
    editor.click_here()


def is_ticked(editor, name):
    return 'checked' in editor.find_in_dialog('checkbox', name)['states']


def new_plate(editor, path):
    """A plate with a hole of 2 mm whose wall to the edge is 2.5 mm, saved."""
    editor.press_button('New plate…')
    editor.find('button', 'Next')
    editor.press_button('Make the plate')
    editor.wait('the plate', lambda s: s['open'] and 'scale' in s)
    editor.put('Drill', '2mm')
    editor.do('list item::Drilled through', 'row.choose')
    editor.wait('the hole', lambda s: s['selected'] == 1)
    editor.put('Y from the datum', '3.5mm')
    editor.key('ctrl+s')
    editor.type_path(path)
    return editor.wait('saving', lambda s: s['saved'])


def words_of(path):
    """Each word of the first sheet with the height it stands at, from the top."""
    text = subprocess.run(['pdftotext', '-bbox', path, '-'], capture_output=True, text=True,
                          check=True).stdout
    page = text.split('</page>')[0]
    return [(word, float(y)) for y, word in re.findall(r'yMin="([\d.]+)"[^>]*>([^<]*)</word>', page)]


def drawing_of(path):
    to = path.replace('.plate', '.pdf')
    subprocess.run([PROGRAM, 'draw', path, '--to', to, '--prints', 'drawing'], check=True)
    return words_of(to)


def new_plates():
    environment = kept()
    editor = Editor(environment=environment)
    editor.find('button', 'New plate…')
    before = os.path.join(editor.folder, 'before.plate')
    state = new_plate(editor, before)
    equal((state['stop'], state['caution']), (0, 0), 'by the usual limits 2.5 mm of wall is enough')
    window = preferences(editor)
    editor.picture('settings-before')
    choose_in(editor, window, 'Unit', 1)
    choose_in(editor, window, 'Projection of the drawing', 1)
    choose_in(editor, window, 'Limits of the checks', 1)
    editor.enter_in(window, 'Name of the shop', 'Orchard Tool Works')
    editor.key('Return')
    editor.picture('settings-after')
    leave(editor, window)
    close(editor, environment)
    editor.find('button', 'New plate…')
    window = preferences(editor)
    equal([chosen(editor, name) for name in ('Unit', 'Projection of the drawing',
                                             'Limits of the checks')],
          ['millimetre', 'first angle', 'walls and threads half as much again'],
          'they are found again')
    equal(editor.typed('text box::Name of the shop'), 'Orchard Tool Works', 'and the shop')
    leave(editor, window)
    after = os.path.join(editor.folder, 'after.plate')
    state = new_plate(editor, after)
    editor.picture('settings-wider')
    equal((state['stop'], state['caution']), (1, 0), 'by walls half as much again it is not')
    editor.find('label', 'Hole A1 leaves 2.5 mm of metal to the edge; at least 3 mm is needed')
    one, other = editor.read(before)['plate'], editor.read(after)['plate']
    equal((one['unit'], one.get('projection')), ('inch', None), 'at first an inch plate')
    equal((other['unit'], other['projection'], other['shop']),
          ('mm', 'first-angle', 'Orchard Tool Works'), 'then one as the preferences say')
    equal(editor.check(after)['findings'][0]['limit'], 3.0, 'the file carries its limits')
    # ISO 5456-2: in third angle the plan stands above the elevation, in first angle below it.
    third, first = drawing_of(before), drawing_of(after)
    ok('Orchard' not in [w for w, _ in third] and 'Orchard' in [w for w, _ in first],
       'the shop stands in the title block')
    ok(plan_is_above(third) and not plan_is_above(first), 'the views lie as the projection says',
       (third, first))
    editor.end()


def plan_is_above(words):
    """The thickness is dimensioned at the elevation, and the hole's label stands in the plan."""
    plan = [y for word, y in words if word == 'A1']
    front = [y for word, y in words if word in ('.7500', '0.7500', '.750', '.75', '20')]
    return min(plan) < max(front)


def where_it_lands(editor):
    """Drags a hole by a little over three millimetres; returns where it lies then."""
    editor.drag(editor.place(50, 50), editor.place(60.43, 63.37))
    editor.wait('the drag', lambda s: s['undo'] and not s['dragging'])
    editor.key('ctrl+s')
    editor.wait('saving', lambda s: s['saved'])
    return by_number(editor.read()['holes'], 3)['at']


def handling():
    environment = kept()
    plate = plain_plate([drilled(3, 50, 50)])
    editor = Editor(plate, environment)
    window = preferences(editor)
    ok(is_ticked(editor, 'Snap while dragging') and is_ticked(editor, 'Both units in the readout'),
       'it snaps and gives both units at first')
    editor.enter_in(window, 'Grid of plates in millimetres', '-1')
    editor.key('Return')
    wait_for('the refusal', lambda: 'invalid' in editor.find_in_dialog(
        'text box', 'Grid of plates in millimetres')['states'])
    editor.enter_in(window, 'Grid of plates in millimetres', '5')
    editor.key('Return')
    leave(editor, window)
    at = where_it_lands(editor)
    equal(at, [60, 65], 'a dragged hole lands on the grid that was typed')
    window = preferences(editor)
    tick(editor, window, 'Snap while dragging')
    wait_for('the tick to go', lambda: not is_ticked(editor, 'Snap while dragging'))
    tick(editor, window, 'Both units in the readout')
    wait_for('the tick to go', lambda: not is_ticked(editor, 'Both units in the readout'))
    leave(editor, window)
    editor.key('ctrl+q')
    editor.process.wait(60)
    editor.end()
    editor = Editor(plate, environment)
    at = where_it_lands(editor)
    ok(any(round(value * 10) % 50 for value in at) and at != [50, 50],
       'after a restart it lies where it was let go', at)
    readout = [n['name'] for n in editor.tree('label') if n['name'].startswith('hole A1   X')]
    ok(readout and not any('(' in text for text in readout), 'in one unit', readout)
    editor.picture('settings-handling')
    editor.end()


def without_a_schema():
    editor = Editor()
    editor.find('button', 'New plate…')
    window = preferences(editor)
    choose_in(editor, window, 'Unit', 1)
    leave(editor, window)
    editor.press_button('New plate…')
    equal(editor.find('combo box', 'Unit')['description'], 'millimetre',
          'where the schema is not installed they last as long as the program runs')
    editor.end()


tests(new_plates, handling, without_a_schema)
