"""Things dragged from the trays, with their findings before they are dropped."""
import os
import shutil

from driver import Editor, drilled, equal, example, ok, plain_plate, tests, wait_for


def row(editor, name):
    return editor.middle(editor.find('list item', name))


def carry(editor, name, x, y, before_drop=None):
    """From its tray to a place of the plate."""
    start, end = row(editor, name), editor.place(x, y)
    editor.press(*start)
    editor.move(start, end, steps=20)
    if before_drop:
        before_drop()
    editor.release()


def row_in_sight(editor, name):
    """Once the search has brought the row of that name up, and it has come to rest."""
    seen = []

    def rests():
        seen.append(editor.find('list item', name)['y'])
        return len(seen) > 2 and seen[-1] == seen[-2] == seen[-3] < 450
    wait_for('%s to move up' % name, rests)


def said(editor, words):
    return wait_for('"%s"' % words, lambda: [n for n in editor.tree() if words in n['name']
                                             and n['width'] > 1])


def search(editor, text):
    node = [n for n in editor.tree() if n['name'] == 'Find in the trays' and n['width'] > 1][0]
    editor.click(*editor.middle(node))
    editor.key('ctrl+a')
    editor.type(text)


def save(editor):
    editor.key('ctrl+s')
    editor.wait('saving', lambda s: s['saved'])
    return editor.read()


def holes():
    editor = Editor(plain_plate([]))
    records = editor.state()['records']

    def look():
        state = editor.wait('the ghost', lambda s: s['dragging'] and s['stop'] > 0)
        equal(state['records'], records, 'the ghost is not on the plate yet')
        editor.picture('trays-ghost')
    carry(editor, 'Drilled through', 100, 3, look)
    state = editor.wait('the drop', lambda s: not s['dragging'] and s['undo'])
    equal(state['selected'], 1, 'what was dropped is selected')
    ok(state['stop'] > 0, 'its finding was there before it was dropped, and stays')
    editor.key('ctrl+z')
    editor.wait('undo', lambda s: s['records'] == records)
    editor.enter('Drill', 'F')
    carry(editor, 'Drilled through', 60, 60)
    editor.wait('the drop', lambda s: s['records'] == records + 1 and not s['dragging'])
    carry(editor, 'Tapped M6', 100, 60)
    editor.wait('the drop', lambda s: s['records'] == records + 2 and not s['dragging'])
    editor.picture('trays-holes')
    plate = save(editor)
    by_place = {tuple(h['at']): h for h in plate['holes']}
    equal(sorted(by_place), [(60, 60), (100, 60)], 'both lie on the grid where they were dropped')
    # Drill F is 0.2570 in, ASME B94.11M; M6 is drilled 5.0 mm, ISO 2306.
    equal(by_place[(60, 60)]['steps'][0]['diameter'], 6.5278, 'drill F is 0.257 in')
    steps = by_place[(100, 60)]['steps']
    equal([steps[0]['diameter'], steps[1]['kind'], steps[1]['thread']], [5, 'tap', 'M6x1'],
          'a tapped hole has its drill and its thread')
    editor.end()


def a_drag_given_up():
    editor = Editor(plain_plate([]))
    start = row(editor, 'Drilled through')
    editor.press(*start)
    editor.move(start, editor.place(100, 75), steps=20)
    editor.wait('the ghost', lambda s: s['dragging'])
    # Let go over the trays: nothing has come of it.
    editor.move(editor.place(100, 75), (120, 400), steps=20)
    editor.wait('the ghost gone', lambda s: not s['dragging'])
    editor.release()
    state = editor.state()
    ok(not state['undo'] and state['records'] == 2, 'a ghost that leaves the layout leaves nothing')
    carry(editor, 'Drilled through', 100, 75)
    editor.wait('the drop', lambda s: s['records'] == 3 and not s['dragging'])
    plate = save(editor)
    equal((plate['holes'][0]['id'], plate['next_id']), (3, 4),
          'not even a number: the next record has the one that the ghost had')
    editor.end()


def slots_and_keep_clears():
    editor = Editor(plain_plate([]))
    search(editor, 'slot')
    row_in_sight(editor, 'Slot')
    editor.enter('Width', '3/8in')
    carry(editor, 'Slot', 100, 100)
    editor.wait('the drop', lambda s: s['records'] == 3 and not s['dragging'])
    search(editor, 'keep')
    row_in_sight(editor, 'Keep-clear')
    carry(editor, 'Keep-clear', 40, 40)
    editor.wait('the drop', lambda s: s['records'] == 4 and not s['dragging'])
    editor.picture('trays-slot')
    plate = save(editor)
    equal(plate['recesses'][0]['width'], 9.525, 'the slot is as wide as was typed')
    equal(plate['keep_clears'][0]['at'], [40, 40], 'the keep-clear lies where it was dropped')
    editor.end()


