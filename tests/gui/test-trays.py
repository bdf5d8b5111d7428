"""Things dragged from the trays, with their findings before they are dropped."""
from driver import Editor, equal, example, ok, plain_plate, tests, wait_for, xdo


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
    editor.end()


def slots_and_keep_clears():
    editor = Editor(plain_plate([]))
    editor.enter('Width', '3/8in')
    carry(editor, 'Slot', 100, 100)
    editor.wait('the drop', lambda s: s['records'] == 3 and not s['dragging'])
    search(editor, 'keep')
    wait_for('it to move up', lambda: editor.find('list item', 'Keep-clear')['y'] < 680)
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


def search(editor, text):
    node = [n for n in editor.tree() if n['name'] == 'Find in the trays' and n['width'] > 1][0]
    editor.click(*editor.middle(node))
    editor.key('ctrl+a')
    editor.type(text)


def clamps_and_search():
    editor = Editor(plain_plate([]))
    search(editor, '8 mm')
    wait_for('it to move up', lambda: editor.find('list item', 'Edge clamp 8 mm')['y'] < 500)
    editor.picture('trays-search')
    ok(True, 'what is not called that makes room')
    carry(editor, 'Edge clamp 8 mm', 100, 100)
    editor.wait('the drop', lambda s: s['records'] == 4 and not s['dragging'])
    search(editor, 'dowel')
    editor.find('list item', 'Dowel 6mm')
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


tests(holes, a_drag_given_up, slots_and_keep_clears, a_station, a_station_at_once, clamps_and_search, without_the_pointer)
