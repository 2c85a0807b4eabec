/* SPDX-License-Identifier: MIT */
#include "near.h"

#include "join_edits.h"

#include <stdio.h>
#include <string.h>

static void put(struct record *record, struct reading_key key, const char *text)
{
    const enum status status = record_put(record, &key, text, true, NULL);

    assert_true(status != STATUS_NO_MEMORY);
}

/* A text that nobody has entered before. */
static const char *new_text(struct join_bench *bench, char *memory, size_t size)
{
    snprintf(memory, size, "edit %d of bench %d", bench->edits, bench->side);
    return memory;
}

static const char *new_time(struct join_bench *bench, char *memory, size_t size)
{
    const int minute = 2 * (bench->edits % 700) + bench->side;

    snprintf(memory, size, "%02d:%02d:%02d", minute / 60, minute % 60, bench->edits % 60);
    return memory;
}

static bool is_kept(const struct reading_key *key)
{
    return key->field != FIELD_FORMAT && key->field != FIELD_VISIT_DATE &&
           key->field != FIELD_PASS_TIME && key->field != FIELD_WORK_TIME &&
           key->field != FIELD_WORK_KIND && key->field != FIELD_VISIT_PASSES;
}

static const struct reading *any_cell(struct join_bench *bench, const struct record *record)
{
    for (int i = 0; i < 50; i++) {
        const int at = seeded_whole(bench->seed, 0, (int)record->count - 1);

        if (is_kept(&record->readings[at].key))
            return &record->readings[at];
    }
    return NULL;
}

static void change_cell(struct join_bench *bench, struct record *record)
{
    const struct reading *cell = any_cell(bench, record);
    char memory[60];

    if (cell)
        put(record, cell->key, new_text(bench, memory, sizeof memory));
}

static void take_cell_out(struct join_bench *bench, struct record *record)
{
    const struct reading *cell = any_cell(bench, record);
    const struct reading_key key = cell ? cell->key : reading_key_one(FIELD_NOTE);

    (void)record_remove(record, &key);
}

static void enter_note(struct join_bench *bench, struct record *record)
{
    const int visit = record_last_visit(record);
    char memory[60];

    put(record,
        visit > 0 ? reading_key_visit(FIELD_VISIT_NOTE, visit) : reading_key_one(FIELD_NOTE),
        new_text(bench, memory, sizeof memory));
}

static void count_passes(struct record *record, int visit)
{
    const struct reading_key key = reading_key_visit(FIELD_VISIT_PASSES, visit);
    char memory[16];

    snprintf(memory, sizeof memory, "%d", record_last_pass(record, visit));
    if (record_find(record, &key))
        put(record, key, memory);
}

static void begin_pass(struct join_bench *bench, struct record *record)
{
    const int visit = record_last_visit(record), pass = record_last_pass(record, visit) + 1;
    char memory[60];

    if (visit == 0)
        return;
    put(record, reading_key_pass(FIELD_PASS_TIME, visit, pass),
        new_time(bench, memory, sizeof memory));
    put(record, reading_key_pass(FIELD_PASS_LABEL, visit, pass),
        new_text(bench, memory, sizeof memory));
    put(record, reading_key_pass(FIELD_RELIEF, visit, pass), "0.2 mm");
    count_passes(record, visit);
}

static void log_work(struct join_bench *bench, struct record *record)
{
    const int visit = record_last_visit(record), line = record_last_work(record, visit) + 1;
    char memory[60];
    struct reading_key key = reading_key_pass(FIELD_WORK_KIND, visit, line);

    if (visit == 0)
        return;
    put(record, key, new_text(bench, memory, sizeof memory));
    key.field = FIELD_WORK_TIME;
    put(record, key, new_time(bench, memory, sizeof memory));
}

static void begin_visit(struct join_bench *bench, struct record *record)
{
    const int visit = record_last_visit(record) + 1;
    char memory[60];

    snprintf(memory, sizeof memory, "2031-%02d-%02d", 1 + visit % 12, 1 + bench->edits % 28);
    const struct reading_key last = reading_key_visit(FIELD_VISIT_DATE, visit - 1);
    const char *day = record_text(record, &last);
    if (day && strcmp(day, memory) > 0)
        snprintf(memory, sizeof memory, "%s", day);
    put(record, reading_key_visit(FIELD_VISIT_DATE, visit), memory);
    begin_pass(bench, record);
}

static void change_string(struct join_bench *bench, struct record *record)
{
    const int visit = record_last_visit(record);
    struct reading_key key = reading_key_string(FIELD_CORE_MATERIAL, 1);
    char memory[60];

    key.visit = (int16_t)visit;
    if (visit < 2)
        return;
    put(record, key, new_text(bench, memory, sizeof memory));
    put(record, reading_key_one(FIELD_FORMAT), "2");
}

/* As take_out.c does it: those after it move up. */
static void take_part_out(struct join_bench *bench, struct record *record, enum section section)
{
    const int visit = record_last_visit(record);
    const int last =
        section == SECTION_PASS ? record_last_pass(record, visit) : record_last_work(record, visit);
    struct record was;

    if (last < 1)
        return;
    const int gone = seeded_whole(bench->seed, 1, last);
    assert_int_equal(record_copy(record, &was), STATUS_OK);
    for (size_t i = 0; i < was.count; i++) {
        struct reading_key key = was.readings[i].key;

        if (field_get(key.field)->section != section || key.visit != visit || key.part < gone)
            continue;
        record_remove(record, &key);
    }
    for (size_t i = 0; i < was.count; i++) {
        struct reading_key key = was.readings[i].key;

        if (field_get(key.field)->section != section || key.visit != visit || key.part <= gone)
            continue;
        key.part--;
        put(record, key, was.readings[i].text);
    }
    record_done(&was);
    if (section == SECTION_PASS)
        count_passes(record, visit);
}

static void take_visit_out(struct join_bench *bench, struct record *record)
{
    const int last = record_last_visit(record);
    const int gone = last > 1 ? seeded_whole(bench->seed, 1, last - 1) : 0;

    for (size_t i = record->count; i > 0 && gone > 0; i--)
        if (record->readings[i - 1].key.visit == gone) {
            const struct reading_key key = record->readings[i - 1].key;

            record_remove(record, &key);
        }
}

typedef void edit_function(struct join_bench *bench, struct record *record);

static void edit_by(struct join_bench *bench, struct record *record, edit_function *const *edits,
                    int count)
{
    edits[seeded_whole(bench->seed, 0, count - 1)](bench, record);
    bench->edits++;
}

static edit_function *const adding[] = {change_cell, change_cell, enter_note,   begin_pass,
                                        log_work,    begin_visit, change_string};

void join_edit_adding(struct join_bench *bench, struct record *record)
{
    edit_by(bench, record, adding, sizeof adding / sizeof adding[0]);
}

static void take_pass_out(struct join_bench *bench, struct record *record)
{
    take_part_out(bench, record, SECTION_PASS);
}

static void take_work_out(struct join_bench *bench, struct record *record)
{
    take_part_out(bench, record, SECTION_WORK);
}

void join_edit(struct join_bench *bench, struct record *record)
{
    static edit_function *const taking[] = {take_cell_out, take_pass_out, take_work_out,
                                            take_visit_out};

    if (seeded_whole(bench->seed, 0, 2) > 0)
        join_edit_adding(bench, record);
    else
        edit_by(bench, record, taking, sizeof taking / sizeof taking[0]);
}
