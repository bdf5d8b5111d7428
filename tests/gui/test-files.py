"""Opening, saving, closing, and what is brought back after a run that ended badly."""
import json
import os
import shutil
import subprocess
import tempfile
import time

from driver import (Editor, Failed, by_number, drilled, equal, ok, plain_plate, tests, wait_for)


def a_new_plate():
    editor = Editor()
    ok(not editor.state()['open'], 'without a file the first page is shown')
    editor.picture('files-start')
    editor.press_button('New plate…')
    editor.find('button', 'Next')
    editor.enter('Length, along X', '10', key=None)
    editor.enter('Thickness', '5/8', key=None)
    editor.press_button('Make the plate')
    editor.wait('the plate', lambda s: s['open'] and 'scale' in s)
    editor.key('ctrl+s')
    path = os.path.join(editor.folder, 'ten by six')
    editor.type_path(path)
    editor.wait('saving', lambda s: s['saved'])
    stock = editor.read(path + '.plate')['plate']['stock']
    equal((stock['length'], stock['thickness']), (254, 15.875),
          'saved under the typed name, with the typed sizes')
    editor.picture('files-new')
    editor.end()


def save_as_and_open():
    editor = Editor(plain_plate([drilled(3, 50, 50)]))
    before = open(editor.plate, 'rb').read()
    editor.drag(editor.place(50, 50), editor.place(70, 70))
    editor.wait('the drag', lambda s: s['undo'] and not s['dragging'])
    editor.key('ctrl+shift+s')
    other = os.path.join(editor.folder, 'other.plate')
    editor.type_path(other)
    editor.wait('saving', lambda s: s['saved'])
    equal(by_number(editor.read(other)['holes'], 3)['at'], [70, 70], 'save as writes the new file')
    equal(open(editor.plate, 'rb').read(), before, 'and leaves the old one alone')
    editor.key('ctrl+o')
    editor.type_path(editor.plate)
    editor.wait('a second window', lambda s: s.get('open'), number=2)
    ok(True, 'another plate opens in a window of its own')
    editor.end()


def recent():
    plate = plain_plate([drilled(3, 50, 50)], name='rack-plate')
    editor = Editor(plate)
    editor.key('ctrl+w')
    editor.process.wait(30)
    editor.start([editor.process.args[0]])
    node = wait_for('the plate in the list of recent ones', lambda: [
        n for n in editor.tree('label') if n['name'] == 'rack-plate.plate' and n['width'] > 1])[0]
    editor.picture('files-recent')
    editor.click(*editor.middle(node))
    try:
        editor.wait('the plate', lambda s: s['open'])
        ok(True, 'a recent plate opens from the first page')
    except Failed:
        ok(False, 'a recent plate opens from the first page')
    editor.end()


def close_with_changes():
    editor = Editor(plain_plate([drilled(3, 50, 50)]))
    before = open(editor.plate, 'rb').read()
    editor.drag(editor.place(50, 50), editor.place(70, 70))
    editor.wait('the drag', lambda s: s['undo'] and not s['dragging'])
    editor.key('ctrl+w')
    editor.dialog('the question')
    editor.picture('files-close')
    editor.answer('Cancel')
    ok(editor.alive(), 'cancelled, the window stays')
    editor.key('ctrl+w')
    editor.answer('Close without saving')
    editor.process.wait(20)
    equal(open(editor.plate, 'rb').read(), before, 'closed without saving, the file is as it was')
    editor.start([editor.process.args[0], editor.plate])
    equal(editor.windows(), [editor.window()], 'and nothing is offered at the next start')
    editor._main = None
    editor.drag(editor.place(50, 50), editor.place(70, 70))
    editor.wait('the drag', lambda s: s['undo'] and not s['dragging'])
    editor.key('ctrl+w')
    editor.answer('Save')
    editor.process.wait(20)
    equal(by_number(editor.read()['holes'], 3)['at'], [70, 70], 'saved and closed')
    editor.end()


def recovery():
    editor = Editor(plain_plate([drilled(3, 50, 50)]))
    editor.drag(editor.place(50, 50), editor.place(70, 70))
    editor.wait('the drag', lambda s: s['undo'] and not s['dragging'])
    editor.kill()
    equal(by_number(editor.read()['holes'], 3)['at'], [50, 50], 'killed before it was saved')
    arguments = [editor.process.args[0], editor.plate]
    editor.process = subprocess.Popen(arguments, stderr=editor.errors)
    wait_for('the window', lambda: editor.window())
    main = wait_for('the first page', lambda: editor.window_named('^Pinplate$'))
    editor._main = main
    editor.dialog('the offer')
    editor.picture('files-recovery')
    editor.answer('Bring them back')
    state = editor.wait('the plate', lambda s: s['open'])
    ok(not state['saved'], 'what is brought back is not saved yet')
    # Killed again before it is saved: it is still offered.
    editor.kill()
    editor._main = None
    editor.process = subprocess.Popen(arguments, stderr=editor.errors)
    editor._main = wait_for('the first page', lambda: editor.window_named('^Pinplate$'))
    editor.answer('Bring them back')
    editor.wait('the plate', lambda s: s['open'] and 'scale' in s)
    editor.key('ctrl+s')
    time.sleep(0.3)
    others = [w for w in editor.windows() if w != editor.main]
    if others:
        editor.answer('Replace it')
    editor.wait('saving', lambda s: s['saved'])
    equal(by_number(editor.read()['holes'], 3)['at'], [70, 70], 'the drag is not lost')
    editor.end()


def changed_underneath():
    editor = Editor(plain_plate([drilled(3, 50, 50)]))
    editor.drag(editor.place(50, 50), editor.place(70, 70))
    editor.wait('the drag', lambda s: s['undo'] and not s['dragging'])
    plate = editor.read()
    plate['plate']['name'] = 'by somebody else'
    with open(editor.plate + '.new', 'w', encoding='utf-8') as file:
        json.dump(plate, file)
    os.rename(editor.plate + '.new', editor.plate)
    editor.key('ctrl+s')
    editor.dialog('the question')
    editor.picture('files-conflict')
    editor.answer('Cancel')
    equal(editor.read()['plate']['name'], 'by somebody else', 'nothing is replaced unasked')
    editor.key('ctrl+s')
    editor.answer('Replace it')
    editor.wait('saving', lambda s: s['saved'])
    equal(by_number(editor.read()['holes'], 3)['at'], [70, 70], 'asked, it is')
    editor.end()


def a_broken_file():
    folder = tempfile.mkdtemp(prefix='pinplate-gui-')
    path = os.path.join(folder, 'broken.plate')
    with open(path, 'w', encoding='utf-8') as file:
        file.write('{"format": "pinplate-plate", "version": 1, "plate": {')
    editor = Editor()
    editor.key('ctrl+o')
    editor.type_path(path)
    wait_for('the message', lambda: [n for n in editor.tree('label')
                                     if 'broken.plate' in n['name'] and n['width'] > 1])
    editor.picture('files-broken')
    ok(not editor.state()['open'], 'a file that is none is refused with its place')
    editor.end()
    shutil.rmtree(folder)


tests(a_new_plate, save_as_and_open, recent, close_with_changes, recovery, changed_underneath,
      a_broken_file)
