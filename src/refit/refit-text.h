/* refit-text.h: a refit's answers in words and as JSON. */
#pragma once

#include "refit/refit.h"
#include "trade/speech.h"

#define VERDICT_TEXT 64

/* "fits as it stands", "fits with one more hole", "fits with 3 more holes", "does not fit". */
void refit_verdict_text(const RefitAnswer *answer, char text[VERDICT_TEXT]);

/* The first reason why an answer does not fit, or the first caution of one that does, as a sentence
 * with no full stop; empty when there is neither. `text` has SENTENCE_TEXT bytes. */
void refit_reason(Refit *refit, uint32_t i, Unit unit, char *text);

/* Where an answer has the part: face, place, rotation, and what else is to be said of the place:
 * the arc it may lie on, what it displaces. Free with g_free. */
char *refit_place_text(Refit *refit, uint32_t i, Unit unit);

/* The other places that the same is true of: "2.4500 2.3500, 2.4500 4.0500"; NULL without any. Free
 * with g_free. */
char *refit_alike_text(Refit *refit, uint32_t i, Unit unit);

/* An answer in a line or two: where, on what, with which hardware, what is new. Free with g_free.
 */
char *refit_answer_text(Refit *refit, uint32_t i, Unit unit);

/* The same as they are said on the screen. */
void refit_verdict_said(const RefitAnswer *answer, const Speech *speech, char text[VERDICT_TEXT]);
void refit_reason_said(Refit *refit, uint32_t i, Unit unit, const Speech *speech, char *text);
char *refit_answer_said(Refit *refit, uint32_t i, Unit unit, const Speech *speech);

/* The answer as JSON: always English and mm. The caller owns it. */
json_object *refit_answer_json(Refit *refit, uint32_t i);
