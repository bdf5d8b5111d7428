"""The first page: a new plate by its three steps, the examples, and the plates worked on before."""
import json
import os
import shutil
import tempfile

from driver import Editor, equal, example, ok, plain_plate, tests, wait_for


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


def said(editor, words):
    return wait_for('"%s"' % words,
                    lambda: [n for n in editor.tree() if words in n['name'] and n['width'] > 1])


def the_base_of_another_plate():
    """Taken over as it is, with what it keeps clear; and what is said of plates that have none."""
    with open(example('grafting-blades.plate'), encoding='utf-8') as file:
        other = json.load(file)
    other['next_id'] += 1
    other['keep_clears'] = [{'id': other['next_id'] - 1, 'face': 2, 'name': 'stud', 'at': [20, 43],
                             'length': 16, 'width': 16}]
    folder = tempfile.mkdtemp(prefix='pinplate-gui-')
    kept = os.path.join(folder, 'kept.plate')
    with open(kept, 'w', encoding='utf-8') as file:
        json.dump(other, file)
    broken = os.path.join(folder, 'broken.plate')
    with open(broken, 'w', encoding='utf-8') as file:
        file.write('{"format": "pinplate-plate", "version": 1')
    editor = Editor()
    editor.press_button('New plate…')
    editor.enter('Thickness', '3/4')
    editor.enter('Width, along Y', '3')
    editor.press_button('Next')
    choose(editor, 'Base', 2)
    editor.press_button('Choose a plate…')
    editor.type_path(broken)
    said(editor, 'roken.plate: line 1: ')
    editor.press_button('Choose a plate…')
    editor.type_path(plain_plate([], name='without'))
    said(editor, 'without.plate carries no base')
    editor.picture('start-base-none')
    editor.press_button('Choose a plate…')
    editor.type_path(kept)
    said(editor, 'Mill base 1, from kept.plate')
    # Its pins stand 4 in up, beyond these 3 in: it is said, and the plate is not made.
    editor.press_button('Make the plate')
    ok(not editor.state()['open'], 'a base that does not fit the stock makes no plate')
    said(editor, 'pin of the base lies outside the stock')
    editor.picture('start-base-outside')
    editor.press_button('Back')
    editor.enter('Width, along Y', '7')
    editor.press_button('Next')
    said(editor, 'Mill base 1, from kept.plate')
    editor.picture('start-base-kept')
    editor.press_button('Make the plate')
    editor.wait('the plate', lambda s: s['open'] and 'scale' in s)
    editor.picture('start-base-made')
    editor.key('ctrl+s')
    path = os.path.join(editor.folder, 'same-base.plate')
    editor.type_path(path)
    editor.wait('saving', lambda s: s['saved'])
    plate = editor.read(path)
    bases = [{k: v for k, v in b.items() if k != 'id'} for b in (plate['bases'][0], other['bases'][0])]
    equal(bases[0], bases[1], 'the base is the other plate\'s, with its repeatability')
    clears = [c for c in plate['keep_clears'] if c['name'] == 'stud']
    equal([(c['at'], c['length']) for c in clears], [([20, 43], 16)],
          'and what it keeps clear has come along')
    equal(plate.get('stations', []), [], 'nothing else has')
    editor.end()
    shutil.rmtree(folder)


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


tests(a_guided_plate, the_base_of_another_plate, back_and_out, an_example)
