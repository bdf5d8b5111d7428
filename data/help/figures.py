"""Makes the pictures of the guide with the program itself: python3 figures.py PROGRAM EXAMPLES FOLDER.

For each rule a finding of it on one of the example plates that have much that is wrong, rule-SLUG.svg;
and the layouts that the pages on working show.
"""
import os
import shutil
import subprocess
import sys

FINDINGS = ['bad-hardware', 'bad-inclined', 'bad-operations', 'bad']  # the last that has one counts
LAYOUTS = {'layout-blades': 'grafting-blades.plate', 'layout-scales': 'scales.plate',
           'layout-spacers': 'spacers.plate', 'layout-bad': 'bad.plate',
           'part-blade': 'grafting-blade.platepart'}


def main(program, examples, folder):
    # Leaks of a font cache are no matter of a picture's.
    environment = dict(os.environ, ASAN_OPTIONS='detect_leaks=0')

    def run(*arguments):
        subprocess.run([program, 'picture', *arguments], check=True, env=environment)

    shutil.rmtree(folder, ignore_errors=True)
    os.makedirs(folder)
    for name in FINDINGS:
        run(os.path.join(examples, name + '.plate'), '--findings', folder)
    for name, example in LAYOUTS.items():
        run(os.path.join(examples, example), '--to', os.path.join(folder, name + '.svg'))


main(*sys.argv[1:])
