/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "shelf/shelf_earlier.h"
#include "shelf/shelf_together.h"
#include "shelf/shelf_list.h"
#include "seeded.h"

static const struct shelf_start presets[] = {
    {.title = "Steel-string"}, {.title = "Classical"}, {.title = "Bass"}};

/* A list over fixed instruments. */
static struct card card_of(const char *name, const char *owner, const char *serial)
{
    return (struct card){.name = name,
                         .kind = "electric",
                         .owner = owner,
                         .maker = "Quayside Fret Works",
                         .serial = serial,
                         .visit = ""};
}

static void give(struct shelf_list *list)
{
    struct shelf_item *items = shelf_list_room(list, 5);

    assert_non_null(items);
    items[0] = (struct shelf_item){
        .file = "a.ini", .card = card_of("Parlour No. 3", "Marlo", "7"), .written_s = 30};
    items[1] = (struct shelf_item){
        .file = "b.ini", .card = card_of("\xC3\x84olsharfe", "Tansy", "QFW-11"), .written_s = 50};
    items[2] = (struct shelf_item){.file = "c.ini",
                                   .card = card_of("", "", ""),
                                   .trouble = "damaged",
                                   .marks = SHELF_BROKEN,
                                   .written_s = 10};
    items[3] = (struct shelf_item){
        .file = "d.ini", .card = card_of("Long Pier Bass", "Bram", "8"), .written_s = 40};
    items[4] = (struct shelf_item){
        .file = "e.ini", .card = card_of("Bolt-on", "Marlo", "9"), .written_s = 45};
    /* The day of the others' files. */
    items[4].card.visit = "1970-01-01";
    for (int i = 0; i < 5; i++)
        if (!items[i].trouble)
            items[i].trouble = "";
    shelf_list_take(list);
}

