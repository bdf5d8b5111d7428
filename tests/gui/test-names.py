"""Every page and window: what takes the focus has a name of its own and a fitting role."""
from driver import ok, tests
from windows import Tour

# What takes the focus, by its role: what a screen reader knows how to work.
FITTING = ('button', 'checkbox', 'combo box', 'grid', 'grid cell', 'group', 'label', 'list',
           'list item', 'menu item', 'menu item checkbox', 'search box', 'tab', 'text box')
# Windows that are the toolkit's own in every part.
FOREIGN = ('open', 'add', 'save', 'table', 'pdf', 'svg', 'about', 'keys')
# A name that is a class's is the toolkit's way to say that there is none.
CLASSES = ('Gtk', 'Pin')

found = {}
places = []


def is_nameless(node):
    return not node['name'].strip() or node['name'].startswith(CLASSES)


def look(editor, place):
    places.append(place)
    if place in FOREIGN:
        return
    inside = []  # the nodes that the one looked at stands in
    for node in editor.tree():
        inside[node['depth']:] = [node]
        if node['width'] <= 1 or 'focusable' not in node['states']:
            continue
        # The button of a drop-down has an item in it that the toolkit gives no role.
        fits = node['role'] in FITTING or (len(inside) > 3 and
                                           any(n['role'] == 'combo box' for n in inside[:-1]))
        if any(n['role'] == 'menu' for n in inside[:-1]) and node['role'] == 'group':
            continue  # what the toolkit scrolls a menu in
        # What can be ticked or chosen can be so without keys.
        works = node['role'] not in ('checkbox', 'combo box', 'tab', 'button') or \
            any(node['actions'])
        if is_nameless(node) or not fits or not works:
            above = [n['name'] for n in inside[:-1] if n['name'] and not is_nameless(n)]
            key = (node['role'], node['name'], above[-1] if above else '', node['x'], node['y'])
            found.setdefault(key, place)


def whole_program():
    for visit in Tour(look).whole():
        visit()
        ok(not found, 'all that takes the focus has a name and a role: ' + visit.__name__,
           '\n'.join('%s: %s "%s" in "%s" at %d, %d' % (place, *key)
                     for key, place in found.items()))
        found.clear()
    ok(len(places) > 60, 'each page and window was looked at', places)


tests(whole_program)
