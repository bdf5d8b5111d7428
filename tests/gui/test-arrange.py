"""Bringing things into line, repeating, turning, locking, measuring, guides and hiding by kind, by
keys, by the menu and by the pointer."""
import json

from driver import Editor, by_number, drilled, equal, ok, plain_plate, slot, tests


def save(editor):
    editor.key('ctrl+s')
    editor.wait('saving', lambda s: s['saved'])
    return editor.read()


def places(plate):
    return sorted(tuple(h['at']) for h in plate['holes'])


def three_holes():
    return plain_plate([drilled(3, 30, 40), drilled(4, 60, 55), drilled(5, 150, 70)])


def take_all(editor):
    editor.click(*editor.place(30, 40))
    editor.click(*editor.place(60, 55), keys=('shift',))
    editor.click(*editor.place(150, 70), keys=('shift',))
    editor.wait('selecting', lambda s: s['selected'] == 3)


def aligning():
    editor = Editor(three_holes())
    ok(not editor.enabled('align'), 'nothing is aligned where nothing is selected')
    take_all(editor)
    editor.key('shift+c')
    editor.wait('aligning', lambda s: s['undo'])
    editor.key('s')
    editor.picture('arrange-aligned')
    equal(places(save(editor)), [(30, 40), (90, 40), (150, 40)],
          'centres on a level line, evenly apart: the first and the outermost stay')
    editor.key('ctrl+z')
    editor.key('ctrl+z')
    equal(places(save(editor)), [(30, 40), (60, 55), (150, 70)], 'each is one step of undo')
    editor.end()


def the_menu():
    editor = Editor(three_holes())
    take_all(editor)
    editor.click(*editor.place(60, 55), button=3)
    editor.find('menu item', 'Align')
    editor.picture('arrange-menu')
    # Down to it, into its own menu, and the first thing there.
    editor.key('Escape')
    editor.act('align', "<'left'>")
    editor.wait('aligning', lambda s: s['undo'])
    equal(places(save(editor)), [(30, 40), (30, 55), (30, 70)], 'and by the menu')
    editor.end()


def enter_in_form(editor, name, text):
    window = editor.dialog()
    node = editor.find_in_dialog('text box', name)
    editor.point(node['x'] + node['width'] / 2, node['y'] + node['height'] / 2, window)
    editor.click_here()
    editor.key('ctrl+a')
    editor.type(text)
    editor.key('Tab')


def repeating():
    editor = Editor(plain_plate([drilled(3, 30, 40)]))
    editor.click(*editor.place(30, 40))
    editor.wait('selecting', lambda s: s['selected'] == 1)
    editor.key('r')
    enter_in_form(editor, 'Places along X', '4')
    enter_in_form(editor, 'Pitch along X', '1in')
    enter_in_form(editor, 'Places along Y', '3')
    enter_in_form(editor, 'Pitch along Y', '30')
    editor.picture('arrange-grid')
    editor.answer('Repeat')
    state = editor.wait('the grid', lambda s: s['records'] == 14)
    equal(state['selected'], 11, 'the new ones are selected')
    editor.picture('arrange-grid-done')
    made = places(save(editor))
    equal((made[0], made[-1], len(made)), ((30, 40), (106.2, 100), 12), 'a grid at a typed pitch')
    editor.key('ctrl+z')
    editor.wait('undo', lambda s: s['records'] == 3)
    # Round a centre; a pitch that can't be is said and refused.
    editor.click(*editor.place(30, 40))
    editor.wait('selecting', lambda s: s['selected'] == 1)
    editor.key('shift+r')
    enter_in_form(editor, 'Places', '1')
    editor.picture('arrange-refused')
    enter_in_form(editor, 'Places', '4')
    enter_in_form(editor, 'Centre, X from the datum', '100')
    enter_in_form(editor, 'Centre, Y from the datum', '75')
    editor.picture('arrange-round')
    editor.answer('Repeat')
    editor.wait('the ring', lambda s: s['records'] == 6)
    equal(places(save(editor)), [(30, 40), (65, 145), (135, 5), (170, 110)],
          'four places round a centre, a quarter turn apart')
    editor.end()


def turning_by_an_angle():
    editor = Editor(plain_plate([], [slot(3, 100, 75)]))
    editor.click(*editor.place(100, 75))
    editor.wait('selecting', lambda s: s['selected'] == 1)
    editor.key('shift+t')
    enter_in_form(editor, 'Angle', "30° 15'")
    editor.picture('arrange-turn')
    editor.answer('Turn')
    editor.wait('turning', lambda s: s['undo'])
    equal(save(editor)['recesses'][0]['rotation'], 30.25, 'turned by the typed angle')
    editor.key('ctrl+m')
    enter_in_form(editor, 'Along X', '-1/8in')
    editor.answer('Move')
    equal(save(editor)['recesses'][0]['at'], [96.825, 75], 'moved by the typed distance')
    editor.end()


