/* SPDX-License-Identifier: MIT */
/*
 * Writes the keys as Markdown (docs/keys.md) or as part of the manual page, from the same
 * tables that the program looks them up in. `keys_doc md` or `keys_doc man`.
 */
#include <stdio.h>
#include <string.h>

#include "session/command.h"
#include "session/menu.h"
#include "shelf/shelf_list.h"
#include "man_text.h"

/* How the two formats say the same. */
struct format {
    void (*section)(const char *title, const char *words);
    void (*key)(const char *keys, const char *in_menu, const char *words);
};

static void md_section(const char *title, const char *words)
{
    printf("\n## %s\n\n%s\n\n| key | in the menu | what it does |\n|---|---|---|\n", title, words);
}

/* A bar would end the table's cell. */
static void md_key(const char *keys, const char *in_menu, const char *words)
{
    const char *quote = in_menu[0] ? "`" : "";

    printf("| `%s` | %s%s%s | ", keys, quote, in_menu, quote);
    for (; *words; words++)
        printf(*words == '|' ? "\\|" : "%c", *words);
    puts(" |");
}

static void man_section(const char *title, const char *words)
{
    printf(".SS %s\n%s\n", title, words);
}

static void man_key(const char *keys, const char *in_menu, const char *words)
{
    char memory[96];
    struct strbuf all = STRBUF(memory);

    strbuf_addf(&all, "%s%s%s", keys, in_menu[0] ? ", in the menu " : "", in_menu);
    fputs(".TP\n.B ", stdout);
    man_text(memory);
    man_text(words);
}

static void print_commands(const struct format *format, int where)
{
    for (int id = 0; id < COMMAND_COUNT_; id++) {
        const struct command *command = command_get((enum command_id)id);
        char memory[64], place_memory[16];
        struct strbuf keys = STRBUF(memory), place = STRBUF(place_memory);

        if (command->where != where)
            continue;
        command_place_name(command->place, &place);
        command_keys_name(command->key, command->other_key, command->letter, command->in_menu,
                          &keys);
        format->key(memory, place_memory, command->words);
    }
}

static bool leaf_has_keys(int leaf)
{
    for (int id = 0; id < COMMAND_COUNT_; id++)
        if (command_get((enum command_id)id)->where == leaf)
            return true;
    return false;
}

static void print_leaves(const struct format *format)
{
    format->section(
        "On every leaf of an instrument",
        "Digits, a point, a slash, plus and minus begin an entry; after them the "
        "letters of a unit belong to it. In a cell of words, choices, notes or dates "
        "every letter begins to write. Elsewhere a letter is a command, and a second one "
        "right behind it is refused: that would be a word. In the menu, behind *, a "
        "letter is a command everywhere, and so is the digit that stands beside it.");
    print_commands(format, ANYWHERE);
    for (int leaf = 0; leaf < LEAF_COUNT_; leaf++) {
        if (!leaf_has_keys(leaf))
            continue;
        format->section(leaf_name((enum leaf)leaf), "Only on this leaf.");
        print_commands(format, leaf);
    }
}

static void print_shelf(const struct format *format)
{
    static const struct {
        enum shelf_mode mode;
        const char *title, *words;
    } modes[] = {
        {SHELF_LIST, "Shelf",
         "Characters narrow the list: " SHELF_SEARCHED ". So commands stand in the menu."},
        {SHELF_PRESETS, "Shelf, a new instrument", "The starting points."},
        {SHELF_NAMING, "Shelf, naming", "Characters are the name; the first one begins it anew."},
        {SHELF_UNITS, "Shelf, units",
         "Asked before the first instrument is filed, where the shop's settings do not say."},
        {SHELF_EARLIER, "Shelf, earlier states", "Of the instrument in hand."},
        {SHELF_TOGETHER, "Shelf, putting two versions together",
         "Of every cell that differs. What is open is marked with a ?, what is taken with []."},
        {SHELF_ARCHIVING, "Shelf, archiving", "Asked before an instrument is moved."},
        {SHELF_ANY, "Shelf, everywhere", "Where nothing else is said of a key."},
    };

    for (size_t m = 0; m < sizeof modes / sizeof modes[0]; m++) {
        format->section(modes[m].title, modes[m].words);
        for (int id = 0; id < SHELF_KEY_COUNT_; id++) {
            const struct shelf_key *key = shelf_key_get((enum shelf_key_id)id);
            char memory[64], place_memory[16];
            struct strbuf keys = STRBUF(memory), place = STRBUF(place_memory);

            if (key->mode != modes[m].mode)
                continue;
            command_place_name(key->place, &place);
            command_keys_name(key->key, key->other_key, key->letter, key->place != 0, &keys);
            format->key(memory, place_memory, key->words);
        }
    }
}

int main(int count, char **words)
{
    static const struct format md = {md_section, md_key}, man = {man_section, man_key};
    const bool is_man = count == 2 && strcmp(words[1], "man") == 0;

    if (count != 2 || (!is_man && strcmp(words[1], "md") != 0)) {
        fputs("usage: keys_doc md|man\n", stderr);
        return 2;
    }
    if (!is_man)
        puts("# Keys\n\nWritten by `tests/tools/keys_doc` from the tables that the program "
             "looks its keys up in;\n`sh tests/scripts/docs_keys.sh` says how to write it anew.");
    print_leaves(is_man ? &man : &md);
    print_shelf(is_man ? &man : &md);
    return fflush(stdout) == 0 ? 0 : 1;
}
