/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "build_record.h"
#include "golden.h"
#include "model/common/day.h"
#include "shelf/shelf_together.h"
#include "shelf/shelf_view.h"

/* The shelf, against screens that were reviewed and kept. Nobody and nothing here is real. */
static const struct shelf_start presets[] = {
    {.title = "Steel-string flat-top, 14 frets to the body"},
    {.title = "Classical, nylon strings"},
    {.title = "Ukulele, concert size"}};

struct instrument {
    const char *file, *name, *kind, *owner, *serial, *visit;
    bool moves_open;
    unsigned marks;
};

static const struct instrument instruments[] = {
    {"parlour.ini", "Parlour No. 3", "steel-string", "Marlo Quillfeather", "QFW-P-003",
     "2026-07-06", true, SHELF_IN_USE},
    {"bolt-on.ini", "Harbour Bolt-on", "electric", "Tansy Oarlock", "QFW-E-011", "2026-05-18", true,
     0},
    {"uke.ini", "\xC3\x84olsharfe, small, with a name too long for its column", "ukulele",
     "\xE6\x97\xA5\xE6\x9C\xAC \xE8\xAA\x9E", "", "2026-02-09", false, 0},
    {"broken.ini", "", "", "", "", "", false, SHELF_BROKEN},
    {"new-one.ini", "", "", "", "", "", false, SHELF_UNREAD},
    {"bass.ini", "Long Pier Bass", "bass", "Bram Saltmarsh", "QFW-B-007", "2025-11-30", false,
     SHELF_NEWER},
};
enum { COUNT = sizeof instruments / sizeof instruments[0] };

/* `repeated` times the same instruments; the files are of 2025-12-31. */
static void fill(struct shelf_list *list, int repeated)
{
    shelf_list_init(list, "/home/marlo/shelf", presets, 3);
    struct shelf_item *items = shelf_list_room(list, (size_t)(COUNT * repeated));

    assert_non_null(items);
    for (int i = 0; i < COUNT * repeated; i++) {
        const struct instrument *from = &instruments[i % COUNT];

        items[i] = (struct shelf_item){.file = from->file,
                                       .card = {.name = from->name,
                                                .kind = from->kind,
                                                .owner = from->owner,
                                                .maker = from->name[0] ? "Quayside Fret Works" : "",
                                                .serial = from->serial,
                                                .visit = from->visit,
                                                .moves_open = from->moves_open},
                                       .trouble = from->marks & SHELF_BROKEN ? "damaged" : "",
                                       .marks = from->marks,
                                       .written_s = 1767225600 - i};
    }
    shelf_list_take(list);
}

static void press(struct shelf_list *list, uint32_t key)
{
    const struct event event = {.type = EVENT_KEY, .key = key};

    shelf_list_handle(list, &event);
}

static void check(struct shelf_list *list, int rows, int columns, bool utf8, const char *name)
{
    struct frame frame;

    assert_int_equal(frame_init(&frame, rows, columns), STATUS_OK);
    list->rows = shelf_view_rows(rows);
    shelf_list_scroll(list);
    shelf_view_compose(list, utf8, &frame);
    golden_check(&frame, name);
    frame_done(&frame);
    shelf_list_done(list);
}

static void a_few(void **state)
{
    static const int sizes[][2] = {{24, 80}, {30, 100}, {43, 132}};

    (void)state;
    for (int i = 0; i < 6; i++) {
        const int *size = sizes[i / 2];
        const bool utf8 = i % 2 == 0;
        struct shelf_list list;
        char name[40];

        snprintf(name, sizeof name, "shelf-%dx%d%s", size[1], size[0], utf8 ? "" : "-ascii");
        fill(&list, 1);
        check(&list, size[0], size[1], utf8, name);
    }
}

static void many(void **state)
{
    struct shelf_list list;

    (void)state;
    fill(&list, 20);
    list.rows = shelf_view_rows(43);
    press(&list, SILLET_KEY_PAGE_DOWN);
    press(&list, SILLET_KEY_DOWN);
    check(&list, 43, 132, true, "shelf-many");
}

static void none_yet(void **state)
{
    struct shelf_list list;

    (void)state;
    fill(&list, 0);
    check(&list, 24, 80, true, "shelf-empty");
}

