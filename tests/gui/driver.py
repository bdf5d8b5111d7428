"""Drives the editor as a person does: with the pointer and the keys, on a display of its own.

What the tests wait for is the window's action `state`, which the application exports on the session
bus together with its other actions. No test waits for a time.
"""
import json
import os
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import time

NAME = 'org.pinplate.Pinplate'
ROOT = '/org/pinplate/Pinplate'
PROGRAM = os.environ['PINPLATE']
PICTURES = os.environ['PINPLATE_PICTURES']
SOURCE = os.environ['TEST_SOURCE_ROOT']
PATIENCE = float(os.environ.get('PINPLATE_PATIENCE', '60'))  # seconds before a wait is given up


class Failed(Exception):
    pass


def run(*command, check=True):
    done = subprocess.run(command, capture_output=True, text=True)
    if check and done.returncode:
        raise Failed('%s: %s' % (' '.join(command), done.stderr.strip()))
    return done.stdout


def xdo(*arguments):
    return run('xdotool', *[str(a) for a in arguments])


def wait_for(what, ask):
    """Asks again and again until the answer is true, and returns it."""
    until = time.monotonic() + PATIENCE
    while True:
        answer = ask()
        if answer:
            return answer
        if time.monotonic() > until:
            raise Failed('waited in vain for ' + what)
        time.sleep(0.03)


def is_named(node, name):
    """A dialog's button has its name twice, once with its mnemonic."""
    return node['name'].replace('_', '') in (name, name + ' ' + name)


def parse_state(text):
    found = {}
    for key, value in re.findall(r"'([a-z-]+)': <(?:uint32 |int32 )?([^>]*)>", text):
        if value in ('true', 'false'):
            found[key] = value == 'true'
        elif value.startswith("'"):
            found[key] = value.strip("'")
        else:
            found[key] = float(value) if '.' in value or 'e' in value else int(value)
    return found


