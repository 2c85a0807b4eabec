/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <string.h>

#include "session/command.h"
#include "session/menu.h"
#include "base/utf8.h"

/* Whether every keyboard has the key: a character, Space, Tab, or one of the editing block. */
static bool is_plain(uint32_t key)
{
    return (key >= ' ' && key < 0x7F) || (key >= SILLET_KEY_ENTER && key < SILLET_KEY_UNKNOWN);
}

static bool is_control(uint32_t key)
{
    return key > 0 && key < ' ';
}

/* A leaf's own command may take over a key that has another meaning elsewhere; two that hold
 * in the same place may not share one. */
static bool meet(const struct command *one, const struct command *other)
{
    return one->where == other->where;
}

enum { KEYS_EACH = 3 };

static uint32_t key_of(const struct command *command, int i)
{
    return i == 0 ? command->key : i == 1 ? command->other_key : command->letter;
}

static bool share_a_key(const struct command *one, const struct command *other)
{
    for (int i = 0; i < KEYS_EACH; i++)
        for (int k = 0; k < KEYS_EACH; k++)
            if (key_of(one, i) && key_of(one, i) == key_of(other, k))
                return true;
    return false;
}

static void no_two_commands_share_a_key(void **state)
{
    (void)state;
    for (int a = 0; a < COMMAND_COUNT_; a++) {
        const struct command *one = command_get((enum command_id)a);

        for (int b = a + 1; b < COMMAND_COUNT_; b++) {
            const struct command *other = command_get((enum command_id)b);

            if (meet(one, other) && share_a_key(one, other))
                fail_msg("%s and %s share a key", one->name, other->name);
        }
    }
}

/* A step lower, a step higher, the one before, take it: what differs is of what. */
static bool say_the_same(enum command_id one, enum command_id other)
{
    static const enum command_id alike[][3] = {
        {COMMAND_NUDGE_DOWN, COMMAND_SEMITONE_DOWN, COMMAND_NOTE_BACK},
        {COMMAND_NUDGE_UP, COMMAND_SEMITONE_UP, COMMAND_NOTE},
        {COMMAND_ACCEPT, COMMAND_HISTORY_OPEN, COMMAND_COUNT_},
        {COMMAND_CHOOSE, COMMAND_WORK_DONE, COMMAND_COUNT_},
        {COMMAND_WORK_OUT, COMMAND_PASS_OUT, COMMAND_COUNT_},
        {COMMAND_VISIT_OUT, COMMAND_INTAKE_OUT, COMMAND_COUNT_},
    };

    for (size_t i = 0; i < sizeof alike / sizeof alike[0]; i++) {
        int found = 0;

        for (int k = 0; k < 3; k++)
            found += alike[i][k] == one || alike[i][k] == other;
        if (found == 2)
            return true;
    }
    return false;
}

static void a_key_says_the_same_on_all_leaves(void **state)
{
    (void)state;
    for (int a = 0; a < COMMAND_COUNT_; a++)
        for (int b = a + 1; b < COMMAND_COUNT_; b++) {
            const struct command *one = command_get((enum command_id)a);
            const struct command *other = command_get((enum command_id)b);

            if (share_a_key(one, other) && !say_the_same((enum command_id)a, (enum command_id)b))
                fail_msg("%s and %s are one key with two meanings", one->name, other->name);
        }
}

static void commands_have_names_words_and_keys_of_this_board(void **state)
{
    (void)state;
    for (int id = 0; id < COMMAND_COUNT_; id++) {
        const struct command *command = command_get((enum command_id)id);

        assert_true(command->key || command->letter);
        assert_non_null(command->hint);
        assert_true(strlen(command->name) > 0);
        assert_true(strlen(command->words) > 0);
        for (int i = 0; i < KEYS_EACH; i++)
            if (key_of(command, i) && !is_plain(key_of(command, i)) &&
                !is_control(key_of(command, i)))
                fail_msg("%s hangs on a key that not every keyboard has", command->name);
    }
}

