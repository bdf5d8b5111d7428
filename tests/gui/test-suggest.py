"""Suggestions with their progress and Stop, accepted and refused; and the list of all commands."""
import json
import os
import tempfile

from driver import Editor, drilled, equal, example, ok, plain_plate, tests


def clearing():
    editor = Editor(plain_plate([drilled(3, 100, 75), drilled(4, 105, 75), drilled(5, 2, 40)]))
    ok(editor.state()['stop'] > 0, 'there are stops')
    editor.act('suggest-moves')
    editor.dialog('the page')
    editor.picture('suggest-moves')
    editor.find_in_dialog('button', 'Look for it')
    press(editor, 'Look for it')
    editor.find_in_dialog('button', 'Accept')
    editor.find_in_dialog('label', '2 things moved clear all stops.')
    editor.picture('suggest-moves-found')
    editor.answer('Refuse')
    ok(not editor.state()['undo'], 'refused, nothing is changed')
    editor.act('suggest-moves')
    press(editor, 'Look for it')
    editor.answer('Accept')
    editor.wait('clearing', lambda s: s['stop'] == 0)
    editor.key('ctrl+z')
    editor.wait('undo', lambda s: s['stop'] > 0 and not s['undo'])
    ok(True, 'accepted it is one step of undo')
    editor.end()


def press(editor, name):
    window = editor.dialog('the page')
    node = editor.find_in_dialog('button', name)
    editor.point(node['x'] + node['width'] / 2, node['y'] + node['height'] / 2, window)
    editor.click_here()


def filling():
    # On a plate so large that the search takes its time.
    with open(example('spacers.plate'), encoding='utf-8') as file:
        plate = json.load(file)
    plate['plate']['stock'].update(length=900, width=700)
    path = os.path.join(tempfile.mkdtemp(prefix='pinplate-gui-'), 'large.plate')
    with open(path, 'w', encoding='utf-8') as file:
        json.dump(plate, file)
    editor = Editor(path)
    before = editor.state()
    editor.act('suggest-stations')
    press(editor, 'Look for it')
    editor.find_in_dialog('button', 'Stop')
    editor.picture('suggest-looking')
    press(editor, 'Stop')
    editor.find_in_dialog('button', 'Accept')
    editor.picture('suggest-stopped')
    editor.answer('Accept')
    state = editor.wait('filling', lambda s: s['records'] > before['records'])
    ok(state['stop'] <= before['stop'], 'no station that is suggested brings a stop')
    editor.picture('suggest-filled')
    editor.end()


def finding_a_command():
    editor = Editor(plain_plate([drilled(3, 100, 75), drilled(4, 60, 40)]))
    editor.key('ctrl+a')
    editor.wait('selecting', lambda s: s['selected'] == 2)
    editor.key('ctrl+k')
    editor.dialog('the list')
    editor.picture('suggest-commands')
    editor.type('back edges')
    editor.picture('suggest-command-found')
    editor.key('Return')
    editor.wait('aligning', lambda s: s['undo'])
    editor.key('ctrl+s')
    editor.wait('saving', lambda s: s['saved'])
    equal(sorted(h['at'] for h in editor.read()['holes']), [[60, 75], [100, 75]],
          'a command is found by its words and carried out')
    editor.key('ctrl+k')
    editor.dialog('the list')
    editor.type('nothing like it')
    editor.find_in_dialog('label', 'Nothing is called that.')
    editor.key('Escape')
    ok(True, 'and where there is none, that is said')
    editor.act('keys')
    editor.dialog('the keys')
    editor.picture('suggest-keys')
    editor.end()


tests(clearing, filling, finding_a_command)
