/* SPDX-License-Identifier: MIT */
#include "commands/check_command.h"

#include "commands/shop_settings.h"
#include "commands/with_record.h"
#include "model/reading/place.h"
#include "model/setup/setup.h"

/* Reports the faults of a profile's current state; returns how many. Geometry that cannot be is
 * found as it is read, before anything is derived from it. */
static int report_faults(const char *path, const struct record *record)
{
    struct findings findings = {.count = 0};
    struct setup setup;
    int faults = 0;

    setup_read(&setup, place_current(record), &findings);
    for (int i = 0; i < findings.count; i++) {
        const struct finding *finding = &findings.list[i];
        char memory[200];
        struct strbuf words = STRBUF(memory);

        if (finding_weight(finding->id) != WEIGHT_FAULT)
            continue;
        finding_words(finding, &words);
        report_begin(path, stderr);
        fprintf(stderr, " %s: %s\n", finding_name(finding->id), memory);
        faults++;
    }
    return faults;
}

static enum exit_code check(const void *path, const struct record *record)
{
    return report_faults(path, record) > 0 ? EXIT_FINDINGS : EXIT_GOOD;
}

enum exit_code check_command(char *const *paths, int count)
{
    /* Checked too, as the shop's units decide how every reading is shown and typed. */
    enum exit_code worst = shop_settings_check();

    for (int i = 0; i < count; i++) {
        const enum exit_code code = with_record(paths[i], PROBLEM_NOTE, check, paths[i]);

        if (code > worst)
            worst = code;
    }
    return worst;
}
