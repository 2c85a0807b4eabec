/* SPDX-License-Identifier: MIT */
#include "fuzz.h"

#include <math.h>
#include <string.h>

#include "base/utf8.h"
#include "model/reading/record_access.h"
#include "model/survey/shelf_glance.h"
#include "sound.h"
#include "store/profile/profile_edit.h"

/*
 * A profile's bytes. Whatever opens is a sound record, survives writing and reading,
 * and is written again as the same bytes; its problems are safe to print; and its
 * figures are finite.
 */

static void check_words(const struct problems *problems)
{
    for (size_t i = 0; i < problems->count; i++) {
        const char *words = problems->items[i].words;
        size_t left = strlen(words);

        FUZZ_CHECK(left > 0 && problems->items[i].line >= 0);
        while (left > 0) {
            uint32_t rune;
            bool valid;
            const size_t took = utf8_decode(words, left, &rune, &valid);

            FUZZ_CHECK(valid && !utf8_unsafe(rune));
            words += took;
            left -= took;
        }
    }
}

static void write_content(const struct profile_content *content, struct bytes *out)
{
    bytes_init(out);
    FUZZ_CHECK(profile_edit(content, &content->record, out) == STATUS_OK);
}

static void read_back(const struct bytes *written, struct profile_content *ret_content)
{
    struct bytes copy;

    bytes_init(&copy);
    bytes_add(&copy, written->data, written->length);
    FUZZ_CHECK(profile_load(&copy, NULL, ret_content) == STATUS_OK);
    bytes_done(&copy);
}

static void check_round_trip(const struct profile_content *content)
{
    struct profile_content again;
    struct bytes first, second;

    write_content(content, &first);
    read_back(&first, &again);
    FUZZ_CHECK(again.end == INI_END_GOOD);
    FUZZ_CHECK(again.newer == content->newer);
    FUZZ_CHECK(record_equal(&again.record, &content->record));
    write_content(&again, &second);
    FUZZ_CHECK(bytes_equal(&first, &second));
    bytes_done(&second);
    bytes_done(&first);
    profile_content_done(&again);
}

static void check_figures(const struct record *record)
{
    struct derived derived;
    struct card card;

    card_make(record, &card);
    FUZZ_CHECK(card.name && card.kind && card.owner && card.maker && card.serial && card.visit);
    const struct place place = place_current(record);
    if (place.pass == 0)
        return;
    derive_pass(place, &derived);
    for (int id = 0; id < FIGURE_COUNT_; id++)
        for (int s = 0; s <= STRINGS_MAX; s++)
            if (derived.figures.at[id][s].known != KNOWN_ABSENT)
                FUZZ_CHECK(isfinite(derived.figures.at[id][s].value));
}

/* What the shelf sees at a glance is what all of the file says. How many strings there are follows
 * from readings that a glance does not take, if the file does not say it. */
static void check_glance(const uint8_t *data, size_t size, enum status status,
                         const struct record *record)
{
    struct profile_content content;
    struct bytes bytes;
    bool fields[FIELD_COUNT_];

    bytes_init(&bytes);
    if (size > 0)
        bytes_add(&bytes, (const char *)data, size);
    shelf_glance_fields(bytes.data, bytes.length, fields);
    FUZZ_CHECK(profile_glance(&bytes, fields, &content) == status);
    bytes_done(&bytes);
    if (status != STATUS_OK)
        return;
    struct shelf_facts facts, wanted_facts;
    struct card card, wanted;
    shelf_glance_make(&content.record, &card, &facts);
    card_glance(record, &wanted);
    shelf_facts_glance(record, &wanted_facts);
    FUZZ_CHECK(strcmp(card.name, wanted.name) == 0 && strcmp(card.kind, wanted.kind) == 0);
    FUZZ_CHECK(strcmp(card.owner, wanted.owner) == 0 && strcmp(card.maker, wanted.maker) == 0);
    FUZZ_CHECK(strcmp(card.serial, wanted.serial) == 0 && strcmp(card.visit, wanted.visit) == 0);
    /* How many strings there are tells the tuning; uncounted, they count by what is read of them.
     */
    for (int i = 0; i < FACT_TEXTS_; i++)
        FUZZ_CHECK((i == FACT_ALSO && !record_entered_one(record, FIELD_STRINGS).given) ||
                   strcmp(shelf_facts_text(&facts, (enum fact_text)i),
                          shelf_facts_text(&wanted_facts, (enum fact_text)i)) == 0);
    for (int i = 0; i < FACT_NUMBERS_; i++)
        /* A time in pieces or escapes is not seen at a glance. */
        FUZZ_CHECK(i == FACT_WORKED_DAY ||
                   (facts.number[i].given == wanted_facts.number[i].given &&
                    !(fabs(facts.number[i].value - wanted_facts.number[i].value) > 0)));
    profile_content_done(&content);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct problems problems;
    struct profile_content content;
    struct bytes bytes;

    bytes_init(&bytes);
    if (size > 0)
        bytes_add(&bytes, (const char *)data, size);
    problems_init(&problems);
    const enum status status = profile_load(&bytes, &problems, &content);
    check_glance(data, size, status, &content.record);
    if (status == STATUS_OK) {
        profile_check(&content, &problems);
        FUZZ_SOUND(sound_record(&content.record));
        check_round_trip(&content);
        check_figures(&content.record);
        profile_content_done(&content);
    }
    check_words(&problems);
    problems_done(&problems);
    bytes_done(&bytes);
    return 0;
}
