/* speech.h: words and figures as the maker's desktop has them: its language, its decimal sign.
 *
 * All lengths and angles that the window shows are written, and all that are typed are read, through
 * here. The process itself keeps the decimal point everywhere, so that no file, print or program can
 * get another sign.
 */
#pragma once

#include "geometry/angle.h"
#include "trade/speech.h"
#include "trade/typed.h"

/* Takes up the desktop's locale. Before anything else, and before the toolkit begins. */
void pin_speech_start(void);

/* What sentences are said with. */
const Speech *pin_speech(void);

/* As trade/unit.h and geometry/angle.h have them, with the desktop's decimal sign. */
size_t pin_length_text(Length length, Unit unit, char text[LENGTH_PEOPLE_TEXT]);
size_t pin_length_text_with_unit(Length length, Unit unit, char text[LENGTH_PEOPLE_TEXT]);
size_t pin_length_text_both(Length length, Unit unit, char text[LENGTH_PEOPLE_TEXT]);
size_t pin_angle_write(Angle angle, char text[LENGTH_TEXT]);
/* Gives figures that were written with a point the desktop's sign; returns `text`. */
char *pin_figures(char *text);

/* As trade/typed.h has them; the desktop's decimal sign is taken as well as the point. */
bool pin_typed_length_read(const char *text, Unit unit, Length *length, char *taken_as, size_t size,
                           Error *error);
bool pin_typed_angle_read(const char *text, Angle *angle, Error *error);
bool pin_typed_number_read(const char *text, double least, double greatest, double *number,
                           Error *error);
/* What was typed, with a point. Free with g_free. */
char *pin_typed_plain(const char *text);
