"""Figures typed into the details, as the trade says them."""
from driver import Editor, by_number, drilled, equal, ok, plain_plate, slot, tests


def save(editor):
    editor.key('ctrl+s')
    editor.wait('saving', lambda s: s['saved'])
    return editor.read()


def texts(editor):
    return [node['name'] for node in editor.tree('label') if node['width'] > 1]


def a_hole():
    editor = Editor(plain_plate([drilled(3, 100, 75)]))
    editor.click(*editor.place(100, 75))
    editor.wait('selecting', lambda s: s['first'] == 3)
    editor.enter('Diameter', '#7')
    editor.wait('the change', lambda s: s['undo'])
    ok('drill No. 7, 0.2010 in' in texts(editor), 'it is said what #7 was taken as')
    editor.picture('details-drill')
    # Drill No. 7 is 0.2010 in: ASME B94.11M.
    equal(by_number(save(editor)['holes'], 3)['steps'][0]['diameter'], 5.1054, '#7 is 0.2010 in')
    editor.enter('X from the datum', '2*(13/64in + 1/2in)')
    editor.wait('the change', lambda s: not s['saved'])
    equal(by_number(save(editor)['holes'], 3)['at'], [35.71875, 75],
          'an expression is worked out exactly: 2 x 45/64 in')
    editor.key('ctrl+z')
    editor.wait('undo', lambda s: not s['saved'])
    equal(by_number(save(editor)['holes'], 3)['at'], [100, 75], 'each field is a step of undo')
    editor.enter('Diameter', 'a lot')
    editor.picture('details-refused')
    ok(any('should stand here' in text for text in texts(editor)), 'what can not be read is refused in words',
       texts(editor))
    ok(editor.state()['saved'], 'and changes nothing')
    editor.key('Escape')
    editor.end()


def the_plate():
    editor = Editor(plain_plate([drilled(3, 190, 75)]))
    equal(editor.state()['stop'], 0, 'a hole 10 mm from the edge is fine')
    editor.enter('Length, along X', '193')
    state = editor.wait('the change', lambda s: s['undo'])
    ok(state['stop'] > 0, 'a shorter plate leaves too little metal beside it')
    editor.enter('Name', 'Short plate')
    editor.wait('the name', lambda s: not s['saved'])
    plate = save(editor)
    equal((plate['plate']['stock']['length'], plate['plate']['name']), (193, 'Short plate'),
          'the stock and the name are changed')
    editor.end()


def in_inches():
    editor = Editor(plain_plate([drilled(3, 50.8, 25.4)], unit='inch'))
    editor.click(*editor.place(50.8, 25.4))
    editor.wait('selecting', lambda s: s['first'] == 3)
    editor.enter('X from the datum', '1 1/8')
    editor.wait('the change', lambda s: s['undo'])
    equal(by_number(save(editor)['holes'], 3)['at'], [28.575, 25.4],
          "a number with no unit has the plate's: 1 1/8 in")
    editor.enter('X from the datum', '30mm')
    editor.wait('the change', lambda s: not s['saved'])
    equal(by_number(save(editor)['holes'], 3)['at'], [30, 25.4], 'one with a unit has its own')
    editor.end()


def steps():
    editor = Editor(plain_plate([drilled(3, 100, 75)]))
    editor.click(*editor.place(100, 75))
    editor.wait('selecting', lambda s: s['first'] == 3)
    editor.press_button('Add a step')
    editor.wait('the step', lambda s: s['undo'])
    hole = by_number(save(editor)['holes'], 3)
    equal([s['kind'] for s in hole['steps']], ['drill', 'counterbore'], 'a step is added')
    editor.picture('details-steps')
    editor.end()


def several():
    editor = Editor(plain_plate([drilled(3, 50, 50), drilled(4, 100, 50)], [slot(5, 100, 100)]))
    editor.click(*editor.place(10, 140))
    editor.key('ctrl+a')
    editor.wait('all', lambda s: s['selected'] == 3)
    editor.enter('Move along X by', '1/4in')
    editor.wait('the move', lambda s: s['undo'])
    plate = save(editor)
    equal([h['at'] for h in plate['holes']], [[56.35, 50], [106.35, 50]],
          'a typed move moves all that is selected')
    equal(plate['recesses'][0]['at'], [106.35, 100], 'slots too')
    editor.end()


tests(a_hole, the_plate, in_inches, steps, several)
