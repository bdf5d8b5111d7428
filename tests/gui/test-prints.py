"""An outline read in with its size corrected, and the prints: as files, and looked at first."""
import os
import subprocess
import time

from driver import Editor, drilled, equal, example, ok, plain_plate, run, tests, wait_for




def an_outline():
    editor = Editor(plain_plate([]))
    editor.act('import-outline')
    editor.type_path(example('grafting-blade.svg'))
    window = editor.dialog('the outline')
    node = editor.find_in_dialog('text box', 'Length, along X')
    editor.picture('prints-outline')
    editor.point(node['x'] + node['width'] / 2, node['y'] + node['height'] / 2, window)
    time.sleep(0.1)
    run('xdotool', 'click', '1')
    editor.key('ctrl+a')
    editor.type('100')
    editor.key('Return')
    time.sleep(0.3)
    editor.picture('prints-outline-corrected')
    node = editor.find_in_dialog('button', 'Add the part')
    editor.point(node['x'] + node['width'] / 2, node['y'] + node['height'] / 2, window)
    time.sleep(0.1)
    run('xdotool', 'click', '1')
    editor.wait('the part', lambda s: s['records'] == 3)
    editor.key('ctrl+s')
    editor.wait('saving', lambda s: s['saved'])
    part = editor.read()['parts'][0]
    across = [node[0] for node in part['rings'][0]['nodes']]
    # Arcs may reach beyond their ends: the corners alone are no wider than the outline.
    ok(90 < max(across) - min(across) <= 100.001, 'the outline is as long as was typed', across)
    ok(len(part['holes']) >= 2, 'with its holes')
    editor.picture('prints-part-added')
    editor.end()


def files():
    editor = Editor(example('grafting-blades.plate'))
    editor.act('export-pdf')
    path = os.path.join(editor.folder, 'prints.pdf')
    editor.type_path(path)
    wait_for('the file', lambda: os.path.exists(path) and os.path.getsize(path) > 1000)
    info = run('pdfinfo', path)
    ok('Pages:' in info, 'the prints are a PDF that poppler reads')
    other = os.path.join(editor.folder, 'by-command.pdf')
    subprocess.run([os.environ['PINPLATE'], 'draw', editor.plate, '--to', other], check=False,
                   capture_output=True)
    equal(open(path, 'rb').read() == open(other, 'rb').read(), True,
          'the same bytes as the command writes')
    editor.act('export-svg')
    path = os.path.join(editor.folder, 'prints.svg')
    editor.type_path(path)
    wait_for('the file', lambda: os.path.exists(path) and os.path.getsize(path) > 1000)
    ok('<svg' in open(path, encoding='utf-8').read(4000), 'and SVG')
    editor.picture('prints-written')
    editor.end()


def preview():
    editor = Editor(example('grafting-blades.plate'))
    editor.key('ctrl+shift+p')
    editor.dialog('the preview')
    editor.picture('prints-preview')
    ok(editor.window_named('Preview of the prints'), 'the preview is a window of our own')
    editor.key('Escape')
    wait_for('the preview to close', lambda: len(editor.windows()) == 1)
    editor.key('ctrl+p')
    editor.dialog('the print dialog')
    editor.picture('prints-dialog')
    window = editor.dialog('the print dialog')
    node = editor.find_in_dialog('label', 'Print to File')
    editor.point(node['x'] + 20, node['y'] + node['height'] / 2, window)
    run('xdotool', 'click', '1')
    time.sleep(0.3)
    node = editor.find_in_dialog('button', 'Preview')
    editor.point(node['x'] + node['width'] / 2, node['y'] + node['height'] / 2, window)
    run('xdotool', 'click', '1')
    wait_for('our preview from the print dialog',
             lambda: editor.window_named('Preview of the prints'))
    editor.picture('prints-dialog-preview')
    ok(True, "the print dialog's preview is ours too")
    editor.key('Escape')
    wait_for('the dialog to close', lambda: len(editor.windows()) == 1)
    ok(editor.alive(), 'and can be put away')
    editor.end()


tests(an_outline, files, preview)
