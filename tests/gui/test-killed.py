"""Killed at random moments of a scripted run of edits: what is offered at the next start is the plate
with every edit but the one that was under way.

The script is carried out once to its end and saved after each edit; these files are what a killed
run is compared with, byte by byte. An edit counts as done once the window shows its records; the
kill comes at a random moment after the next one's keys.
"""
import difflib
import os
import random
import subprocess
import time

from driver import Editor, drilled, ok, plain_plate, tests, wait_for

EDITS = 12
KILLS = int(os.environ.get('PINPLATE_KILLS', '8'))
SEED = int(os.environ.get('PINPLATE_SEED', '20261125'))
LATEST = 0.08  # s after the keys begin to be pressed; an edit takes a few hundredths


def script(chance):
    """Keys; each changes how many records the plate has."""
    keys, done, undone, selected = [], 0, 0, False
    for _ in range(EDITS):
        choices = ['ctrl+v', 'ctrl+v', 'ctrl+v']
        choices += ['Delete', 'Delete'] if selected else []
        choices += ['ctrl+z'] if done else []
        choices += ['ctrl+shift+z'] if undone else []
        key = chance.choice(choices)
        keys.append(key)
        selected = key == 'ctrl+v'
        if key == 'ctrl+z':
            done, undone = done - 1, undone + 1
        elif key == 'ctrl+shift+z':
            done, undone = done + 1, undone - 1
        else:
            done, undone = done + 1, 0
    return keys


def begin(plate):
    editor = Editor(plate)
    editor.click(*editor.place(50, 50))
    editor.wait('the hole to be chosen', lambda s: s['selected'] == 1)
    editor.key('ctrl+c')
    return editor


def carry_out(editor, key, records):
    editor.key(key)
    return editor.wait(key, lambda s: s['records'] != records)['records']


def to_the_end(plate, keys):
    """The plate's bytes as they are saved after each edit, the first before any."""
    editor = begin(plate)
    saved = [open(editor.plate, 'rb').read()]
    records = editor.state()['records']
    for key in keys:
        records = carry_out(editor, key, records)
        editor.key('ctrl+s')
        editor.wait('saving', lambda s: s['saved'])
        saved.append(open(editor.plate, 'rb').read())
    editor.end()
    return saved


def start_again(editor):
    editor._main = None
    editor.process = subprocess.Popen([editor.process.args[0]], stderr=editor.errors)
    editor._main = wait_for('the first page', lambda: editor.window_named('^Pinplate$'))


def bring_back(editor):
    """Takes what is offered and saves it; the bytes of the file."""
    start_again(editor)
    editor.answer('Bring them back')
    editor.wait('the plate', lambda s: s['open'] and 'scale' in s)
    editor.key('ctrl+s')
    wait_for('saving or a question', lambda: editor.state().get('saved') or
             [w for w in editor.windows() if w != editor.main])
    if not editor.state()['saved']:
        editor.answer('Replace it')
    editor.wait('saving', lambda s: s['saved'])
    return open(editor.plate, 'rb').read()


def differences(seen, *wanted):
    """What a wrong answer has that the right ones have not, and the other way round."""
    lines = []
    for right in wanted:
        lines += difflib.unified_diff(right.decode().split('\n'), seen.decode().split('\n'),
                                      'wanted', 'seen', n=0)
    return '\n'.join(lines[:60])


def killed(plate, keys, saved, at, delay):
    """Kills after `at` edits are done and the next one's keys are sent, `delay` s later."""
    editor = begin(plate)
    records = editor.state()['records']
    for key in keys[:at]:
        records = carry_out(editor, key, records)
    hand = subprocess.Popen(['xdotool', 'key', keys[at]])
    time.sleep(delay)
    editor.kill()
    hand.wait()
    bytes_now = bring_back(editor)
    found = 'all' if bytes_now == saved[at + 1] else 'the last' if bytes_now == saved[at] else None
    ok(found, 'killed %.3f s into edit %d (%s): %s is back' % (
        delay, at + 1, keys[at], {'all': 'every edit', 'the last': 'all but the one under way'}.get(
            found, 'not what was done')), differences(bytes_now, saved[at], saved[at + 1]))
    editor.end()
    return found


def all_kills():
    chance = random.Random(SEED)
    keys = script(chance)
    plate = plain_plate([drilled(3, 50, 50), drilled(4, 150, 100)], name='killed')
    saved = to_the_end(plate, keys)
    ok(len(set(saved)) > EDITS // 3, 'the script has edits that differ')
    for _ in range(KILLS):
        # With nothing done yet there may be nothing to offer: from the second edit on.
        killed(plate, keys, saved, chance.randrange(1, EDITS), chance.uniform(0, LATEST))


tests(all_kills)