def a_station():
    editor = Editor(example('grafting-blades.plate'))
    before = editor.state()
    carry(editor, 'Grafting blade', 165, 115)
    state = editor.wait('the drop', lambda s: s['undo'] and not s['dragging'])
    ok(state['records'] >= before['records'] + 7,
       "a station comes with its holes and hardware", state)
    editor.picture('trays-station')
    editor.key('ctrl+z')
    editor.wait('undo', lambda s: s['records'] == before['records'])
    ok(True, 'and is one step of undo')
    editor.end()


def a_station_at_once():
    """Its holes, hold-downs and nest from the part's own holes, with no stop on a free plate."""
    editor = Editor(plain_plate([], unit='inch'))
    editor.act('add-part')
    editor.type_path(example('grafting-blade.platepart'))
    editor.wait('the part', lambda s: s['records'] == 3)
    editor.find('list item', 'Grafting blade')
    carry(editor, 'Grafting blade', 100, 75)
    state = editor.wait('the drop', lambda s: s['records'] > 4 and not s['dragging'])
    equal(state['stop'], 0, 'screws reach as deep as the nest asks')
    editor.picture('trays-station-at-once')
    plate = save(editor)
    equal((len(plate['holes']), len(plate['fittings']), plate['recesses'][0]['kind']),
          (3, 3, 'blank-nest'), 'three holes with their hardware, and a nest')
    editor.end()


def the_rack():
    """The parts of the folder that the plate is in: read, passed over, and followed."""
    editor = Editor(plain_plate([drilled(3, 20, 20)], unit='inch'))
    folder = editor.folder
    said(editor, 'There are no parts in this folder')
    shutil.copy(example('grafting-blade.platepart'), folder)
    with open(os.path.join(folder, 'broken.platepart'), 'w', encoding='utf-8') as file:
        file.write('{"format": "pinplate-part", "version": 1,\n"thickness": "thick"}')
    with open(os.path.join(folder, 'empty.platepart'), 'w', encoding='utf-8'):
        pass
    search(editor, 'blade')
    row_in_sight(editor, 'Grafting blade')
    text = said(editor, 'broken.platepart is passed over')[0]['name']
    ok('thickness' in text and 'empty.platepart is passed over' in text,
       'broken files are named with what is wrong, and passed over', text)
    editor.picture('trays-rack')

    def look():
        state = editor.wait('the ghost', lambda s: s['dragging'])
        equal(state['records'], 3, 'its ghost is not on the plate yet')
        editor.picture('trays-rack-ghost')
    carry(editor, 'Grafting blade', 100, 75, look)
    state = editor.wait('the drop', lambda s: s['records'] > 4 and not s['dragging'])
    equal(state['stop'], 0, 'a part of the rack comes with its holes, hold-downs and nest')
    # Another part is put into the folder, and the broken one is taken away.
    shutil.copy(example('budding-blade.platepart'), folder)
    row_in_sight(editor, 'Budding blade')
    os.remove(os.path.join(folder, 'broken.platepart'))
    os.remove(os.path.join(folder, 'empty.platepart'))
    wait_for('the note to go', lambda: not [n for n in editor.tree('label')
                                            if 'passed over' in n['name'] and n['width'] > 1])
    editor.picture('trays-rack-followed')
    ok(True, 'the tray follows the folder')
    editor.key('ctrl+s')
    editor.wait('saving', lambda s: s['saved'])
    saved = editor.read()
    equal([p['name'] for p in saved['parts']], ['Grafting blade'], 'the plate embeds what it uses')
    # A folder that is chosen counts instead of the plate's own.
    other = os.path.join(editor.folder, 'other')
    os.mkdir(other)
    search(editor, '')
    editor.key('BackSpace')
    editor.press_button('Folder of parts…')
    editor.type_path(other)
    said(editor, 'There are no parts in this folder')
    editor.picture('trays-rack-chosen')
    ok(True, 'a chosen folder counts instead')
    editor.end()


