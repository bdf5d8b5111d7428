"""The section on the screen: along a line that is dragged, following it and all that is dragged."""
import subprocess

from driver import PICTURES, Editor, drilled, equal, example, ok, plain_plate, slot, tests


def dark_in(name, left, top, width, height):
    """How many dark points there are in a piece of a picture."""
    text = subprocess.run(['convert', '%s/%s.png' % (PICTURES, name), '-crop',
                           '%dx%d+%d+%d' % (width, height, left, top), '-colorspace', 'gray',
                           '-threshold', '50%', '-format', '%[fx:(1-mean)*w*h]', 'info:'],
                          capture_output=True, text=True).stdout
    return float(text)


def a_line():
    hole = drilled(3, 100, 100, 12)
    editor = Editor(plain_plate([hole], [slot(4, 60, 40, depth=8)]))
    editor.press_button('Section')
    state = editor.wait('the section', lambda s: s['section'])
    equal(state['section-y'], 75, 'it begins through the middle of the plate')
    area = editor.find('image', 'Section A–A')
    state = editor.state()
    left, top = state['left'] + area['x'], state['top'] + area['y']
    editor.picture('section-middle')
    before = dark_in('section-middle', left, top, area['width'], area['height'])
    editor.drag(editor.place(30, 100), editor.place(170, 100))
    state = editor.wait('the line', lambda s: s['section-y'] == 100)
    equal(state['section-x'], 170, 'a pull draws the line, drawn to the grid')
    editor.picture('section-hole')
    ok(dark_in('section-hole', left, top, area['width'], area['height']) != before,
       'the section is another one')
    equal(state['selected'], 0, 'and nothing else is taken hold of')
    start = editor.place(170, 100)
    editor.press(*start)
    editor.move(start, editor.place(150, 40), steps=10)
    editor.wait('the end', lambda s: s['section-y'] == 40)
    editor.picture('section-dragging')
    editor.release()
    start = editor.place(90, 70)
    editor.press(*start)
    editor.move(start, editor.place(90, 75), steps=10)
    editor.wait('the whole line', lambda s: s['section-y'] == 45)
    editor.release()
    editor.picture('section-moved')
    editor.click(*editor.place(100, 100))
    editor.wait('selecting', lambda s: s['first'] == 3)
    ok(True, 'beside the line things are selected as ever')
    editor.press_button('Show no section')
    editor.wait('no section', lambda s: not s['section'])
    ok(editor.state()['saved'], 'looking changes nothing')
    editor.end()


def it_follows_a_drag():
    editor = Editor(plain_plate([drilled(3, 100, 110, 12)]))
    editor.act('section')
    editor.wait('the section', lambda s: s['section'])
    editor.picture('section-begins')
    editor.drag(editor.place(20, 75), editor.place(180, 75))
    editor.wait('the line', lambda s: s['section-x'] == 180)
    area = editor.find('image', 'Section A–A')
    state = editor.state()
    place = state['left'] + area['x'], state['top'] + area['y'], area['width'], area['height']
    editor.picture('section-before')
    start = editor.place(100, 110)
    editor.press(*start)
    editor.move(start, editor.place(100, 77), steps=12)
    editor.wait('the drag', lambda s: s['dragging'])
    editor.picture('section-follows')
    ok(dark_in('section-follows', *place) != dark_in('section-before', *place),
       'a hole that is dragged onto the line is cut while it is dragged')
    editor.key('Escape')
    editor.release()
    editor.end()


def the_example():
    editor = Editor(example('grafting-blades.plate'))
    editor.press_button('Section')
    editor.wait('the section', lambda s: s['section'])
    editor.picture('section-example-begins')
    editor.drag(editor.place(20, 20), editor.place(150, 160))
    editor.wait('the line', lambda s: s['section-y'] > 120)
    editor.picture('section-example')
    ok(True, 'a section of the example')
    editor.act('preview')
    editor.dialog()
    editor.picture('section-preview')
    editor.key('Escape')
    editor.end()


tests(a_line, it_follows_a_drag, the_example)
