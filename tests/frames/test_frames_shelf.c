/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdio.h>
#include <string.h>

#include "golden.h"
#include "model/common/day.h"
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

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_few),       cmocka_unit_test(many),          cmocka_unit_test(none_yet),
        cmocka_unit_test(narrowed),    cmocka_unit_test(a_new_one),     cmocka_unit_test(its_name),
        cmocka_unit_test(no_such_one), cmocka_unit_test(back_from_one), cmocka_unit_test(questions),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
