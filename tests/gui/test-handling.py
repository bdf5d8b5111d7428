"""Everything that the hand does on the layout: select, drag, turn, nudge, copy, snap, zoom, pan."""
import time

from driver import (Editor, by_number, drilled, equal, example, ok, plain_plate, slot, tests, xdo)


def save(editor):
    editor.key('ctrl+s')
    editor.wait('saving', lambda s: s['saved'])
    return editor.read()


def at(editor, number, kind='holes'):
    return by_number(save(editor)[kind], number)['at']


def select(editor, x, y, number, **more):
    editor.click(*editor.place(x, y), **more)
    editor.wait('selecting %d' % number, lambda s: s['first'] == number or s['selected'] > 1)


THREE = [drilled(3, 50, 50), drilled(4, 100, 50), drilled(5, 150, 100)]


def selecting():
    editor = Editor(plain_plate(THREE))
    select(editor, 50, 50, 3)
    editor.click(*editor.place(100, 50), keys=['shift'])
    state = editor.wait('adding to the selection', lambda s: s['selected'] == 2)
    equal(state['first'], 3, 'Shift adds to the selection')
    editor.click(*editor.place(100, 50), keys=['shift'])
    editor.wait('taking out again', lambda s: s['selected'] == 1)
    ok(True, 'Shift takes out what was selected')
    editor.click(*editor.place(20, 120))
    editor.wait('nothing selected', lambda s: s['selected'] == 0)
    ok(True, 'pressing bare metal selects nothing')
    editor.drag(editor.place(35, 35), editor.place(120, 65))
    editor.wait('the band', lambda s: s['selected'] == 2)
    ok(True, 'a band selects what lies wholly in it')
    editor.picture('handling-band')
    editor.key('ctrl+a')
    editor.wait('all', lambda s: s['selected'] == 3)
    ok(True, 'Ctrl+A selects everything')
    editor.key('Escape')
    editor.wait('none', lambda s: s['selected'] == 0)
    editor.key('n', 'n')
    state = editor.wait('the second thing', lambda s: s['first'] == 4)
    ok(not state['undo'], 'N goes from thing to thing, and changes nothing')
    editor.end()


def group_drag_and_escape():
    editor = Editor(plain_plate(THREE))
    editor.drag(editor.place(35, 35), editor.place(120, 65))
    editor.wait('the band', lambda s: s['selected'] == 2)
    editor.press(*editor.place(50, 50))
    editor.move(editor.place(50, 50), editor.place(60, 70))
    editor.wait('dragging', lambda s: s['dragging'])
    editor.key('Escape')
    state = editor.wait('giving up', lambda s: not s['dragging'])
    editor.release()
    ok(not state['undo'], 'Escape gives a drag up')
    editor.drag(editor.place(50, 50), editor.place(60, 70))
    editor.wait('the drag', lambda s: s['undo'] and not s['dragging'])
    plate = save(editor)
    equal([by_number(plate['holes'], n)['at'] for n in (3, 4, 5)],
          [[60, 70], [110, 70], [150, 100]], 'a group moves together')
    editor.key('ctrl+z')
    state = editor.wait('undo', lambda s: not s['undo'])
    ok(True, 'and is one step of undo')
    editor.end()


def snapping():
    editor = Editor(plain_plate([drilled(3, 50, 50), drilled(4, 120.37, 90.61)]))
    # The grid is 1 mm; 4 lies between its lines and draws what comes near its X.
    editor.drag(editor.place(50, 50), editor.place(63.2, 40.9))
    editor.wait('the drag', lambda s: s['undo'] and not s['dragging'])
    equal(at(editor, 3), [63, 41], 'a drag snaps to the grid')
    editor.press(*editor.place(63, 41))
    editor.move(editor.place(63, 41), editor.place(120.6, 30))
    editor.wait('dragging', lambda s: s['dragging'])
    editor.picture('handling-snap')
    editor.release()
    editor.wait('the drag', lambda s: not s['dragging'] and not s['saved'])
    equal(at(editor, 3), [120.37, 30], "a drag snaps to another hole's centre")
    # Pressed during the drag: a window manager takes Alt with a press for itself.
    editor.press(*editor.place(120.37, 30))
    editor.move(editor.place(120.37, 30), editor.place(100, 40))
    editor.wait('dragging', lambda s: s['dragging'])
    xdo('keydown', 'alt')
    editor.move(editor.place(100, 40), editor.place(90.3, 50.3))
    editor.release()
    xdo('keyup', 'alt')
    editor.wait('the drag', lambda s: not s['dragging'] and not s['saved'])
    free = at(editor, 3)
    ok(abs(free[0] - 90.3) < 0.5 and abs(free[1] - 50.3) < 0.5 and
       (free[0] % 1 or free[1] % 1), 'Alt switches snapping off while it is held', free)
    editor.act('snap')
    editor.drag(editor.place(*free), editor.place(free[0] + 20.27, free[1]))
    editor.wait('the drag', lambda s: not s['dragging'] and not s['saved'])
    moved = at(editor, 3)
    ok(abs(moved[0] - free[0] - 20.27) < 0.4, 'with snapping switched off it goes where it is put',
       moved)
    editor.end()


