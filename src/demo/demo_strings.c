/* SPDX-License-Identifier: MIT */
#include "demo/demo_strings.h"

#include "base/num.h"
#include "model/reading/work_line.h"
#include "model/strings/string_set.h"

#define INCH_MM 25.4

static double gauge_of(const struct demo_book *book, int string)
{
    const struct record now = record_as_of(&book->record, book->visit);

    return maybe_or(record_entered_string(&now, FIELD_GAUGE, string), 0);
}

/* By what factor the strings pull as before: at one pitch and scale each pulls by its mass, and
 * that goes with the square of its gauge; at first all of them pull about alike. */
static double pull_factor(const struct demo_book *book, int strings,
                          const double before_mm[STRINGS_MAX + 1])
{
    double sum = 0;

    for (int s = 1; s <= strings; s++) {
        const double ratio = before_mm[s] > 0 ? gauge_of(book, s) / before_mm[s] : 1;

        sum += ratio * ratio;
    }
    return sum / strings;
}

static void put_length(struct demo_book *book, enum field_id field, int string, double mm)
{
    const struct reading_key key = reading_key_string(field, string);
    char memory[32];
    struct strbuf text = STRBUF(memory);

    if (!(mm > 0))
        return;
    num_format_fixed(mm / INCH_MM, 3, true, &text);
    strbuf_add(&text, " in");
    demo_book_put(book, reading_key_as_of(key, book->visit > 1 ? book->visit : 0), memory);
}

/* What a later visit changes asks for a format that older programs know they do not know. */
static void put_set(struct demo_book *book, const struct string_set *set)
{
    for (int s = 1; s <= set->strings; s++) {
        put_length(book, FIELD_GAUGE, s, set->string[s - 1].build.gauge_mm);
        put_length(book, FIELD_CORE, s, set->string[s - 1].build.core_mm);
    }
    if (book->visit > 1)
        demo_book_put_whole(book, reading_key_one(FIELD_FORMAT), RECORD_FORMAT_OF_CHANGES, "");
}

void demo_strings_restring(struct demo_book *book, struct demo_neck *neck, const char *name)
{
    double before_mm[STRINGS_MAX + 1] = {0};
    struct string_set set;
    char memory[96];
    struct strbuf amount = STRBUF(memory);
    const bool other = string_set_find(name, &set) == STATUS_OK && set.strings == neck->strings;

    for (int s = 1; s <= neck->strings; s++)
        before_mm[s] = gauge_of(book, s);
    if (other)
        put_set(book, &set);
    strbuf_add(&amount, other ? set.name : "same set");
    demo_book_work(book, WORK_RESTRUNG, memory);
    demo_neck_restring(neck, pull_factor(book, neck->strings, before_mm));
}
