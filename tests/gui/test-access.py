"""What a screen reader sees, and the main job done through it alone."""
import os
import subprocess

from driver import (Editor, Failed, by_number, drilled, equal, example, ok, plain_plate, slot, tests,
                    wait_for)

# The toolkit's own parts of a widget, which have no words of their own.
OWN = ('GtkToggleButton', 'GtkMenuButton')


def features():
    editor = Editor(plain_plate([drilled(3, 4, 75), drilled(4, 100, 50)], [slot(5, 100, 100)]))
    nodes = {n['name']: n for n in editor.tree() if 'feature.select' in n['actions']}
    equal(sorted(nodes), ['hole A1', 'hole A2', 'slot S5'], 'each thing on the plate has its name')
    equal(nodes['hole A2']['description'], 'X 100  Y 50', 'and says where it lies from the datum')
    state = editor.state()
    x, y = editor.place(100, 50)
    node = nodes['hole A2']
    ok(abs(node['x'] + node['width'] / 2 + state['left'] - x) < 3 and
       abs(node['y'] + node['height'] / 2 + state['top'] - y) < 3,
       'it lies where it is drawn', (node, x, y))
    editor.do('hole A2', 'feature.select')
    editor.wait('selecting', lambda s: s['first'] == 4)
    editor.do('slot S5', 'feature.select-also')
    editor.wait('selecting another', lambda s: s['selected'] == 2)
    ok(True, 'its actions select it')
    nodes = {n['name']: n for n in editor.tree() if 'feature.select' in n['actions']}
    equal([n for n in sorted(nodes) if 'selected' in nodes[n]['states']], ['hole A2', 'slot S5'],
          'what is selected is told')
    editor.do('Mend', 'Click')
    editor.wait('mending', lambda s: s['stop'] == 0)
    editor.do('Save', 'Click')
    editor.wait('saving', lambda s: s['saved'])
    ok(by_number(editor.read()['holes'], 3)['at'][0] > 4,
       'a finding is mended and the plate saved without pointer or keys')
    editor.end()


SLASH = 0x2f  # its keysym


def leave_chooser(editor, window, button):
    def left():
        # Its own button stands in the window that came last; it goes before its window does.
        last = editor.count('button', button) - 1
        try:
            if window in editor.windows():
                editor.accessible('act', 'button::' + button, 'Click', last)
        except Failed:
            pass
        return window not in editor.windows()
    wait_for('the chooser to close', left)


def open_by_name(editor, path):
    """The toolkit's chooser lists files in a widget that has no accessible rows, and shows the entry
    for a path once a slash is typed: the one key that is pressed, over the accessibility bus."""
    window = editor.dialog('the file chooser')
    wait_for('the places', lambda: any('personal folder' in node['description']
                                       for node in editor.tree('list item')))

    def ask():
        if not any(n['name'] == 'GtkFileChooserEntry' for n in editor.tree('text box')):
            editor.accessible('press', SLASH)
            return False
        editor.accessible('set', 'GtkFileChooserEntry', path)
        return editor.typed('GtkFileChooserEntry') == path
    wait_for('the entry for a path', ask)

    leave_chooser(editor, window, 'Open')


def save_by_name(editor, path):
    window = editor.dialog('the file chooser')
    wait_for('its entry', lambda: editor.count('text box', 'Name:'))
    editor.accessible('set', 'text box::Name:', path)

    leave_chooser(editor, window, 'Save')


def put_on_plate(editor, item):
    """Chooses something of the trays; it lies in the middle of what is seen, and is selected."""
    before = editor.state()['records']
    editor.do('list item::' + item, 'row.choose')
    return editor.wait(item, lambda s: s['records'] > before and s['selected'])


def move_to(editor, x, y, names=('X from the datum', 'Y from the datum')):
    editor.put(names[0], x)
    editor.put(names[1], y)


def findings(editor):
    """What the rows of the findings say, as far as they are seen."""
    return [node['name'] for node in editor.tree('list item')
            if node['width'] > 1 and node['name'].startswith(('stop ', 'caution ', 'note '))]