def nests():
    """A nest for the station that it is dropped on, and then what a nest is offered."""
    editor = Editor(plain_plate([], unit='inch'))
    shutil.copy(example('grafting-blade.platepart'), editor.folder)
    editor.find('list item', 'Grafting blade')
    search(editor, 'blade')
    row_in_sight(editor, 'Grafting blade')
    editor.press_button('Stations with a nest', role='checkbox')
    carry(editor, 'Grafting blade', 100, 75)
    bare = editor.wait('the drop', lambda s: s['records'] > 4 and not s['dragging'])
    editor.key('ctrl+s')
    editor.wait('saving', lambda s: s['saved'])
    depths = {h['id']: [s.get('depth') for s in h['steps']] for h in editor.read()['holes']}
    search(editor, 'nest')
    row_in_sight(editor, 'Nest')
    # On free metal it says what it wants.
    carry(editor, 'Nest', 30, 20)
    said(editor, 'belongs to a station')
    equal(editor.state()['records'], bare['records'], 'a nest on free metal is none')

    def look():
        state = editor.wait('the ghost', lambda s: s['dragging'])
        equal(state['records'], bare['records'], 'the nest is shown before it is dropped')
        editor.picture('trays-nest-ghost')
    carry(editor, 'Nest', 95, 78, look)
    with_nest = editor.wait('the nest', lambda s: s['records'] == bare['records'] + 1
                            and not s['dragging'])
    equal(with_nest['stop'], 0, 'it brings no stop')
    carry(editor, 'Nest', 95, 78)
    said(editor, 'station has a nest already')
    # What a nest is offered, by the pointer and by the keys.
    search(editor, 'relief')
    row_in_sight(editor, 'Corner relief')
    carry(editor, 'Corner relief', 95, 78)
    editor.wait('the corners', lambda s: s['records'] == bare['records'] + 5 and not s['dragging'])
    editor.click(*editor.place(95, 78))
    editor.wait('the station to be chosen', lambda s: s['selected'] == 1)
    search(editor, 'burr')
    row_in_sight(editor, 'Burr grooves')
    editor.click(*row(editor, 'Burr grooves'))
    editor.key('Return')
    editor.wait('the grooves', lambda s: s['records'] == bare['records'] + 9)
    editor.picture('trays-nest')
    editor.key('ctrl+s')
    editor.wait('saving', lambda s: s['saved'])
    saved = editor.read()
    nest = [r for r in saved['recesses'] if r['kind'] == 'blank-nest'][0]
    # Half of 0.1 in, in steps of 0.01 in; all that ends in the metal ends so much deeper.
    equal(nest['depth'], 1.27, 'the nest is half as deep as the part is thick')
    deeper = [s['depth'] - before for h in saved['holes']
              for s, before in zip(h['steps'], depths[h['id']]) if before]
    ok(deeper and all(abs(d - 1.27) < 1e-9 for d in deeper), 'and the holes are deeper by that',
       deeper)
    equal(saved['next_id'], 1 + max(thing['id'] for things in saved.values()
                                    if isinstance(things, list) for thing in things),
          'what was only shown has used up no numbers')
    editor.end()


def clamps_and_search():
    editor = Editor(plain_plate([]))
    search(editor, '8 mm')
    row_in_sight(editor, 'Edge clamp 8 mm')
    editor.picture('trays-search')
    ok(True, 'what is not called that makes room')
    carry(editor, 'Edge clamp 8 mm', 100, 100)
    editor.wait('the drop', lambda s: s['records'] == 4 and not s['dragging'])
    search(editor, 'dowel')
    row_in_sight(editor, 'Dowel 6mm')
    carry(editor, 'Dowel 6mm', 50, 50)
    editor.wait('the drop', lambda s: s['records'] == 6 and not s['dragging'])
    editor.picture('trays-hardware')
    plate = save(editor)
    equal(sorted((f['kind'], f['size']) for f in plate['fittings']),
          [('dowel', '6mm'), ('edge-clamp', 'edge clamp 8 mm')],
          'hardware comes with what is cut for it')
    # The table of our own generic clamps: a body of 8 mm in a slot of 16.1, 5 deep.
    equal((plate['recesses'][0]['width'], plate['recesses'][0]['depth'],
           [f for f in plate['fittings'] if f['kind'] == 'edge-clamp'][0]['head_height']),
          (16.1, 5, 3), 'in the slot that the clamp asks for')
    editor.end()


def without_the_pointer():
    editor = Editor(plain_plate([]))
    editor.click(*row(editor, 'Tapped M5'))
    editor.key('Return')
    editor.wait('the hole', lambda s: s['records'] == 3)
    equal(save(editor)['holes'][0]['at'], [100, 75], 'Enter puts a thing in the middle of the view')
    editor.end()


tests(holes, a_drag_given_up, slots_and_keep_clears, a_station, a_station_at_once, the_rack, nests,
      clamps_and_search, without_the_pointer)
