/* Whatever the bytes, a plate is refused with a reason or read; one that is read is written the
 * same twice, and checked. */
#include "checks/checker.h"
#include "checks/sentence.h"

#include "fuzz-plate-again.h"

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
    must_come_back(plate);
    if (plate_count(plate) < 200)
        check(plate);
    plate_free(plate);
    return 0;
}
