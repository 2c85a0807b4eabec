/* SPDX-License-Identifier: MIT */
#include "words/join_words.h"

#include <string.h>

#include "model/reading/work_line.h"
#include "words/reading_words.h"

static const struct reading *reading_of(const struct record_join *join,
                                        const struct join_difference *difference,
                                        enum join_version version)
{
    return record_join_reading(join, difference, version);
}

static void add_whole(struct strbuf *out, const struct join_difference *difference)
{
    const struct reading_key *key = &difference->key;
    struct reading_key visit = reading_key_visit(FIELD_VISIT_DATE, key->visit);

    reading_words_add_place(out, difference->what == JOIN_VISIT ? &visit : key);
    strbuf_add(out, "whole");
}

void join_words_add_where(struct strbuf *out, const struct record_join *join,
                          const struct join_difference *difference)
{
    struct outfit outfit;

    if (difference->what != JOIN_CELL) {
        add_whole(out, difference);
        return;
    }
    outfit_read(&outfit, &join->record[JOIN_LEFT], difference->key.visit);
    reading_words_add_place(out, &difference->key);
    reading_words_add_name(out, &difference->key, &outfit);
}

/* What tells it from others of its kind. */
static const char *name_of(const struct record_join *join, const struct join_difference *difference,
                           enum join_version version)
{
    const struct reading_key *key = &difference->key;
    const enum field_id field = difference->what == JOIN_VISIT  ? FIELD_VISIT_DATE
                                : difference->what == JOIN_PASS ? FIELD_PASS_LABEL
                                                                : FIELD_WORK_KIND;
    const struct reading_key name =
        reading_key_pass(field, key->visit, difference->what == JOIN_VISIT ? 0 : key->part);

    return record_text(&join->record[version], &name);
}

void join_words_add_value(struct strbuf *out, const struct record_join *join,
                          const struct join_difference *difference, enum join_version version)
{
    const struct reading *reading = reading_of(join, difference, version);
    const size_t size = record_join_size(join, difference, version);

    if (size == 0) {
        strbuf_add(out, "nothing");
        return;
    }
    if (difference->what == JOIN_CELL) {
        strbuf_add(out, reading->value.state == READING_GONE ? "no longer" : reading->text);
        return;
    }
    const char *name = name_of(join, difference, version);
    if (name)
        strbuf_addf(out, "%s, ", name);
    strbuf_add_count(out, size, "entry", "entries");
}

size_t join_words_shared(const struct record_join *join, const struct join_difference *difference)
{
    const struct reading *left = reading_of(join, difference, JOIN_LEFT);
    const struct reading *right = reading_of(join, difference, JOIN_RIGHT);
    size_t shared = 0;

    if (difference->what != JOIN_CELL || !left || !right)
        return 0;
    for (size_t i = 0; left->text[i] && left->text[i] == right->text[i]; i++)
        if (left->text[i] == ' ')
            shared = i + 1;
    return shared;
}

static const char *side_of(const struct record_join *join, const struct join_difference *difference)
{
    return record_join_size(join, difference, JOIN_LEFT) > 0 ? "left" : "right";
}

/* Only one side has it. */
static void add_why_lone(struct strbuf *out, const struct record_join *join,
                         const struct join_difference *difference)
{
    strbuf_addf(out, "only the %s has it", side_of(join, difference));
    if (difference->asked && record_join_size(join, difference, JOIN_BASE) > 0)
        strbuf_add(out, "; both had it once, so the other side took it out");
    else if (difference->asked)
        strbuf_add(out, "; it was there once, so it may have been taken out");
}

static bool is_base(const struct record_join *join, const struct join_difference *difference,
                    enum join_version version)
{
    const struct reading *base = reading_of(join, difference, JOIN_BASE);

    return base && strcmp(base->text, reading_of(join, difference, version)->text) == 0;
}

void join_words_add_why(struct strbuf *out, const struct record_join *join,
                        const struct join_difference *difference)
{
    if (record_join_size(join, difference, JOIN_LEFT) == 0 ||
        record_join_size(join, difference, JOIN_RIGHT) == 0) {
        add_why_lone(out, join, difference);
        return;
    }
    const bool left = is_base(join, difference, JOIN_LEFT);
    const bool right = is_base(join, difference, JOIN_RIGHT);
    if (!join->version[JOIN_BASE]) {
        strbuf_add(out, "no earlier state says which is the newer one");
    } else if (left || right) {
        strbuf_addf(out,
                    difference->asked ? "the %s has an older value, still or again; it was "
                                      : "only the %s changed it; it was ",
                    left ? "right" : "left");
        join_words_add_value(out, join, difference, JOIN_BASE);
    } else if (!reading_of(join, difference, JOIN_BASE)) {
        strbuf_add(out, "both entered it");
    } else {
        strbuf_add(out, "both changed it; it was ");
        join_words_add_value(out, join, difference, JOIN_BASE);
    }
}
