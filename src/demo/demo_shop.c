/* SPDX-License-Identifier: MIT */
#include "demo/demo_shop.h"

#include "demo/demo_visit.h"
#include "model/reading/record_access.h"

enum trait { PLAIN, SADDLE_LOW, ROD_SPENT, IN_HOUSE };

struct row {
    const char *preset, *name, *maker, *serial, *owner, *set;
    enum trait trait;
};

static const struct row rows[] = {
#define DEMO(preset, name, maker, serial, owner, set, trait)                                       \
    {preset, name, maker, serial, owner, set, trait},
#include "demo/demo_table.h"
#undef DEMO
};

enum {
    ROWS = sizeof rows / sizeof rows[0],
    DAYS = 3 * 365,
    PASSES = 6,
    VISITS = 7,
    /* Days between visits, and days in the house. */
    RETURN_LEAST = 80,
    RETURN_MOST = 330,
    HOUSE_MOST = 9,
};

const char *demo_shop_preset(int index)
{
    return index >= 0 && index < ROWS ? rows[index].preset : NULL;
}

const char *demo_shop_name(int index)
{
    return index >= 0 && index < ROWS ? rows[index].name : NULL;
}

/* --- who and what --- */

static void put_one(struct demo_book *book, enum field_id field, const char *text)
{
    demo_book_put(book, reading_key_one(field), text);
}

static void put_setbacks(struct demo_book *book, int strings)
{
    for (int s = 1; s <= strings; s++) {
        const int tenths = 10 + 3 * s + demo_pick(&book->chance, 5);
        char memory[16];
        struct strbuf text = STRBUF(memory);

        strbuf_addf(&text, "%d.%d mm", tenths / 10, tenths % 10);
        demo_book_put(book, reading_key_string(FIELD_SETBACK, s), memory);
    }
}

static void put_owner(struct demo_book *book, const struct row *row)
{
    put_one(book, FIELD_NAME, row->name);
    put_one(book, FIELD_MAKER, row->maker);
    put_one(book, FIELD_SERIAL, row->serial);
    put_one(book, FIELD_OWNER, row->owner);
    put_one(book, FIELD_CONTACT, "card in the shop's box");
    if (demo_pick(&book->chance, 10) < 7) {
        demo_book_put_whole(book, reading_key_one(FIELD_HOME_HUMIDITY_LOW),
                            30 + 5 * demo_pick(&book->chance, 3), " %");
        demo_book_put_whole(book, reading_key_one(FIELD_HOME_HUMIDITY_HIGH),
                            55 + 5 * demo_pick(&book->chance, 4), " %");
    }
    put_setbacks(book, record_string_count(&book->record));
}

/* One or the other wants it a step lower or higher than is usual for its kind. */
static void put_wish(struct demo_book *book, enum field_id field, double step_mm)
{
    const struct maybe usual = record_entered_one(&book->record, field);
    const double mm = usual.value + step_mm * (demo_pick(&book->chance, 5) - 2);

    /* So that what hands make of it is not unusually low. */
    if (usual.given && mm - 3 * step_mm > field_get(field)->usual_min)
        demo_book_put_length(book, reading_key_one(field), mm);
}

static void put_wishes(struct demo_book *book)
{
    put_wish(book, FIELD_TARGET_RELIEF, book->feeler_mm / (book->metric ? 2 : 1));
    put_wish(book, FIELD_TARGET_ACTION_BASS, book->metric ? 0.2 : book->rule_mm);
    put_wish(book, FIELD_TARGET_ACTION_TREBLE, book->metric ? 0.2 : book->rule_mm);
}

static void read_steps(struct demo_book *book)
{
    book->feeler_mm = record_or_fallback(&book->record, FIELD_FEELER_STEP);
    book->rule_mm = record_or_fallback(&book->record, FIELD_RULE_STEP);
    if (!book->metric)
        return;
    book->feeler_mm = 0.05;
    book->rule_mm = 0.1;
    put_one(book, FIELD_FEELER_STEP, "0.05 mm");
    put_one(book, FIELD_RULE_STEP, "0.1 mm");
}

/* --- when and why --- */

/* Damp in August, dry in February. */
static void draw_air(struct demo_book *book, int day, struct demo_errand *errand)
{
    const struct day date = day_of_number(day);
    const double year = 2 * 3.14159265358979 * (date.month + date.day / 30.0 - 9) / 12;
    const double humidity = 48 + 11 * cos(year) + demo_normal(&book->chance, 3);

    errand->humidity_pct = round(fmin(fmax(humidity, 30), 68));
    errand->temperature_c = round(20 + 2 * cos(year) + demo_normal(&book->chance, 0.7));
}

