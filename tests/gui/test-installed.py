"""What is installed: validated by the desktop's own tools, and the installed program run on it."""
import os
import re
import shutil
import subprocess
import tempfile

import driver
from driver import Editor, Failed, example, equal, ok, tests, wait_for

BUILD = os.environ.get('MESON_BUILD_ROOT') or os.path.dirname(os.path.dirname(driver.PROGRAM))


def said(*command, **more):
    done = subprocess.run(command, capture_output=True, text=True, **more)
    return done.returncode, (done.stdout + done.stderr).strip()


def install():
    root = tempfile.mkdtemp(prefix='pinplate-installed-')
    status, text = said('meson', 'install', '-C', BUILD, '--no-rebuild', '--destdir', root)
    ok(status == 0, 'meson install', text[-2000:])
    for folder, _, files in os.walk(root):
        if 'pinplate' in files and folder.endswith('bin'):
            return root, os.path.dirname(folder)
    raise Failed('there is no program in what was installed')


def pictured(help_pages):
    """Each page shows pictures that are there, and each rule's page a finding of its own."""
    missing, without, wrong = [], [], []
    for page in sorted(os.listdir(help_pages)):
        if not page.endswith('.page'):
            continue
        with open(os.path.join(help_pages, page), encoding='utf-8') as file:
            pictures = re.findall(r'src="([^"]*)"', file.read())
        missing += [p for p in pictures if not os.path.exists(os.path.join(help_pages, p))]
        rule = re.fullmatch(r'rule-(.*)\.page', page)
        if rule and 'figures/%s.svg' % rule.group(1) not in pictures:
            without.append(page)
    equal(missing, [], 'every picture of the guide is installed')
    equal(without, [], 'every rule has the picture of a finding')
    # Read by the library that the help viewer draws them with.
    figures = os.path.join(help_pages, 'figures')
    for name in sorted(os.listdir(figures)):
        drawn = os.path.join(figures, name) + '.png'
        status, text = said('rsvg-convert', '--width', '400', '-o', drawn,
                            os.path.join(figures, name))
        if status or not os.path.getsize(drawn) or \
                os.path.getsize(os.path.join(figures, name)) > 150000:
            wrong.append((name, text))
    equal(wrong, [], 'they can be drawn, and none is large')


def valid(prefix):
    share = os.path.join(prefix, 'share')
    equal(said('desktop-file-validate',
               os.path.join(share, 'applications/org.pinplate.Pinplate.desktop')), (0, ''),
          'the desktop entry is valid')
    status, text = said('appstreamcli', 'validate', '--no-net', '--no-color',
                        os.path.join(share, 'metainfo/org.pinplate.Pinplate.metainfo.xml'))
    ok(status == 0, 'the description is valid', text)
    status, text = said('groff', '-man', '-ww', '-Tutf8', '-z',
                        os.path.join(prefix, 'share/man/man1/pinplate.1'))
    equal((status, text), (0, ''), 'the manual page has no mistakes')
    help_pages = os.path.join(share, 'help/C/pinplate')
    status, text = said('xmllint', '--noout',
                        *[os.path.join(help_pages, f) for f in sorted(os.listdir(help_pages))
                          if f.endswith('.page')])
    equal((status, text), (0, ''), 'the guide is well-formed')
    pictured(help_pages)
    schemas = os.path.join(share, 'glib-2.0/schemas')
    equal(said('glib-compile-schemas', '--strict', schemas), (0, ''), 'the settings are valid')
    return schemas


def types_of(prefix, *paths):
    """The types that the desktop's database gives the files, once it has the installed ones."""
    data = os.path.join(prefix, 'share')
    said('update-mime-database', os.path.join(data, 'mime'))
    environment = dict(os.environ, XDG_DATA_DIRS=data + ':/usr/local/share:/usr/share')
    return [re.findall(r'standard::content-type: (.*)', said(
        'gio', 'info', '-a', 'standard::content-type', path, env=environment)[1]) for path in paths]


def a_thumbnail(prefix, folder, thing, kind):
    """As a file manager asks for it, by the installed entry."""
    with open(os.path.join(prefix, 'share/thumbnailers/pinplate.thumbnailer')) as file:
        lines = dict(l.strip().split('=', 1) for l in file if '=' in l)
    kinds = types_of(prefix, example(thing))
    equal(kinds, [['application/x-pinplate-' + kind]], 'the desktop knows a %s by its type' % kind)
    ok(kinds[0][0] in lines['MimeType'].split(';'), 'and has a thumbnailer for it')
    picture = os.path.join(folder, kind + '.png')
    command = [os.path.join(prefix, 'bin', 'pinplate')] + [
        {'%i': example(thing), '%o': picture, '%s': '128'}.get(word, word)
        for word in lines['Exec'].split()[1:]]
    status, text = said(*command)
    equal((status, text), (0, ''), 'a %s has a thumbnail' % kind)
    with open(picture, 'rb') as file:
        header = file.read(24)
    equal((header[1:4], max(int.from_bytes(header[16:20], 'big'),
                            int.from_bytes(header[20:24], 'big'))), (b'PNG', 128),
          'of the size that was asked for')
    os.makedirs(driver.PICTURES, exist_ok=True)
    shutil.copy(picture, os.path.join(driver.PICTURES, 'installed-thumbnail-%s.png' % kind))


def run_it(prefix, schemas, folder):
    driver.PROGRAM = os.path.join(prefix, 'bin', 'pinplate')
    environment = {'GSETTINGS_SCHEMA_DIR': schemas, 'GSETTINGS_BACKEND': 'keyfile',
                   'XDG_CONFIG_HOME': folder,
                   'XDG_DATA_DIRS': os.path.join(prefix, 'share') + ':/usr/local/share:/usr/share'}
    status, text = said('gsettings', 'set', 'org.pinplate.Pinplate', 'unit', 'mm',
                        env=dict(os.environ, **environment))
    ok(status == 0, 'a setting is set', text)
    said('gsettings', 'set', 'org.pinplate.Pinplate', 'shop', 'Nursery Tool Shop',
         env=dict(os.environ, **environment))
    editor = Editor(environment=environment)
    editor.press_button('New plate…')
    editor.find('button', 'Next')
    editor.picture('installed-new')
    editor.press_button('Make the plate')
    editor.wait('the plate', lambda s: s['open'] and 'scale' in s)
    editor.act('snap')
    editor.key('ctrl+s')
    path = os.path.join(editor.folder, 'new.plate')
    editor.type_path(path)
    editor.wait('saving', lambda s: s['saved'])
    plate = editor.read(path)['plate']
    equal((plate['unit'], plate['shop'], plate['stock']['length']), ('mm', 'Nursery Tool Shop', 200),
          'a new plate has the unit and the shop of the settings')
    wait_for('the setting', lambda: 'false' in said(
        'gsettings', 'get', 'org.pinplate.Pinplate', 'snap',
        env=dict(os.environ, **environment))[1])
    ok(True, 'what is switched off in the window stays so')
    editor.end()


def all_of_it():
    root, prefix = install()
    folder = tempfile.mkdtemp(prefix='pinplate-installed-')
    schemas = valid(prefix)
    a_thumbnail(prefix, folder, 'grafting-blades.plate', 'plate')
    a_thumbnail(prefix, folder, 'grafting-blade.platepart', 'part')
    run_it(prefix, schemas, folder)
    shutil.rmtree(folder)
    shutil.rmtree(root)


tests(all_of_it)