def turning():
    editor = Editor(plain_plate([], [slot(3, 100, 75)]))
    select(editor, 100, 75, 3)
    x, y = editor.place(100, 75 + 6)
    handle = (x, y - 26)
    editor.press(*handle)
    editor.move(handle, editor.place(140, 75), steps=25)
    editor.wait('turning', lambda s: s['dragging'])
    editor.picture('handling-turn')
    editor.release()
    editor.wait('the turn', lambda s: s['undo'] and not s['dragging'])
    recess = by_number(save(editor)['recesses'], 3)
    equal(recess.get('rotation'), -90 % 360 if recess.get('rotation', 0) > 0 else -90,
          'the handle turns by steps of 5 degrees')
    equal(recess['at'], [100, 75], 'and leaves the place alone')
    editor.end()


def turning_over():
    editor = Editor(example('grafting-blades.plate'))
    station = editor.read()['stations'][0]
    editor.do('station %s' % station['label'], 'feature.select')
    editor.wait('the station', lambda s: s['first'] == station['id'])
    editor.key('t')
    editor.wait('turning over', lambda s: s['undo'])
    over = by_number(save(editor)['stations'], station['id'])
    ok(over.get('turned_over'), 'T turns the station over')
    editor.picture('handling-turned-over')
    editor.key('ctrl+z')
    editor.wait('undo', lambda s: not s['undo'])
    editor.end()


def nudging_and_copies():
    editor = Editor(plain_plate(THREE))
    select(editor, 50, 50, 3)
    editor.key('Right', 'Right', 'Up')
    editor.key('shift+Left')
    editor.wait('nudging', lambda s: s['undo'])
    time.sleep(0.1)
    equal(at(editor, 3), [51.99, 51], 'arrows move by the grid, with Shift by a hundredth')
    editor.key('ctrl+d')
    state = editor.wait('the copy', lambda s: s['records'] == 6)
    equal(state['selected'], 1, 'a duplicate is selected')
    copy = [h for h in save(editor)['holes'] if h['id'] not in (3, 4, 5)][0]
    equal(copy['at'], [56.99, 46], 'it lies beside what it was copied from')
    ok(copy['label'] not in [h['label'] for h in THREE], 'it has a label of its own')
    editor.key('Delete')
    editor.wait('deleting', lambda s: s['records'] == 5)
    ok(True, 'Delete takes it away')
    select(editor, 100, 50, 4)
    editor.key('ctrl+c')
    editor.key('ctrl+v')
    editor.wait('pasting', lambda s: s['records'] == 6)
    editor.key('ctrl+v')
    editor.wait('pasting again', lambda s: s['records'] == 7)
    places = sorted(h['at'] for h in save(editor)['holes'] if h['id'] not in (3, 4, 5))
    equal(places, [[105, 45], [110, 40]], 'pasted things do not lie on each other')
    select(editor, 150, 100, 5)
    editor.key('ctrl+x')
    editor.wait('cutting', lambda s: s['records'] == 6)
    ok(not any(h['id'] == 5 for h in save(editor)['holes']), 'Ctrl+X cuts')
    editor.end()


def zooming_and_panning():
    editor = Editor(plain_plate(THREE))
    before = editor.state()
    spot = editor.place(150, 100)
    editor.point(*spot)
    xdo('click', '--repeat', 5, '--delay', 60, 4)
    state = editor.wait('zooming', lambda s: s['scale'] > before['scale'] * 2)
    now = editor.place(150, 100)
    ok(abs(now[0] - spot[0]) < 1.5 and abs(now[1] - spot[1]) < 1.5,
       'the wheel zooms to the pointer', (spot, now))
    editor.picture('handling-zoomed')
    editor.drag(spot, (spot[0] - 90, spot[1] + 40), button=2)
    moved = editor.wait('panning', lambda s: abs(s['x'] - state['x'] + 90) < 2)
    ok(abs(moved['y'] - state['y'] - 40) < 2, 'the middle button pans')
    xdo('keydown', 'space')
    editor.drag((600, 400), (650, 400))
    xdo('keyup', 'space')
    editor.wait('panning with space', lambda s: abs(s['x'] - moved['x'] - 50) < 2)
    ok(True, 'space and a drag pan')
    editor.key('f')
    state = editor.wait('fitting', lambda s: abs(s['scale'] - before['scale']) < 1e-6)
    ok(not state['undo'], 'F shows the whole plate; looking changes nothing')
    editor.key('ctrl+plus')
    editor.wait('zooming in', lambda s: s['scale'] > before['scale'] * 1.2)
    editor.key('ctrl+0')
    editor.wait('fitting', lambda s: abs(s['scale'] - before['scale']) < 1e-6)
    ok(True, 'and by keys')
    editor.end()


def what_is_made_stays():
    editor = Editor(plain_plate([drilled(3, 50, 50, made=True), drilled(4, 100, 50)]))
    editor.drag(editor.place(50, 50), editor.place(80, 80))
    editor.wait('selecting', lambda s: s['first'] == 3)
    state = editor.state()
    ok(not state['undo'] and not state['dragging'], 'what stands in metal is not moved')
    editor.picture('handling-made')
    editor.end()


tests(selecting, group_drag_and_escape, snapping, turning, turning_over, nudging_and_copies,
      zooming_and_panning, what_is_made_stays)
