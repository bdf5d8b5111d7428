"""What a screen reader sees, and a drag's worth of work done through it alone."""
from driver import Editor, by_number, drilled, equal, example, ok, plain_plate, slot, tests

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


def names():
    editor = Editor(example('grafting-blades.plate'))
    nameless = [n for n in editor.tree('button', 'text box', 'combo box', 'check box', 'list')
                if n['width'] > 1 and n['name'] not in OWN and
                (not n['name'] or n['name'].startswith(('Gtk', 'Pin')))]
    equal(nameless, [], 'everything that can be pressed or typed into has a name')
    findings = [n for n in editor.tree() if n['name'].startswith(('stop ', 'caution ', 'note '))]
    ok(findings, "a finding's sign says its level and number")
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


tests(features, names, the_list, the_menu)