static void start(struct shelf_list *list)
{
    shelf_list_init(list, "/quayside", presets, 3);
    give(list);
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

static void expect_found(const struct shelf_list *list, const char *files)
{
    char memory[100];
    struct strbuf out = STRBUF(memory);

    for (size_t i = 0; i < list->found_count; i++)
        strbuf_add_char(&out, list->found[i]->file[0]);
    assert_string_equal(memory, files);
}

static void expect_in_hand(const struct shelf_list *list, char file)
{
    assert_non_null(shelf_list_item(list));
    assert_int_equal(shelf_list_item(list)->file[0], file);
}

static void the_newest_comes_first(void **state)
{
    struct shelf_list list;

    (void)state;
    start(&list);
    expect_found(&list, "bedac");
    expect_in_hand(&list, 'b');
    shelf_list_done(&list);
}

static void words_narrow_the_list(void **state)
{
    struct shelf_list list;

    (void)state;
    start(&list);
    type(&list, "MARLO");
    expect_found(&list, "ea");
    type(&list, " 9");
    expect_found(&list, "e");
    press_key(&list, SILLET_KEY_BACKSPACE);
    expect_found(&list, "ea");
    assert_false(press_key(&list, SILLET_KEY_ESCAPE).quit);
    expect_found(&list, "bedac");
    type(&list, "c.INI");
    expect_found(&list, "c");
    press_key(&list, SILLET_KEY_ESCAPE);
    type(&list, "qfw  fret ");
    expect_found(&list, "b");
    assert_true(press_key(&list, SILLET_KEY_CTRL('c')).quit);
    press_key(&list, SILLET_KEY_ESCAPE);
    /* Esc never quits, however often; it says what does. */
    assert_false(press_key(&list, SILLET_KEY_ESCAPE).quit);
    assert_false(press_key(&list, SILLET_KEY_ESCAPE).quit);
    assert_non_null(strstr(list.message, "To quit"));
    shelf_list_done(&list);
}

/* Half a character is never found inside a whole one, and large letters beyond ASCII are not
 * small ones. */
static void letters_beyond_ascii_match_with_and_without_accents(void **state)
{
    struct shelf_list list;

    (void)state;
    start(&list);
    press_key(&list, 0xC4);
    press_key(&list, 'o');
    expect_found(&list, "b");
    press_key(&list, SILLET_KEY_BACKSPACE);
    press_key(&list, SILLET_KEY_BACKSPACE);
    assert_int_equal(list.filter.length, 0);
    press_key(&list, 0xE4);
    press_key(&list, 'o');
    expect_found(&list, "b");
    press_key(&list, 0x3B6);
    expect_found(&list, "");
    assert_null(shelf_list_item(&list));
    assert_int_equal(press_key(&list, SILLET_KEY_ENTER).action, SHELF_DO_NOTHING);
    assert_int_equal(list.tone, TONE_WARNING);
    shelf_list_done(&list);
}

static void unsafe_characters_are_not_typed(void **state)
{
    struct shelf_list list;

    (void)state;
    start(&list);
    press_key(&list, 0x202E);
    press_key(&list, 0x7F);
    press_key(&list, 0x07);
    press_key(&list, SILLET_KEY_UNKNOWN);
    assert_int_equal(list.filter.length, 0);
    for (int i = 0; i < 500; i++)
        press_key(&list, 'x');
    assert_int_equal(list.filter.length, LINEEDIT_MAX);
    assert_int_equal(list.tone, TONE_WARNING);
    shelf_list_done(&list);
}

/* Words that are pasted are looked for; the line's end opens nothing. */
static void a_paste_opens_nothing(void **state)
{
    struct shelf_list list;

    (void)state;
    start(&list);
    press_key(&list, SILLET_KEY_PASTE_BEGIN);
    type(&list, "ab");
    assert_int_equal(press_key(&list, SILLET_KEY_ENTER).action, SHELF_DO_NOTHING);
    assert_false(press_key(&list, SILLET_KEY_ESCAPE).quit);
    press_key(&list, SILLET_KEY_PASTE_END);
    assert_string_equal(list.filter.text, "ab");
    press_key(&list, SILLET_KEY_BACKSPACE);
    assert_string_equal(list.filter.text, "a");
    shelf_list_done(&list);
}

static void the_one_in_hand_stays_in_hand(void **state)
{
    struct shelf_list list;

    (void)state;
    start(&list);
    press_key(&list, SILLET_KEY_DOWN);
    press_key(&list, SILLET_KEY_DOWN);
    expect_in_hand(&list, 'd');
    give(&list);
    expect_in_hand(&list, 'd');
    type(&list, "bass");
    expect_in_hand(&list, 'd');
    press_key(&list, SILLET_KEY_ESCAPE);
    expect_in_hand(&list, 'd');
    press_key(&list, SILLET_KEY_END);
    expect_in_hand(&list, 'c');
    press_key(&list, SILLET_KEY_DOWN);
    expect_in_hand(&list, 'c');
    press_key(&list, SILLET_KEY_HOME);
    press_key(&list, SILLET_KEY_UP);
    expect_in_hand(&list, 'b');
    shelf_list_choose(&list, "a.ini");
    expect_in_hand(&list, 'a');
    type(&list, "tansy");
    shelf_list_choose(&list, "a.ini");
    expect_in_hand(&list, 'a');
    assert_int_equal(list.filter.length, 0);
    shelf_list_done(&list);
}

static void the_first_stays_first_until_one_is_chosen(void **state)
{
    struct shelf_list list;

    (void)state;
    start(&list);
    struct shelf_item *items = shelf_list_room(&list, 2);
    items[0] = (struct shelf_item){
        .file = "b.ini", .card = card_of("B", "", ""), .trouble = "", .written_s = 50};
    items[1] = (struct shelf_item){
        .file = "z.ini", .card = card_of("Z", "", ""), .trouble = "", .written_s = 60};
    shelf_list_take(&list);
    expect_in_hand(&list, 'z');
    shelf_list_done(&list);
}

/* A copied or renamed file is no newer visit; a file without one stands at its own day. */
static void the_last_visit_counts_before_the_file(void **state)
{
    enum { DAY_S = 86400, YEAR_2026_S = 1767225600 }; /* 2026-01-01, 00:00 UTC */
    struct shelf_list list;

    (void)state;
    shelf_list_init(&list, "/quayside", presets, 3);
    struct shelf_item *items = shelf_list_room(&list, 3);
    assert_non_null(items);
    for (int i = 0; i < 3; i++)
        items[i] = (struct shelf_item){.card = card_of("", "", ""), .trouble = ""};
    items[0].file = "a.ini";
    items[0].card.visit = "2025-06-01";
    items[0].written_s = YEAR_2026_S + 100 * DAY_S;
    items[1].file = "b.ini";
    items[1].card.visit = "2026-01-03";
    items[1].written_s = YEAR_2026_S - 50 * DAY_S;
    items[2].file = "c.ini";
    items[2].written_s = YEAR_2026_S + DAY_S + DAY_S / 2;
    shelf_list_take(&list);
    expect_found(&list, "bca");
    shelf_list_done(&list);
}

static void pages_follow_the_one_in_hand(void **state)
{
    struct shelf_list list;

    (void)state;
    start(&list);
    list.rows = 3;
    press_key(&list, SILLET_KEY_PAGE_DOWN);
    assert_int_equal(list.at, 2);
    assert_int_equal(list.top, 0);
    press_key(&list, SILLET_KEY_PAGE_DOWN);
    assert_int_equal(list.at, 4);
    assert_int_equal(list.top, 2);
    press_key(&list, SILLET_KEY_PAGE_UP);
    press_key(&list, SILLET_KEY_PAGE_UP);
    assert_int_equal(list.at, 0);
    assert_int_equal(list.top, 0);
    shelf_list_done(&list);
}

static void enter_opens_the_one_in_hand(void **state)
{
    struct shelf_list list;

    (void)state;
    start(&list);
    press_key(&list, SILLET_KEY_DOWN);
    assert_int_equal(press_key(&list, SILLET_KEY_ENTER).action, SHELF_DO_OPEN);
    expect_in_hand(&list, 'e');
    shelf_list_done(&list);
}

static void letters_are_for_the_menu_only_behind_its_key(void **state)
{
    struct shelf_list list;

    (void)state;
    start(&list);
    assert_false(press_key(&list, 'q').quit);
    assert_string_equal(list.filter.text, "q");
    press_key(&list, SILLET_KEY_ESCAPE);
    press_key(&list, '*');
    assert_int_equal(list.mode, SHELF_MENU);
    press_key(&list, 'z'); /* no item of it */
    assert_int_equal(list.mode, SHELF_MENU);
    press_key(&list, '*');
    assert_int_equal(list.mode, SHELF_LIST);
    assert_int_equal(list.filter.length, 0);
    press_key(&list, '*');
    assert_true(press_key(&list, 'q').quit);
    type(&list, "+1-2");
    assert_string_equal(list.filter.text, "+1-2");
    shelf_list_done(&list);
}

static void a_new_one_is_chosen_and_named(void **state)
{
    struct shelf_list list;

    (void)state;
    start(&list);
    press_key(&list, '*');
    press_key(&list, 'n');
    assert_int_equal(list.mode, SHELF_PRESETS);
    press_key(&list, SILLET_KEY_UP);
    press_key(&list, SILLET_KEY_DOWN);
    press_key(&list, SILLET_KEY_ENTER);
    assert_int_equal(list.mode, SHELF_NAMING);
    assert_string_equal(list.name.text, "Classical");
    type(&list, "   ");
    assert_int_equal(press_key(&list, SILLET_KEY_ENTER).action, SHELF_DO_NOTHING);
    assert_int_equal(list.tone, TONE_WARNING);
    type(&list, "  Tansy's two  ");
    assert_int_equal(press_key(&list, SILLET_KEY_ENTER).action, SHELF_DO_NEW);
    assert_string_equal(list.name.text, "Tansy's two");
    assert_int_equal(list.preset, 1);
    shelf_list_done(&list);
}

/* Tab turns leaves, on the shelf as on an instrument; the number pad alone reaches the menu. */
static void tab_turns_to_the_first_leaf(void **state)
{
    struct shelf_list list;

    (void)state;
    start(&list);
    const struct shelf_effects effects = press_key(&list, SILLET_KEY_TAB);
    assert_int_equal(effects.action, SHELF_DO_OPEN);
    assert_int_equal(effects.leaf, 0);
    assert_int_equal(press_key(&list, SILLET_KEY_ENTER).leaf, LEAF_BENCH);
    press_key(&list, '*');
    press_key(&list, '4');
    assert_int_equal(list.mode, SHELF_PRESETS);
    press_key(&list, '3');
    assert_int_equal(list.preset, 2);
    press_key(&list, '9'); /* there are three */
    assert_int_equal(list.preset, 2);
    press_key(&list, '2');
    press_key(&list, SILLET_KEY_ENTER);
    assert_int_equal(list.mode, SHELF_NAMING);
    assert_int_equal(list.preset, 1);
    shelf_list_done(&list);
}

static void a_page_is_a_page_of_the_help_too(void **state)
{
    struct shelf_list list;

    (void)state;
    start(&list);
    list.rows = 6;
    press_key(&list, '*');
    press_key(&list, 'h');
    press_key(&list, SILLET_KEY_PAGE_DOWN);
    assert_int_equal(list.mode, SHELF_HELP);
    assert_int_equal(list.help_top, 5);
    press_key(&list, SILLET_KEY_PAGE_UP);
    assert_int_equal(list.help_top, 0);
    shelf_list_done(&list);
}

static void a_name_is_edited(void **state)
{
    struct shelf_list list;

    (void)state;
    start(&list);
    press_key(&list, '*');
    press_key(&list, 'n');
    press_key(&list, SILLET_KEY_ENTER);
    type(&list, "Otters");
    press_key(&list, SILLET_KEY_BACKSPACE);
    press_key(&list, SILLET_KEY_HOME);
    press_key(&list, SILLET_KEY_DELETE);
    type(&list, "Pl");
    assert_string_equal(list.name.text, "Pltter");
    press_key(&list, SILLET_KEY_CTRL('u'));
    assert_int_equal(list.mode, SHELF_NAMING);
    type(&list, "+1");
    assert_string_equal(list.name.text, "+1");
    shelf_list_done(&list);
}

static void what_was_not_found_is_the_new_name(void **state)
{
    struct shelf_list list;

    (void)state;
    start(&list);
    type(&list, "Uke");
    press_key(&list, '*');
    press_key(&list, 'n');
    press_key(&list, SILLET_KEY_ENTER);
    assert_string_equal(list.name.text, "Uke");
    shelf_list_done(&list);
}

/* A name can be had from the number pad: what it is, numbered where there is one already. */
static void a_name_is_proposed_and_typed_anew(void **state)
{
    struct shelf_list list;

    (void)state;
    start(&list);
    list.items[0].card.name = "Bass";
    press_key(&list, '*');
    type(&list, "43");
    press_key(&list, SILLET_KEY_ENTER);
    assert_string_equal(list.name.text, "Bass 2");
    press_key(&list, SILLET_KEY_UP);
    assert_int_equal(list.mode, SHELF_PRESETS);
    press_key(&list, '2');
    press_key(&list, SILLET_KEY_ENTER);
    assert_string_equal(list.name.text, "Classical");
    /* Typing begins anew, editing does not. */
    type(&list, "7");
    assert_string_equal(list.name.text, "7");
    press_key(&list, SILLET_KEY_DELETE);
    assert_string_equal(list.name.text, "");
    press_key(&list, SILLET_KEY_ESCAPE);
    press_key(&list, '*');
    type(&list, "4");
    press_key(&list, SILLET_KEY_ENTER);
    press_key(&list, SILLET_KEY_INSERT);
    type(&list, "*8");
    assert_string_equal(list.name.text, "Classical*8");
    assert_int_equal(press_key(&list, SILLET_KEY_ENTER).action, SHELF_DO_NEW);
    shelf_list_done(&list);
}

static void a_search_that_was_used_is_begun_anew(void **state)
{
    struct shelf_list list;

    (void)state;
    start(&list);
    type(&list, "marlo");
    press_key(&list, SILLET_KEY_ENTER);
    give(&list); /* back from the instrument */
    expect_found(&list, "ea");
    type(&list, "tan");
    assert_string_equal(list.filter.text, "tan");
    expect_found(&list, "b");
    press_key(&list, SILLET_KEY_F1);
    press_key(&list, SILLET_KEY_BACKSPACE); /* going on with the old one is possible */
    assert_string_equal(list.filter.text, "ta");
    type(&list, "n");
    assert_string_equal(list.filter.text, "tan");
    shelf_list_done(&list);
}

static void it_is_found_by_kind_tuning_and_year(void **state)
{
    struct shelf_list list;
    struct shelf_facts facts = *shelf_facts_blank();

    (void)state;
    start(&list);
    list.items[0].card.kind = "bass";
    shelf_facts_put_text(&facts, FACT_ALSO, "harp-standard 2026 2023");
    list.items[1].facts = &facts;
    type(&list, "bass");
    expect_found(&list, "da");
    press_key(&list, SILLET_KEY_ESCAPE);
    type(&list, "standard 2023");
    expect_found(&list, "b");
    press_key(&list, SILLET_KEY_ESCAPE);
    /* A number of a name is not looked for in years. */
    type(&list, "3");
    expect_found(&list, "a");
    type(&list, "x");
    press_key(&list, SILLET_KEY_ENTER);
    assert_int_equal(list.tone, TONE_WARNING);
    assert_non_null(strstr(list.message, SHELF_SEARCHED));
    shelf_list_done(&list);
}

/* The shelf's menu: nothing twice, digits as on the leaves, and each leaf by its own. */
static void the_menu_agrees_with_the_leaves(void **state)
{
    struct shelf_list list;

    (void)state;
    for (int a = 0; a < SHELF_KEY_COUNT_; a++)
        for (int b = a + 1; b < SHELF_KEY_COUNT_; b++) {
            const struct shelf_key *one = shelf_key_get((enum shelf_key_id)a);
            const struct shelf_key *other = shelf_key_get((enum shelf_key_id)b);

            assert_false(one->place && one->place == other->place);
            assert_false(one->place && other->place && one->letter == other->letter);
        }
    static const enum shelf_key_id both[][2] = {
        {SHELF_KEY_GO_INTAKE, (enum shelf_key_id)COMMAND_GO_INTAKE},
        {SHELF_KEY_GO_HISTORY, (enum shelf_key_id)COMMAND_GO_HISTORY},
        {SHELF_KEY_HELP, (enum shelf_key_id)COMMAND_HELP},
        {SHELF_KEY_QUIT, (enum shelf_key_id)COMMAND_QUIT},
        {SHELF_KEY_LIST_ALL, (enum shelf_key_id)COMMAND_UNDO}, /* drop what is typed */
    };
    for (size_t i = 0; i < sizeof both / sizeof both[0]; i++) {
        const struct command *command = command_get((enum command_id)both[i][1]);

        assert_int_equal(shelf_key_get(both[i][0])->place, command->place);
        assert_int_equal(shelf_key_get(both[i][0])->letter, command->letter);
    }
    start(&list);
    for (int leaf = 0; leaf < LEAF_COUNT_; leaf++) {
        struct shelf_effects effects = press_key(&list, SILLET_KEY_F1 + (uint32_t)leaf);

        assert_int_equal(effects.action, SHELF_DO_OPEN);
        assert_int_equal(effects.leaf, leaf);
        type(&list, "*0");
        effects = press_key(&list, (uint32_t)('1' + leaf));
        assert_int_equal(effects.action, SHELF_DO_OPEN);
        assert_int_equal(effects.leaf, leaf);
    }
    shelf_list_done(&list);
}

static void an_empty_shelf_begins_with_a_new_one(void **state)
{
    struct shelf_list list;

    (void)state;
    shelf_list_init(&list, "/quayside", presets, 3);
    assert_non_null(shelf_list_room(&list, 0));
    shelf_list_take(&list);
    press_key(&list, SILLET_KEY_DOWN);
    press_key(&list, SILLET_KEY_END);
    press_key(&list, SILLET_KEY_ENTER);
    assert_int_equal(list.mode, SHELF_PRESETS);
    press_key(&list, SILLET_KEY_ESCAPE);
    press_key(&list, '*');
    press_key(&list, 'f'); /* there is nothing to copy, so it is not listed */
    assert_int_equal(list.mode, SHELF_MENU);
    press_key(&list, '4');
    assert_int_equal(list.mode, SHELF_PRESETS);
    press_key(&list, '*');
    assert_int_equal(list.mode, SHELF_LIST);
    shelf_list_done(&list);
}

static void copy_and_archive_keep_to_their_target(void **state)
{
    struct shelf_list list;

    (void)state;
    start(&list);
    shelf_list_choose(&list, "a.ini");
    press_key(&list, '*');
    press_key(&list, 'f');
    assert_string_equal(list.name.text, "Parlour No. 3, copy");
    shelf_list_room(&list, 0); /* all others vanished */
    shelf_list_take(&list);
    assert_int_equal(press_key(&list, SILLET_KEY_ENTER).action, SHELF_DO_COPY);
    assert_string_equal(list.target, "a.ini");
    give(&list);
    shelf_list_choose(&list, "d.ini");
    press_key(&list, '*');
    press_key(&list, 'g');
    assert_int_equal(list.mode, SHELF_ARCHIVING);
    assert_int_equal(press_key(&list, 'y').action, SHELF_DO_NOTHING);
    assert_int_equal(list.mode, SHELF_LIST);
    press_key(&list, '*');
    press_key(&list, 'g');
    assert_int_equal(press_key(&list, SILLET_KEY_ENTER).action, SHELF_DO_ARCHIVE);
    assert_string_equal(list.target, "d.ini");
    shelf_list_choose(&list, "c.ini");
    press_key(&list, '*');
    press_key(&list, 'f'); /* what cannot be read cannot be copied */
    assert_int_equal(list.mode, SHELF_MENU);
    shelf_list_done(&list);
}

static void earlier_states_are_asked_for_and_chosen(void **state)
{
    static const struct shelf_earlier earlier[] = {
        {"2026-11-25 13:06", "a.ini.conflict: visit 2, 1 pass", true},
        {"2026-11-24 09:00", "visit 1, 3 passes", false},
        {"2026-11-20 17:30", "visit 1, 2 passes", false},
    };
    struct shelf_list list;

    (void)state;
    start(&list);
    shelf_list_choose(&list, "a.ini");
    press_key(&list, '*');
    assert_int_equal(press_key(&list, 'e').action, SHELF_DO_EARLIER);
    assert_string_equal(list.target, "a.ini");
    shelf_earlier_take(&list, NULL, 0);
    assert_int_equal(list.mode, SHELF_LIST);
    assert_int_equal(list.tone, TONE_NOTE);
    shelf_earlier_take(&list, earlier, 3);
    press_key(&list, SILLET_KEY_DOWN);
    press_key(&list, SILLET_KEY_DOWN);
    press_key(&list, SILLET_KEY_DOWN);
    assert_int_equal(list.earlier_at, 2);
    assert_int_equal(shelf_earlier_top(&list, 2), 1);
    press_key(&list, SILLET_KEY_HOME);
    assert_int_equal(shelf_earlier_top(&list, 2), 0);
    press_key(&list, SILLET_KEY_DOWN);
    assert_int_equal(press_key(&list, SILLET_KEY_ENTER).action, SHELF_DO_LOOK);
    assert_int_equal(list.earlier_at, 1);
    /* Only what lies beside the file can be put with the earlier states. */
    list.mode = SHELF_EARLIER;
    assert_int_equal(press_key(&list, 'p').action, SHELF_DO_NOTHING);
    assert_int_equal(list.tone, TONE_WARNING);
    assert_int_equal(list.mode, SHELF_EARLIER);
    press_key(&list, SILLET_KEY_HOME);
    assert_int_equal(press_key(&list, 'p').action, SHELF_DO_PUT_AWAY);
    assert_int_equal(press_key(&list, '-').action, SHELF_DO_PUT_AWAY);
    list.mode = SHELF_EARLIER;
    assert_int_equal(press_key(&list, '+').action, SHELF_DO_BRING_BACK);
    assert_int_equal(list.mode, SHELF_LIST);
    list.mode = SHELF_EARLIER;
    assert_int_equal(press_key(&list, SILLET_KEY_ESCAPE).action, SHELF_DO_NOTHING);
    assert_int_equal(list.mode, SHELF_LIST);
    shelf_list_done(&list);
}

/* Three differences, two of them open. */
static void begin_together(struct shelf_list *list, struct record_join *join,
                           struct join_difference differences[3])
{
    const struct shelf_together together = {.join = join,
                                            .differences = differences,
                                            .count = record_join_list(join, differences, 3),
                                            .right = "conflict",
                                            .since = ""};

    assert_int_equal(together.count, 3);
    shelf_together_take(list, &together);
    assert_int_equal(list->mode, SHELF_TOGETHER);
}

static void put(struct record *record, enum field_id field, int visit, const char *text)
{
    const struct reading_key key = reading_key_visit(field, visit);

    assert_int_equal(record_put(record, &key, text, false, NULL), STATUS_OK);
}

static void two_versions_are_put_together(void **state)
{
    static const struct shelf_earlier earlier[] = {{"2026-11-25 13:06", "conflict", true},
                                                   {"2026-11-24 09:00", "visit 1", false}};
    struct record_join *join = calloc(1, sizeof *join);
    struct join_difference differences[3];
    struct record left, right;
    struct shelf_list list;

    (void)state;
    assert_non_null(join);
    start(&list);
    record_init(&left);
    record_init(&right);
    put(&left, FIELD_NAME, 0, "Sorrel");
    put(&left, FIELD_OWNER, 0, "Hedda");
    put(&right, FIELD_OWNER, 0, "Tansy");
    put(&left, FIELD_NOTE, 0, "bone nut");
    put(&right, FIELD_NOTE, 0, "call first");
    assert_int_equal(record_join_begin(join, &left, &right, NULL), STATUS_OK);
    shelf_list_choose(&list, "a.ini");
    press_key(&list, '*');
    press_key(&list, 'e');
    shelf_earlier_take(&list, earlier, 2);
    press_key(&list, SILLET_KEY_DOWN); /* an earlier state is brought back, not put together */
    assert_int_equal(press_key(&list, '/').action, SHELF_DO_NOTHING);
    press_key(&list, SILLET_KEY_UP);
    assert_int_equal(press_key(&list, '/').action, SHELF_DO_TOGETHER);
    begin_together(&list, join, differences);
    assert_int_equal(list.together.at, 1); /* the first open one: the name is taken by itself */
    assert_int_equal(press_key(&list, '5').action, SHELF_DO_NOTHING); /* an owner is no note */
    assert_int_equal(differences[1].side, JOIN_OPEN);
    assert_int_equal(press_key(&list, SILLET_KEY_ENTER).action, SHELF_DO_NOTHING);
    press_key(&list, SILLET_KEY_RIGHT);
    assert_int_equal(differences[1].side, JOIN_AS_RIGHT);
    assert_int_equal(list.together.at, 2);
    press_key(&list, ' '); /* the 5 of a number pad without its lock */
    assert_int_equal(differences[2].side, JOIN_AS_BOTH);
    press_key(&list, '8');
    assert_int_equal(list.together.at, 1);
    press_key(&list, '+'); /* nothing is open: the next of all */
    assert_int_equal(list.together.at, 2);
    press_key(&list, '7');
    assert_int_equal(differences[0].side, JOIN_AS_LEFT);
    assert_int_equal(differences[1].side, JOIN_AS_LEFT);
    press_key(&list, '9'); /* what only the left has stays */
    assert_int_equal(differences[0].side, JOIN_AS_LEFT);
    assert_int_equal(differences[1].side, JOIN_AS_RIGHT);
    press_key(&list, 'x');
    press_key(&list, SILLET_KEY_F1);
    assert_int_equal(list.mode, SHELF_TOGETHER);
    assert_int_equal(press_key(&list, SILLET_KEY_ENTER).action, SHELF_DO_JOIN);
    assert_int_equal(press_key(&list, SILLET_KEY_ESCAPE).action, SHELF_DO_NOTHING);
    assert_int_equal(list.mode, SHELF_LIST);
    record_join_done(join);
    free(join);
    record_done(&left);
    record_done(&right);
    shelf_list_done(&list);
}

static void marks_say_what_is_the_matter(void **state)
{
    struct shelf_item item = {
        .file = "a.ini", .card = card_of("A", "", ""), .trouble = "", .marks = SHELF_IN_USE};
    char memory[60];
    struct strbuf out = STRBUF(memory);

    (void)state;
    item.card.moves_open = true;
    shelf_item_marks(&item, false, &out);
    assert_string_equal(memory, "in use, moves open");
    strbuf_clear(&out);
    shelf_item_marks(&item, true, &out);
    assert_string_equal(memory, "in use, moves");
    strbuf_clear(&out);
    item.marks = SHELF_VERSIONS;
    shelf_item_marks(&item, false, &out);
    assert_string_equal(memory, "two versions, moves open");
    strbuf_clear(&out);
    shelf_item_marks(&item, true, &out);
    assert_string_equal(memory, "versions, moves");
    strbuf_clear(&out);
    item.marks = SHELF_VERSION;
    shelf_item_marks(&item, false, &out);
    assert_string_equal(memory, "a version, moves open");
    strbuf_clear(&out);
    item.marks = 0;
    shelf_item_marks(&item, true, &out);
    assert_string_equal(memory, "moves open");
    strbuf_clear(&out);
    item.card.moves_open = false;
    item.card.to_measure = true;
    shelf_item_marks(&item, true, &out);
    assert_string_equal(memory, "to measure");
}

/* Against a plain sort of the same numbers. */
static void a_long_list_is_sorted(void **state)
{
    enum { COUNT = 1000 };
    static char files[COUNT][12];
    struct shelf_list list;

    (void)state;
    shelf_list_init(&list, "", presets, 3);
    struct shelf_item *items = shelf_list_room(&list, COUNT);
    for (int i = 0; i < COUNT; i++) {
        snprintf(files[i], sizeof files[i], "%05d", i * 7919 % COUNT);
        items[i] = (struct shelf_item){
            .file = files[i], .card = card_of("", "", ""), .trouble = "", .written_s = i * 31 % 50};
    }
    shelf_list_take(&list);
    assert_int_equal(list.found_count, COUNT);
    for (size_t i = 1; i < COUNT; i++) {
        const struct shelf_item *a = list.found[i - 1];
        const struct shelf_item *b = list.found[i];

        assert_true(a->written_s > b->written_s ||
                    (a->written_s == b->written_s && strcmp(a->file, b->file) < 0));
    }
    shelf_list_done(&list);
}

/* Whatever is pressed, what is in hand is one of those found. */
static void expect_same_order(const struct shelf_list *list, const struct shelf_list *wanted)
{
    assert_int_equal(list->found_count, wanted->found_count);
    for (size_t i = 0; i < list->found_count; i++)
        assert_string_equal(list->found[i]->file, wanted->found[i]->file);
    assert_int_equal(list->unread, wanted->unread);
    assert_int_equal(list->glanced, wanted->glanced);
    assert_int_equal(list->ground.moisture_now.given, wanted->ground.moisture_now.given);
    assert_near(maybe_or(list->ground.moisture_now, 0), maybe_or(wanted->ground.moisture_now, 0),
                0);
}

enum { READ_ITEMS = 200 };

struct read_item {
    char file[12], visit[12];
    struct shelf_facts facts;
};

/* As it is before anything is read, looked at, and read. */
static struct shelf_item item_in_step(const struct read_item *read, int step)
{
    struct shelf_item item = {.file = read->file,
                              .trouble = "",
                              .card = card_of("", "", ""),
                              .facts = shelf_facts_blank(),
                              .marks = step == 0   ? SHELF_UNREAD
                                       : step == 1 ? SHELF_GLANCED
                                                   : 0,
                              .written_s = 1000 + read->file[1] % 3};

    if (step > 0)
        item.card.visit = read->visit;
    if (step > 1)
        item.facts = &read->facts;
    return item;
}

static void make_read_item(struct read_item *read, int i, struct seeded *random)
{
    struct strbuf file = STRBUF(read->file), visit = STRBUF(read->visit);
    const double day = 735000 + seeded_whole(random, 0, 19);

    strbuf_addf(&file, "%c%d", 'a' + seeded_whole(random, 0, 25), i);
    if (seeded_whole(random, 0, 3) > 0)
        strbuf_addf(&visit, "2026-0%d-1%d", seeded_whole(random, 1, 8), seeded_whole(random, 0, 8));
    read->facts = *shelf_facts_blank();
    read->facts.number[FACT_LAST_DAY] = maybe_given(day);
    read->facts.number[FACT_MOISTURE] = maybe_given(day / 100000);
}

/* Put in one by one, in the order of reading, they stand where sorting all would put them. */
static void what_is_read_takes_its_place(void **state)
{
    static struct read_item reads[READ_ITEMS];
    struct shelf_list list, wanted;
    int step[READ_ITEMS] = {0};
    struct seeded random = seeded_start("what_is_read_takes_its_place");

    (void)state;
    shelf_list_init(&list, "/quayside", presets, 3);
    list.ground.today = 735015;
    struct shelf_item *items = shelf_list_room(&list, READ_ITEMS);
    for (int i = 0; i < READ_ITEMS; i++) {
        make_read_item(&reads[i], i, &random);
        items[i] = item_in_step(&reads[i], 0);
    }
    shelf_list_take(&list);
    assert_int_equal(list.unread, READ_ITEMS);
    shelf_list_init(&wanted, "/quayside", presets, 3);
    wanted.ground.today = 735015;
    for (int round = 0; round < 3 * READ_ITEMS; round++) {
        const int i = seeded_whole(&random, 0, READ_ITEMS - 1);
        const struct shelf_item item = item_in_step(&reads[i], step[i] < 2 ? ++step[i] : 2);

        shelf_list_put(&list, (size_t)i, &item);
        if (seeded_whole(&random, 0, 11) > 0)
            continue;
        items = shelf_list_room(&wanted, READ_ITEMS);
        for (int k = 0; k < READ_ITEMS; k++)
            items[k] = item_in_step(&reads[k], step[k]);
        shelf_list_take(&wanted);
        shelf_list_freshen(&list);
        expect_same_order(&list, &wanted);
    }
    shelf_list_done(&wanted);
    shelf_list_done(&list);
}

/* Nothing that a key needs hangs on the list being in order. */
static void a_search_goes_on_while_it_is_read(void **state)
{
    struct shelf_list list;

    (void)state;
    start(&list);
    struct shelf_item item = list.items[0];
    item.card.visit = "2026-03-02";
    item.card.owner = "Odile";
    shelf_list_put(&list, 0, &item);
    type(&list, "odile");
    expect_found(&list, "a");
    press_key(&list, SILLET_KEY_ESCAPE);
    expect_found(&list, "bedac");
    item.card.owner = "Perpetua";
    shelf_search_prepare(&list.search, list.items);
    shelf_list_put(&list, 0, &item);
    type(&list, "odile");
    expect_found(&list, "");
    press_key(&list, SILLET_KEY_ESCAPE);
    type(&list, "perpetua");
    expect_found(&list, "a");
    press_key(&list, SILLET_KEY_ESCAPE);
    shelf_list_freshen(&list);
    expect_found(&list, "abedc");
    shelf_list_done(&list);
}

static void any_keys_leave_it_whole(void **state)
{
    static const uint32_t keys[] = {SILLET_KEY_ENTER,
                                    SILLET_KEY_TAB,
                                    SILLET_KEY_ESCAPE,
                                    SILLET_KEY_BACKSPACE,
                                    'n',
                                    'c',
                                    SILLET_KEY_DOWN,
                                    SILLET_KEY_UP,
                                    SILLET_KEY_END,
                                    SILLET_KEY_HOME,
                                    'a',
                                    'h',
                                    '*',
                                    '4',
                                    SILLET_KEY_PAGE_DOWN,
                                    SILLET_KEY_PAGE_UP,
                                    ' ',
                                    'm',
                                    0x65E5,
                                    0x301};
    enum { KEYS = sizeof keys / sizeof keys[0] };
    struct seeded seeded = seeded_start("any keys on the shelf");
    struct shelf_list list;

    (void)state;
    start(&list);
    for (int i = 0; i < 50000; i++) {
        list.rows = seeded_whole(&seeded, 1, 20);
        if (seeded_whole(&seeded, 1, 50) == 1)
            give(&list);
        press_key(&list, keys[seeded_whole(&seeded, 0, KEYS - 1)]);
        assert_true(list.found_count == 0 ? list.at == 0 : list.at < list.found_count);
        assert_true(list.top <= list.at);
        assert_in_range(list.preset, 0, 2);
    }
    shelf_list_done(&list);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_newest_comes_first),
        cmocka_unit_test(the_last_visit_counts_before_the_file),
        cmocka_unit_test(words_narrow_the_list),
        cmocka_unit_test(a_paste_opens_nothing),
        cmocka_unit_test(letters_beyond_ascii_match_with_and_without_accents),
        cmocka_unit_test(unsafe_characters_are_not_typed),
        cmocka_unit_test(the_one_in_hand_stays_in_hand),
        cmocka_unit_test(the_first_stays_first_until_one_is_chosen),
        cmocka_unit_test(pages_follow_the_one_in_hand),
        cmocka_unit_test(enter_opens_the_one_in_hand),
        cmocka_unit_test(letters_are_for_the_menu_only_behind_its_key),
        cmocka_unit_test(a_new_one_is_chosen_and_named),
        cmocka_unit_test(tab_turns_to_the_first_leaf),
        cmocka_unit_test(a_page_is_a_page_of_the_help_too),
        cmocka_unit_test(a_name_is_edited),
        cmocka_unit_test(what_was_not_found_is_the_new_name),
        cmocka_unit_test(a_name_is_proposed_and_typed_anew),
        cmocka_unit_test(a_search_that_was_used_is_begun_anew),
        cmocka_unit_test(it_is_found_by_kind_tuning_and_year),
        cmocka_unit_test(the_menu_agrees_with_the_leaves),
        cmocka_unit_test(an_empty_shelf_begins_with_a_new_one),
        cmocka_unit_test(copy_and_archive_keep_to_their_target),
        cmocka_unit_test(earlier_states_are_asked_for_and_chosen),
        cmocka_unit_test(two_versions_are_put_together),
        cmocka_unit_test(marks_say_what_is_the_matter),
        cmocka_unit_test(a_long_list_is_sorted),
        cmocka_unit_test(what_is_read_takes_its_place),
        cmocka_unit_test(a_search_goes_on_while_it_is_read),
        cmocka_unit_test(any_keys_leave_it_whole),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