static void commands_are_reached_by_a_plain_key(void **state)
{
    (void)state;
    for (int id = 0; id < COMMAND_COUNT_; id++) {
        const struct command *command = command_get((enum command_id)id);

        /* What every program on a terminal has on Ctrl; Backspace empties an entry as well. */
        if (id == COMMAND_EMPTY || id == COMMAND_REPAINT || id == COMMAND_SUSPEND)
            continue;
        if (!is_plain(command->key) && !is_plain(command->letter))
            fail_msg("%s has no plain key", command->name);
    }
}

/* What is not in the menu is a key of every number pad, or the terminal's own business. */
static void every_command_is_in_the_menu_or_on_the_pad(void **state)
{
    static const enum command_id beside[] = {
        COMMAND_ACCEPT, COMMAND_UP, COMMAND_DOWN, COMMAND_LEFT, COMMAND_RIGHT, COMMAND_FIRST,
        COMMAND_LAST, COMMAND_LEAF, COMMAND_EDIT, COMMAND_MENU, COMMAND_CHOOSE, COMMAND_LEAF_BACK,
        /* Up goes back as well, Del erases, and undo drops what is typed. */
        COMMAND_BACK, COMMAND_CANCEL, COMMAND_EMPTY, COMMAND_REPAINT, COMMAND_SUSPEND};

    (void)state;
    for (int id = 0; id < COMMAND_COUNT_; id++) {
        const struct command *command = command_get((enum command_id)id);
        bool is_beside = false;

        for (size_t i = 0; i < sizeof beside / sizeof beside[0]; i++)
            is_beside = is_beside || (int)beside[i] == id;
        if (is_beside != (command->place == 0))
            fail_msg("%s is%s in the menu", command->name, is_beside ? "" : " not");
        if (command->place == 0)
            continue;
        assert_true(strlen(command->title) > 0);
        assert_true(command->letter != 0);
        assert_true(command->place % 10 != 0 && command->place / 10 < MENU_PAGES);
    }
}

/* So a digit of the commands that hold anywhere is the same wherever it is pressed. */
static void no_two_commands_share_a_place(void **state)
{
    (void)state;
    for (int a = 0; a < COMMAND_COUNT_; a++)
        for (int b = a + 1; b < COMMAND_COUNT_; b++) {
            const struct command *one = command_get((enum command_id)a);
            const struct command *other = command_get((enum command_id)b);
            const bool apart =
                one->where != ANYWHERE && other->where != ANYWHERE && one->where != other->where;

            if (one->place && one->place == other->place && !apart)
                fail_msg("%s and %s have one digit", one->name, other->name);
        }
}

static void readings_keep_their_keys(void **state)
{
    (void)state;
    for (int leaf = 0; leaf < LEAF_COUNT_; leaf++)
        for (const char *key = "0123456789./+-,"; *key; key++)
            assert_int_equal(command_find((uint32_t)*key, (enum leaf)leaf), COMMAND_NONE);
}

static void find_agrees_with_the_table(void **state)
{
    (void)state;
    for (int leaf = 0; leaf < LEAF_COUNT_; leaf++) {
        for (uint32_t key = 0; key < 0x110100; key++) {
            const enum command_id id = command_find(key, (enum leaf)leaf);

            if (id == COMMAND_NONE)
                continue;
            assert_true(key != SILLET_KEY_NONE);
            assert_true(command_is_on(id, (enum leaf)leaf));
            assert_true(command_get(id)->key == key || command_get(id)->other_key == key ||
                        command_get(id)->letter == key);
        }
        /* A leaf's own command may take a key over from one that holds anywhere. */
        for (int id = 0; id < COMMAND_COUNT_; id++) {
            const struct command *command = command_get((enum command_id)id);

            if (command->where != leaf)
                continue;
            assert_int_equal(command_find(command->letter, (enum leaf)leaf),
                             command->in_menu ? COMMAND_NONE : (enum command_id)id);
            if (command->place)
                assert_int_equal(command_find_in_menu(command->letter, (enum leaf)leaf), id);
        }
    }
}

