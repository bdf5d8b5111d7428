"""Operations: set up, stepped through, ordered and changed; and the commands of inclined faces."""
from driver import Editor, by_number, equal, example, ok, tests, wait_for


def save(editor):
    editor.act('save')
    editor.wait('saving', lambda s: s['saved'])
    return editor.read()


def names(plate, kind):
    found = sorted((o for o in plate['operations'] if o['kind'] == kind),
                   key=lambda o: o['order'])
    return [o['name'] for o in found]


def stepping():
    editor = Editor(example('grafting-blades.plate'))
    plate = editor.read()
    editor.click(*editor.place(-5, 10))
    seen = []
    for i in range(len(plate['operations'])):
        editor.key('ctrl+Next')
        state = editor.wait('the next operation', lambda s: s['operation'] not in [0] + seen)
        seen.append(state['operation'])
        operation = by_number(plate['operations'], state['operation'])
        editor.picture('operation-%d' % (i + 1))
        equal(state['face'], operation['face'], '%s is shown on its face' % operation['name'])
    equal([by_number(plate['operations'], i)['kind'] for i in seen],
          ['making'] * 3 + ['running'] * 4, 'first the plate is made, then it runs')
    editor.key('ctrl+Next')
    editor.wait('all', lambda s: s['operation'] == 0)
    ok(True, 'past the last one is all that there is')
    editor.key('ctrl+Prior')
    editor.wait('the last', lambda s: s['operation'] == seen[-1])
    ok(editor.state()['saved'], 'looking changes nothing')
    editor.end()


def listing():
    editor = Editor(example('grafting-blades.plate'))
    editor.press_button('Operations', 'tab')
    row = editor.find('list item', '1  Drill the holes')
    editor.click(*editor.middle(row))
    state = editor.wait('the operation', lambda s: s['operation'] != 0)
    editor.picture('operation-list')
    equal(by_number(editor.read()['operations'], state['operation'])['name'], 'Drill the holes',
          'a row shows its operation')
    editor.press_button('Later')
    editor.wait('the order', lambda s: s['undo'])
    equal(names(save(editor), 'running')[:2], ['Cut the profile', 'Drill the holes'],
          'it can be put later')
    editor.key('ctrl+z')
    editor.wait('undo', lambda s: not s['saved'])
    editor.enter('Name', 'Drill and chamfer')
    wait_for('the name', lambda: any('Drill and chamfer' in n['name']
                                     for n in editor.tree('list item')))
    equal(names(save(editor), 'running')[0], 'Drill and chamfer', 'its name is typed in the details')
    records = editor.state()['records']
    editor.press_button('Take this operation away')
    editor.wait('taking away', lambda s: s['records'] == records - 1)
    equal(names(save(editor), 'running')[0], 'Cut the profile', 'it can be taken away')
    editor.press_button('Add one that runs')
    state = editor.wait('adding', lambda s: s['records'] == records)
    editor.enter('Name', 'Chamfer')
    plate = save(editor)
    new = by_number(plate['operations'], state['operation'])
    equal((new['name'], new['kind'], new['order']), ('Chamfer', 'running', 5),
          'one is added at the end')
    editor.end()


def passes():
    editor = Editor(example('grafting-blades.plate'))
    editor.press_button('Operations', 'tab')
    row = editor.find('list item', '2  Cut the profile')
    editor.click(*editor.middle(row))
    state = editor.wait('the operation', lambda s: s['operation'] != 0)

    def roll(role, name):
        def ask():
            node = editor.find(role, name)
            if 85 < node['y'] and node['y'] + node['height'] < 468:
                return node
            editor.point(1120, 250)
            for _ in range(1 + abs(node['y'] - 250) // 80):
                editor.click_here(5 if node['y'] > 250 else 4)
            return None
        return wait_for(name + ' in sight', ask)
    editor.click(*editor.middle(roll('checkbox', 'station 1')))
    editor.wait('the change', lambda s: s['undo'])
    roll('text box', 'Cutting force, N')
    editor.enter('Cutting force, N', '120')
    roll('text box', 'Stock left')
    editor.enter('Stock left', '1/64in')
    editor.picture('operation-pass')
    operation = by_number(save(editor)['operations'], state['operation'])
    equal((operation['stations'], operation['passes'][0]['force'],
           operation['passes'][0]['stock_left']), ([23, 35], 120, 0.396875),
          'stations and passes are changed in the details')
    editor.end()


def setting_up():
    editor = Editor(example('spacers.plate'))
    editor.press_button('Operations', 'tab')
    editor.press_button('Set up the running')
    editor.wait('the running', lambda s: s['undo'])
    editor.press_button('Set up the making')
    wait_for('the making', lambda: len(names(save(editor), 'making')) > 0)
    plate = save(editor)
    ok(len(names(plate, 'running')) > 0, 'one command sets up the running', names(plate, 'running'))
    ok(all(h.get('operation') for h in plate['holes']), 'another puts each hole in an operation')
    editor.picture('operations-set-up')
    editor.end()


def bevels():
    editor = Editor(example('grafting-blades.plate'))
    plate = editor.read()
    station = [s for s in plate['stations'] if s.get('mirror_of')][0]
    editor.act('next-face', '<int32 1>')
    editor.wait('the face', lambda s: s['face'] == station['face'])
    ok(editor.enabled('reference-hole') and not editor.enabled('line-up-bevel'),
       'commands are there where they can be used')
    for _ in range(60):
        editor.act('select-next', '<int32 1>')
        if editor.state()['first'] == station['id']:
            break
    ok(editor.enabled('line-up-bevel'), 'a station of an inclined face can be lined up')
    records = editor.state()['records']
    editor.act('support-relief')
    editor.wait('the relief', lambda s: s['records'] > records)
    editor.picture('operation-relief')
    editor.end()


tests(stepping, listing, passes, setting_up, bevels)
