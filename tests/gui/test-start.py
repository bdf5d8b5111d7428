"""The first page: a new plate by its three steps, the examples, and the plates worked on before."""
import os

from driver import Editor, equal, ok, tests


def choose(editor, name, down):
    """Opens a drop-down by its name and chooses what lies so many rows below."""
    editor.click(*editor.middle(editor.find('combo box', name)))
    editor.key(*['Down'] * down, 'Return')


def a_guided_plate():
    editor = Editor()
    editor.picture('start-first')
    editor.press_button('New plate…')
    editor.find('button', 'Next')
    editor.enter('Name of the plate', 'Budding blades')
    editor.enter('Length, along X', '10')
    editor.enter('Thickness', '5/8')
    editor.picture('start-stock')
    editor.press_button('Next')
    choose(editor, 'Base', 1)
    editor.find('text box', 'Round pin, X')
    editor.picture('start-base')
    # A pin outside the stock is said at once, and the plate is not made.
    editor.enter('Round pin, X', '11')
    editor.find('alert', 'A pin or pull-down of the base lies outside the stock')
    editor.press_button('Make the plate')
    editor.picture('start-trouble')
    ok(not editor.state()['open'], 'a base that does not fit the stock makes no plate')
    editor.enter('Round pin, X', '3/4')
    editor.press_button('Next')
    choose(editor, 'Datum', 3)
    editor.picture('start-datum')
    editor.press_button('Make the plate')
    state = editor.wait('the plate', lambda s: s['open'] and 'scale' in s)
    equal((state['stop'], state['caution']), (0, 0), 'nothing is wrong with the new plate')
    editor.picture('start-made')
    editor.key('ctrl+s')
    path = os.path.join(editor.folder, 'new')
    editor.type_path(path)
    editor.wait('saving', lambda s: s['saved'])
    plate = editor.read(path + '.plate')
    equal(plate['plate']['name'], 'Budding blades', 'its name is kept')
    equal((plate['plate']['stock']['length'], plate['plate']['stock']['thickness']),
          (254, 15.875), 'its sizes are as typed')
    equal(plate['plate']['datum'], {'kind': 'corner', 'corner': 'back-left'}, 'its datum too')
    seats = plate['bases'][0]['seats']
    equal([s['kind'] for s in seats],
          ['round-pin', 'relieved-pin', 'pull-down', 'pull-down', 'pull-down', 'pull-down'],
          'the base has its pins and pull-downs')
    equal(seats[0]['at'], [19.05, 76.2], 'the round pin stands where it was typed')
    equal(len(plate['keep_clears']), 4, 'each pull-down is kept clear')
    editor.end()


def back_and_out():
    editor = Editor()
    editor.press_button('New plate…')
    editor.find('button', 'Next')
    editor.press_button('Next')
    editor.press_button('Back')
    editor.find('text box', 'Length, along X')
    editor.press_button('Back')
    editor.find('button', 'New plate…')
    ok(not editor.state()['open'], 'the way back leads out again')
    editor.end()


def an_example():
    editor = Editor()
    editor.click(*editor.middle(editor.find('label', 'Grafting blades')))
    state = editor.wait('the plate', lambda s: s['open'] and 'scale' in s)
    ok(state['records'] > 40, 'an example opens from the first page')
    ok(not state['undo'], 'as it is')
    editor.picture('start-example')
    # As a plate of the maker's own: saving asks for a name.
    editor.key('ctrl+s')
    path = os.path.join(editor.folder, 'mine')
    editor.type_path(path)
    editor.wait('saving', lambda s: s['saved'])
    ok(os.path.exists(path + '.plate'), 'and is saved under a name of its own')
    editor.key('ctrl+w')
    editor.process.wait(30)
    editor.start([editor.process.args[0]])
    editor.find('label', 'mine.plate')
    editor.picture('start-recent')
    editor.end()


tests(a_guided_plate, back_and_out, an_example)
