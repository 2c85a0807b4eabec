/* SPDX-License-Identifier: MIT */
#include "demo/demo_book.h"

#include "base/num.h"
#include "model/reading/work_line.h"

/* What a careful hand misses by, standard deviations (memory). */
#define FEELER_ERROR_MM 0.008
#define RULE_ERROR_MM   0.04

#define INCH_MM 25.4

void demo_book_put(struct demo_book *book, struct reading_key key, const char *text)
{
    if (book->status == STATUS_OK)
        book->status = record_put(&book->record, &key, text, false, NULL);
}

void demo_book_put_day(struct demo_book *book, enum field_id field, int day)
{
    const struct day date = day_of_number(day);
    char memory[16];
    struct strbuf text = STRBUF(memory);

    day_add(&date, &text);
    demo_book_put(book, reading_key_visit(field, book->visit), memory);
}

void demo_book_put_whole(struct demo_book *book, struct reading_key key, int number,
                         const char *unit)
{
    char memory[32];
    struct strbuf text = STRBUF(memory);

    strbuf_addf(&text, "%d%s", number, unit);
    demo_book_put(book, key, memory);
}

static void put_time(struct demo_book *book, struct reading_key key)
{
    char memory[16];
    struct strbuf text = STRBUF(memory);

    strbuf_addf(&text, "%02d:%02d", book->minute / 60 % 24, book->minute % 60);
    demo_book_put(book, key, memory);
}

/* --- visits, passes, work --- */

void demo_book_begin_visit(struct demo_book *book, int day, const char *reason)
{
    book->visit++;
    book->pass = book->work = 0;
    book->minute = 60 * (9 + demo_pick(&book->chance, 7)) + 5 * demo_pick(&book->chance, 12);
    demo_book_put_day(book, FIELD_VISIT_DATE, day);
    demo_book_put(book, reading_key_visit(FIELD_VISIT_REASON, book->visit), reason);
}

void demo_book_begin_pass(struct demo_book *book, const char *label)
{
    book->pass++;
    book->minute += 5 + demo_pick(&book->chance, 10);
    demo_book_put(book, reading_key_pass(FIELD_PASS_LABEL, book->visit, book->pass), label);
    put_time(book, reading_key_pass(FIELD_PASS_TIME, book->visit, book->pass));
    demo_book_put_whole(book, reading_key_visit(FIELD_VISIT_PASSES, book->visit), book->pass, "");
}

void demo_book_work(struct demo_book *book, const char *kind, const char *amount)
{
    const int line = ++book->work;

    book->minute += 4 + demo_pick(&book->chance, 12);
    demo_book_put(book, work_key(WORK_KIND, book->visit, line), kind);
    demo_book_put(book, work_key(WORK_AMOUNT, book->visit, line), amount);
    put_time(book, work_key(WORK_TIME, book->visit, line));
}

/* --- amounts --- */

const char *demo_book_unit(const struct demo_book *book)
{
    return book->metric ? "mm" : "in";
}

void demo_book_add_change(const struct demo_book *book, double mm, struct strbuf *out)
{
    num_format_fixed(book->metric ? mm : mm / INCH_MM, book->metric ? 2 : 3, !book->metric, out);
}

/* --- gauges --- */

static double read_by(struct demo_book *book, double true_mm, double step_mm, double error_mm)
{
    return step_mm * round((true_mm + demo_normal(&book->chance, error_mm)) / step_mm);
}

/* In thousandths, or hundredths of a mm. */
static void add_feeler(const struct demo_book *book, double mm, struct strbuf *out)
{
    demo_book_add_change(book, mm, out);
    strbuf_addf(out, " %s", demo_book_unit(book));
}

/* In halves of a 64th, or tenths of a mm. */
static void add_rule(const struct demo_book *book, double mm, struct strbuf *out)
{
    const double halves = round(mm / INCH_MM * 128);
    const bool whole = fmod(halves, 2) == 0;

    if (book->metric)
        num_format_fixed(mm, 1, false, out);
    else
        num_format_fixed(halves / 2, whole ? 0 : 1, false, out);
    strbuf_add(out, book->metric ? " mm" : "/64 in");
}

void demo_book_put_length(struct demo_book *book, struct reading_key key, double mm)
{
    char memory[32];
    struct strbuf text = STRBUF(memory);

    if (field_get(key.field)->measure == MEASURE_FEELER)
        add_feeler(book, mm, &text);
    else
        add_rule(book, mm, &text);
    demo_book_put(book, key, memory);
}

static void put_reading(struct demo_book *book, enum field_id field, int string, double true_mm)
{
    const bool rule = field_get(field)->step == STEP_RULE;
    const double step_mm = rule ? book->rule_mm : book->feeler_mm;
    const double least_mm = field == FIELD_RELIEF ? -100 : 0;
    const double mm =
        fmax(least_mm, read_by(book, true_mm, step_mm, rule ? RULE_ERROR_MM : FEELER_ERROR_MM));

    demo_book_put_length(book, reading_key_pass_at(field, book->visit, book->pass, string, 0), mm);
    const struct demo_truth truth = {.what = field_get(field)->key,
                                     .visit = book->visit,
                                     .pass = book->pass,
                                     .string = string,
                                     .true_mm = true_mm,
                                     .read_mm = mm};
    if (book->tell)
        book->tell(book->teller, &truth);
}

static void read_string(struct demo_book *book, const struct demo_neck *neck, int string)
{
    put_reading(book, FIELD_NUT_GAP, string, demo_neck_gap(neck, string));
    put_reading(book, FIELD_ACTION, string, demo_neck_action(neck, string));
}

void demo_book_read(struct demo_book *book, const struct demo_neck *neck, bool outer_only)
{
    struct outfit outfit;

    outfit_read(&outfit, &book->record, book->visit);
    put_reading(book, FIELD_RELIEF, 0, demo_neck_relief(neck));
    for (int s = 1; s <= neck->strings; s++)
        if (outfit_is_read(&outfit, s) &&
            (!outer_only || neck->across[s] <= 0 || neck->across[s] >= 1))
            read_string(book, neck, s);
    put_reading(book, FIELD_EXPOSURE_BASS, 0, neck->exposure_mm[DEMO_BASS]);
    put_reading(book, FIELD_EXPOSURE_TREBLE, 0, neck->exposure_mm[DEMO_TREBLE]);
}

void demo_book_read_again(struct demo_book *book, const struct demo_neck *neck,
                          const struct move_set *moves)
{
    if (moves->questioned[BELIEF_RELIEF][0])
        put_reading(book, FIELD_RELIEF, 0, demo_neck_relief(neck));
    for (int s = 1; s <= neck->strings; s++) {
        if (moves->questioned[BELIEF_GAP][s])
            put_reading(book, FIELD_NUT_GAP, s, demo_neck_gap(neck, s));
        if (moves->questioned[BELIEF_ACTION][s])
            put_reading(book, FIELD_ACTION, s, demo_neck_action(neck, s));
    }
}