static const char *draw_reason(struct demo_book *book)
{
    static const char *const first[] = {
        "Hard to play at the first frets.", "High action, the owner has lighter hands now.",
        "Set-up after it was bought.",      "Buzzes on the low strings now and then.",
        "Has not been looked at in years.", "To be made ready for a tour.",
    };
    static const char *const again[] = {
        "Action has come up since last time.", "Once-over after the season.",
        "Plays stiff in this weather.",        "Strings are due, and a check.",
        "Buzzes since the heating is on.",     "Back for its yearly check.",
    };

    return (book->visit == 0 ? first : again)[demo_pick(&book->chance, 6)];
}

/* Days of its visits in order; returns how many. The last of one that is in the house is a few days
 * ago; any other's is longer ago than anything stays. */
static int draw_days(struct demo_book *book, const struct row *row, int last_day,
                     int ret_day[VISITS])
{
    const int most = last_day - HOUSE_MOST - 6;
    int day = last_day - DAYS + demo_pick(&book->chance, DAYS - 60), count = 0;

    for (; day <= most && count < VISITS - 1; count++) {
        ret_day[count] = day;
        day += RETURN_LEAST + demo_pick(&book->chance, RETURN_MOST - RETURN_LEAST);
    }
    if (row->trait == IN_HOUSE) {
        while (count > 0 && last_day - ret_day[count - 1] < RETURN_LEAST)
            count--;
        ret_day[count++] = last_day - 1 - demo_pick(&book->chance, HOUSE_MOST);
    }
    return count;
}

/* --- in and out --- */

static void put_ticket(struct demo_book *book, int day, int index)
{
    demo_book_put_whole(book, reading_key_visit(FIELD_VISIT_TICKET, book->visit),
                        10000 + (day * 10 + index % 10) % 90000, "");
    demo_book_put_day(book, FIELD_VISIT_PROMISED, day + 3 + demo_pick(&book->chance, 8));
}

static void visit(struct demo_book *book, struct demo_neck *neck, const struct row *row,
                  struct demo_errand *errand, bool stays)
{
    draw_air(book, errand->day, errand);
    errand->reason = draw_reason(book);
    errand->restring = demo_pick(&book->chance, 2) == 0;
    errand->set = book->visit == 1 ? row->set : "";
    errand->passes = stays ? 1 + demo_pick(&book->chance, 2) : PASSES;
    demo_visit(book, neck, errand);
    put_ticket(book, errand->day, (int)(row - rows));
    if (!stays)
        demo_book_put_day(book, FIELD_VISIT_HANDED_OVER, errand->day + demo_pick(&book->chance, 6));
}

static void apply_trait(struct demo_neck *neck, const struct row *row, struct demo_chance *chance)
{
    if (row->trait == SADDLE_LOW) {
        neck->exposure_mm[DEMO_BASS] = demo_between(chance, 2.4, 3.2);
        neck->exposure_mm[DEMO_TREBLE] = neck->exposure_mm[DEMO_BASS] - 0.2;
    }
    if (row->trait == ROD_SPENT) {
        neck->turns_most = demo_between(chance, 0.15, 0.3);
        neck->pulled_mm += 1;
    }
}

static void tell_rod(const struct demo_book *book, const struct demo_neck *neck)
{
    const struct demo_truth truth = {.what = "rod_per_turn", .true_mm = neck->per_turn_mm};

    if (book->tell && neck->per_turn_mm < 0)
        book->tell(book->teller, &truth);
}

static void make(struct demo_book *book, const struct row *row, int last_day)
{
    struct demo_errand errand = {.day = 0};
    struct demo_neck neck;
    int days[VISITS];
    const int count = draw_days(book, row, last_day, days);

    put_owner(book, row);
    read_steps(book);
    put_wishes(book);
    demo_neck_draw(&neck, &book->record, 9, &book->chance);
    apply_trait(&neck, row, &book->chance);
    tell_rod(book, &neck);
    for (int i = 0; i < count && book->status == STATUS_OK; i++) {
        errand.day = days[i];
        visit(book, &neck, row, &errand, row->trait == IN_HOUSE && i == count - 1);
    }
}

enum status demo_shop_make(int index, const struct demo_wish *wish, const struct record *start,
                           struct record *ret_record)
{
    struct demo_book book = {.chance = {wish->seed * 1000003 + (uint64_t)index},
                             .metric = wish->metric,
                             .tell = wish->tell,
                             .teller = wish->teller};

    book.status = record_copy(start, &book.record);
    if (book.status != STATUS_OK)
        return book.status;
    make(&book, &rows[index], wish->last_day);
    if (book.status != STATUS_OK)
        record_done(&book.record);
    else
        *ret_record = book.record;
    return book.status;
}
