"""What a move of a drag costs on a plate of 1,000 things, beside a plate of one, in CPU time of the
whole window in the same run. Says the ratio; at most 2 is asked."""
import math
import os
import sys

from driver import Editor, drilled, plain_plate, xdo

MOVES = 300


def ticks(process):
    with open('/proc/%d/stat' % process.pid, encoding='ascii') as file:
        fields = file.read().rsplit(')', 1)[1].split()
    return int(fields[11]) + int(fields[12])


def cost(count):
    """Seconds of CPU for each move of a hole that nothing lies near."""
    holes = [drilled(3, 400, 160, 5)]
    holes += [drilled(4 + i, 10 + i % 32 * 10, 10 + i // 32 * 10, 4) for i in range(count - 1)]
    editor = Editor(plain_plate(holes, length=480, width=330))
    x, y = editor.place(400, 160)
    editor.press(x, y)
    editor.move((x, y), (x + 20, y + 20), 5)
    editor.wait('dragging', lambda s: s['dragging'])
    moves = []
    for i in range(MOVES):
        moves += ['mousemove', '--window', editor.main, round(x + 60 * math.sin(i / 9)),
                  round(y + 60 * math.cos(i / 9)), 'sleep', '0.03']
    before = ticks(editor.process)
    xdo(*moves)
    used = (ticks(editor.process) - before) / os.sysconf('SC_CLK_TCK') / MOVES
    editor.release()
    editor.end()
    return used


lone, thousand = cost(1), cost(1000)
print('a move of one thing alone: %.2f ms; among a thousand: %.2f ms; ratio %.2f'
      % (lone * 1000, thousand * 1000, thousand / lone))
sys.exit(0 if thousand <= 2 * lone else 1)
