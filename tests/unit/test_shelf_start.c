/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <string.h>

#include "shelf/shelf_list.h"
#include "store/profile/preset.h"

/* What a new instrument can begin as: found by what is typed, the shop's own first. */

enum { BUILT_IN_MAX = 64 };

static int fill_built_in(struct shelf_start start[BUILT_IN_MAX])
{
    int count = 0;

    for (const struct preset *preset; count < BUILT_IN_MAX && (preset = preset_get(count));)
        start[count++] = (struct shelf_start){.title = preset->title, .also = preset->also};
    assert_true(count < BUILT_IN_MAX);
    return count;
}

static struct shelf_effects press_key(struct shelf_list *list, uint32_t key)
{
    const struct event event = {.type = EVENT_KEY, .key = key};

    return shelf_list_handle(list, &event);
}

static void type(struct shelf_list *list, const char *text)
{
    for (; *text; text++)
        press_key(list, (uint32_t)(unsigned char)*text);
}

struct item {
    const char *file, *name, *owner, *serial, *visit;
    unsigned marks;
};

static void give(struct shelf_list *list, const struct item *from, size_t count)
{
    struct shelf_item *items = shelf_list_room(list, count);

    assert_non_null(items);
    for (size_t i = 0; i < count; i++)
        items[i] = (struct shelf_item){.file = from[i].file,
                                       .card = {.name = from[i].name,
                                                .kind = "electric",
                                                .owner = from[i].owner,
                                                .maker = "",
                                                .serial = from[i].serial,
                                                .visit = from[i].visit},
                                       .trouble = "",
                                       .marks = from[i].marks};
    shelf_list_take(list);
}

/* Ours are "Quay six", of nobody, and "Quay bass". */
static const struct item items[] = {
    {"a.ini", "Parlour", "Marlo", "", "", 0}, {"b.ini", "Quay six", "", "", "", 0},
    {"c.ini", "Bolt-on", "", "QFW-9", "", 0}, {"d.ini", "Uke", "", "", "2026-03-02", 0},
    {"e.ini", "Quay bass", "", "", "", 0},    {"f.ini", "", "", "", "", SHELF_UNREAD},
    {"g.ini", "", "", "", "", SHELF_BROKEN},
};
enum { ITEMS = sizeof items / sizeof items[0] };

static void start(struct shelf_list *list, const struct shelf_start *built_in, int count)
{
    shelf_list_init(list, "/quayside", built_in, count);
    give(list, items, ITEMS);
    press_key(list, '*');
    press_key(list, 'n');
}

static void what_is_typed_finds_them(void **state)
{
    static const struct {
        const char *typed, *title; /* of the first found */
        int count;
    } cases[] = {
        {"12 string", "Twelve-string flat-top, 14 frets to the body", 1},
        {"twelve", "Twelve-string flat-top, 14 frets to the body", 1},
        {"5 string bass", "Five-string bass, long scale", 1},
        {"guitar baritone b", "Baritone electric guitar, B to B", 1},
        {"baritone", "Baritone electric guitar, B to B", 1},
        {"7 string", "Seven-string electric guitar, one scale", 2},
        {"7 string multi", "Seven-string electric guitar, two scales", 1},
        {"fretless", "Fretless bass, four strings, long scale", 1},
        {"short scale bass", "Short-scale bass, four strings", 1},
        {"tenor", "Tenor guitar, four strings", 1},
        {"resophonic", "Resonator guitar, round neck", 1},
        {"uke", "Ukulele, concert size", 1},
        {"UKELELE", "Ukulele, concert size", 1},
        {"acoustic guitar", "Steel-string flat-top, 14 frets to the body", 3},
        {"nylon string", "Classical, nylon strings", 1},
        {"quay b", "Quay bass", 1},
    };
    struct shelf_start built_in[BUILT_IN_MAX];
    const int count = fill_built_in(built_in);

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct shelf_list list;

        start(&list, built_in, count);
        type(&list, cases[i].typed);
        if (list.starts.found_count != cases[i].count ||
            strcmp(shelf_start_in_hand(&list)->title, cases[i].title) != 0)
            fail_msg("\"%s\" finds %d: %s", cases[i].typed, list.starts.found_count,
                     shelf_start_in_hand(&list)->title);
        shelf_list_done(&list);
    }
}

