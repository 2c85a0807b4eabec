/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <string.h>

#include "build_record.h"
#include "model/survey/shelf_facts.h"
#include "store/shelf/shelf_tickets.h"

/* The ticket that a shop writes next: counted on from the highest one on the shelf, in whichever
 * visit of whichever instrument, in the series written last. */

enum { INSTRUMENTS = 3 };

/* What follows the last ticket of a shelf of records, in any order. */
static void check_next(const char *const lines[INSTRUMENTS], const char *next)
{
    static const int orders[][INSTRUMENTS] = {{0, 1, 2}, {2, 1, 0}, {1, 2, 0}};
    struct shelf_facts facts[INSTRUMENTS];

    for (int i = 0; i < INSTRUMENTS; i++) {
        struct record record;

        build_record(&record, lines[i]);
        shelf_facts_glance(&record, &facts[i]);
        record_done(&record);
    }
    for (size_t k = 0; k < sizeof orders / sizeof orders[0]; k++) {
        struct shelf_entry items[INSTRUMENTS] = {{.file = NULL}};
        const struct shelf_entries entries = {.items = items, .count = INSTRUMENTS};
        char memory[TICKET_SIZE];
        struct strbuf text = STRBUF(memory);

        for (int i = 0; i < INSTRUMENTS; i++)
            items[i].facts = &facts[orders[k][i]];
        const struct ticket last = shelf_tickets_last(&entries);
        ticket_add_next(&last, &text);
        assert_string_equal(memory, next);
    }
}

static void the_highest_of_all_visits_is_counted_on(void **state)
{
    static const char *const shelf[] = {
        ("visit.1 date = 2026-01-10\nvisit.1 ticket = 1050\n"
         "visit.2 date = 2026-03-02\nvisit.2 ticket = 1043\n"),
        "visit.1 date = 2026-02-20\nvisit.1 ticket = 1049\n",
        "visit.1 date = 2026-03-01\nvisit.1 reason = Buzzes.\n",
    };

    (void)state;
    check_next(shelf, "1051");
}

static void letters_and_zeros_stay(void **state)
{
    static const char *const shelf[] = {
        ("visit.1 date = 2026-01-10\nvisit.1 ticket = A-0123\n"
         "visit.2 date = 2026-03-02\nvisit.2 ticket = blue tag\n"),
        "visit.1 date = 2026-02-20\nvisit.1 ticket = A-0099\n",
        "",
    };
    static const char *const full[] = {"visit.1 ticket = A-99\n", "", ""};

    (void)state;
    check_next(shelf, "A-0124");
    check_next(full, "A-100");
}

/* A shop that begins a new series goes on with it, however high the old one was. */
static void the_series_written_last_goes_on(void **state)
{
    static const char *const shelf[] = {
        ("visit.1 date = 2025-12-20\nvisit.1 ticket = 25/917\n"
         "visit.2 date = 2026-01-08\nvisit.2 ticket = 26/003\n"),
        "visit.1 date = 2025-11-20\nvisit.1 ticket = 25/901\n",
        ("visit.1 date = 2026-01-07\nvisit.1 ticket = 26/004\n"
         "visit.2 date = 2026-01-09\nvisit.2 ticket = 26/002\n"),
    };

    (void)state;
    check_next(shelf, "26/005");
}

/* Names, places and dates are no numbers to count on from. */
static void what_is_no_number_offers_none(void **state)
{
    static const char *const texts[] = {
        "blue tag", "shelf 3", "", "A-", "0", "A-000", "12345678", "a-lead-far-too-long-for-it-7",
        "Marlo's"};
    static const char *const none[] = {"visit.1 ticket = blue tag\n", "", ""};
    struct ticket ticket;

    (void)state;
    check_next(none, "");
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
        assert_false(ticket_read(texts[i], &ticket));
    assert_false(ticket_read(NULL, &ticket));
    assert_true(ticket_read("1000000", &ticket));
    assert_int_equal(ticket.number, 1000000);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_highest_of_all_visits_is_counted_on),
        cmocka_unit_test(letters_and_zeros_stay),
        cmocka_unit_test(the_series_written_last_goes_on),
        cmocka_unit_test(what_is_no_number_offers_none),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
