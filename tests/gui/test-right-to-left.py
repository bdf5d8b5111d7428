"""In a language that is read from the right the panels change sides, and nothing else does: the plate,
its coordinates and its figures stay as they are."""
import json
import os
import subprocess
import tempfile

from driver import (PICTURES, Editor, Failed, by_number, drilled, equal, ok, plain_plate, tests,
                    wait_for)


def from_the_right():
    """Hebrew, whose C library's locale is made here; the toolkit's own words say the direction."""
    if not hasattr(from_the_right, 'folder'):
        from_the_right.folder = tempfile.mkdtemp(prefix='pinplate-locale-')
        subprocess.run(['localedef', '-i', 'he_IL', '-f', 'UTF-8',
                        os.path.join(from_the_right.folder, 'he_IL.UTF-8')], capture_output=True)
        if not os.listdir(from_the_right.folder):
            raise Failed('localedef made no Hebrew')
    return {'LOCPATH': from_the_right.folder, 'LC_ALL': 'he_IL.UTF-8', 'LANGUAGE': 'he'}


def plate():
    """Measured from its right, so that what lies on it has figures less than nothing."""
    path = plain_plate([drilled(3, 40, 50), drilled(4, 120, 90)])
    with open(path, encoding='utf-8') as file:
        found = json.load(file)
    found['plate']['datum'] = {'kind': 'corner', 'corner': 'front-right'}
    with open(path, 'w', encoding='utf-8') as file:
        json.dump(found, file)
    return path


def box(editor, role, name):
    node = editor.find(role, name)
    return node['x'], node['x'] + node['width']


def sides(environment, picture):
    """Where the panels and the plate's holes are, from left to right."""
    editor = Editor(plate(), environment)
    editor.do('hole A1', 'feature.select')
    editor.wait('selecting', lambda s: s['first'] == 3)
    wait_for('its details', lambda: editor.count('heading', 'Hole A1'))
    editor.put('X from the datum', '-172.5')
    wait_for('the change', lambda: editor.enabled('undo'))
    found = {'trays': box(editor, 'search box', 'Find in the trays'),
             'layout': box(editor, 'group', 'Layout of the plate'),
             'details': box(editor, 'text box', 'X from the datum'),
             'A1': editor.find('option' if editor.count('option', 'hole A1') else 'list item',
                               'hole A1')['x'],
             'A2': editor.find('option' if editor.count('option', 'hole A2') else 'list item',
                               'hole A2')['x']}
    outside = [n for n in editor.tree() if n['width'] > 1 and n['role'] in (
        'button', 'text box', 'combo box', 'checkbox', 'tab', 'heading') and
        (n['x'] < 0 or n['x'] + n['width'] > 1280)]
    equal(outside, [], 'nothing reaches over the window: ' + picture)
    node = editor.find('text box', 'X from the datum')
    editor.picture(picture)
    state = editor.state()
    cut = '100x%d+%d+%d' % (node['height'] - 6, state['left'] + node['x'],
                            state['top'] + node['y'] + 3)
    path = os.path.join(PICTURES, picture)
    subprocess.run(['convert', path + '.png', '-crop', cut, '-trim', '+repage', path + '-figure.png'],
                   check=True)
    editor.end()
    return found, path + '-figure.png'


def the_panels_change_sides():
    left, figure = sides(None, 'direction-left')
    right, other = sides(from_the_right(), 'direction-right')
    ok(left['trays'][1] <= left['layout'][0] and left['layout'][1] <= left['details'][0],
       'the trays are on the left, the details on the right', left)
    ok(right['details'][1] <= right['layout'][0] and right['layout'][1] <= right['trays'][0],
       'and the other way round', right)
    ok(left['A1'] < left['A2'] and right['A1'] < right['A2'],
       'the plate itself is never mirrored', (left, right))
    done = subprocess.run(['compare', '-metric', 'AE', figure, other, 'null:'],
                          capture_output=True, text=True)
    equal(done.stderr.strip(), '0', 'a figure is written the same, its sign before it')


def the_hand_goes_where_the_plate_does():
    editor = Editor(plate(), from_the_right())
    editor.drag(editor.place(40, 50), editor.place(70, 60))
    editor.wait('the drag', lambda s: s['undo'] and not s['dragging'])
    editor.key('Right', 'Up')
    editor.key('ctrl+s')
    editor.wait('saving', lambda s: s['saved'])
    equal(by_number(editor.read()['holes'], 3)['at'], [71, 61],
          'the pointer drags it, and the arrow keys move it, as they point')
    editor.click(*editor.place(120, 90), button=3)
    editor.find('menu item', 'Delete')
    editor.picture('direction-menu')
    editor.key('Escape')
    editor.end()


tests(the_panels_change_sides, the_hand_goes_where_the_plate_does)