static void a_number_is_that_of_one_built_in(void **state)
{
    struct shelf_start built_in[BUILT_IN_MAX];
    const int count = fill_built_in(built_in);
    struct shelf_list list;

    (void)state;
    for (int number = 1; number <= count; number++) {
        char memory[8];
        struct strbuf typed = STRBUF(memory);

        strbuf_addf(&typed, "%d", number);
        start(&list, built_in, count);
        type(&list, memory);
        assert_string_equal(shelf_start_in_hand(&list)->title, preset_get(number - 1)->title);
        assert_int_equal(list.preset, number - 1);
        assert_int_equal(list.starts.found_count, count + 2);
        shelf_list_done(&list);
    }
}

static void the_shops_own_come_first_and_are_copied(void **state)
{
    struct shelf_start built_in[BUILT_IN_MAX];
    const int count = fill_built_in(built_in);
    struct shelf_list list;

    (void)state;
    start(&list, built_in, count);
    assert_int_equal(list.starts.own_count, 2);
    assert_string_equal(list.starts.all[0].title, "Quay six");
    assert_string_equal(list.starts.all[1].title, "Quay bass");
    /* They are no default: Enter still begins with the first one built in. */
    assert_string_equal(shelf_start_in_hand(&list)->title, preset_get(0)->title);
    press_key(&list, SILLET_KEY_UP);
    assert_string_equal(shelf_start_in_hand(&list)->title, "Quay bass");
    press_key(&list, SILLET_KEY_ENTER);
    assert_string_equal(list.name.text, "Quay bass 2");
    /* Files come and go while it is named; what was taken stays. */
    give(&list, items, 1);
    assert_int_equal(press_key(&list, SILLET_KEY_ENTER).action, SHELF_DO_COPY);
    assert_string_equal(list.target, "e.ini");
    press_key(&list, '*');
    press_key(&list, 'n');
    press_key(&list, SILLET_KEY_ENTER);
    assert_int_equal(press_key(&list, SILLET_KEY_ENTER).action, SHELF_DO_NEW);
    assert_int_equal(list.preset, 0);
    shelf_list_done(&list);
}

static void what_goes_with_nothing_is_refused(void **state)
{
    struct shelf_start built_in[BUILT_IN_MAX];
    const int count = fill_built_in(built_in);
    struct shelf_list list;

    (void)state;
    start(&list, built_in, count);
    type(&list, "banj");
    assert_int_equal(list.starts.found_count, 1);
    type(&list, "xxx");
    assert_int_equal(list.tone, TONE_WARNING);
    assert_string_equal(shelf_start_in_hand(&list)->title, "Banjo, five strings");
    while (!lineedit_is_empty(&list.starts.typed))
        press_key(&list, SILLET_KEY_BACKSPACE);
    assert_int_equal(list.starts.found_count, count + 2);
    assert_string_equal(shelf_start_in_hand(&list)->title, "Banjo, five strings");
    press_key(&list, SILLET_KEY_BACKSPACE);
    assert_int_equal(list.mode, SHELF_LIST);
    shelf_list_done(&list);
}

/* As many as there is room for. */
static void a_shop_with_many_of_its_own_still_has_those_built_in(void **state)
{
    enum { MANY = 200 };
    struct shelf_start built_in[BUILT_IN_MAX];
    const int count = fill_built_in(built_in);
    struct item many[MANY];
    struct shelf_list list;

    (void)state;
    for (int i = 0; i < MANY; i++)
        many[i] = items[1];
    shelf_list_init(&list, "/quayside", built_in, count);
    give(&list, many, MANY);
    press_key(&list, '*');
    press_key(&list, 'n');
    assert_int_equal(list.starts.own_count, SHELF_OWN_MAX);
    assert_int_equal(list.starts.found_count, SHELF_OWN_MAX + count);
    press_key(&list, SILLET_KEY_END);
    assert_string_equal(shelf_start_in_hand(&list)->title, preset_get(count - 1)->title);
    press_key(&list, SILLET_KEY_HOME);
    assert_string_equal(shelf_start_in_hand(&list)->title, "Quay six");
    shelf_list_done(&list);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_typed_finds_them),
        cmocka_unit_test(a_number_is_that_of_one_built_in),
        cmocka_unit_test(the_shops_own_come_first_and_are_copied),
        cmocka_unit_test(what_goes_with_nothing_is_refused),
        cmocka_unit_test(a_shop_with_many_of_its_own_still_has_those_built_in),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