class Editor:
    running = []

    def __init__(self, plate=None, environment=None):
        self.folder = tempfile.mkdtemp(prefix='pinplate-gui-')
        self.plate = None
        arguments = [PROGRAM]
        if plate:
            self.plate = os.path.join(self.folder, os.path.basename(plate))
            shutil.copy(plate, self.plate)
            arguments.append(self.plate)
        self.start(arguments, environment)

    def start(self, arguments, environment=None):
        self.errors = open(os.path.join(self.folder, 'errors'), 'a+')
        self.process = subprocess.Popen(arguments, stderr=self.errors,
                                        env=dict(os.environ, **(environment or {})))
        self._main = None
        self.number = 1
        Editor.running.append(self)
        wait_for('the window', lambda: self.window())
        wait_for('the window to show something', lambda: 'open' in self.state())
        if len(arguments) > 1 and os.path.exists(arguments[1]):
            wait_for('the plate', lambda: self.state().get('open') and 'scale' in self.state())

    # --- what is there ---------------------------------------------------------------------

    def alive(self):
        if self.process.poll() is not None:
            self.errors.seek(0)
            raise Failed('the editor ended by itself: ' + self.errors.read()[-4000:])
        return True

    def call(self, method, *arguments, number=None, path=None):
        self.alive()
        path = path or '%s/window/%d' % (ROOT, number or self.number)
        return run('gdbus', 'call', '--session', '--timeout', '60', '--dest', NAME,
                   '--object-path', path, '--method', 'org.gtk.Actions.' + method, *arguments,
                   check=False)

    def state(self, number=None):
        return parse_state(self.call('Describe', 'state', number=number))

    def enabled(self, action):
        return '(true' in self.call('Describe', action)

    def wait(self, what, test, number=None):
        seen = {}

        def ask():
            seen.clear()
            seen.update(self.state(number))
            return seen and test(seen)
        try:
            wait_for(what, ask)
        except Failed as failed:
            self.picture('failed')
            raise Failed('%s; the state is %s' % (failed, dict(seen)))
        return dict(seen)

    def act(self, action, parameter=None):
        """Activates an action as a menu does."""
        self.call('Activate', action, '[%s]' % (parameter or ''), '{}')

    def windows(self):
        # One that has closed as it was asked to has none; one that fell over says why.
        if self.process.poll() == 0:
            return []
        self.alive()
        # Both a name and none: a question's window has none.
        return run('xdotool', 'search', '--onlyvisible', '--pid', str(self.process.pid),
                   check=False).split()

    def window(self):
        self.alive()
        found = run('xdotool', 'search', '--onlyvisible', '--pid', str(self.process.pid),
                    '--name', '.', check=False).split()
        # A tip that stands where the pointer was left is a window too, and a small one.
        return max(found, key=self.area_of) if found else None

    @staticmethod
    def area_of(window):
        shape = run('xdotool', 'getwindowgeometry', '--shell', window, check=False)
        sides = re.findall(r'(?:WIDTH|HEIGHT)=(\d+)', shape)
        return int(sides[0]) * int(sides[1]) if len(sides) == 2 else 0

    def window_named(self, name):
        found = run('xdotool', 'search', '--onlyvisible', '--name', name, check=False).split()
        return found[0] if found else None

    def picture(self, name):
        """Keeps a picture of the screen, once two in a row are the same."""
        os.makedirs(PICTURES, exist_ok=True)
        path = os.path.join(PICTURES, name + '.png')
        before = None
        for _ in range(40):
            run('import', '-window', 'root', '-define', 'png:exclude-chunk=all', path)
            with open(path, 'rb') as file:
                now = file.read()
            if now == before:
                break
            before = now
            time.sleep(0.1)

    # --- what a screen reader sees ---------------------------------------------------------

    def tree(self, *roles):
        keys = ('number', 'depth', 'role', 'name', 'description', 'x', 'y', 'width', 'height',
                'states', 'actions')
        found = []
        for line in run(os.environ['PINPLATE_ACCESSIBLE'], 'tree', *roles).split('\n'):
            values = line.split('\t')
            if len(values) == len(keys):
                node = dict(zip(keys, values))
                for key in ('number', 'depth', 'x', 'y', 'width', 'height'):
                    node[key] = int(node[key])
                node['states'] = node['states'].split(',')
                node['actions'] = node['actions'].split(',')
                found.append(node)
        return found

    def find(self, role, name, nth=0):
        """The nth accessible of a role and name that has a place on the screen."""
        def ask():
            seen = [node for node in self.tree(role) if is_named(node, name) and node['width'] > 1]
            return seen[nth] if len(seen) > nth else None
        return wait_for('%s "%s"' % (role, name), ask)

    def accessible(self, *arguments):
        self.alive()
        return run(os.environ['PINPLATE_ACCESSIBLE'], *[str(a) for a in arguments])

    def do(self, name, action, nth=0):
        """Carries out an action of what has that name, once there is one that can."""
        def ask():
            try:
                self.accessible('act', name, action, nth)
                return True
            except Failed:
                return False
        wait_for('%s that can %s' % (name, action), ask)

    def put(self, name, text, nth=0):
        """Puts a text into an entry and enters it, as a screen reader does: with no key."""
        def ask():
            try:
                self.accessible('set', name, text, nth)
                return True
            except Failed:
                return False
        wait_for('an entry %s that takes text' % name, ask)
        self.accessible('act', 'group::' + name, 'field.enter', nth)

    def count(self, role, name):
        """How many accessibles of a role and name have a place on the screen."""
        return len([n for n in self.tree(role) if is_named(n, name) and n['width'] > 1])

    def typed(self, name, nth=0):
        """What an entry holds."""
        return self.accessible('read', name, nth).rstrip('\n')

    def middle(self, node):
        """The middle of an accessible in the main window."""
        state = self.state()
        return (state['left'] + node['x'] + node['width'] / 2,
                state['top'] + node['y'] + node['height'] / 2)

    def press_button(self, name, role='button'):
        self.click(*self.middle(self.find(role, name)))

    def enter(self, name, text, nth=0, key='Return'):
        """Types into the entry of that name, in place of what it holds."""
        self.click(*self.middle(self.find('text box', name, nth)))
        self.key('ctrl+a')
        self.type(text)
        if key:
            self.key(key)

    # --- other windows ---------------------------------------------------------------------

    def dialog(self, what='a window of its own'):
        """Waits for a window other than the main one that has the focus."""
        def ask():
            focus = run('xdotool', 'getwindowfocus', check=False).strip()
            return focus if focus in self.windows() and focus != self.main else None
        return wait_for(what, ask)

    def find_in_dialog(self, role, name):
        def ask():
            nodes = self.tree()
            tops = [i for i, node in enumerate(nodes) if node['depth'] == 2]
            seen = [node for node in nodes[tops[-1]:]
                    if node['role'] == role and is_named(node, name) and node['width'] > 1
                    ] if len(tops) > 1 else []
            return seen[0] if seen else None
        return wait_for('%s "%s" in the dialog' % (role, name), ask)

    def answer_in(self, window, text):
        """Presses a button of the dialog, which may stay open."""
        node = self.find_in_dialog('button', text)
        self.point(node['x'] + node['width'] / 2, node['y'] + node['height'] / 2, window)
        self.click_here()

    def enter_in(self, window, name, text, role='text box'):
        """Types into an entry of the dialog, in place of what it holds."""
        node = self.find_in_dialog(role, name)
        self.point(node['x'] + node['width'] / 2, node['y'] + node['height'] / 2, window)
        self.click_here()
        self.key('ctrl+a')
        self.type(text)

    def answer(self, text):
        """Presses a button of the dialog that is open."""
        window = self.dialog('a question')
        self.answer_in(window, text)
        wait_for('the answer to be taken', lambda: window not in self.windows())

    def type_path(self, path):
        """The desktop's file chooser takes a path as it is typed."""
        window = self.dialog('the file chooser')
        time.sleep(0.6)  # it fills its list first, and has no state to wait for
        self.key('ctrl+a')
        self.type(path)
        time.sleep(0.3)
        self.key('Return')
        wait_for('the file chooser to close', lambda: window not in self.windows())

    # --- the hand --------------------------------------------------------------------------

    def place(self, x, y):
        """Where a place of the plate (mm from its front left corner) is in the window."""
        state = self.state()
        return state['x'] + x * state['scale'], state['y'] - y * state['scale']

    def point(self, x, y, window=None):
        xdo('mousemove', '--window', window or self.main, round(x), round(y))

    @property
    def main(self):
        if not getattr(self, '_main', None):
            self._main = self.window()
        return self._main

    def click(self, x, y, button=1, keys=()):
        self.point(x, y)
        time.sleep(0.05)
        for key in keys:
            xdo('keydown', key)
        xdo('click', button)
        for key in keys:
            xdo('keyup', key)

    def click_here(self, button=1):
        time.sleep(0.1)
        xdo('click', button)

    def move(self, start, end, steps=12):
        for i in range(1, steps + 1):
            self.point(start[0] + (end[0] - start[0]) * i / steps,
                       start[1] + (end[1] - start[1]) * i / steps)
            time.sleep(0.03)

    def press(self, x, y, button=1):
        self.point(x, y)
        time.sleep(0.05)
        xdo('mousedown', button)
        time.sleep(0.05)

    def release(self, button=1):
        time.sleep(0.05)
        xdo('mouseup', button)

    def drag(self, start, end, button=1):
        self.press(*start, button=button)
        self.move(start, end)
        self.release(button)

    def key(self, *keys):
        # Not with --clearmodifiers, which lets go of the mouse's buttons too.
        for key in keys:
            xdo('key', key)

    def type(self, text):
        xdo('type', '--clearmodifiers', '--delay', '15', '--', text)

    # --- what is on the disk ---------------------------------------------------------------

    def read(self, path=None):
        with open(path or self.plate, encoding='utf-8') as file:
            return json.load(file)

    def check(self, path=None):
        done = subprocess.run([PROGRAM, 'check', path or self.plate, '--json'],
                              capture_output=True, text=True)
        return json.loads(done.stdout)

    def end(self):
        """Ends the editor where it stands, and tests that it complained of nothing."""
        if self.process.poll() is None:
            self.process.send_signal(signal.SIGTERM)
            self.process.wait()
        self.errors.seek(0)
        # Messages are the toolkit's talk of what the machine has; complaints are what counts.
        said = '\n'.join(line for line in self.errors.read().split('\n')
                         if '** Message:' not in line)
        self.errors.close()
        Editor.running.remove(self)
        shutil.rmtree(self.folder, ignore_errors=True)
        if said.strip():
            quiet(said)

    def kill(self):
        self.process.kill()
        self.process.wait()


