"""Findings: shown by sign and number, chosen from the list and from the layout, and mended."""
from driver import Editor, by_number, drilled, equal, ok, plain_plate, tests


def rows(editor):
    return [node for node in editor.tree('list item') if node['height'] > 1]


def choosing():
    editor = Editor(plain_plate([drilled(3, 4, 75), drilled(4, 100, 50), drilled(5, 107, 50)]))
    state = editor.wait('two stops', lambda s: s['stop'] >= 2)
    editor.picture('findings')
    message = [node for node in editor.tree('label') if 'edge' in node['name']][0]
    editor.click(*editor.middle(message))
    state = editor.wait('choosing', lambda s: s['selected'] == 1)
    equal(state['first'], 3, 'a click on a finding selects what it is about')
    editor.picture('findings-chosen')
    other = [node for node in editor.tree('label')
             if 'Hole A2' in node['name'] and 'A3' in node['name']][0]
    editor.click(*editor.middle(other))
    editor.wait('choosing', lambda s: s['selected'] == 2)
    ok(True, 'both of a pair')
    editor.end()


def the_place_is_brought_into_sight():
    editor = Editor(plain_plate([drilled(3, 4, 75), drilled(4, 160, 120)]))
    editor.point(*editor.place(160, 120))
    for _ in range(12):
        editor.act('zoom-in')
    before = editor.wait('zooming', lambda s: s['scale'] > 20)
    ok(editor.place(4, 75)[0] < 0, 'the finding is out of sight')
    message = [node for node in editor.tree('label') if 'edge' in node['name']][0]
    editor.click(*editor.middle(message))
    editor.wait('showing the place', lambda s: s['x'] + 4 * s['scale'] > 230)
    x, y = editor.place(4, 75)
    ok(230 < x < 985 and 50 < y < 770, 'a click brings the place into sight', (x, y))
    equal(editor.state()['scale'], before['scale'], 'at the same zoom')
    editor.end()


def mending():
    editor = Editor(plain_plate([drilled(3, 4, 75)]))
    editor.wait('a stop', lambda s: s['stop'] > 0)
    editor.press_button('Mend')
    state = editor.wait('mending', lambda s: s['stop'] == 0)
    ok(state['undo'], 'a sure remedy mends the finding, as a step of undo')
    editor.key('ctrl+s')
    editor.wait('saving', lambda s: s['saved'])
    place = by_number(editor.read()['holes'], 3)['at']
    ok(place[0] > 4 and place[1] == 75, 'the hole moved away from the edge alone', place)
    editor.end()


tests(choosing, the_place_is_brought_into_sight, mending)
