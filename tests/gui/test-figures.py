"""The figures of the trade: typed into their window, answered at once, used in a selected hole."""
import json
import math
import subprocess

from driver import (PROGRAM, Editor, by_number, drilled, equal, ok, plain_plate, tests, wait_for,
                    xdo)

FIGURES = 2  # the number of the window that comes after the plate's


def tapped(number, x, y, thread, drill, major):
    hole = drilled(number, x, y, drill)
    hole['steps'].append({'kind': 'tap', 'diameter': major, 'through': True, 'thread': thread})
    return hole


def open_figures(editor):
    editor.key('ctrl+e')
    wait_for('the figures', lambda: editor.window_named('Figures'))
    editor.wait('a figure', lambda s: s.get('figure') == 'thread', number=FIGURES)


def go_to(editor, figure):
    for _ in range(12):
        now = editor.state(FIGURES)['figure']
        if now == figure:
            return
        editor.key('ctrl+Next')
        editor.wait('the next figure', lambda s: s['figure'] != now, number=FIGURES)


def in_figures(editor, role, name):
    """The accessible of that role and name in the figures' window that is shown."""
    def ask():
        nodes = editor.tree()
        first = [n['name'] for n in nodes].index('Figures')
        found = [node for node in nodes[first:]
                 if node['role'] == role and node['name'] == name and node['width'] > 1]
        return found[0] if found else None
    return wait_for('%s "%s" of the figures' % (role, name), ask)


def click_in_figures(editor, role, name):
    node = in_figures(editor, role, name)
    state = editor.state(FIGURES)
    editor.point(state['left'] + node['x'] + node['width'] / 2,
                 state['top'] + node['y'] + node['height'] / 2,
                 window=editor.window_named('Figures'))
    xdo('click', 1)


def type_over(editor, name, text):
    """Into the field of that name, in place of what it holds; nothing is pressed after it."""
    click_in_figures(editor, 'text box', name)
    editor.key('ctrl+a')
    editor.type(text)


def answer(editor, starts):
    return editor.wait('the answer ' + starts, lambda s: s['answer'].startswith(starts),
                       number=FIGURES)


def command(*words):
    done = subprocess.run([PROGRAM, 'figure', *words, '--json'], capture_output=True, text=True)
    return json.loads(done.stdout)['result']


def saved_hole(editor, number):
    editor.key('ctrl+s')
    editor.wait('saving', lambda s: s['saved'])
    return by_number(editor.read()['holes'], number)


def select(editor, x, y, number):
    editor.click(*editor.place(x, y))
    editor.wait('the hole', lambda s: s['first'] == number)


def a_tap_drill_into_a_hole():
    editor = Editor(plain_plate([drilled(3, 50, 50), tapped(4, 100, 50, 'M6', 5.0, 6.0)],
                                unit='inch'))
    select(editor, 50, 50, 3)
    open_figures(editor)
    editor.type('10-32')  # in place of what is selected in the first field
    answer(editor, '0.1590 in')
    type_over(editor, 'Thread', '1/4-20')
    state = answer(editor, '0.2010 in (5.105 mm)')
    ok(True, 'the tap drill of 1/4-20 is read while it is typed')  # No. 7: handbook tables
    ok(state['usable'], 'the selected hole can take it')
    equal(round(command('thread', '1/4-20')['tap_drill'], 3), 5.105, 'the command says the same')
    editor.picture('figures-thread')

    click_in_figures(editor, 'button', 'Use for its drill')
    editor.wait('the hole changed', lambda s: s['undo'] and not s['saved'])
    editor.wait('nothing left to use', lambda s: not s['usable'], number=FIGURES)
    ok(True, 'the hole took the drill')
    editor.key('ctrl+z')
    editor.wait('undo', lambda s: not s['undo'])
    editor.wait('it can be used again', lambda s: s['usable'], number=FIGURES)
    ok(True, 'one undo takes it back, from the figures too')
    click_in_figures(editor, 'button', 'Use for its drill')
    editor.wait('the hole changed', lambda s: s['undo'])
    editor.key('ctrl+w')
    wait_for('the figures to close', lambda: not editor.window_named('Figures'))
    equal(saved_hole(editor, 3)['steps'][0]['diameter'], 5.1054, 'No. 7 is in the file')

    select(editor, 100, 50, 4)
    editor.key('ctrl+e')
    wait_for('the figures', lambda: editor.window_named('Figures'))
    answer(editor, '0.2010 in')
    ok(True, 'what was typed is still there when the figures are opened again')
    editor.wait('a use', lambda s: s['usable'], number=FIGURES)
    click_in_figures(editor, 'button', 'Use for its drill and tap')
    editor.wait('the hole changed', lambda s: not s['saved'])
    editor.key('Escape')
    wait_for('the figures to close', lambda: not editor.window_named('Figures'))
    drill, tap = saved_hole(editor, 4)['steps']
    equal((drill['diameter'], tap['thread'], tap['diameter']), (5.1054, '1/4-20', 6.35),
          'a tapped hole takes the thread with its drill')
    editor.end()


