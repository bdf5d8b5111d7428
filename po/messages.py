#!/usr/bin/env python3
"""Takes the messages out of the sources, and compares or renews what stands in po/.

    python3 po/messages.py           renews POTFILES, pinplate.pot, de.po and es.po
    python3 po/messages.py missing   prints what is still to be translated, by language

What the command line alone says (src/command) stays English, and is left out. A message is found
by the functions and macros that po/xgettext.args names: `_("…")` in the editor, `N_("…")` below it,
and the sentences of error_set(), edit_set_name() and the details' FIELD()s, which need no mark.
"""
import glob
import os
import re
import subprocess
import sys
import tempfile

HERE = os.path.dirname(os.path.abspath(__file__))
ROOT = os.path.dirname(HERE)
POT = os.path.join(HERE, 'pinplate.pot')
POTFILES = os.path.join(HERE, 'POTFILES')
PLACES = ('src/*.c', 'src/*.h', 'src/*/*.c', 'src/*/*.h', 'ui/*.ui', 'data/*.desktop',
          'data/*.metainfo.xml', 'data/*.gschema.xml', 'data/*.mime.xml')
ENGLISH = 'src/command/'


def run(*command):
    return subprocess.run(command, cwd=ROOT, check=True, capture_output=True, text=True).stdout


def arguments():
    with open(os.path.join(HERE, 'xgettext.args'), encoding='utf-8') as file:
        return file.read().split('\n')[:-1]


def languages():
    with open(os.path.join(HERE, 'LINGUAS'), encoding='utf-8') as file:
        return file.read().split()


def po_file(language):
    return os.path.join(HERE, language + '.po')


def extract(names, to):
    run('xgettext', *arguments(), '--package-name=pinplate', '--output=' + to, *names)
    return to


def sources():
    """The files that hold a message, each tried by itself."""
    found = []
    with tempfile.TemporaryDirectory() as folder:
        for place in PLACES:
            for path in sorted(glob.glob(place, root_dir=ROOT)):
                out = os.path.join(folder, path.replace('/', '-'))
                if not path.startswith(ENGLISH):
                    extract([path], out)
                    if os.path.exists(out) and read(out):
                        found.append(path)
    return found


def listed():
    with open(POTFILES, encoding='utf-8') as file:
        return [line for line in file.read().split('\n') if line and line[0] != '#']


def text_of(lines):
    return ''.join(re.sub(r'\\(.)', lambda m: {'n': '\n', 't': '\t'}.get(m[1], m[1]), part)
                   for part in re.findall(r'"((?:[^"\\]|\\.)*)"', lines))


def read(path):
    """{(context, message, plural): [translation, …]}; a fuzzy one has none."""
    found = {}
    with open(path, encoding='utf-8') as file:
        entries = file.read().split('\n\n')
    for entry in entries:
        lines = '\n'.join(line for line in entry.split('\n') if line[:1] != '#')
        fields = re.findall(r'(msg\w+)(?:\[\d\])? ((?:"(?:[^"\\]|\\.)*"\s*)+)', lines)
        values = {name: text_of(text) for name, text in fields if name != 'msgstr'}
        said = [text_of(text) for name, text in fields if name == 'msgstr']
        key = (values.get('msgctxt'), values.get('msgid'), values.get('msgid_plural'))
        fuzzy = re.search(r'^#,.*fuzzy', entry, re.M)
        if values.get('msgid'):
            found[key] = [] if fuzzy or not all(said) else said
    return found


def renew():
    with open(POTFILES, 'w', encoding='utf-8') as file:
        file.write('# Written by messages.py: the files that hold a message.\n')
        file.write('\n'.join(sources()) + '\n')
    with tempfile.TemporaryDirectory() as folder:
        fresh = extract(listed(), os.path.join(folder, 'new.pot'))
        # The day alone is no change.
        if not os.path.exists(POT) or read(fresh) != read(POT):
            os.replace(fresh, POT) if os.stat(folder).st_dev == os.stat(HERE).st_dev else \
                run('cp', fresh, POT)
    for language in languages():
        if os.path.exists(po_file(language)):
            run('msgmerge', '--quiet', '--update', '--backup=none', '--no-fuzzy-matching',
                '--no-wrap', '--add-location=file', po_file(language), POT)
            run('msgattrib', '--no-obsolete', '--no-wrap', '--add-location=file', '-o',
                po_file(language), po_file(language))


def missing():
    for language in languages():
        for key, said in read(po_file(language)).items():
            if not said:
                print('%s: %s' % (language, key[1]))


if __name__ == '__main__':
    missing() if sys.argv[1:] == ['missing'] else renew()
