"""Findings that the maker lets stand, and limits changed for one plate."""
from driver import Editor, drilled, equal, ok, plain_plate, tests, wait_for


def save(editor):
    editor.key('ctrl+s')
    editor.wait('saving', lambda s: s['saved'])
    return editor.read()['plate']


def choose(editor, words):
    message = [node for node in editor.tree('label') if words in node['name']][0]
    editor.click(*editor.middle(message))
    editor.wait('choosing', lambda s: s['selected'] > 0)


def accepting():
    editor = Editor(plain_plate([drilled(3, 4, 75)]))
    before = editor.wait('a stop', lambda s: s['stop'] > 0)
    equal([n for n in editor.tree('button') if n['name'].startswith('Accept') and n['width'] > 1], [],
          'the row that is not chosen has no button to accept it')
    choose(editor, 'edge')
    editor.press_button('Accept…')
    editor.dialog()
    ok('sensitive' not in editor.find_in_dialog('button', 'Accept')['states'],
       'nothing is accepted without a reason')
    editor.type('Stop pin, nothing is near')
    editor.picture('accept-question')
    editor.key('Return')
    state = editor.wait('accepting', lambda s: s['stop'] == before['stop'] - 1)
    ok(state['undo'], 'it is a step of undo')
    accepted = save(editor)['accepted']
    equal([(a['rule'], a['features'], a['reason']) for a in accepted],
          [('edge-distance', [3], 'Stop pin, nothing is near')], 'the plate keeps it, with the reason')
    ok(len(accepted[0]['date']) == 10, 'and the day', accepted)
    ok(any('Stop pin' in node['name'] for node in editor.tree('label') if node['width'] > 1),
       'the row shows the reason')
    editor.picture('accepted')
    found = [f for f in editor.check()['findings'] if f['rule'] == 'edge-distance']
    ok(found and all(f.get('accepted') for f in found), 'the command says so too', found)
    editor.press_button('Take back')
    editor.wait('taking back', lambda s: s['stop'] == before['stop'])
    ok('accepted' not in save(editor), 'it can be taken back, and nothing is left in the plate')
    editor.end()


def limits():
    # 20 mm of wall: fine as the limits start, not with one of 25 mm.
    editor = Editor(plain_plate([drilled(3, 4, 75), drilled(4, 23, 75)]))
    before = editor.wait('a stop', lambda s: s['stop'] > 0)
    choose(editor, 'edge')
    editor.press_button('Limits…')
    window = editor.dialog()
    entry = editor.find_in_dialog('text box', 'Least wall to the edge in aluminium')
    ok(any('Usually 2 mm: common practice' in n['name'] for n in editor.tree('label')),
       'the usual limit and its source stand beside it')
    editor.point(entry['x'] + entry['width'] / 2, entry['y'] + entry['height'] / 2, window)
    editor.click_here()
    editor.key('ctrl+a')
    editor.type('1in')
    editor.key('Return')
    editor.wait('more stops', lambda s: s['stop'] > before['stop'])
    editor.picture('limits-changed')
    editor.key('ctrl+a')
    editor.type('less')
    editor.key('Return')
    wait_for('the refusal', lambda: any('is not known' in n['name']
                                        for n in editor.tree('label')))
    ok(True, 'what is no length is refused in words')
    button = editor.find_in_dialog('button', 'Put back')
    editor.point(button['x'] + button['width'] / 2, button['y'] + button['height'] / 2, window)
    editor.click_here()
    editor.wait('putting back', lambda s: s['stop'] == before['stop'])
    editor.key('Escape')
    ok('limits' not in save(editor), 'a limit that is put back leaves nothing in the plate')
    editor.act('limits')
    editor.dialog()
    editor.picture('limits')
    editor.key('Escape')
    editor.end()


tests(accepting, limits)
