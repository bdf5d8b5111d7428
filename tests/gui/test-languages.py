"""Every page and window in German and Spanish: nothing is cut, and nothing is left in English."""
import json
import os
import re
import subprocess
import sys
import tempfile

from driver import SOURCE, example, ok, tests
from windows import CHOOSERS, Tour, all_is_readable, in_language

sys.path.insert(0, os.path.join(SOURCE, 'po'))
import messages  # noqa: E402

# What the toolkit says itself, and units and signs that are the same in every language.
TOOLKIT = ('Close the window', 'Close', 'Minimize the window', 'Minimize', 'Maximize the window',
           'Maximize', 'Sidebar', 'No Results Found', 'Try a different search', 'Shortcuts',
           'Search Results', 'Search Shortcuts', 'Page_Down', 'Page_Up', 'Page Down', 'Page Up',
           'Shift', 'Ctrl', 'Alt', 'Escape', 'Delete', 'Left', 'Right', 'Up', 'Down', 'Enter',
           'Return', '(None)', 'None',
           'GNU General Public License, version 3 or later', 'License', 'Credits', 'Website',
           'This program comes with absolutely no warranty.', 'See the', 'for details.', 'About',
           'System', 'Pinplate', 'pinplate', 'main')
SAME = ('mm', 'in', 'in2', 'UNC', 'UNF', 'Nm', 'deg')


def strings_in(value):
    if isinstance(value, str):
        return {value}
    inside = value.values() if isinstance(value, dict) else value if isinstance(value, list) else ()
    return set().union(*map(strings_in, inside))


def known():
    """What is not the program's to say, longest first: names in the examples, the toolkit's."""
    found = set(TOOLKIT) | {'plain', 'budding-blade'}
    for name in sorted(os.listdir(example(''))):
        if name.endswith(('.plate', '.platepart')):
            with open(example(name), encoding='utf-8') as file:
                found |= strings_in(json.load(file))
    return sorted((text for text in found if len(text) > 1), key=len, reverse=True)


def bracketed(folder):
    """A language that says each message in brackets: what has none on the screen is not marked."""
    lines = ['msgid ""', 'msgstr "Content-Type: text/plain; charset=UTF-8\\n'
             'Plural-Forms: nplurals=2; plural=n != 1;\\n"']

    def quoted(text):
        return json.dumps(text, ensure_ascii=False)
    for context, message, plural in messages.read(messages.POT):
        lines += ['', 'msgctxt ' + quoted(context)] if context else ['']
        lines += ['msgid ' + quoted(message)]
        lines += ['msgid_plural ' + quoted(plural), 'msgstr[0] ' + quoted('⟦%s⟧' % message),
                  'msgstr[1] ' + quoted('⟦%s⟧' % plural)] if plural else \
                 ['msgstr ' + quoted('⟦%s⟧' % message)]
    place = os.path.join(folder, 'xx', 'LC_MESSAGES')
    os.makedirs(place)
    subprocess.run(['msgfmt', '-o', os.path.join(place, 'pinplate.mo'), '-'],
                   input='\n'.join(lines) + '\n', text=True, check=True)


def unmarked(text, names):
    """The words of a text that are in no brackets and are nobody's names."""
    while re.search('⟦[^⟦⟧]*⟧', text):
        text = re.sub('⟦[^⟦⟧]*⟧', ' ', text)
    text = re.sub(r'/tmp/\S*|\S+\.(plate|platepart|svg|csv)\b|\b(Gtk|Pin)\w+', ' ', text)
    for name in names:
        text = text.replace(name, ' ')
    return [word for word in re.findall('[A-Za-z]{2,}', text) if word not in SAME]


def no_english():
    folder = tempfile.mkdtemp(prefix='pinplate-bracketed-')
    bracketed(folder)
    environment = dict(in_language('xx', 'de_DE'), PINPLATE_LOCALES=folder)
    names = known()

    def look(editor, name):
        if name in CHOOSERS:
            return
        left = {text for node in editor.tree() for text in (node['name'], node['description'])
                if unmarked(text, names)}
        ok(not left, 'all that %s says is marked for translation' % name, '\n'.join(sorted(left)))
    return Tour(look, 'xx', environment).whole()


tests(*all_is_readable('de', 'german'), *all_is_readable('es', 'spanish'), *no_english())
