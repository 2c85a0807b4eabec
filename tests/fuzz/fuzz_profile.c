/* SPDX-License-Identifier: MIT */
#include "fuzz.h"

#include <math.h>
#include <string.h>

#include "base/utf8.h"
#include "model/derive/card.h"
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

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct problems problems;
    struct profile_content content;
    struct bytes bytes;

    bytes_init(&bytes);
    if (size > 0)
        bytes_add(&bytes, (const char *)data, size);
    problems_init(&problems);
    if (profile_load(&bytes, &problems, &content) == STATUS_OK) {
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
