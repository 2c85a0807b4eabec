/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <string.h>

#include "app/command.h"
#include "base/utf8.h"

/* A key that every keyboard has: a character, Space, Tab, or one of the editing block. */
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

static void no_two_commands_share_a_key(void **state)
{
    (void)state;
    for (int a = 0; a < COMMAND_COUNT_; a++) {
        const struct command *one = command_get((enum command_id)a);

        assert_true(one->key != one->other_key);
        for (int b = a + 1; b < COMMAND_COUNT_; b++) {
            const struct command *other = command_get((enum command_id)b);

            if (!meet(one, other))
                continue;
            if (one->key == other->key || one->key == other->other_key ||
                (one->other_key &&
                 (one->other_key == other->key || one->other_key == other->other_key)))
                fail_msg("%s and %s share a key", one->name, other->name);
        }
    }
}

static void commands_have_names_words_and_keys_of_this_board(void **state)
{
    (void)state;
    for (int id = 0; id < COMMAND_COUNT_; id++) {
        const struct command *command = command_get((enum command_id)id);
        const uint32_t keys[] = {command->key, command->other_key};

        assert_true(command->key != SILLET_KEY_NONE);
        assert_non_null(command->hint);
        assert_true(strlen(command->name) > 0);
        assert_true(strlen(command->words) > 0);
        for (int i = 0; i < 2; i++)
            if (keys[i] && !is_plain(keys[i]) && !is_control(keys[i]))
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
        if (!is_plain(command->key) && !is_plain(command->other_key))
            fail_msg("%s has no plain key", command->name);
    }
}

static void readings_keep_their_keys(void **state)
{
    (void)state;
    for (int leaf = 0; leaf < LEAF_COUNT_; leaf++)
        for (const char *key = "0123456789./+-"; *key; key++)
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
            assert_true(command_get(id)->key == key || command_get(id)->other_key == key);
        }
        /* A leaf's own command may take a key over from one that holds anywhere. */
        for (int id = 0; id < COMMAND_COUNT_; id++)
            if (command_get((enum command_id)id)->where == leaf)
                assert_int_equal(
                    command_find(command_get((enum command_id)id)->key, (enum leaf)leaf), id);
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
    for (int id = 0; id < COMMAND_COUNT_; id++) {
        const struct command *command = command_get((enum command_id)id);

        assert_true(utf8_columns(name_of(command->key)) > 0);
    }
    /* No two keys go by one name. */
    for (int a = 0; a < COMMAND_COUNT_; a++)
        for (int b = a + 1; b < COMMAND_COUNT_; b++) {
            char one[32];

            if (command_get((enum command_id)a)->key == command_get((enum command_id)b)->key)
                continue;
            strcpy(one, name_of(command_get((enum command_id)a)->key));
            assert_string_not_equal(one, name_of(command_get((enum command_id)b)->key));
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
                columns +=
                    utf8_columns(name_of(command->key)) + 1 + utf8_columns(command->hint) + 2;
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
        cmocka_unit_test(readings_keep_their_keys),
        cmocka_unit_test(find_agrees_with_the_table),
        cmocka_unit_test(key_names_are_readable),
        cmocka_unit_test(hints_fit_the_smallest_screen),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
