/* Whatever the bytes, a plate is refused with a reason or read; one that is read is written the same
 * twice, checked, and takes an edit back. */
#include "checks/checker.h"
#include "checks/sentence.h"
#include "plate/plate-file.h"

#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void must(bool holds)
{
    if (!holds)
        abort();
}

static void write_twice(const Plate *plate)
{
    size_t size, size_again;
    Error error = {.kind = ERROR_NONE};
    char *text = plate_text(plate, &size);
    Plate *again = plate_parse(text, size, &error);
    must(again != NULL);
    char *text_again = plate_text(again, &size_again);
    must(size == size_again && memcmp(text, text_again, size) == 0);
    plate_free(again);
    g_free(text);
    g_free(text_again);
}

static void check(const Plate *plate)
{
    char text[SENTENCE_TEXT];
    Placed *placed = placed_new(plate);
    Checker *checker = checker_new();
    checker_update(checker, placed, NULL);
    const FindingList *findings = checker_findings(checker);
    for (uint32_t i = 0; i < findings->count; i++) {
        finding_message(&findings->items[i], placed, UNIT_INCH, text);
        must(*text);
        json_object_put(finding_json(&findings->items[i], placed));
    }
    checker_free(checker);
    placed_free(placed);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    Error error = {.kind = ERROR_NONE};
    Plate *plate = plate_parse((const char *)data, size, &error);
    if (!plate) {
        must(error.kind != ERROR_NONE && *error.message);
        return 0;
    }
    write_twice(plate);
    if (plate_count(plate) < 200)
        check(plate);
    plate_free(plate);
    return 0;
}
