"""Another part on an old plate: its answers one by one, accepted and taken back; replaced parts."""
import json
import os
import shutil

from driver import Editor, equal, example, ok, parse_state, tests, wait_for

PART = 'budding-blade.platepart'


def refit_state(editor, number=None):
    return parse_state(editor.call('Describe', 'refit-state', number=number))


def begin(editor, action='refit'):
    """Chooses the new blade, and waits for the answers."""
    path = os.path.join(editor.folder, PART)
    shutil.copy(example(PART), path)
    editor.call('Activate', action, '[]', '{}')
    editor.type_path(path)
    return wait_for('the answers', lambda: answers_of(editor))


def answers_of(editor, number=None):
    state = refit_state(editor, number)
    return state if state.get('answers') and not state['searching'] else None


def at_answer(editor, number):
    return wait_for('answer %d' % number,
                    lambda: refit_state(editor).get('answer') == number and refit_state(editor))


def answers_are_stepped_through():
    editor = Editor(example('grafting-blades.plate'))
    state = begin(editor)
    equal(state['verdict'], 'one-hole', 'the best answer fits with one more hole')
    equal(state['answer'], 1, 'it is shown first')
    ok(state['answers'] > 3, 'there are others')
    editor.picture('refit-first')
    editor.key('Right')
    at_answer(editor, 2)
    editor.key('Down')
    at_answer(editor, 3)
    editor.picture('refit-third')
    editor.key('Left')
    at_answer(editor, 2)
    editor.key('Up')
    at_answer(editor, 1)
    editor.key('Left')
    equal(refit_state(editor)['answer'], 1, 'before the first there is none')
    editor.key('Escape')
    wait_for('the answers to go', lambda: refit_state(editor)['answers'] == 0)
    ok(editor.state()['saved'], 'the plate is as it was')
    editor.end()


def accepted_is_a_station_and_can_be_undone():
    editor = Editor(example('grafting-blades.plate'))
    before = editor.read()
    stops = editor.state()['stop']
    begin(editor)
    equal(editor.state()['stop'], stops, 'what makes room for the part is passed over')
    editor.key('Return')
    wait_for('the answers to go', lambda: refit_state(editor)['answers'] == 0)
    editor.key('ctrl+s')
    after = wait_for('the station', lambda: len(editor.read()['stations']) ==
                     len(before['stations']) + 1 and editor.read())
    equal(editor.state()['stop'], stops, 'also when it is a station')
    equal(len(after['holes']), len(before['holes']) + 1, 'one more hole')
    equal(len(after['fittings']), len(before['fittings']) + 3, 'with its hardware')
    editor.key('ctrl+z')
    editor.key('ctrl+s')
    again = wait_for('the plate as before', lambda: len(editor.read()['stations']) ==
                     len(before['stations']) and editor.read())
    equal(json.dumps(again['holes']), json.dumps(before['holes']), 'undone whole')
    editor.end()


RACK = 2  # the number of the window that comes after the plate's


def a_rack_is_looked_through():
    editor = Editor(example('spacers.plate'))
    rack = os.path.join(editor.folder, 'rack')
    os.mkdir(rack)
    for name in ('grafting-blades.plate', 'spacers.plate'):
        shutil.copy(example(name), rack)
    with open(os.path.join(rack, 'broken.plate'), 'w', encoding='utf-8') as file:
        file.write('{"format": ')
    part = os.path.join(editor.folder, PART)
    shutil.copy(example(PART), part)
    editor.call('Activate', 'rack', '[]', '{}')
    window = wait_for('the rack', lambda: editor.window_named('Rack'))
    editor.call('Activate', 'take-part', "[<'%s'>]" % part, '{}', number=RACK)
    editor.call('Activate', 'take-folder', "[<'%s'>]" % rack, '{}', number=RACK)
    editor.wait('the answer', lambda s: s['best'] == 'one-hole', number=RACK)
    editor.find_in_dialog('list item', 'broken.plate: can\'t be read')
    editor.picture('refit-rack')
    row = editor.find_in_dialog('list item', 'grafting-blades.plate: fits with one more hole')
    state = editor.state(RACK)
    editor.point(state['left'] + row['x'] + row['width'] / 2,
                 state['top'] + row['y'] + row['height'] / 2, window)
    editor.click_here()
    state = wait_for('the plate at its answers', lambda: answers_of(editor, RACK + 1))
    equal(state['verdict'], 'one-hole', 'the plate is opened at the answer that was pressed')
    editor.picture('refit-from-rack')
    editor.end()


def write_table(editor, shift=0):
    path = os.path.join(editor.folder, 'table.csv')
    plate = editor.read()
    top = next(face['id'] for face in plate['faces'] if face['name'] == 'top')
    stations = {station['id']: station['at'] for station in plate['stations']}
    with open(path, 'w', encoding='utf-8') as file:
        file.write('label,x_mm,y_mm,diameter_mm\n')
        for hole in plate['holes']:
            if hole['face'] == top:
                x, y = stations.get(hole.get('station'), (0, 0))
                file.write('%s,%f,%f,%f\n' % (hole['label'], hole['at'][0] + x + shift,
                                              hole['at'][1] + y, hole['steps'][-1]['diameter']))
    return path


def a_measured_table_is_compared_and_made_a_plate():
    editor = Editor(example('grafting-blades.plate'))
    path = write_table(editor, 3)
    editor.call('Activate', 'measured', '[]', '{}')
    editor.type_path(path)
    ok(wait_for('the deviations', lambda: editor.window_named('Measured')),
       'the table is compared with the plate')
    editor.picture('refit-measured')
    editor.key('Escape')
    wait_for('them to go', lambda: not editor.window_named('Measured'))
    editor.call('Activate', 'plate-of-table', '[]', '{}')
    editor.type_path(path)
    state = editor.wait('the new plate', lambda s: s.get('open') and s['records'] > 10, number=2)
    ok(not state['saved'], 'a plate that has no file yet is made of it')
    editor.end()


tests(answers_are_stepped_through, accepted_is_a_station_and_can_be_undone,
      a_rack_is_looked_through,
      a_measured_table_is_compared_and_made_a_plate)
