#include "exchange/outline-read.h"

#include "geometry/box.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

void outline_read_clear(OutlineRead *read)
{
    g_clear_pointer(&read->nodes, g_array_unref);
    g_clear_pointer(&read->starts, g_array_unref);
    g_clear_pointer(&read->holes, g_array_unref);
    g_clear_pointer(&read->notes, g_ptr_array_unref);
    *read = (OutlineRead){0};
}

/* ---- into a part ---- */

static void empty_part(Part *part)
{
    for (uint32_t i = 0; i < part->rings.count; i++)
        g_free(LIST_AT(&part->rings, PartRing, i)->nodes.items);
    for (uint32_t i = 0; i < part->holes.count; i++) {
        g_free(LIST_AT(&part->holes, PartHole, i)->name);
        g_free(LIST_AT(&part->holes, PartHole, i)->unknown);
    }
    g_free(part->rings.items);
    g_free(part->holes.items);
    part->rings = part->holes = (List){0};
}

void outline_read_part(const OutlineRead *read, Part *part)
{
    empty_part(part);
    for (size_t r = 0; r + 1 < read->starts->len; r++) {
        PartRing *ring = list_append(&part->rings, PartRing);
        size_t end = g_array_index(read->starts, size_t, r + 1);
        for (size_t i = g_array_index(read->starts, size_t, r); i < end; i++)
            *list_append(&ring->nodes, OutlineNode) = g_array_index(read->nodes, OutlineNode, i);
    }
    for (size_t i = 0; i < read->holes->len; i++) {
        const RoundHole *hole = &g_array_index(read->holes, RoundHole, i);
        PartHole *made = list_append(&part->holes, PartHole);
        made->at = (Place){hole->x, hole->y};
        made->diameter = hole->diameter;
    }
}

/* ---- notes ---- */

/* What stands before and after the count. */
static const char *const note_texts[NOTE_KINDS][2] = {
    [NOTE_OPEN] = {"open lines left out: ",
                   "; close them in the drawing where they belong to the part"},
    [NOTE_OUTSIDE] = {"shapes outside the outline left out: ", ""},
    [NOTE_ISLAND] = {"shapes inside an opening or a hole left out: ", ""},
    [NOTE_TWICE] = {"shapes drawn twice, read once: ", ""},
    [NOTE_EMPTY] = {"shapes with no area left out: ", ""},
    [NOTE_CROSSES_ITSELF] = {"shapes that cross themselves left out: ", ""},
    [NOTE_GAPS] = {"gaps of up to 0.01 mm closed: ", ""},
    [NOTE_POLYGON_HOLE] = {"holes drawn in short straight sides, read as round: ", ""},
    [NOTE_INVISIBLE] = {"elements that are not visible left out: ", ""},
    [NOTE_TEXT] = {"lettering left out: ", "; turn it into paths where it belongs to the part"},
    [NOTE_PICTURE] = {"pictures left out: ", ""},
    [NOTE_CLIPPED] = {"clips and masks not applied: ", "; check the shape"},
    [NOTE_OTHER_FILE] = {"references to other files left out: ", ""},
    [NOTE_NO_SIZE] = {"the drawing gives no size in mm or inches; taken at 96 units to an inch",
                      ""},
    [NOTE_RELATIVE_SIZE] = {"the drawing's size depends on the page; check it", ""},
};

void read_notes_add(ReadNotes *notes, ReadNote kind, long line)
{
    if (notes->counts[kind]++ == 0)
        notes->lines[kind] = line;
}

GPtrArray *read_notes_write(const ReadNotes *notes)
{
    GPtrArray *texts = g_ptr_array_new_with_free_func(g_free);
    for (int kind = 0; kind < NOTE_KINDS; kind++) {
        if (notes->counts[kind] == 0)
            continue;
        GString *text = g_string_new(note_texts[kind][0]);
        if (kind != NOTE_NO_SIZE && kind != NOTE_RELATIVE_SIZE) {
            g_string_append_printf(text, "%u", notes->counts[kind]);
            if (notes->lines[kind] > 0)
                g_string_append_printf(text, "%s line %ld",
                                       notes->counts[kind] > 1 ? ", the first in" : ", in",
                                       notes->lines[kind]);
        }
        g_string_append(text, note_texts[kind][1]);
        g_ptr_array_add(texts, g_string_free(text, FALSE));
    }
    return texts;
}

/* ---- size ---- */

bool outline_read_factor(const OutlineRead *read, const OutlineOptions *options, double *factor,
                         Error *error)
{
    double wide = options->known_width, high = options->known_height;
    *factor = 1;
    if (wide == 0 && high == 0)
        return true;
    if (wide != 0 && high != 0)
        return error_set(error, ERROR_TYPED, NULL,
                         "give the known width or the known height, not both");
    double known = wide != 0 ? wide : high;
    if (!(known >= 0.01 && known <= length_to_mm(LENGTH_GREATEST)))
        return error_set(error, ERROR_TYPED, NULL,
                         "the known size is not between 0.01 mm and 10 m; check the units");
    *factor = known / (wide != 0 ? read->drawn_width : read->drawn_height);
    return true;
}

/* ---- files ---- */

static char *refuse_file(int handle, const char *file, ErrorKind kind, const char *message,
                         Error *error)
{
    error_set(error, kind, NULL, "%s", message);
    error_set_file(error, file);
    if (handle >= 0)
        close(handle);
    return NULL;
}

char *outline_read_file(const char *file, size_t most, size_t *size, Error *error)
{
    /* Not to hang on a pipe that nobody writes to. */
    int handle = open(file, O_RDONLY | O_CLOEXEC | O_NONBLOCK);
    struct stat status;
    if (handle < 0 || fstat(handle, &status) != 0)
        return refuse_file(handle, file, ERROR_FILE, g_strerror(errno), error);
    if (!S_ISREG(status.st_mode))
        return refuse_file(handle, file, ERROR_FILE, "it is not a file of data", error);
    if ((uint64_t)status.st_size > most) {
        char message[100];
        g_snprintf(message, sizeof message, "the file is larger than %zu MiB; simplify the drawing",
                   most >> 20);
        return refuse_file(handle, file, ERROR_LIMIT, message, error);
    }
    size_t room = (size_t)status.st_size;
    char *bytes = g_malloc(room + 1);
    *size = 0;
    while (*size < room) {
        ssize_t got = read(handle, bytes + *size, room - *size);
        if (got < 0 && errno == EINTR)
            continue;
        if (got < 0) {
            int why = errno;
            g_free(bytes);
            return refuse_file(handle, file, ERROR_FILE, g_strerror(why), error);
        }
        if (got == 0)
            break;
        *size += (size_t)got;
    }
    close(handle);
    bytes[*size] = 0;
    return bytes;
}