static void what_takes_out_or_marks_is_no_bare_letter(void **state)
{
    static const struct {
        uint32_t letter;
        enum leaf leaf;
    } cases[] = {{'x', LEAF_BENCH}, {'x', LEAF_INTAKE}, {'o', LEAF_BENCH},
                 {'d', LEAF_WORK},  {'a', LEAF_WORK},   {'z', LEAF_WORK}};

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        assert_int_equal(command_find(cases[i].letter, cases[i].leaf), COMMAND_NONE);
        assert_int_not_equal(command_find_in_menu(cases[i].letter, cases[i].leaf), COMMAND_NONE);
    }
}

static const char *name_of(uint32_t key)
{
    static char memory[32];
    struct strbuf text = STRBUF(memory);

    command_key_name(key, &text);
    return memory;
}

static void key_names_are_readable(void **state)
{
    (void)state;
    assert_string_equal(name_of('u'), "u");
    assert_string_equal(name_of('?'), "?");
    assert_string_equal(name_of(SILLET_KEY_ENTER), "Enter");
    assert_string_equal(name_of(SILLET_KEY_PAGE_UP), "PgUp");
    assert_string_equal(name_of(SILLET_KEY_CTRL('l')), "Ctrl-L");
    assert_string_equal(name_of(SILLET_KEY_F1), "F1");
    assert_string_equal(name_of(SILLET_KEY_F12), "F12");
    /* No two keys go by one name. */
    for (int a = 0; a < COMMAND_COUNT_ * KEYS_EACH; a++)
        for (int b = a + 1; b < COMMAND_COUNT_ * KEYS_EACH; b++) {
            const uint32_t one =
                key_of(command_get((enum command_id)(a / KEYS_EACH)), a % KEYS_EACH);
            const uint32_t other =
                key_of(command_get((enum command_id)(b / KEYS_EACH)), b % KEYS_EACH);
            char name[32];

            if (!one || !other || one == other)
                continue;
            strcpy(name, name_of(one));
            assert_true(strlen(name) > 0);
            assert_string_not_equal(name, name_of(other));
        }
}

/* "Enter next  Backspace back ..." as the key line sets it: two blanks between the pairs. */
static void hints_fit_the_smallest_screen(void **state)
{
    (void)state;
    for (int leaf = 0; leaf < LEAF_COUNT_; leaf++) {
        int columns = 1;

        for (int id = 0; id < COMMAND_COUNT_; id++) {
            const struct command *command = command_get((enum command_id)id);

            if (command->hint[0] && command_is_on((enum command_id)id, (enum leaf)leaf))
                columns += utf8_columns(name_of(command->letter ? command->letter : command->key)) +
                           1 + utf8_columns(command->hint) + 2;
        }
        if (columns - 2 > 80)
            fail_msg("%s: the key line takes %d columns", leaf_name((enum leaf)leaf), columns - 2);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_two_commands_share_a_key),
        cmocka_unit_test(commands_have_names_words_and_keys_of_this_board),
        cmocka_unit_test(commands_are_reached_by_a_plain_key),
        cmocka_unit_test(a_key_says_the_same_on_all_leaves),
        cmocka_unit_test(every_command_is_in_the_menu_or_on_the_pad),
        cmocka_unit_test(no_two_commands_share_a_place),
        cmocka_unit_test(readings_keep_their_keys),
        cmocka_unit_test(find_agrees_with_the_table),
        cmocka_unit_test(what_takes_out_or_marks_is_no_bare_letter),
        cmocka_unit_test(key_names_are_readable),
        cmocka_unit_test(hints_fit_the_smallest_screen),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
