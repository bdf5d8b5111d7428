"""Fields of the details that say more than where a hole lies: taps, parts, the base, revisions."""
import json

from driver import (Editor, by_number, drilled, equal, example, ok, plain_plate, slot, tests,
                    wait_for)


def save(editor):
    editor.act('save')
    editor.wait('saving', lambda s: s['saved'])
    return editor.read()


def roll(editor, name, role='text box', nth=0):
    """Turns the wheel over the details until the row is in sight; returns it."""
    def ask():
        node = editor.find(role, name, nth)
        if 85 < node['y'] and node['y'] + node['height'] < 468:
            return node
        editor.point(1120, 250)
        for _ in range(1 + abs(node['y'] - 250) // 80):
            editor.click_here(5 if node['y'] > 250 else 4)
        return None
    return wait_for('%s "%s" in sight' % (role, name), ask)


def enter(editor, name, text, nth=0):
    roll(editor, name, nth=nth)
    editor.enter(name, text, nth)


def press(editor, name, role='button', nth=0):
    editor.click(*editor.middle(roll(editor, name, role, nth)))


def change(plate, **parts):
    with open(plate, encoding='utf-8') as file:
        content = json.load(file)
    content.update(parts)
    with open(plate, 'w', encoding='utf-8') as file:
        json.dump(content, file)
    return plate


def a_tap():
    hole = drilled(3, 100, 75, 5)
    hole['steps'].append({'kind': 'tap', 'diameter': 6, 'depth': 12, 'thread': 'M6'})
    editor = Editor(plain_plate([hole]))
    editor.click(*editor.place(100, 75))
    editor.wait('selecting', lambda s: s['first'] == 3)
    node = roll(editor, 'Tap', 'combo box')
    editor.click(*editor.middle(node))
    editor.key('Down', 'Down', 'Return')
    editor.wait('the change', lambda s: s['undo'])
    equal(by_number(save(editor)['holes'], 3)['steps'][1]['tap'], 'bottoming', 'a tap says its end')
    press(editor, 'Earlier', nth=1)
    editor.wait('the order', lambda s: not s['saved'])
    equal([s['kind'] for s in by_number(save(editor)['holes'], 3)['steps']], ['tap', 'drill'],
          'steps can be put in another order')
    editor.picture('details-tap')
    editor.end()


def the_plate():
    editor = Editor(plain_plate([drilled(3, 100, 75)]))
    enter(editor, 'General tolerances', 'ISO 2768-f')
    enter(editor, 'Roughness', 'Ra 1.6')
    enter(editor, 'Edges', '-0.2')
    press(editor, 'Add a revision')
    enter(editor, 'What changed', 'Hole A1 moved')
    editor.wait('the change', lambda s: s['undo'])
    editor.picture('details-revision')
    plate = save(editor)['plate']
    equal((plate['tolerance'], plate['roughness'], plate['edges']),
          ('ISO 2768-f', 'Ra 1.6', '-0.2'), 'the general notes are typed')
    equal([(r['letter'], r['what']) for r in plate['revisions']], [('A', 'Hole A1 moved')],
          'a revision has its letter and its words')
    press(editor, 'Take this revision away')
    editor.wait('taking away', lambda s: not s['saved'])
    ok('revisions' not in save(editor)['plate'], 'and can be taken away')
    editor.end()


def a_base():
    editor = Editor(plain_plate([drilled(3, 100, 75)]))
    press(editor, 'Add a base')
    editor.wait('the base', lambda s: s['undo'])
    enter(editor, 'Repeats within', '0.01')
    press(editor, 'Add a seat')
    enter(editor, 'X from the datum', '18')
    enter(editor, 'Diameter', '3/8in')
    press(editor, 'Add a seat')
    enter(editor, 'X from the datum', '2*91', nth=1)
    editor.picture('details-base')
    base = save(editor)['bases'][0]
    equal(base['repeatability'], 0.01, 'how well the plate repeats on its base')
    equal([(s['kind'], s['at'], s['diameter']) for s in base['seats']],
          [('round-pin', [18, 75], 9.525), ('relieved-pin', [182, 75], 6)],
          'two seats, of a round pin and a relieved one')
    press(editor, 'Take the base away')
    editor.wait('taking away', lambda s: not s['saved'])
    equal(save(editor).get('bases', []), [], 'and the base can be taken away')
    editor.end()


def a_clamp():
    # data/clamps.json: the 8 mm edge clamp's body is 8 mm high.
    clamp = {'id': 4, 'kind': 'edge-clamp', 'slot': 3, 'at': [100, 75], 'length': 20, 'width': 10,
             'head_height': 3}
    plate = change(plain_plate(recesses=[slot(3, 100, 75, 40, 14, depth=4.5)]), fittings=[clamp], next_id=5)
    editor = Editor(plate)
    editor.click(*editor.place(100, 75))
    editor.wait('selecting', lambda s: s['first'] == 4)
    enter(editor, 'Size', 'edge clamp 8 mm')
    editor.wait('the change', lambda s: s['undo'])
    editor.picture('details-clamp')
    fitting = by_number(save(editor)['fittings'], 4)
    equal(fitting['head_height'], 3.5, 'over the face a clamp is its body less its slot')
    editor.end()


def a_part():
    editor = Editor(example('grafting-blades.plate'))
    station = editor.read()['stations'][0]
    editor.act('select-all')
    editor.act('select-none')
    for _ in range(40):
        if editor.state()['first'] == station['id']:
            break
        editor.act('select-next', '<int32 1>')
    editor.wait('the station', lambda s: s['first'] == station['id'])
    press(editor, 'Figures of the part')
    enter(editor, 'Growth in heat treatment, %', '-0.05')
    enter(editor, 'Position tolerance', '0.002', nth=0)
    editor.wait('the change', lambda s: s['undo'])
    editor.picture('details-part')
    part = by_number(save(editor)['parts'], station['part'])
    equal(part['growth'], -0.05, 'a part shrinks by a per cent')
    equal(part['holes'][0]['position_tolerance'], 0.0508, 'and its holes have a tolerance of place')
    editor.end()


def marks():
    editor = Editor(plain_plate([drilled(3, 4, 75)]))
    editor.click(*editor.place(4, 75))
    editor.wait('selecting', lambda s: s['first'] == 3)
    found = [n for n in editor.tree('text box') if 'metal to the edge' in n['description']]
    equal(sorted(n['name'] for n in found), ['X from the datum', 'Y from the datum'],
          'the fields that a finding is about say so')
    editor.picture('details-marks')
    editor.enter('X from the datum', '40')
    editor.wait('no stop', lambda s: s['stop'] == 0)
    found = [n for n in editor.tree('text box') if n['description']]
    equal(found, [], 'and no longer once it is mended')
    editor.end()


tests(a_tap, the_plate, a_base, a_clamp, a_part, marks)
