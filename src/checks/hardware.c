#include "checks/hardware.h"

#include <string.h>

/* Sizes are written with the word for the thing before them, which its table leaves out. */
static const char *without_word(const char *size, const char *word)
{
    size_t length = strlen(word);
    if (g_ascii_strncasecmp(size, word, length) != 0)
        return size;
    size += length;
    while (*size == ' ')
        size++;
    return size;
}

const ShoulderScrew *hardware_shoulder_screw(const Fitting *fitting)
{
    if (fitting->kind != FITTING_SHOULDER_SCREW || !fitting->size)
        return NULL;
    return shoulder_screw_find(without_word(fitting->size, "shoulder screw"), NULL);
}

const Dowel *hardware_dowel(const Fitting *fitting)
{
    if ((fitting->kind != FITTING_DOWEL && fitting->kind != FITTING_RELIEVED_PIN) || !fitting->size)
        return NULL;
    return dowel_find(without_word(fitting->size, "dowel"), NULL);
}

const Screw *hardware_screw(const Fitting *fitting)
{
    if (fitting->kind != FITTING_HOLD_DOWN || !fitting->size)
        return NULL;
    return screw_find(fitting->size, NULL);
}

/* Capitals and blanks don't matter. */
static bool same_name(const char *a, const char *b)
{
    for (;;) {
        a += strspn(a, " ");
        b += strspn(b, " ");
        if (g_ascii_tolower(*a) != g_ascii_tolower(*b))
            return false;
        if (!*a)
            return true;
        a++;
        b++;
    }
}

/* Asked of every tapped hole near a moved one, and most hold none: insert_find would look for the
 * nearest names each time. */
const Insert *hardware_insert(const Step *step)
{
    if (step->kind != STEP_TAP || !step->thread)
        return NULL;
    for (size_t i = 0; i < insert_count(); i++)
        if (same_name(step->thread, insert_at(i)->name))
            return insert_at(i);
    return NULL;
}

const Thread *hardware_thread(const Step *step)
{
    if (step->kind != STEP_TAP || !step->thread)
        return NULL;
    const Insert *insert = hardware_insert(step);
    return thread_find(insert ? insert->thread : step->thread, NULL);
}

bool hardware_tapped_thread(const Step *step, Thread *thread)
{
    const Thread *carried = hardware_thread(step);
    if (!carried)
        return false;
    const Insert *insert = hardware_insert(step);
    *thread = *carried;
    if (insert)
        thread->major = insert->tap_major;
    return true;
}

/* A size of another diameter than the fitting's says nothing about it. */
static bool table_limits(const Fitting *fitting, Length *greatest, Length *least)
{
    const ShoulderScrew *screw = hardware_shoulder_screw(fitting);
    const Dowel *dowel = hardware_dowel(fitting);
    if (screw && screw->nominal == fitting->diameter) {
        *greatest = screw->shoulder_greatest;
        *least = screw->shoulder_least;
        return true;
    }
    if (dowel && dowel->nominal == fitting->diameter) {
        *greatest = dowel->greatest;
        *least = dowel->least;
        return true;
    }
    return false;
}

bool hardware_pin_limits(const Fitting *fitting, double *greatest, double *least)
{
    Length largest = fitting->diameter + fitting->upper;
    Length smallest = fitting->diameter + fitting->lower;
    bool known = fitting->upper != 0 || fitting->lower != 0;
    if (!known)
        known = table_limits(fitting, &largest, &smallest);
    *greatest = length_to_mm(largest);
    *least = length_to_mm(smallest);
    return known;
}

static bool is_part_of_word(char c)
{
    return g_ascii_isalnum(c) || c == '.';
}

static bool has_word(const char *text, const char *word, size_t length)
{
    for (const char *p = text; *p; p++) {
        bool begins = p == text || !is_part_of_word(p[-1]);
        if (begins && g_ascii_strncasecmp(p, word, length) == 0 && !is_part_of_word(p[length]))
            return true;
    }
    return false;
}

/* A designation names the grade among other words: "EN AW-6061 T6" is 6061. */
static const Material *material_of_grade(const char *text)
{
    for (size_t i = 0; i < material_count(); i++)
        if (g_ascii_strcasecmp(material_at(i)->name, text) == 0)
            return material_at(i);
    for (size_t i = 0; i < material_count(); i++) {
        const char *name = material_at(i)->name;
        size_t grade = strcspn(name, " -");
        if (grade > 1 && strcspn(name, "0123456789") < grade && has_word(text, name, grade))
            return material_at(i);
    }
    return NULL;
}

const Material *hardware_plate_material(const Settings *settings)
{
    const Stock *stock = &settings->stock;
    const Material *material = stock->material ? material_of_grade(stock->material) : NULL;
    if (!material)
        material = material_find(stock->metal == METAL_STEEL ? "1018" : "6061-T6", NULL);
    return material;
}

const Material *hardware_part_material(const Part *part)
{
    return part->material ? material_of_grade(part->material) : NULL;
}