def locking():
    editor = Editor(plain_plate([drilled(3, 50, 50)]))
    editor.click(*editor.place(50, 50))
    editor.key('l')
    editor.wait('locking', lambda s: s['undo'])
    editor.drag(editor.place(50, 50), editor.place(80, 80))
    equal(by_number(save(editor)['holes'], 3), dict(drilled(3, 50, 50), locked=True),
          'what is locked stays')
    editor.key('l')
    editor.drag(editor.place(50, 50), editor.place(80, 80))
    editor.wait('moving', lambda s: not s['dragging'])
    equal(by_number(save(editor)['holes'], 3)['at'], [80, 80], 'unlocked, it moves again')
    editor.end()


def measuring():
    editor = Editor(plain_plate([drilled(3, 50, 50), drilled(4, 90, 80)]))
    # Two things selected: at once, by a key.
    editor.click(*editor.place(50, 50))
    editor.click(*editor.place(90, 80), keys=('shift',))
    editor.wait('selecting', lambda s: s['selected'] == 2)
    editor.key('shift+m')
    state = editor.wait('measuring', lambda s: s['measured'] > 0)
    equal(state['measured'], 50.0, 'centre to centre, 40 across and 30 up')
    editor.key('m')
    state = editor.wait('measuring', lambda s: abs(s['measured'] - 44) < 1e-9)
    editor.picture('arrange-measured')
    ok(True, 'edge to edge, less two radii of 3')
    editor.key('Escape', 'Escape')
    editor.wait('the end', lambda s: s['selected'] == 0)
    # By the pointer: from the plate's left edge to a hole's centre.
    editor.key('m')
    editor.click(*editor.place(0, 120))
    editor.point(*editor.place(50, 50))
    editor.picture('arrange-measuring')
    editor.click(*editor.place(50, 50))
    editor.key('n')  # the next thing said
    state = editor.state()
    editor.picture('arrange-measured-edge')
    equal(state['measured'], 50.0, 'from the edge of the plate to a centre')
    editor.end()


def guides():
    editor = Editor(plain_plate([drilled(3, 50, 50), drilled(4, 90, 83)]))
    editor.click(*editor.place(90, 83))
    editor.key('g', 'shift+g')
    editor.wait('guides', lambda s: s['guides'] == 2)
    editor.key('Delete')
    editor.wait('deleting', lambda s: s['records'] == 3)
    editor.picture('arrange-guides')
    # A hole dropped near where they cross lies on both.
    x, y = editor.place(90, 83)
    editor.drag(editor.place(50, 50), (x + 4, y - 3))
    editor.wait('the drag', lambda s: not s['dragging'])
    equal(places(save(editor)), [(90, 83)], 'a dragged thing snaps to the guides')
    # A guide is pulled along, and out of sight it is gone.
    editor.drag(editor.place(90, 20), editor.place(120, 20))
    editor.drag(editor.place(90, 83), editor.place(118.5, 60))
    editor.wait('the drag', lambda s: not s['dragging'])
    equal(places(save(editor))[0][0], 120, 'a guide that was pulled along draws where it lies now')
    editor.drag(editor.place(120, 20), (100, editor.place(0, 20)[1]))
    editor.wait('one less', lambda s: s['guides'] == 1)
    ok(True, 'pulled out of the layout it is gone')
    editor.act('clear-guides')
    editor.wait('none', lambda s: s['guides'] == 0)
    editor.end()


def hiding():
    editor = Editor(plain_plate([drilled(3, 50, 50), drilled(4, 100, 60)], [slot(5, 100, 60)]))
    editor.act('show-holes')
    editor.picture('arrange-hidden')
    editor.click(*editor.place(50, 50))
    editor.click(*editor.place(100, 60))
    state = editor.wait('selecting', lambda s: s['selected'] == 1)
    equal(state['first'], 5, 'what is hidden is not pressed: what lies below it is')
    editor.act('show-holes')
    editor.click(*editor.place(100, 60))
    editor.wait('selecting', lambda s: s['first'] == 4)
    ok(True, 'and is there again when it is shown')
    editor.end()


def between_windows():
    """As the file's JSON on the clipboard, from one plate to another."""
    editor = Editor(plain_plate([drilled(3, 50, 50)], name='one'))
    other = plain_plate([], name='other')
    editor.click(*editor.place(50, 50))
    editor.key('ctrl+c')
    editor.key('ctrl+o')
    editor.type_path(other)
    editor.wait('the other window', lambda s: s.get('open') and 'scale' in s, number=2)
    editor.call('Activate', 'paste', '[]', '{}', number=2)
    editor.wait('pasting', lambda s: s['records'] == 3, number=2)
    editor.call('Activate', 'save', '[]', '{}', number=2)
    editor.wait('saving', lambda s: s['saved'], number=2)
    with open(other, encoding='utf-8') as file:
        hole = json.load(file)['holes'][0]
    equal(hole['steps'], drilled(3, 50, 50)['steps'], 'copied from one window to another')
    editor.end()


tests(aligning, the_menu, repeating, turning_by_an_angle, locking, measuring, guides, hiding,
      between_windows)
