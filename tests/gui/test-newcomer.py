"""A newcomer's run: from the first page to a printed drawing, with no file prepared. Every step is
done with the pointer and the keys, each leaves a picture, and nothing may be complained of."""
import os
import subprocess

from driver import Editor, equal, ok, tests, wait_for


def carry(editor, name, x, y):
    start, end = editor.middle(editor.find('list item', name)), editor.place(x, y)
    editor.press(*start)
    editor.move(start, end, steps=20)
    editor.wait('the ghost', lambda s: s['dragging'])
    editor.release()
    editor.wait('the drop', lambda s: not s['dragging'])


def in_form(editor, name, text):
    window = editor.dialog()
    node = editor.find_in_dialog('text box', name)
    editor.point(node['x'] + node['width'] / 2, node['y'] + node['height'] / 2, window)
    editor.click_here()
    editor.key('ctrl+a')
    editor.type(text)
    editor.key('Tab')


def command(editor, words):
    editor.key('ctrl+k')
    window = editor.dialog('the list of commands')
    editor.type(words)
    editor.key('Return')
    wait_for('the list to close', lambda: window not in editor.windows())


def the_run():
    editor = Editor()
    editor.picture('newcomer-01-first')
    # A plate, by its three steps.
    editor.press_button('New plate…')
    editor.enter('Name of the plate', 'First plate')
    editor.enter('Thickness', '3/4')
    editor.picture('newcomer-02-stock')
    editor.press_button('Next')
    editor.click(*editor.middle(editor.find('combo box', 'Base')))
    editor.key('Down', 'Return')
    editor.find('text box', 'Round pin, X')
    editor.picture('newcomer-03-base')
    editor.press_button('Next')
    editor.picture('newcomer-04-datum')
    editor.press_button('Make the plate')
    editor.wait('the plate', lambda s: s['open'] and 'scale' in s)
    editor.picture('newcomer-05-plate')
    # A tapped hole from the tray, too near the edge: it is found while it is dragged.
    inch = 25.4
    carry(editor, 'Tapped 1/4-20', 2 * inch, 0.15 * inch)
    state = editor.wait('a finding', lambda s: s['stop'] + s['caution'] > 0)
    editor.picture('newcomer-06-finding')
    editor.drag(editor.place(2 * inch, 0.15 * inch), editor.place(2 * inch, 1.5 * inch))
    state = editor.wait('no stop', lambda s: s['stop'] == 0 and not s['dragging'])
    # Again at a pitch.
    editor.key('r')
    in_form(editor, 'Places along X', '5')
    in_form(editor, 'Places along Y', '4')
    editor.picture('newcomer-07-repeat')
    editor.answer('Repeat')
    state = editor.wait('the grid', lambda s: s['selected'] == 19)
    editor.picture('newcomer-08-grid')
    equal(state['stop'], 0, 'a plate of twenty holes with no stop')
    # Saved under a name of its own.
    editor.key('ctrl+s')
    path = os.path.join(editor.folder, 'first')
    editor.type_path(path)
    editor.wait('saving', lambda s: s['saved'])
    equal(len(editor.read(path + '.plate')['holes']), 20, 'saved')
    # Looked at, and printed.
    editor.key('ctrl+shift+p')
    window = editor.dialog('the preview')
    editor.picture('newcomer-09-preview')
    editor.key('Escape')
    wait_for('the preview to close', lambda: window not in editor.windows())
    command(editor, 'prints as pdf')
    editor.type_path(os.path.join(editor.folder, 'first.pdf'))
    wait_for('the file', lambda: os.path.exists(os.path.join(editor.folder, 'first.pdf')))
    editor.picture('newcomer-10-printed')
    text = subprocess.run(['pdftotext', '-layout', os.path.join(editor.folder, 'first.pdf'), '-'],
                          capture_output=True, text=True, check=True).stdout
    ok('First plate' in text and '1/4-20' in text, 'the drawing is printed', text[:800])
    # Nobody has said anything on stderr: tested as the editor ends.
    editor.errors.seek(0)
    equal(editor.errors.read(), '', 'no warning was written')
    editor.end()


tests(the_run)
