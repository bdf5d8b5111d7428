/* refit-text.h: a refit's answers in words and as JSON. */
#pragma once

#include "refit/refit.h"
#include "trade/unit.h"

#define VERDICT_TEXT 64

/* "fits as it stands", "fits with one more hole", "fits with 3 more holes", "does not fit". */
void refit_verdict_text(const RefitAnswer *answer, char text[VERDICT_TEXT]);

/* The first reason why an answer does not fit, or the first caution of one that does, as a sentence
 * with no full stop; empty when there is neither. `text` has SENTENCE_TEXT bytes. */
void refit_reason(Refit *refit, uint32_t i, Unit unit, char *text);

/* An answer in a line or two: where, on what, with which hardware, what is new. Free with g_free.
 */
char *refit_answer_text(Refit *refit, uint32_t i, Unit unit);

/* The answer as JSON: always English and mm. The caller owns it. */
json_object *refit_answer_json(Refit *refit, uint32_t i);
