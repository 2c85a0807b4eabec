/* SPDX-License-Identifier: MIT */
#include "build_record.h"

#include <stdio.h>
#include <string.h>

#include "near.h"

enum { LINE_MAX_ = 512 };

const char build_record_full[] = "board scale = 24.9 in\n"
                                 "board strings = 6\n"
                                 "board frets = 19\n"
                                 "board join_fret = 12\n"
                                 "board heel_fret = 10\n"
                                 "board action_fret = 12\n"
                                 "board relief_fret = 6\n"
                                 "board board_end = 17.2 in\n"
                                 "bridge kind = screw\n"
                                 "bridge thread = 0.5 mm\n"
                                 "bridge exposure_min = 3 mm\n"
                                 "bridge exposure_new = 4 mm\n"
                                 "neck join = bolted\n"
                                 "neck heel_depth = 88 mm\n"
                                 "neck pocket_length = 76 mm\n"
                                 "neck rod = two-way\n"
                                 "string.1 setback = 1.5 mm\n"
                                 "string.2 setback = 2.5 mm\n"
                                 "string.3 setback = 1.8 mm\n"
                                 "string.4 setback = 2.4 mm\n"
                                 "string.5 setback = 3.0 mm\n"
                                 "string.6 setback = 3.6 mm\n"
                                 "targets relief = .006 in\n"
                                 "targets action_bass = 6/64 in\n"
                                 "targets action_treble = 4/64 in\n"
                                 "targets nut_gap_bass = .018 in\n"
                                 "targets nut_gap_treble = .012 in\n"
                                 "targets relief_tolerance = .001 in\n"
                                 "targets action_tolerance = 1/128 in\n"
                                 "targets nut_gap_tolerance = .001 in\n"
                                 "visit.1 date = 2026-03-02\n"
                                 "visit.1.pass.1 relief = .013 in\n"
                                 "visit.1.pass.1 nut_method = open\n"
                                 "visit.1.pass.1 nut_gap.1 = .020 in\n"
                                 "visit.1.pass.1 nut_gap.2 = .021 in\n"
                                 "visit.1.pass.1 nut_gap.3 = .024 in\n"
                                 "visit.1.pass.1 nut_gap.4 = .025 in\n"
                                 "visit.1.pass.1 nut_gap.5 = .028 in\n"
                                 "visit.1.pass.1 nut_gap.6 = .030 in\n"
                                 "visit.1.pass.1 action.1 = 6/64 in\n"
                                 "visit.1.pass.1 action.2 = 6.25/64 in\n"
                                 "visit.1.pass.1 action.3 = 6.75/64 in\n"
                                 "visit.1.pass.1 action.4 = 7.25/64 in\n"
                                 "visit.1.pass.1 action.5 = 7.75/64 in\n"
                                 "visit.1.pass.1 action.6 = 8.25/64 in\n"
                                 "visit.1.pass.1 exposure_bass = 5 mm\n"
                                 "visit.1.pass.1 exposure_treble = 4.5 mm\n";

static void copy_part(char *out, const char *from, size_t length)
{
    assert_true(length < LINE_MAX_);
    memcpy(out, from, length);
    out[length] = '\0';
}

/* The section is before the first blank, the key after it. */
static struct reading_key parse_key(const char *text, size_t length)
{
    char section[LINE_MAX_], name[LINE_MAX_];
    struct reading_key key;
    const char *blank = memchr(text, ' ', length);

    if (!blank)
        fail_msg("no blank between section and key in: %.60s", text);
    copy_part(section, text, (size_t)(blank - text));
    copy_part(name, blank + 1, length - (size_t)(blank + 1 - text));
    if (reading_key_parse(section, name, &key) != STATUS_OK)
        fail_msg("no such field: %s %s", section, name);
    return key;
}

static void put(struct record *record, const struct reading_key *key, const char *text)
{
    struct field_fault fault;

    if (reading_key_is_change(key) && strcmp(text, "absent") == 0)
        text = RECORD_GONE;
    if (record_put(record, key, text, false, &fault) != STATUS_OK)
        fail_msg("%s = %s: %s", field_get(key->field)->key, text, fault.words);
}

static void add_line(struct record *record, const char *line, size_t length)
{
    static const char sign[] = " = ";
    char copy[LINE_MAX_];

    copy_part(copy, line, length);
    const char *at = strstr(copy, sign);
    if (!at)
        fail_msg("no ' = ' in: %s", copy);
    const struct reading_key key = parse_key(copy, (size_t)(at - copy));
    put(record, &key, at + strlen(sign));
}

void build_record_add(struct record *record, const char *lines)
{
    while (*lines) {
        const size_t length = strcspn(lines, "\n");

        if (length > 0)
            add_line(record, lines, length);
        lines += length + (lines[length] == '\n');
    }
}

void build_record(struct record *ret_record, const char *lines)
{
    record_init(ret_record);
    build_record_add(ret_record, lines);
}

void build_record_put_mm(struct record *record, struct reading_key key, double value_mm)
{
    char text[64];

    snprintf(text, sizeof text, "%.12f mm", value_mm);
    put(record, &key, text);
}

void build_record_drop(struct record *record, const char *line)
{
    const struct reading_key key = parse_key(line, strlen(line));

    if (!record_remove(record, &key))
        fail_msg("not in the record: %s", line);
}

struct derived build_derived(const char *lines, const char *more)
{
    struct derived derived;
    struct record record;

    build_record(&record, lines);
    build_record_add(&record, more);
    derive_current(&record, &derived);
    record_done(&record);
    return derived;
}
