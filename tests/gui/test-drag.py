"""The main job with the pointer: a hole dragged too near the edge is found, undone, and saved where
it belongs."""
from driver import Editor, by_number, drilled, equal, ok, plain_plate, tests


def a_hole_dragged_to_the_edge():
    editor = Editor(plain_plate([drilled(3, 100, 75), drilled(4, 40, 40)]))
    before = open(editor.plate, 'rb').read()
    equal(editor.check()['counts']['stop'], 0, 'the plate as opened has no stop')

    # Taken hold of, and moved until its wall to the edge is 1 mm thick: below any limit.
    editor.press(*editor.place(100, 75))
    editor.move(editor.place(100, 75), editor.place(100, 4))
    state = editor.wait('a stop while the hole is still held',
                        lambda s: s['dragging'] and s['stop'] > 0)
    ok(state['dragging'], 'the finding is there before the hole is let go')
    editor.picture('drag-held')
    editor.release()
    state = editor.wait('the hole let go', lambda s: not s['dragging'] and not s['saved'])
    ok(state['stop'] > 0, 'the finding stays when the hole is let go')
    equal((state['selected'], state['first']), (1, 3), 'the hole is selected')
    editor.picture('drag-too-near')
    equal(open(editor.plate, 'rb').read(), before, 'nothing is written before it is saved')

    editor.key('ctrl+z')
    state = editor.wait('undo', lambda s: not s['undo'])
    equal(state['stop'], 0, 'undo takes the finding away')
    ok(state['saved'], 'undo brings the saved state back')

    editor.drag(editor.place(100, 75), editor.place(120, 75))
    editor.wait('the second drag', lambda s: s['undo'] and not s['dragging'])
    editor.key('ctrl+s')
    editor.wait('saving', lambda s: s['saved'])
    hole = by_number(editor.read()['holes'], 3)
    equal(hole['at'], [120, 75], 'the file has the hole on the grid where it was put')
    answer = editor.check()
    equal(answer['counts']['stop'], 0, 'the command finds the same in the saved file')
    editor.end()


def the_edge_finding_is_the_commands():
    editor = Editor(plain_plate([drilled(3, 100, 75)]))
    editor.drag(editor.place(100, 75), editor.place(100, 4))
    state = editor.wait('the drag', lambda s: s['undo'] and not s['dragging'])
    editor.key('ctrl+s')
    editor.wait('saving', lambda s: s['saved'])
    answer = editor.check()
    equal(answer['counts'], {'stop': state['stop'], 'caution': state['caution'],
                             'note': state['note']}, 'window and command count alike')
    ok(any(f['rule'] == 'edge-distance' and 3 in f['features'] for f in answer['findings']),
       'the edge is what is found', answer['findings'])
    editor.end()


tests(a_hole_dragged_to_the_edge, the_edge_finding_is_the_commands)
