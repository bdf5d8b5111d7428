"""What the editor says can be said in every language: nothing is left out of po/, and each language
has it all.

    python3 messages.py SOURCE-ROOT

The messages are taken out of the sources anew and compared with those of the .pot that is in the
tree. `python3 po/messages.py` renews it.
"""
import glob
import os
import re
import subprocess
import sys
import tempfile

sys.path.insert(0, os.path.join(sys.argv[1], 'po'))
sys.dont_write_bytecode = True
import messages  # noqa: E402

# What the editor has in its own words and with the desktop's decimal sign in editor/speech.h, or
# with `_said`. Pictures work with what the figures' page has read already.
PLAIN = re.compile(r'(?<!\w)(?:length_text|length_text_with_unit|length_text_both|angle_write|'
                   r'typed_length_read|typed_angle_read|typed_number_read|feature_name|'
                   r'finding_message|finding_remedy|refit_reason|refit_verdict_text|'
                   r'refit_answer_text|refit_place_text)\(')
MAY_BE_PLAIN = ('speech.c', 'figure-picture-batch.c')

count = bad = 0


def ok(true, name, extra=''):
    global count, bad
    count += 1
    bad += not true
    print('%sok %d - %s' % ('' if true else 'not ', count, name))
    if not true:
        print('# ' + str(extra).replace('\n', '\n# '))


def same(seen, wanted, name):
    ok(seen == wanted, name, 'run python3 po/messages.py; only in the tree: %s; only in po/: %s'
       % (sorted(map(str, wanted - seen))[:9], sorted(map(str, seen - wanted))[:9]))


def marks(text):
    """What a translation has to keep: {a}, and a mnemonic's underline."""
    return sorted(re.findall(r'\{[a-z]+\}', text))


def rule_words():
    """The texts of the rules' tables, whose marks a writer of a rule forgets easily."""
    found = {}
    folder = os.path.join(messages.ROOT, 'src', 'checks')
    for name in sorted(os.listdir(folder)):
        with open(os.path.join(folder, name), encoding='utf-8') as file:
            text = file.read()
        tables = re.findall(r'(?:RuleCase|RuleLimit) \w+\[\] = \{.*?^\};', text, re.S | re.M)
        tables += re.findall(r'\.title = [^,]*', text)
        for words in re.findall(r'(?:"(?:[^"\\]|\\.)*"\s*)+', '\n'.join(tables)):
            said = messages.text_of(words)
            if ' ' in said:
                found[said] = name
    return found


def alternatives():
    """In `a ? "b" : "c"` the first alone is found without a mark."""
    found = {}
    for path in glob.glob('src/*/*.c', root_dir=messages.ROOT):
        if path.startswith(messages.ENGLISH):
            continue
        with open(os.path.join(messages.ROOT, path), encoding='utf-8') as file:
            calls = re.findall(r'(?:error_set|edit_set_name)\([^;]*?\? [^;]*;', file.read())
        for words in re.findall(r': (?:N_\()?((?:"(?:[^"\\]|\\.)*"\s*)+)\)*;', '\n'.join(calls)):
            found[messages.text_of(words)] = path
    return found


def plain_figures():
    found = []
    for path in sorted(glob.glob('src/editor/*.c', root_dir=messages.ROOT)):
        if os.path.basename(path) not in MAY_BE_PLAIN:
            with open(os.path.join(messages.ROOT, path), encoding='utf-8') as file:
                found += ['%s:%d: %s' % (path, number, line.strip())
                          for number, line in enumerate(file, 1) if PLAIN.search(line)]
    return found


def main():
    sources = messages.sources()
    same(set(messages.listed()), set(sources), 'POTFILES lists each file with a message')
    with tempfile.TemporaryDirectory() as folder:
        fresh = messages.extract(sources, os.path.join(folder, 'new.pot'))
        wanted = set(messages.read(fresh))
    same(set(messages.read(messages.POT)), wanted, 'pinplate.pot has the messages of the sources')
    single = {key[1] for key in wanted}
    unmarked = ['%s: %s' % (name, said)
                for said, name in list(rule_words().items()) + list(alternatives().items())
                if ' ' in said and said not in single and said != 'no memory']
    ok(not unmarked, 'the words of rules, and those of two to choose from, are marked with N_()',
       '\n'.join(unmarked))
    found = plain_figures()
    ok(not found, 'the editor says figures and findings through its speech', '\n'.join(found))
    for language in messages.languages():
        path = messages.po_file(language)
        done = subprocess.run(['msgfmt', '--check', '--check-accelerators=_', '--statistics', '-o',
                               os.devnull, path], capture_output=True, text=True)
        ok(done.returncode == 0, '%s.po is sound, its formats and mnemonics too' % language,
           done.stderr)
        said = messages.read(path)
        left = [str(key[1]) for key in wanted if not said.get(key)]
        ok(not left, '%s.po is complete' % language, '\n'.join(left))
        unlike = [key[1] for key, texts in said.items()
                  if texts and marks(key[1]) != marks(texts[0])]
        ok(not unlike, '%s.po keeps what is filled in' % language, '\n'.join(unlike))
    print('1..%d' % count)
    return 1 if bad else 0


sys.exit(main())
