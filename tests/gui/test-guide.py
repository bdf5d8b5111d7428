"""The guide: opened by its key, from the menu, and at the page of a finding's rule, with a help viewer
that only notes what it is asked for; and what is said where there is none."""
import os

from driver import Editor, equal, example, ok, tests, wait_for

VIEWER = """[Desktop Entry]
Type=Application
Name=Viewer of the test
Exec=sh -c 'echo "$1" >>"%s"' viewer %%u
MimeType=x-scheme-handler/help;
"""


def install_viewer(command=None):
    """Returns the file in which the viewer notes what it was asked for."""
    folder = os.path.join(os.environ['XDG_DATA_HOME'], 'applications')
    notes = os.path.join(os.environ['HOME'], 'asked')
    os.makedirs(folder, exist_ok=True)
    os.makedirs(os.environ['XDG_CONFIG_HOME'], exist_ok=True)
    with open(os.path.join(folder, 'viewer.desktop'), 'w', encoding='utf-8') as file:
        text = VIEWER % notes
        file.write(text if not command else
                   '\n'.join('Exec=' + command if line.startswith('Exec=') else line
                             for line in text.split('\n')))
    with open(os.path.join(os.environ['XDG_CONFIG_HOME'], 'mimeapps.list'), 'w',
              encoding='utf-8') as file:
        file.write('[Default Applications]\nx-scheme-handler/help=viewer.desktop\n')
    return notes


def said(editor, words):
    return wait_for('"%s"' % words,
                    lambda: [n for n in editor.tree() if words in n['name'] and n['width'] > 1])


def asked(notes, count):
    def lines():
        if not os.path.exists(notes):
            return None
        with open(notes, encoding='utf-8') as file:
            found = file.read().split()
        return found if len(found) >= count else None
    return wait_for('the viewer', lines)


def without_a_viewer():
    editor = Editor()
    editor.key('F1')
    said(editor, 'There is no help viewer on this computer')
    editor.picture('guide-none-first')
    ok(True, 'on the first page it says that there is no viewer')
    editor.end()
    editor = Editor(example('bad.plate'))
    editor.key('F1')
    said(editor, 'There is no help viewer on this computer')
    editor.picture('guide-none')
    ok(True, 'and over a plate')
    editor.end()


def choose_finding(editor, words):
    row = wait_for('the finding', lambda: [n for n in editor.tree('list item')
                                           if words in n['name'] and n['width'] > 1])[0]
    editor.click(*editor.middle(row))


def opened():
    notes = install_viewer()
    editor = Editor(example('bad.plate'))
    editor.key('F1')
    equal(asked(notes, 1)[-1], 'help:pinplate', 'F1 opens the guide')
    editor.key('F10')
    editor.find('menu item', 'Guide')
    editor.picture('guide-menu')
    editor.do('menu item::Guide', 'Click')
    equal(asked(notes, 2)[-1], 'help:pinplate', 'so does the menu')
    choose_finding(editor, 'over the edge of its face')
    button = editor.find('button', 'About this check')
    editor.picture('guide-finding')
    editor.click(*editor.middle(button))
    equal(asked(notes, 3)[-1], 'help:pinplate/rule-outside-plate', 'a finding opens the page of its rule')
    editor.end()


def a_viewer_that_is_gone():
    install_viewer('/nowhere/viewer %u')
    editor = Editor(example('bad.plate'))
    editor.key('F1')
    said(editor, 'no help viewer')
    ok(True, 'one that is not there any more is none')
    editor.end()


tests(without_a_viewer, opened, a_viewer_that_is_gone)
