"""Another part on an old plate: its answers one by one, accepted and taken back; replaced parts."""
import json
import os
import shutil
import tempfile

from driver import Editor, by_number, equal, example, ok, parse_state, tests, wait_for, write_table

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


def made_plate(folder, name='grafting-blades.plate'):
    """The example as it stands once it is in metal, with the new blade in its tray."""
    with open(example(name), encoding='utf-8') as file:
        plate = json.load(file)
    with open(example(PART), encoding='utf-8') as file:
        part = json.load(file)
    for kind in ('stations', 'holes', 'recesses'):
        for thing in plate[kind]:
            thing['made'] = True
    own = {key: value for key, value in part.items() if key not in ('format', 'version')}
    own = own.get('part', own)
    plate['parts'].append(dict(own, id=plate['next_id']))
    plate['next_id'] += 1
    path = os.path.join(folder, name)
    with open(path, 'w', encoding='utf-8') as file:
        json.dump(plate, file)
    return path


def drop(editor, name, x, y):
    """From the tray to a place of the plate."""
    start, end = editor.middle(editor.find('list item', name)), editor.place(x, y)
    editor.press(*start)
    editor.move(start, end, steps=20)
    editor.wait('the ghost', lambda s: s['dragging'])
    editor.release()


def stations(editor):
    editor.key('ctrl+s')
    editor.wait('saving', lambda s: s['saved'])
    return editor.read()['stations']


def dropped_on_a_made_plate_it_is_fitted_to_its_holes():
    folder = tempfile.mkdtemp(prefix='pinplate-gui-')
    editor = Editor(made_plate(folder))
    before = stations(editor)
    records = editor.state()['records']
    # Where the example's third station lies: the answer there comes first, not that at the first.
    there = before[2]['at']
    drop(editor, 'Budding blade', there[0] + 35, there[1] + 8)
    state = wait_for('the answers', lambda: answers_of(editor))
    equal(state['verdict'], 'one-hole', 'the nearest that fits is shown')
    equal(editor.state()['records'], records, 'and nothing is on the plate yet')
    editor.picture('refit-dropped')
    editor.key('Escape')
    wait_for('the answers to go', lambda: refit_state(editor)['answers'] == 0)
    state = editor.state()
    ok(state['saved'] and state['records'] == records, 'Escape leaves the plate as it was')
    drop(editor, 'Budding blade', there[0] + 35, there[1] + 8)
    wait_for('the answers', lambda: answers_of(editor))
    editor.key('Return')
    editor.wait('the station', lambda s: s['records'] > records)
    after = stations(editor)
    equal(after[-1]['at'], there, 'accepted it is a station where it was dropped')
    editor.key('ctrl+z')
    editor.wait('undo', lambda s: s['records'] == records)
    drop(editor, 'Budding blade', 165, 115)
    wait_for('the answers', lambda: answers_of(editor))
    editor.press_button('New holes here')
    state = editor.wait('the plain station', lambda s: s['records'] >= records + 7)
    equal(refit_state(editor)['answers'], 0, 'a station on new holes can be had as well')
    editor.end()
    shutil.rmtree(folder)


def a_part_is_replaced():
    editor = Editor(example('grafting-blades.plate'))
    before = editor.read()
    station = before['stations'][0]
    old = by_number(before['parts'], station['part'])
    editor.act('replace-part')
    said = wait_for('what is missing to be said', lambda: [
        n for n in editor.tree() if n['name'].startswith('Select the station first')])
    ok(said, 'without a station it is said what to select')
    # In the part, off all of its holes.
    x, y = station['at']
    editor.click(*editor.place(x + 60, y + 8))
    editor.wait('the station', lambda s: s['selected'] == 1)
    state = begin(editor, 'replace-part')
    ok(state['answers'] >= 1, 'there are answers for the station')
    editor.picture('refit-replaced')
    columns = [n['name'] for n in editor.tree() if n['name'] in ('Before', 'With this answer')]
    equal(sorted(set(columns)), ['Before', 'With this answer'], 'findings stand side by side')
    editor.key('Return')
    wait_for('the answers to go', lambda: refit_state(editor)['answers'] == 0)
    after = stations(editor)
    plate = editor.read()
    equal(len(after), len(before['stations']), 'no station is added')
    new = by_number(plate['parts'], by_number(after, station['id'])['part'])
    ok(old['name'] != new['name'] == 'Budding blade', 'the station has the other part')
    editor.key('ctrl+z')
    equal(by_number(stations(editor), station['id']), station, 'and its old one again by undo')
    editor.end()


def many_holes(folder):
    """A plate with one locating hole after another, nowhere two as far apart as the part's."""
    with open(example('grafting-blades.plate'), encoding='utf-8') as file:
        plate = json.load(file)
    like = next(hole for hole in plate['holes'] if hole['label'] == 'C1')
    holes = []
    for i in range(90):
        hole = dict(like, id=3 + i, at=[12 + 13 * (i % 15), 40 + 21 * (i // 15)],
                    label='A%d' % (i + 1))
        for key in ('station', 'operation'):
            hole.pop(key, None)
        holes.append(hole)
    plate.update(holes=holes, stations=[], recesses=[], fittings=[], keep_clears=[], bases=[],
                 operations=[], parts=[], faces=[f for f in plate['faces'] if f['name'] == 'top'],
                 next_id=200)
    plate['plate'].pop('base', None)
    path = os.path.join(folder, 'many.plate')
    with open(path, 'w', encoding='utf-8') as file:
        json.dump(plate, file)
    return path


def a_search_is_stopped():
    folder = tempfile.mkdtemp(prefix='pinplate-gui-')
    editor = Editor(many_holes(folder))
    path = os.path.join(editor.folder, PART)
    shutil.copy(example(PART), path)
    editor.act('refit')
    editor.type_path(path)
    wait_for('the search', lambda: refit_state(editor).get('searching'))
    editor.picture('refit-searching')
    editor.press_button('Stop')
    wait_for('it to stop', lambda: not refit_state(editor)['searching'])
    said = [n['name'] for n in editor.tree() if n['name'].startswith('Stopped: ')]
    ok(said, 'it is said that not all was looked at', said)
    editor.picture('refit-stopped')
    editor.key('Escape')
    ok(editor.state()['saved'], 'the plate is as it was')
    editor.end()
    shutil.rmtree(folder)


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


def a_rack_is_stopped():
    editor = Editor(example('spacers.plate'))
    rack = os.path.join(editor.folder, 'rack')
    os.mkdir(rack)
    for i in range(6000):
        os.symlink(example('grafting-blades.plate'), os.path.join(rack, '%d.plate' % i))
    part = os.path.join(editor.folder, PART)
    shutil.copy(example(PART), part)
    editor.call('Activate', 'rack', '[]', '{}')
    window = wait_for('the rack', lambda: editor.window_named('Rack'))
    editor.call('Activate', 'take-part', "[<'%s'>]" % part, '{}', number=RACK)
    editor.call('Activate', 'take-folder', "[<'%s'>]" % rack, '{}', number=RACK)
    editor.wait('the search', lambda s: s['searching'], number=RACK)
    editor.answer_in(window, 'Stop')
    editor.wait('it to stop', lambda s: not s['searching'], number=RACK)
    ok([n for n in editor.tree() if n['name'].startswith('Stopped: ')],
       'it is said how far it came')
    editor.picture('refit-rack-stopped')
    editor.end()


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
      dropped_on_a_made_plate_it_is_fitted_to_its_holes,
      a_part_is_replaced, a_search_is_stopped, a_rack_is_looked_through, a_rack_is_stopped,
      a_measured_table_is_compared_and_made_a_plate)
