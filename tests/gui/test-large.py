"""A plate of a thousand things is handled like any other."""
from driver import Editor, by_number, drilled, equal, ok, plain_plate, tests


def a_thousand():
    holes = [drilled(3, 400, 160, 5)]
    holes += [drilled(4 + i, 10 + i % 32 * 10, 10 + i // 32 * 10, 4) for i in range(999)]
    editor = Editor(plain_plate(holes, length=480, width=330))
    state = editor.state()
    equal((state['records'], state['stop']), (1002, 0), 'it opens')
    editor.picture('large')
    editor.drag(editor.place(400, 160), editor.place(420, 200))
    editor.wait('the drag', lambda s: s['undo'] and not s['dragging'])
    editor.key('ctrl+a')
    editor.wait('all', lambda s: s['selected'] == 1000)
    editor.key('Right')
    editor.key('ctrl+s')
    editor.wait('saving', lambda s: s['saved'])
    plate = editor.read()
    equal([by_number(plate['holes'], n)['at'] for n in (3, 4)], [[421, 200], [11, 10]],
          'one is dragged, all are nudged')
    editor.picture('large-selected')
    editor.end()


tests(a_thousand)