static void narrowed(void **state)
{
    struct shelf_list list;

    (void)state;
    fill(&list, 1);
    press(&list, 'q');
    press(&list, 'f');
    press(&list, 'w');
    press(&list, '*');
    check(&list, 30, 100, true, "shelf-menu");
}

static void a_new_one(void **state)
{
    struct shelf_list list;

    (void)state;
    fill(&list, 1);
    press(&list, '*');
    press(&list, 'n');
    press(&list, SILLET_KEY_DOWN);
    check(&list, 24, 80, true, "shelf-presets");
}

static void its_name(void **state)
{
    struct shelf_list list;

    (void)state;
    fill(&list, 1);
    press(&list, '*');
    press(&list, '4');
    press(&list, SILLET_KEY_DOWN);
    press(&list, SILLET_KEY_ENTER);
    press(&list, 'O');
    press(&list, 'x');
    press(&list, SILLET_KEY_LEFT);
    check(&list, 24, 80, true, "shelf-naming");
}

static void no_such_one(void **state)
{
    struct shelf_list list;

    (void)state;
    fill(&list, 1);
    for (const char *c = "lute"; *c; c++)
        press(&list, (uint32_t)*c);
    press(&list, SILLET_KEY_ENTER);
    check(&list, 24, 80, true, "shelf-not-found");
}

static void back_from_one(void **state)
{
    struct shelf_list list;

    (void)state;
    fill(&list, 1);
    for (const char *c = "bass"; *c; c++)
        press(&list, (uint32_t)*c);
    press(&list, SILLET_KEY_ENTER);
    check(&list, 24, 80, true, "shelf-back");
}

/* Facts of the first two, as their profiles would have them. */
static void learn(struct shelf_list *list, struct shelf_facts facts[2])
{
    static const double left_mm[] = {0.1524, 2.38125, 1.5875, 0.4572, 0.3048, 4.4, 4.3};

    for (int i = 0; i < 2; i++) {
        struct maybe *number = facts[i].number;

        facts[i] = *shelf_facts_blank();
        number[FACT_HANDED_OVER] = maybe_given(0);
        number[FACT_FOLLOWED] = number[FACT_SADDLE_LOW] = maybe_given(1);
        number[FACT_LAST_DAY] = maybe_given(day_number(&(struct day){2026, 7, 6 - i}));
        number[FACT_LEFT_DAY] = maybe_given(day_number(&(struct day){2026, 1, 19}));
        number[FACT_PROMISED_DAY] = maybe_given(day_number(&(struct day){2026, 7, 10 - 4 * i}));
        number[FACT_WANTED_RELIEF] = maybe_given(0.1524);
        for (int k = 0; k < 7; k++)
            number[FACT_LEFT_RELIEF + k] = maybe_given(left_mm[k]);
        shelf_facts_put_text(&facts[i], FACT_TICKET, i ? "4711" : "4712");
        shelf_facts_put_text(&facts[i], FACT_TO_DO, i ? "slots, saddle" : "hand over");
        shelf_facts_put_text(&facts[i], FACT_TUNING, "E2 A2 D3 G3 B3 E4");
        shelf_facts_put_text(&facts[i], FACT_GAUGES, ".053 .042 .032 .024 .016 .012 in");
        shelf_facts_put_text(&facts[i], FACT_PROOF_SADDLE, "0224468BBBBCCDDDDDEEFI");
        list->items[i].facts = &facts[i];
    }
    list->ground.today = day_number(&(struct day){2026, 7, 7});
    shelf_list_take(list);
}

static void questions(void **state)
{
    static const struct {
        const char *keys, *name;
        int rows, columns;
    } asked[] = {{"*i", "shelf-in-the-house", 24, 80}, {"*i", "shelf-in-the-house-132x43", 43, 132},
                 {"*l", "shelf-as-left", 24, 80},      {"*v", "shelf-usual", 24, 80},
                 {"*p", "shelf-proof", 24, 80},        {"*r", "shelf-no-spent-rod", 24, 80}};

    (void)state;
    for (size_t i = 0; i < sizeof asked / sizeof asked[0]; i++) {
        struct shelf_facts facts[2];
        struct shelf_list list;

        fill(&list, 1);
        learn(&list, facts);
        for (const char *c = asked[i].keys; *c; c++)
            press(&list, (uint32_t)*c);
        check(&list, asked[i].rows, asked[i].columns, true, asked[i].name);
    }
}