# --- TAP -------------------------------------------------------------------------------------

_count = 0
_bad = 0


def ok(true, name, extra=''):
    global _count, _bad
    _count += 1
    if not true:
        _bad += 1
    print('%s %d - %s' % ('ok' if true else 'not ok', _count, name), flush=True)
    if not true and extra:
        print('# ' + str(extra).replace('\n', '\n# '), flush=True)
    return true


def quiet(said):
    """What the program writes to stderr is a complaint of the toolkit, or worse."""
    return ok(not said.strip(), 'nothing was complained of', said[-3000:])


def equal(seen, wanted, name):
    return ok(seen == wanted, name, 'seen %r, wanted %r' % (seen, wanted))


def write_table(editor, shift=0):
    """The holes of the open plate's top as a measured table, off by so many mm in X."""
    path = os.path.join(editor.folder, 'table.csv')
    plate = editor.read()
    top = next(face['id'] for face in plate['faces'] if face['name'] == 'top')
    stations = {station['id']: station['at'] for station in plate['stations']}
    with open(path, 'w', encoding='utf-8') as file:
        file.write('label,x_mm,y_mm,diameter_mm\n')
        for hole in plate['holes']:
            if hole['face'] == top:
                x, y = stations.get(hole.get('station'), (0, 0))
                file.write('%s,%f,%f,%f\n' % (hole['label'], hole['at'][0] + x + shift,
                                              hole['at'][1] + y, hole['steps'][-1]['diameter']))
    return path