def what_is_wrong():
    editor = Editor(plain_plate([drilled(3, 50, 50)], unit='inch'))
    open_figures(editor)
    editor.type('1/4-21')
    state = editor.wait('a refusal', lambda s: '1/4-20' in s['answer'], number=FIGURES)
    ok(not state['usable'] and '--' not in state['answer'], 'the nearest threads are named',
       state['answer'])
    ok(in_figures(editor, 'label', state['answer']), 'and said below the field as well')
    editor.picture('figures-refused')
    editor.key('ctrl+a', 'BackSpace')
    editor.wait('a wish', lambda s: 'Thread' in s['answer'], number=FIGURES)
    ok(True, 'an empty field is asked for')
    go_to(editor, 'bevel')
    type_over(editor, 'Edge', '0.2')
    state = editor.wait('a refusal', lambda s: 'edge' in s['answer'], number=FIGURES)
    ok('thinner' in state['answer'], 'an edge thicker than the blade is refused', state['answer'])
    editor.end()


def expressions_and_units():
    editor = Editor(plain_plate([drilled(3, 50, 50)], unit='inch'))
    open_figures(editor)
    go_to(editor, 'bevel')
    type_over(editor, 'Thickness', '1/8 + 0.5mm')
    type_over(editor, 'Edge', '0.02')
    height = (3.175 + 0.5 - 0.508) / (2 * math.tan(math.radians(7.5)))
    answer(editor, '%.4f in' % (height / 25.4))
    ok(True, 'an expression of both units is worked out')
    type_over(editor, 'Height instead', '0.5')
    answer(editor, '0.5000 in')
    ok(True, 'a height typed takes the place of the angle')
    editor.picture('figures-bevel')
    click_in_figures(editor, 'combo box', 'What a number with no unit is in')
    editor.key('Down', 'Return')
    answer(editor, '12.7 mm (0.5000 in)')
    ok(True, 'what was typed in inches stays in inches when the unit changes')
    editor.picture('figures-bevel-mm')
    editor.end()


def every_figure_answers():
    editor = Editor(plain_plate([drilled(3, 50, 50)]))
    open_figures(editor)
    for figure in ('thread', 'drill', 'tap', 'engagement', 'fit', 'bevel', 'sine', 'cusp',
                   'location-error', 'holding', 'batch'):
        go_to(editor, figure)
        state = editor.state(FIGURES)
        ok(any(c.isdigit() for c in state['answer']), figure + ' has an answer from the start',
           state['answer'])
        ok(any(node['name'] and node['width'] > 1 for node in editor.tree('image')),
           figure + ' has a picture with a name')
        editor.picture('figures-' + figure)
    editor.end()


def quitting_with_figures_open():
    editor = Editor(plain_plate([drilled(3, 50, 50)]))
    open_figures(editor)
    editor.key('ctrl+q')
    wait_for('the end', lambda: editor.process.poll() is not None)
    equal(editor.process.poll(), 0, 'the figures go with the plate')
    editor.end()


tests(a_tap_drill_into_a_hole, what_is_wrong, expressions_and_units, every_figure_answers,
      quitting_with_figures_open)
