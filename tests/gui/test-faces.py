"""Inclined faces: made, shown square on, and worked on as the top is."""
import json

from driver import Editor, by_number, drilled, equal, ok, plain_plate, tests


def save(editor):
    editor.act('save')
    editor.wait('saving', lambda s: s['saved'])
    return editor.read()


def with_face(holes=(), more=()):
    """A plate of 200 x 150 x 20 mm with a face that falls to the front at 10 degrees."""
    path = plain_plate(holes)
    with open(path, encoding='utf-8') as file:
        plate = json.load(file)
    plate['faces'].append({'id': 50, 'name': 'front', 'kind': 'inclined', 'from': [200, 40],
                           'to': [0, 40], 'angle': 10, 'extent': 40.61706})
    plate['next_id'] = 60
    plate['holes'] += list(more)
    with open(path, 'w', encoding='utf-8') as file:
        json.dump(plate, file)
    return path


def on_face(editor, x, y):
    """A place of the inclined face in the window; all of it has an X and a Y of 0 or less."""
    return editor.place(x, y)


def making():
    editor = Editor(plain_plate([drilled(3, 100, 110)]))
    equal(editor.state()['face'], 2, 'a plate opens with its top')
    editor.press_button('Make an inclined face')
    window = editor.dialog()
    editor.picture('face-question')
    editor.enter_in(window, 'Angle below the top', '60')
    editor.answer_in(window, 'Make the face')
    ok(any('at most 45 degrees' in n['name'] for n in editor.tree('alert', 'label')),
       'what can not be is said in words')
    editor.enter_in(window, 'Angle below the top', '6.5')
    editor.answer('Make the face')
    state = editor.wait('the face', lambda s: s['face'] != 2)
    editor.picture('face-shown')
    face = by_number(save(editor)['faces'], state['face'])
    equal((face['from'], face['to'], face['angle']), ([200, 25], [0, 25], 6.5),
          'the face leaves the top along its break line')
    # 25 / cos 6.5 degrees = 25.161743, worked out with bc.
    equal(face['extent'], 25.161743, 'and reaches the side')
    editor.click(*editor.place(0, 20))
    editor.key('Next')
    editor.wait('the top', lambda s: s['face'] == 2)
    editor.picture('face-top')
    editor.key('ctrl+z')
    editor.wait('undo', lambda s: s['records'] == 3)
    ok(True, 'it is a step of undo')
    editor.end()


def by_its_break_line():
    editor = Editor(plain_plate([drilled(3, 100, 110)]))
    editor.press_button('Make an inclined face')
    window = editor.dialog()
    choice = editor.find_in_dialog('combo box', 'It falls')
    editor.point(choice['x'] + choice['width'] / 2, choice['y'] + choice['height'] / 2, window)
    editor.click_here()
    editor.key('End', 'Return')
    for name, text in (('First end, X from the datum', '160'), ('First end, Y from the datum', '50'),
                       ('Second end, X from the datum', '2*20'),
                       ('Second end, Y from the datum', '50'),
                       ('Extent down the slope', '1.5in')):
        editor.enter_in(window, name, text)
    editor.picture('face-by-line')
    editor.answer('Make the face')
    state = editor.wait('the face', lambda s: s['face'] != 2)
    face = by_number(save(editor)['faces'], state['face'])
    equal((face['from'], face['to'], face['extent']), ([160, 50], [40, 50], 38.1),
          'a face can be made by its break line and extent')
    editor.end()


def working_on_it():
    hole = drilled(4, -60, -20, label='B1', face=50)
    editor = Editor(with_face([drilled(3, 100, 110)], [hole]))
    editor.press_button('front')
    editor.wait('the face', lambda s: s['face'] == 50)
    start = on_face(editor, -60, -20)
    editor.click(*start)
    editor.wait('selecting', lambda s: s['first'] == 4)
    ok(True, 'what lies on the face is selected there')
    editor.picture('face-selected')
    scale = editor.state()['scale']
    editor.drag(start, (start[0] - 40 * scale, start[1] + 0.4 * scale))
    editor.wait('the drag', lambda s: s['undo'] and not s['dragging'])
    place = by_number(save(editor)['holes'], 4)['at']
    equal(place, [-100, -20], 'and dragged, drawn to the grid of the face')
    tray = [n for n in editor.tree('list item') if 'Drilled through' in n['name']]
    tray = tray[0] if tray else editor.find('label', 'Drilled through')
    editor.drag(editor.middle(tray), on_face(editor, -30, -10))
    editor.wait('placing', lambda s: s['records'] > 4 and not s['dragging'])
    new = [h for h in save(editor)['holes'] if h['id'] not in (3, 4)]
    equal([(h['face'], h['at']) for h in new], [(50, [-30, -10])], 'a tray puts things on the face')
    editor.picture('face-worked-on')
    editor.press_button('Features', 'tab')
    label = [n for n in editor.tree('label') if 'A1' in n['name'] and n['width'] > 1][0]
    editor.click(*editor.middle(label))
    state = editor.wait('the other face', lambda s: s['face'] == 2)
    equal(state['first'], 3, 'who chooses a thing of another face sees that face')
    editor.end()


def findings_on_it():
    # Half out of the face's end on the left.
    hole = drilled(4, -199, -20, label='B1', face=50)
    editor = Editor(with_face([drilled(3, 100, 110)], [hole]))
    editor.wait('a stop', lambda s: s['stop'] > 0)
    editor.picture('face-before-finding')
    message = editor.find('label', 'Hole B1 reaches 2 mm over the edge of its face')
    editor.click(*editor.middle(message))
    state = editor.wait('the face', lambda s: s['face'] == 50)
    equal(state['first'], 4, 'a finding shows its place on its own face')
    editor.picture('face-finding')
    editor.end()


tests(making, by_its_break_line, working_on_it, findings_on_it)