/* Two versions: what one took alone, what both changed, a hostile text, notes that begin alike, a
 * visit of each. */
static const char common[] = "profile format = 1\nboard scale = 650 mm\nboard strings = 6\n"
                             "visit.1 date = 2026-03-02\nvisit.1.pass.1 time = 10:00\n"
                             "visit.1.pass.1 action.6 = 2.5 mm\nvisit.1.pass.1 relief = .2 mm\n";
static const char here[] =
    "visit.1 note = The slots were never cut down after the nut was replaced. The nut is bone.\n"
    "visit.1.pass.1 relief = .25 mm\nvisit.1.work.1 kind = rod\nvisit.1.work.1 time = 10:30\n"
    "visit.2 date = 2026-04-01\nvisit.2.pass.1 time = 09:00\nvisit.2.pass.1 label = as found\n";
static const char there[] =
    "instrument owner = \x1b[31mMarlo\x07 \xE6\x97\xA5\xE6\x9C\xAC\n"
    "visit.1 note = The slots were never cut down after the nut was replaced. Call before the "
    "invoice goes out, and ask for the case.\nvisit.1.pass.1 relief = .3 mm\n"
    "visit.1.pass.1 action.6 = 2.6 mm\n"
    "visit.2 date = 2026-04-01\nvisit.2.pass.1 time = 15:00\nvisit.2.pass.1 label = as left\n";

enum { DIFFERENCES = 20 };

struct two {
    struct record side[2], base;
    struct record_join *join;
    struct join_difference differences[DIFFERENCES];
};

static void begin_two(struct two *two, const char *more)
{
    two->join = calloc(1, sizeof *two->join);
    assert_non_null(two->join);
    for (int i = 0; i < 2; i++) {
        build_record(&two->side[i], common);
        build_record_add(&two->side[i], i ? there : here);
    }
    build_record_add(&two->side[1], more);
    build_record(&two->base, common);
    assert_int_equal(record_join_begin(two->join, &two->side[0], &two->side[1], &two->base),
                     STATUS_OK);
}

static void put_together(void **state)
{
    static const char crowns[] = "visit.1.pass.1 crown.1 = 1 mm\nvisit.1.pass.1 crown.2 = 1 mm\n"
                                 "visit.1.pass.1 crown.3 = 1 mm\nvisit.1.pass.1 crown.4 = 1 mm\n"
                                 "visit.1.pass.1 crown.5 = 1 mm\nvisit.1.pass.1 crown.6 = 1 mm\n";
    static const struct {
        const char *keys, *more, *name;
        int rows, columns;
        bool utf8;
    } scenes[] = {{"", "", "shelf-together", 24, 80, true},
                  {"52", crowns, "shelf-together-many", 24, 80, true},
                  {"65", "", "shelf-together-132x43-ascii", 43, 132, false}};

    (void)state;
    for (size_t i = 0; i < sizeof scenes / sizeof scenes[0]; i++) {
        struct shelf_together together = {.right = "conflict", .since = "2026-03-02 11:40"};
        struct shelf_list list;
        struct two two;

        begin_two(&two, scenes[i].more);
        together.join = two.join;
        together.differences = two.differences;
        together.count = record_join_list(two.join, two.differences, DIFFERENCES);
        fill(&list, 1);
        shelf_together_take(&list, &together);
        for (const char *c = scenes[i].keys; *c; c++)
            press(&list, (uint32_t)*c);
        check(&list, scenes[i].rows, scenes[i].columns, scenes[i].utf8, scenes[i].name);
        record_join_done(two.join);
        free(two.join);
        record_done(&two.side[0]);
        record_done(&two.side[1]);
        record_done(&two.base);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_few),       cmocka_unit_test(many),
        cmocka_unit_test(none_yet),    cmocka_unit_test(narrowed),
        cmocka_unit_test(a_new_one),   cmocka_unit_test(its_name),
        cmocka_unit_test(no_such_one), cmocka_unit_test(back_from_one),
        cmocka_unit_test(questions),   cmocka_unit_test(put_together),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