def tests(*functions):
    """Runs each test; one that fails in the middle is one that fails."""
    for function in functions:
        try:
            function()
        except (Failed, subprocess.SubprocessError, LookupError, OSError) as failed:
            ok(False, function.__name__.replace('_', ' '), '%s: %s' % (type(failed).__name__, failed))
        for editor in Editor.running:
            editor.kill()
        Editor.running.clear()
    print('1..%d' % _count, flush=True)
    sys.exit(1 if _bad else 0)


def example(name):
    return os.path.join(SOURCE, 'examples', name)


def drilled(number, x, y, diameter=6.0, label=None, **more):
    """A through hole as a file has it."""
    hole = {'id': number, 'face': 2, 'at': [x, y],
            'steps': [{'kind': 'drill', 'diameter': diameter, 'through': True, 'point': 118}],
            'label': label or 'A%d' % (number - 2)}
    hole.update(more)
    return hole


def slot(number, x, y, length=40, width=12, depth=6, **more):
    recess = {'id': number, 'kind': 'obround', 'face': 2, 'at': [x, y], 'length': length,
              'width': width, 'depth': depth, 'label': 'S%d' % number}
    recess.update(more)
    return recess


def plain_plate(holes=(), recesses=(), name='plain', unit='mm', length=200, width=150):
    """Writes a plate of 200 x 150 x 20 mm with the given things; returns its path."""
    numbers = [thing['id'] for thing in list(holes) + list(recesses)]
    plate = {
        'format': 'pinplate-plate', 'version': 1, 'next_id': max(numbers + [2]) + 1,
        'plate': {'id': 1, 'name': name, 'unit': unit,
                  'stock': {'length': length, 'width': width, 'thickness': 20,
                            'metal': 'aluminium'},
                  'datum': {'kind': 'corner'}},
        'faces': [{'id': 2, 'name': 'top', 'kind': 'top'}],
        'holes': list(holes), 'recesses': list(recesses)}
    path = os.path.join(tempfile.mkdtemp(prefix='pinplate-gui-'), name + '.plate')
    with open(path, 'w', encoding='utf-8') as file:
        json.dump(plate, file)
    return path


def by_number(things, number):
    return next(thing for thing in things if thing['id'] == number)
