"""Operations: set up, stepped through, ordered and changed; and the commands of inclined faces."""
import json

from driver import Editor, by_number, drilled, equal, example, ok, plain_plate, tests, wait_for


def save(editor):
    editor.act('save')
    editor.wait('saving', lambda s: s['saved'])
    return editor.read()


def names(plate, kind):
    found = sorted((o for o in plate['operations'] if o['kind'] == kind),
                   key=lambda o: o['order'])
    return [o['name'] for o in found]


def with_part(part):
    """A plate of 220 x 160 x 20 mm with a face that falls to the front, and a part in its tray."""
    path = plain_plate([drilled(60, 20, 140)], length=220, width=160)
    with open(path, encoding='utf-8') as file:
        plate = json.load(file)
    plate['faces'].append({'id': 50, 'name': 'front', 'kind': 'inclined', 'from': [220, 40],
                           'to': [0, 40], 'angle': 6.5, 'extent': 40.258})
    plate['parts'] = [part]
    with open(path, 'w', encoding='utf-8') as file:
        json.dump(plate, file)
    return path


def read_example(name):
    with open(example(name), encoding='utf-8') as file:
        return json.load(file)


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


def select(editor, number):
    """By the keyboard's way round the face that is shown."""
    for _ in range(80):
        if editor.state()['first'] == number:
            return
        editor.act('select-next', '<int32 1>')
    raise AssertionError('%d can not be selected' % number)


def press(editor, name):
    """Presses a button of the details, brought into sight with the wheel."""
    def ask():
        node = editor.find('button', name)
        if 85 < node['y'] and node['y'] + node['height'] < 468:
            return node
        editor.point(1120, 250)
        for _ in range(1 + abs(node['y'] - 250) // 80):
            editor.click_here(5 if node['y'] > 250 else 4)
        return None
    editor.click(*editor.middle(wait_for(name + ' in sight', ask)))


def a_new_face():
    blade = read_example('grafting-blades.plate')['parts'][0]
    editor = Editor(with_part(blade))
    editor.act('next-face', '<int32 1>')
    state = editor.wait('the face', lambda s: s['face'] == 50)
    press(editor, 'Add a reference hole')
    editor.wait('the hole', lambda s: s['records'] > state['records'])
    face = by_number(save(editor)['faces'], 50)
    ok(face.get('reference_hole'), 'a face gets its reference hole')
    editor.act('bevel-pair')
    editor.wait('the pair', lambda s: s['selected'] == 2)
    plate = save(editor)
    pair = [s for s in plate['stations'] if s['face'] == 50]
    equal(sorted(bool(s.get('turned_over')) for s in pair), [False, True],
          'both stations of a blade, one turned over')
    editor.picture('operations-bevel-pair')
    station = [s for s in pair if not s.get('turned_over')][0]
    editor.act('select-none')
    editor.wait('nothing', lambda s: s['selected'] == 0)
    select(editor, station['id'])
    editor.enter('Y on the face', '-12')
    editor.wait('moving', lambda s: not s['saved'])
    press(editor, 'Line the bevel up')
    wait_for('lining up', lambda: by_number(save(editor)['stations'], station['id'])['at'][1] ==
             station['at'][1])
    ok(True, "a station's bevel is lined up with the break line again")
    editor.end()


def nests():
    editor = Editor(example('grafting-blades.plate'))
    plate = editor.read()
    nest = [r for r in plate['recesses'] if 'nest' in r['kind']][0]
    editor.press_button('Features', 'tab')
    row = editor.find('label', 'Nest ' + nest['label'])
    editor.click(*editor.middle(row))
    editor.wait('the nest', lambda s: s['first'] == nest['id'])
    offers = [n['name'] for n in editor.tree('button') if n['name'].startswith('Add: ')]
    ok(len(offers) > 0, 'a nest is offered what it lacks', offers)
    editor.picture('operations-nest')
    records = editor.state()['records']
    press(editor, offers[0])
    editor.wait('the offer', lambda s: s['records'] > records)
    left = [n['name'] for n in editor.tree('button') if n['name'].startswith('Add: ')]
    ok(offers[0] not in left, 'what is taken is not offered again', left)
    editor.end()


def a_shared_base():
    editor = Editor(example('spacers.plate'))
    equal(editor.read().get('bases', []), [], 'a plate with no base')
    editor.act('take-base')
    editor.type_path(example('grafting-blades.plate'))
    editor.wait('the base', lambda s: s['undo'])
    equal([b['name'] for b in save(editor)['bases']], ['Mill base 1'],
          'takes that of another plate')
    editor.end()


tests(a_new_face, nests, a_shared_base, stepping, listing, passes, setting_up, bevels)