def the_main_job():
    editor = Editor()
    # A plate, by its three steps.
    editor.do('New plate…', 'Click')
    editor.do('combo box::Unit', 'choice.next')
    editor.put('Name of the plate', 'Made by words')
    editor.put('Length, along X', '240')
    editor.put('Thickness', '18')
    editor.do('Next', 'Click')
    editor.do('combo box::Base', 'choice.next')
    editor.put('Round pin, X', '15')
    editor.do('Next', 'Click')
    editor.do('combo box::Datum', 'choice.next')
    editor.do('Make the plate', 'Click')
    editor.wait('the plate', lambda s: s['open'] and 'scale' in s)
    # A part, and a station of it with what holds it.
    editor.do('button::Add a part…', 'Click')
    open_by_name(editor, example('budding-blade.platepart'))
    put_on_plate(editor, 'Budding blade')
    put_on_plate(editor, 'Edge clamp 8 mm')
    put_on_plate(editor, 'Hold-down M5')
    move_to(editor, '-200', '120')
    put_on_plate(editor, 'Dowel 6mm')
    move_to(editor, '-60', '146')
    # What is wrong with it is read, and mended where the remedy is sure.
    state = editor.wait('the dowel at the edge', lambda s: s['stop'] > 0)
    said = findings(editor)
    ok(any(text.startswith('stop') and 'E1' in text and 'edge' in text for text in said),
       'a finding is read with its level, what it is about and what is wrong', said)
    editor.picture('access-job-found')
    editor.do('Mend', 'Click')
    editor.wait('the dowel to be moved in', lambda s: s['stop'] < state['stop'])
    y = float(editor.typed('Y from the datum'))
    ok(y < 146, 'its remedy moves it in from the edge', y)
    # A field of a hole that is selected by its name.
    editor.do('hole D1', 'feature.select')
    wait_for('its details', lambda: editor.count('heading', 'Hole D1'))
    editor.put('X from the datum', '-190')
    editor.put('Note', 'by words')
    editor.picture('access-job-changed')
    # Saved, and its drawing printed.
    path = os.path.join(editor.folder, 'by-words.plate')
    editor.do('button::Save', 'Click')
    save_by_name(editor, path)
    editor.wait('saving', lambda s: s['saved'])
    plate = editor.read(path)
    settings = plate['plate']
    equal((settings['name'], settings['unit'], settings['datum'], settings['stock']['length'],
           settings['stock']['thickness']),
          ('Made by words', 'mm', {'kind': 'corner', 'corner': 'front-right'}, 240, 18),
          'the plate is as it was answered')
    equal((len(plate['stations']), plate['bases'][0]['seats'][0]['at'][0]), (1, 15),
          'its station and its base are there')
    hole = next(h for h in plate['holes'] if h['label'] == 'D1')
    equal((hole['at'], hole['note']), ([50, 120], 'by words'), 'and the hole as it was typed')
    kinds = {f['kind'] for f in plate['fittings']}
    ok({'dowel', 'edge-clamp'} <= kinds, 'with its dowel and its clamp', kinds)
    editor.do('button::Menu', 'Click')
    editor.do('menu item::Prints as PDF…', 'Click')
    path = os.path.join(editor.folder, 'by-words.pdf')
    save_by_name(editor, path)
    wait_for('the prints', lambda: os.path.exists(path))
    editor.wait('the window', lambda s: s['open'])
    text = subprocess.run(['pdftotext', '-layout', path, '-'], capture_output=True, text=True,
                          check=True).stdout
    rows = [line for line in text.split('\n') if line.split()[:1] == ['D1']]
    ok('Made by words' in text and any('-190' in row and '120' in row for row in rows),
       "the printed drawing's table has the hole where it was put", rows or text[:1500])
    editor.end()


def names():
    editor = Editor(example('grafting-blades.plate'))
    nameless = [n for n in editor.tree('button', 'text box', 'combo box', 'check box', 'list')
                if n['width'] > 1 and n['name'] not in OWN and
                (not n['name'] or n['name'].startswith(('Gtk', 'Pin')))]
    equal(nameless, [], 'everything that can be pressed or typed into has a name')
    findings = [n for n in editor.tree() if n['name'].startswith(('stop ', 'caution ', 'note '))]
    ok(findings, "a finding's sign says its level and number")
    editor.end()


def has_state(editor, role, name, state):
    return state in editor.find(role, name)['states']


def states():
    editor = Editor(plain_plate([drilled(3, 50, 50)]))
    ok(has_state(editor, 'tab', 'Trays', 'selected') and
       not has_state(editor, 'tab', 'Features', 'selected'), 'a tab tells that it is the one shown')
    editor.do('checkbox::Stations with a nest', 'check.toggle')
    wait_for('the tick to go', lambda: not has_state(editor, 'checkbox', 'Stations with a nest',
                                                     'checked'))
    editor.do('checkbox::Stations with a nest', 'check.toggle')
    wait_for('the tick', lambda: has_state(editor, 'checkbox', 'Stations with a nest', 'checked'))
    ok(True, 'a check tells whether it is ticked, and can be')
    editor.do('tab::Features', 'Click')
    editor.do('label::Hole A1', 'row.choose')
    editor.wait('selecting', lambda s: s['first'] == 3)
    ok(any('selected' in n['states'] for n in editor.tree('list item') if n['name'] == 'Hole A1'),
       'a row of the features tells that it is selected')
    readout = [n['name'] for n in editor.tree('label') if n['name'].startswith('hole A1   X 50')]
    ok(readout, 'and the readout says where it is')
    editor.put('Diameter', 'six')
    wait_for('the refusal', lambda: has_state(editor, 'text box', 'Diameter', 'invalid'))
    ok(editor.find('text box', 'Diameter')['description'], 'what is refused tells so, and why')
    editor.put('Diameter', '7')
    wait_for('it to be taken', lambda: not has_state(editor, 'text box', 'Diameter', 'invalid'))
    editor.do('button::Menu', 'Click')
    wait_for('the menu', lambda: 'expanded' in editor.find('button', 'Menu')['states'])
    ok(True, 'a menu tells that it is open')
    editor.end()


def the_list():
    editor = Editor(plain_plate([drilled(3, 50, 50), drilled(4, 100, 50)]))
    editor.press_button('Features', 'tab')
    node = editor.find('label', 'Hole A2')
    editor.click(*editor.middle(node))
    state = editor.wait('selecting', lambda s: s['selected'] == 1)
    equal(state['first'], 4, 'the list of features selects')
    editor.picture('access-list')
    editor.key('Delete')
    editor.wait('deleting', lambda s: s['records'] == 3)
    ok(True, 'and has the same keys as the layout')
    editor.end()


def the_menu():
    editor = Editor(plain_plate([drilled(3, 50, 50), drilled(4, 100, 50)]))
    editor.click(*editor.place(100, 50), button=3)
    editor.wait('selecting', lambda s: s['first'] == 4)
    editor.find('menu item', 'Delete')
    editor.picture('access-menu')
    editor.key('Escape')
    editor.key('Delete')
    editor.wait('deleting', lambda s: s['records'] == 3)
    ok(True, 'the second button has a menu of what lies there')
    editor.end()


tests(features, the_main_job, names, states, the_list, the_menu)
