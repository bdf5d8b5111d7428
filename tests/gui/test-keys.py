"""The page of keys says what the program is bound to, no less and no more; and each action can be had
from the keyboard."""
import glob
import os
import re
import xml.etree.ElementTree

from driver import SOURCE, Editor, drilled, equal, ok, plain_plate, tests, wait_for

ARROWS = ('Left', 'Right', 'Up', 'Down')


def sources():
    found = []
    for path in sorted(glob.glob(os.path.join(SOURCE, 'src/editor/*.c'))):
        with open(path, encoding='utf-8') as file:
            found.append((os.path.basename(path), file.read()))
    return found


def accelerator(held, key):
    found = ''
    for name, written in (('CONTROL', '<Control>'), ('SHIFT', '<Shift>'), ('ALT', '<Alt>')):
        if name in held:
            found += written
    return found + key


BINDING = re.compile(r'binding_action\(\s*(\w+)(?:\[i\])?,\s*GDK_KEY_(\w+),\s*([^,]+),\s*"([^"]+)"')
ROW = re.compile(r'\{GDK_KEY_(\w+), ([^,]+), "(win\.[^"]+)"')
APPLICATION = re.compile(r'add_accelerator\(gtk, "([^"]+)", "([^"]+)"\)')


def bound():
    """Accelerators of the main window's parts to their actions."""
    found = {}
    for name, text in sources():
        if name in ('figures.c', 'preview.c'):
            continue  # windows of their own
        for _, key, held, action in BINDING.findall(text):
            found[accelerator(held, key)] = action
        for key, held, action in ROW.findall(text):
            found[accelerator(held, key)] = action
        for action, keys in APPLICATION.findall(text):
            found[keys] = action
    for arrow in ARROWS:
        found[arrow] = found['<Shift>' + arrow] = 'win.nudge'
    return found


def page():
    """What the page of keys shows: of each row its title, its action or its accelerators."""
    tree = xml.etree.ElementTree.parse(os.path.join(SOURCE, 'ui/shortcuts.ui'))
    rows = []
    for row in tree.iter('object'):
        if row.get('class') == 'GtkShortcutsShortcut':
            rows.append({p.get('name'): p.text for p in row.findall('property')})
    return rows


def the_page_is_true():
    keys, by_action = bound(), {action: keys for keys, action in bound().items()}
    shown, lies = set(), []
    for row in page():
        if 'action-name' in row:
            if row['action-name'] in by_action:
                shown.add(row['action-name'])
            else:
                lies.append(row['title'])
        for each in row.get('accelerator', '').split():
            if each == 'Escape':
                continue  # the layout's own handler has it
            if each in keys:
                shown.add(keys[each])
            else:
                lies.append('%s: %s' % (row['title'], each))
    equal(lies, [], 'each key on the page is bound to something')
    kept_quiet = {action for action in keys.values()
                  if action not in shown and not action.startswith('window.')}
    equal(sorted(kept_quiet - {'layout.menu'}), [], 'each action with a key stands on the page')


# What a widget offers to screen readers in place of its keys, and what scripts use in place of a
# file chooser; Escape selects nothing by the layout's own handler.
NOT_FOR_KEYS = {'choose', 'next', 'previous', 'take-part', 'take-folder', 'select-none', 'state'}


def every_action_can_be_had():
    """By a key, or from a menu, the list of commands or a button, all of which the keys reach."""
    said = ''.join(text for _, text in sources())
    for path in glob.glob(os.path.join(SOURCE, 'ui/*.ui')):
        with open(path, encoding='utf-8') as file:
            said += file.read()
    had = {name.split('.')[1] for name in re.findall(r'[">]([a-z]+\.[\w-]+)[:"<]', said)}
    actions = {action for _, text in sources()
               for action in re.findall(r'\{\.name = "([\w-]+)"', text)}
    ok(len(actions) > 60, 'the actions are found', len(actions))
    equal(sorted(actions - had - NOT_FOR_KEYS), [], 'none of them is for a pointer alone')


def keys_do_what_the_page_says():
    editor = Editor(plain_plate([drilled(3, 50, 50), drilled(4, 100, 75), drilled(5, 150, 50)]))
    for key, name, test in (
            ('n', 'next thing', lambda s: s['selected'] == 1 and s['first'] == 3),
            ('shift+n', 'the one before', lambda s: s['first'] == 5),
            ('ctrl+a', 'select all', lambda s: s['selected'] == 3),
            ('Escape', 'select nothing', lambda s: s['selected'] == 0),
            ('n', 'next thing', lambda s: s['first'] == 3),
            ('g', 'an upright guide', lambda s: s['guides'] == 1),
            ('shift+g', 'a level guide', lambda s: s['guides'] == 2),
            ('ctrl+d', 'duplicate', lambda s: s['records'] == 6),
            ('Delete', 'delete', lambda s: s['records'] == 5),
            ('ctrl+z', 'undo', lambda s: s['records'] == 6),
            ('ctrl+shift+z', 'redo', lambda s: s['records'] == 5),
            ('ctrl+y', 'redo again', lambda s: s['records'] == 5)):
        editor.key(key)
        editor.wait('%s: %s' % (key, name), test)
        ok(True, '%s: %s' % (key, name))
    for key, what in (('ctrl+k', 'the commands'), ('ctrl+comma', 'the preferences'),
                      ('ctrl+question', 'the keys'), ('ctrl+shift+p', 'the preview'),
                      ('ctrl+e', 'the figures'), ('ctrl+o', 'a file to open')):
        editor.key(key)
        window = editor.dialog(what)
        if what == 'the keys':
            editor.picture('keys-page')
        editor.key('Escape')
        wait_for(what + ' to close', lambda: window not in editor.windows())
        ok(True, '%s opens %s, and Escape closes it' % (key, what))
    editor.end()


tests(the_page_is_true, every_action_can_be_had, keys_do_what_the_page_says)
