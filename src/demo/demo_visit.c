/* SPDX-License-Identifier: MIT */
#include "demo/demo_visit.h"

#include "demo/demo_strings.h"
#include "demo/demo_work.h"
#include "model/neck/moisture.h"

static void put_air(struct demo_book *book, const struct demo_errand *errand)
{
    demo_book_put_whole(book, reading_key_visit(FIELD_HUMIDITY, book->visit),
                        (int)errand->humidity_pct, " %");
    demo_book_put_whole(book, reading_key_visit(FIELD_TEMPERATURE, book->visit),
                        (int)errand->temperature_c, " C");
}

static void take_air(struct demo_neck *neck, const struct demo_errand *errand)
{
    double moisture_pct;

    if (moisture_find_emc(errand->temperature_c, errand->humidity_pct, &moisture_pct) == STATUS_OK)
        demo_neck_season(neck, moisture_pct);
}

/* Reads, and reads again what is questioned, twice at the most. */
static void read_pass(struct demo_book *book, const struct demo_neck *neck, bool outer_only,
                      struct derived *ret_derived)
{
    demo_book_read(book, neck, outer_only);
    for (int times = 0;; times++) {
        derive_pass(place_of(&book->record, book->visit, book->pass), ret_derived);
        if (times == 2 || !move_set_is_questioned(&ret_derived->moves))
            return;
        demo_book_read_again(book, neck, &ret_derived->moves);
    }
}

static const char *label_after(enum move_kind last)
{
    switch (last) {
    case MOVE_ROD:
        return "after the rod";
    case MOVE_SLOTS:
        return "after the slots";
    case MOVE_SADDLE:
        return "after the saddle";
    default:
        return "at pitch";
    }
}

void demo_visit(struct demo_book *book, struct demo_neck *neck, const struct demo_errand *errand)
{
    struct derived derived;

    demo_book_begin_visit(book, errand->day, errand->reason);
    put_air(book, errand);
    take_air(neck, errand);
    demo_book_begin_pass(book, "as found");
    read_pass(book, neck, false, &derived);
    bool more = errand->passes > 1 && book->status == STATUS_OK;
    if (more && errand->restring) {
        demo_strings_restring(book, neck, errand->set);
        demo_book_begin_pass(book, label_after(MOVE_COUNT_));
        read_pass(book, neck, false, &derived);
    }
    while (more && book->pass < errand->passes && book->status == STATUS_OK) {
        double turns = 0;
        const enum move_kind last = demo_work(book, neck, &derived, &turns);

        more = last != MOVE_COUNT_;
        if (!more)
            break;
        demo_book_begin_pass(book, label_after(last));
        demo_work_log_turns(book, turns);
        read_pass(book, neck, last == MOVE_ROD, &derived);
    }
    if (!more && book->pass > 1)
        demo_book_put(book, reading_key_pass(FIELD_PASS_LABEL, book->visit, book->pass), "as left");
}
