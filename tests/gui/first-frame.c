/* How long a program takes from its start to its first frame, as the display sees it: the root of
 * an empty display is black, and no window of the theme is. Both programs are started in turn, so
 * that what else the machine does meets both alike.
 *
 * Usage: first-frame TIMES PROGRAM ARGUMENT PEER; the argument may be empty. Windows must cover the
 * display, and the window manager draw nothing of its own. */
#include <X11/Xlib.h>
#include <X11/Xutil.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { TIMES_MOST = 200, PATIENCE = 60 };

static double now(void)
{
    struct timespec time;
    clock_gettime(CLOCK_MONOTONIC, &time);
    return (double)time.tv_sec + 1e-9 * (double)time.tv_nsec;
}

/* One pixel is enough: windows cover the display. */
static int is_drawn(Display *display)
{
    XImage *image =
        XGetImage(display, DefaultRootWindow(display), 120, 120, 1, 1, AllPlanes, ZPixmap);
    if (!image)
        return 0;
    unsigned long pixel = XGetPixel(image, 0, 0);
    XDestroyImage(image);
    return (pixel & 0xffffff) != 0;
}

static void wait_drawn(Display *display, int drawn)
{
    double until = now() + PATIENCE;
    while (is_drawn(display) != drawn) {
        if (now() > until) {
            fprintf(stderr, "waited in vain for a window to %s\n", drawn ? "come" : "go");
            exit(1);
        }
        nanosleep(&(struct timespec){.tv_nsec = 500000}, NULL);
    }
}

static double start(Display *display, const char *program, const char *argument)
{
    double before = now();
    pid_t child = fork();
    if (child == 0) {
        execlp(program, program, *argument ? argument : NULL, (char *)NULL);
        _exit(127);
    }
    wait_drawn(display, 1);
    double took = now() - before;
    kill(child, SIGTERM);
    waitpid(child, NULL, 0);
    wait_drawn(display, 0);
    return took;
}

static int by_size(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static double median(double *values, int count)
{
    qsort(values, (size_t)count, sizeof *values, by_size);
    return count % 2 ? values[count / 2] : (values[count / 2 - 1] + values[count / 2]) / 2;
}

int main(int argc, char **argv)
{
    double ours[TIMES_MOST], peers[TIMES_MOST];
    int times = argc == 5 ? atoi(argv[1]) : 0;
    Display *display = XOpenDisplay(NULL);
    if (times < 1 || times > TIMES_MOST || !display) {
        fprintf(stderr, "first-frame TIMES PROGRAM ARGUMENT PEER, on a display\n");
        return 2;
    }
    start(display, argv[4], ""); /* libraries come from the disk once */
    start(display, argv[2], argv[3]);
    for (int i = 0; i < times; i++) {
        ours[i] = start(display, argv[2], argv[3]);
        peers[i] = start(display, argv[4], "");
    }
    double our_median = median(ours, times), peer_median = median(peers, times);
    printf("first frame, median of %d: ours %.0f ms, an empty window %.0f ms; ratio %.2f\n", times,
           our_median * 1000, peer_median * 1000, our_median / peer_median);
    XCloseDisplay(display);
    return our_median <= 1.3 * peer_median ? 0 : 1;
}
