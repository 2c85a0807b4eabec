/* SPDX-License-Identifier: MIT */

/*
 * What is typed is what is filed: the real program on a terminal, row by row.
 *
 * A row is {shop, cell, given, keys, kept}:
 *
 * shop: INCH or METRIC.
 *
 * cell: a row of `cells`: the leaf it is on, how its prompt begins, where the profile keeps it.
 *
 * given: lines that the profile has after `base`, NULL for none; with a reading in
 * [visit.1.pass.1] the program still begins in that pass.
 *
 * keys: what is typed in that cell, byte by byte: "\r" is Enter, "\033[A" an arrow up.
 *
 * kept: the text that the file on disk then holds for that cell; "" if it was written without one.
 * HELD: the program asks first, so the file is unchanged. REFUSED: the same, and another
 * Enter changes nothing either.
 *
 * Each row has a profile and a program of its own. A new cell is a new row of `cells`; a table of
 * rows is run by CHECK_ROWS from a test.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include <cmocka.h>

#include "bench_screen.h"

#define HELD    ((const char *)1)
#define REFUSED ((const char *)2)

enum shop { INCH, METRIC };

enum cell {
    RELIEF,
    GAP,
    ACTION,
    EXPOSURE,
    HUMIDITY,
    TEMPERATURE,
    SCALE,
    LEAST,
    THREAD,
    GAUGE,
    CENTS,
    SETBACK,
    SPOT,
    CROWN,
    SHAFT,
    WIDTH,
    MODULUS,
    TURN,
    RADIUS,
    METHOD,
    ROD_DONE,
    ROD_LOGGED,
    KIND,
    BRIDGE,
    JOIN,
    TOUCH,
    DATE,
    NOTE,
    BUILD,
    HEX,
    WRAP,
    BOARD_WOOD,
    NECK_WOOD,
    ROD,
    BUILT,
    STRINGS,
    FRETS,
    REASON,
    OWNER,
    JOIN_FRET,
    CORE,
    ACTION_WANTED,
    RELIEF_WANTED,
    BUZZ
};

static const struct {
    const char *leaf, *prompt, *section, *key;
} cells[] = {
    [RELIEF] = {"Bench", "relief at fret", "visit.1.pass.1", "relief"},
    [GAP] = {"Bench", "nut gap, string 6", "visit.1.pass.1", "nut_gap.6"},
    [ACTION] = {"Bench", "action, string 6", "visit.1.pass.1", "action.6"},
    [EXPOSURE] = {"Bench", "bass exposure", "visit.1.pass.1", "exposure_bass"},
    [HUMIDITY] = {"Intake", "humidity", "visit.1", "humidity"},
    [TEMPERATURE] = {"Intake", "temperature", "visit.1", "temperature"},
    [SCALE] = {"Intake", "scale length", "board", "scale"},
    [LEAST] = {"Intake", "least exposure", "bridge", "exposure_min"},
    [THREAD] = {"Intake", "thread pitch", "bridge", "thread"},
    [GAUGE] = {"Strings", "gauge, string 6", "string.6", "gauge"},
    [CENTS] = {"Pitch", "cents at fret 12, string 6", "visit.1.pass.1", "cents.6.12"},
    [SETBACK] = {"Pitch", "setback, string 6", "visit.1.pass.1", "setback.6"},
    [SPOT] = {"Frets", "spot at fret 3", "visit.1.pass.1", "spot.3"},
    [CROWN] = {"Frets", "crown at fret 3", "visit.1.pass.1", "crown.3"},
    [SHAFT] = {"Neck", "shaft depth at fret 1", "neck", "shaft_first"},
    [WIDTH] = {"Neck", "board width at the nut", "board", "width_nut"},
    [MODULUS] = {"Neck", "neck modulus", "neck", "modulus"},
    [TURN] = {"Bench", "rod turned", "visit.1.pass.2", "rod_turn"},
    [RADIUS] = {"Intake", "radius at the nut", "board", "radius_nut"},
    [METHOD] = {"Bench", "relief at fret", "visit.1.pass.1", "nut_method"},
    [ROD_DONE] = {"Work", "rod, what was done", "visit.1.work.1", "amount"},
    [ROD_LOGGED] = {"Work", "rod, what was done", "visit.1.pass.2", "rod_turn"},
    [KIND] = {"Intake", "kind", "instrument", "kind"},
    [BRIDGE] = {"Intake", "bridge", "bridge", "kind"},
    [JOIN] = {"Intake", "neck join", "neck", "join"},
    [TOUCH] = {"Intake", "touch", "targets", "touch"},
    [DATE] = {"Intake", "date", "visit.1", "date"},
    [NOTE] = {"Strings", "note, string 6", "string.6", "note"},
    [BUILD] = {"Strings", "build, string 6", "string.6", "build"},
    [HEX] = {"Strings", "hex core, string 6", "string.6", "hex"},
    [WRAP] = {"Strings", "wrap material, string 6", "string.6", "wrap_material"},
    [BOARD_WOOD] = {"Neck", "board wood", "board", "wood"},
    [NECK_WOOD] = {"Neck", "neck wood", "neck", "wood"},
    [ROD] = {"Neck", "truss rod", "neck", "rod"},
    [BUILT] = {"Intake", "built", "instrument", "built"},
    [STRINGS] = {"Intake", "strings", "board", "strings"},
    [FRETS] = {"Intake", "frets", "board", "frets"},
    [REASON] = {"Intake", "reason", "visit.1", "reason"},
    [OWNER] = {"Intake", "owner", "instrument", "owner"},
    [JOIN_FRET] = {"Intake", "body-join fret", "board", "join_fret"},
    [CORE] = {"Strings", "core, string 6", "string.6", "core"},
    [ACTION_WANTED] = {"Intake", "bass action target", "targets", "action_bass"},
    [RELIEF_WANTED] = {"Intake", "relief target", "targets", "relief"},
    [BUZZ] = {"Frets", "buzzing notes, string 6", "visit.1.pass.1", "buzz.6"},
};

struct row {
    enum shop shop;
    enum cell cell;
    const char *given, *keys, *kept;
};

static const char base[] = "[profile]\nformat = 1\n"
                           "[instrument]\nname = Typed\nkind = steel-string\n"
                           "[board]\nscale = 650 mm\nstrings = 6\nfrets = 20\njoin_fret = 14\n"
                           "[visit.1]\ndate = 2026-03-02\n";

/* A rod turned before the last pass. */
#define SECOND_PASS                                                                                \
    "[visit.1.pass.1]\nrelief = .014 in\n[visit.1.pass.2]\nlabel = after the rod\nrelief = .010 "  \
    "in\n"

/* Gaps and actions beside string 6. */
#define NEIGHBOURS                                                                                 \
    "[visit.1.pass.1]\nnut_gap.4 = .022 in\nnut_gap.5 = .024 in\naction.4 = 7/64 in\n"             \
    "action.5 = 7.5/64 in\nexposure_treble = 4 mm\n"
#define LATER_VISIT "[visit.1.pass.1]\nrelief = .010 in\n[visit.2]\ndate = 2026-04-01\n"

/* --- the profile on disk --- */

/* The text behind "key = " in a section, in `out`; false, "" there, where the key is absent. */
static bool find_text(const char *bytes, const char *section, const char *key, char *out,
                      size_t size)
{
    const size_t key_length = strlen(key);
    char head[64];
    bool inside = false;

    out[0] = '\0';
    snprintf(head, sizeof head, "[%s]", section);
    for (const char *line = bytes; *line; line += strcspn(line, "\n"), line += *line == '\n') {
        if (line[0] == '[')
            inside = strncmp(line, head, strlen(head)) == 0;
        if (!inside || strncmp(line, key, key_length) != 0 ||
            strncmp(line + key_length, " = ", 3) != 0)
            continue;
        line += key_length + 3;
        snprintf(out, size, "%.*s", (int)strcspn(line, "\n"), line);
        return true;
    }
    return false;
}

static char *read_profile(const struct bench *bench)
{
    size_t length;
    char *bytes = tree_read(bench->profile, &length);

    assert_non_null(bytes);
    return bytes;
}

static void write_profile(const struct bench *bench, const struct row *row)
{
    char text[2048];

    snprintf(text, sizeof text, "%s%s", base, row->given ? row->given : "");
    tree_write_text(bench->profile, text);
}

static void write_shop(const struct bench *bench, enum shop shop)
{
    char path[600];

    snprintf(path, sizeof path, "%s/.config", bench->home);
    (void)mkdir(path, 0700);
    snprintf(path, sizeof path, "%s/.config/sillet", bench->home);
    (void)mkdir(path, 0700);
    snprintf(path, sizeof path, "%s/.config/sillet/shop.ini", bench->home);
    tree_write_text(path, shop == METRIC ? "[shop]\nunits = metric\n" : "[shop]\nunits = inch\n");
}

/* --- one row --- */

static void fail_row(struct bench *bench, const struct row *row, const char *why)
{
    char *bytes = read_profile(bench);
    char text[256];

    (void)find_text(bytes, cells[row->cell].section, cells[row->cell].key, text, sizeof text);
    free(bytes);
    print_error("%s shop, %s: typed \"%s\"; %s; the file has \"%s\"\n",
                row->shop == METRIC ? "metric" : "inch", cells[row->cell].prompt, row->keys, why,
                text);
    terminal_fail_at(bench->terminal, "row", __FILE__, __LINE__);
}

static bool in_cell(struct terminal *terminal, const char *prompt)
{
    return strncmp(terminal_row(terminal, 22) + 1, prompt, strlen(prompt)) == 0;
}

static void turn_to_leaf(struct terminal *terminal, const char *leaf)
{
    static const struct {
        const char *leaf, *key;
    } keys[] = {{"Intake", "\033OP"}, {"Bench", "\033OQ"},   {"Strings", "\033OR"},
                {"Pitch", "\033OS"},  {"Frets", "\033[15~"}, {"Neck", "\033[17~"},
                {"Work", "\033[18~"}};
    char top[32];

    snprintf(top, sizeof top, "[%s]", leaf);
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++)
        if (strcmp(keys[i].leaf, leaf) == 0)
            terminal_type(terminal, keys[i].key);
    terminal_expect(terminal, top);
    terminal_settle(terminal);
}

/* One cell on; a machine that is busy may take its time to show it. */
static void step(struct terminal *terminal, enum terminal_key key)
{
    char before[256];

    snprintf(before, sizeof before, "%s", terminal_row(terminal, 22));
    terminal_key(terminal, key);
    for (int i = 0; i < 5 && strcmp(before, terminal_row(terminal, 22)) == 0; i++)
        terminal_settle(terminal);
}

/* Turns to the leaf and walks its route down to the cell. */
static void go_to_cell(struct bench *bench, const struct row *row)
{
    enum { CELLS_MOST = 260 };
    struct terminal *terminal = bench->terminal;

    turn_to_leaf(terminal, cells[row->cell].leaf);
    /* The rod's turns stand off the route. */
    for (int i = 0; i < CELLS_MOST && !in_cell(terminal, cells[row->cell].prompt); i++)
        step(terminal, row->cell == TURN ? TERMINAL_RIGHT : TERMINAL_ENTER);
    if (!in_cell(terminal, cells[row->cell].prompt))
        fail_row(bench, row, "there is no such cell");
}

/* Whether the file holds what the row says, or has been left alone, as `before`. */
static bool file_agrees(const struct bench *bench, const struct row *row, const char *before)
{
    char *bytes = read_profile(bench);
    char text[256];
    bool agrees = strcmp(bytes, before) == 0;

    if (row->kept != HELD && row->kept != REFUSED) {
        (void)find_text(bytes, cells[row->cell].section, cells[row->cell].key, text, sizeof text);
        agrees = !agrees && strcmp(text, row->kept) == 0;
    }
    free(bytes);
    return agrees;
}

static void check_row(struct bench *bench, const struct row *row)
{
    char *before;

    write_profile(bench, row);
    write_shop(bench, row->shop);
    bench_start(bench);
    go_to_cell(bench, row);
    before = read_profile(bench);
    terminal_type(bench->terminal, row->keys);
    terminal_settle(bench->terminal);
    if (!file_agrees(bench, row, before))
        fail_row(bench, row,
                 row->kept == HELD      ? "is to be held"
                 : row->kept == REFUSED ? "is to be refused"
                                        : row->kept);
    if (row->kept == REFUSED) {
        terminal_key(bench->terminal, TERMINAL_ENTER);
        terminal_settle(bench->terminal);
        if (!file_agrees(bench, row, before))
            fail_row(bench, row, "a second Enter took it");
    }
    free(before);
}

static void check_rows(void **state, const struct row *rows, size_t count)
{
    for (size_t i = 0; i < count; i++)
        check_row(*state, &rows[i]);
}

#define CHECK_ROWS(state, rows) check_rows(state, rows, sizeof(rows) / sizeof((rows)[0]))

/* --- numbers --- */

/* clang-format off */
static void leaves_in_thousandths(void **state)
{
    static const struct row rows[] = {
        {INCH, RELIEF, NULL, "12\r", "12 th"},
        {INCH, RELIEF, NULL, "12.5\r", "12.5 th"},
        {INCH, RELIEF, NULL, ".012\r", ".012 in"},
        {INCH, RELIEF, NULL, "0.012\r", "0.012 in"},
        {INCH, RELIEF, NULL, "0,012\r", "0.012 in"},
        {INCH, RELIEF, NULL, ",012\r", ".012 in"},
        {INCH, RELIEF, NULL, "0.0120\r", "0.0120 in"},
        {INCH, RELIEF, NULL, "0\r", "0 th"},
        {INCH, RELIEF, NULL, "10+8\r", "10+8 th"},
        {INCH, RELIEF, NULL, ".010+.002\r", ".010+.002 in"},
        {INCH, RELIEF, NULL, ",010+0,002\r", ".010+0.002 in"},
        {INCH, RELIEF, NULL, ".010+8\r", REFUSED},
        {INCH, RELIEF, NULL, "10+.5\r", REFUSED},
        {INCH, RELIEF, NULL, ".010+8 th\r", REFUSED},
        {INCH, RELIEF, NULL, "0.30 mm\r", "0.30 mm"},
        {INCH, RELIEF, NULL, "0,30 mm\r", "0.30 mm"},
        {INCH, RELIEF, NULL, "1/64\r", "1/64 in"},
        {INCH, RELIEF, NULL, "0.70\r", REFUSED},
        {INCH, RELIEF, NULL, "0.30\r", HELD},
        {INCH, RELIEF, NULL, "120\r", HELD},
        {INCH, RELIEF, NULL, "1.2.3\r", REFUSED},
        {INCH, RELIEF, NULL, "1,2,3\r", REFUSED},
        {INCH, RELIEF, NULL, ".01200000000000000123\r", ".01200000000000000123 in"},
        {INCH, GAP, NULL, "18\r", "18 th"},
        {INCH, GAP, NULL, ".018\r", ".018 in"},
        {INCH, SPOT, NULL, "-2\r", "-2 th"},
        {INCH, SPOT, NULL, "+,0015\r", ".0015 in"},
    };

    CHECK_ROWS(state, rows);
}

static void leaves_in_hundredths(void **state)
{
    static const struct row rows[] = {
        {METRIC, RELIEF, NULL, "30\r", "30/100 mm"},
        {METRIC, RELIEF, NULL, ".30\r", ".30 mm"},
        {METRIC, RELIEF, NULL, "0.30\r", "0.30 mm"},
        {METRIC, RELIEF, NULL, "0,30\r", "0.30 mm"},
        {METRIC, RELIEF, NULL, ",3\r", ".3 mm"},
        {METRIC, RELIEF, NULL, "1.2\r", "1.2 mm"},
        {METRIC, RELIEF, NULL, "0\r", "0/100 mm"},
        {METRIC, RELIEF, NULL, "30+5\r", "30/100+5/100 mm"},
        {METRIC, RELIEF, NULL, "0.30+0,05\r", "0.30+0.05 mm"},
        {METRIC, RELIEF, NULL, "0.30+5\r", REFUSED},
        {METRIC, RELIEF, NULL, "30+.05\r", REFUSED},
        {METRIC, RELIEF, NULL, "12 th\r", "12 th"},
        {METRIC, RELIEF, NULL, ".012 in\r", ".012 in"},
        {METRIC, RELIEF, NULL, "0,012 in\r", "0.012 in"},
        {METRIC, RELIEF, NULL, "0.3000000000000000444\r", "0.3000000000000000444 mm"},
        {METRIC, GAP, NULL, "45\r", "45/100 mm"},
        {METRIC, GAP, NULL, "0,45\r", "0.45 mm"},
        {METRIC, SPOT, NULL, "-,05\r", "-.05 mm"},
        {METRIC, SPOT, NULL, "-5\r", "-5/100 mm"},
    };

    CHECK_ROWS(state, rows);
}

static void rules(void **state)
{
    static const struct row rows[] = {
        {INCH, ACTION, NULL, "7\r", "7/64 in"},
        {INCH, ACTION, NULL, "6.5\r", "6.5/64 in"},
        {INCH, ACTION, NULL, "6,5\r", "6.5/64 in"},
        {INCH, ACTION, NULL, "6+.5\r", "6/64+.5/64 in"},
        {INCH, ACTION, NULL, "6+,5\r", "6/64+.5/64 in"},
        {INCH, ACTION, NULL, "6+1/2\r", "6/64+0 1/2/64 in"},
        {INCH, ACTION, NULL, "6-1/2\r", "6-1/2/64 in"},
        {INCH, ACTION, NULL, "6 1/2\r", "6 1/2/64 in"},
        {INCH, ACTION, NULL, "7/64\r", "7/64 in"},
        {INCH, ACTION, NULL, "3/32\r", "3/32 in"},
        {INCH, ACTION, NULL, "6+1/64\r", "6/64+1/64 in"},
        {INCH, ACTION, NULL, ".094\r", ".094 in"},
        {INCH, ACTION, NULL, "0.094\r", "0.094 in"},
        {INCH, ACTION, NULL, "6+.012\r", REFUSED},
        {INCH, ACTION, NULL, "6+1/3\r", REFUSED},
        {INCH, ACTION, NULL, "2.4 mm\r", "2.4 mm"},
        {INCH, ACTION, NULL, ".5\r", HELD},
        {METRIC, ACTION, NULL, "24\r", HELD},
        {METRIC, ACTION, NULL, "2.4\r", "2.4 mm"},
        {METRIC, ACTION, NULL, "2,4\r", "2.4 mm"},
        {METRIC, ACTION, NULL, "2\r", "2 mm"},
        {METRIC, ACTION, NULL, "2+,5\r", "2+.5 mm"},
        {METRIC, ACTION, NULL, "3/32\r", "3/32 in"},
        {METRIC, ACTION, NULL, "2+1/64\r", REFUSED},
        {METRIC, ACTION, NULL, "2.40000000000000002\r", "2.40000000000000002 mm"},
    };

    CHECK_ROWS(state, rows);
}

/* --- names, notes, days --- */

static void choices(void **state)
{
    static const struct row rows[] = {
        {INCH, KIND, NULL, "parlor\r", "steel-string"},
        {INCH, KIND, NULL, "resophonic\r", "resonator"},
        {INCH, BUILD, NULL, "flatwound\r", "flat-wound"},
        {INCH, BUILD, NULL, "roundwound\r", "round-wound"},
        {INCH, KIND, NULL, "cl\r", "classical"},
        {INCH, KIND, NULL, "Classical\r", "classical"},
        {INCH, KIND, NULL, "7\r", "mandolin"},
        {METRIC, KIND, NULL, "10\r", "other"},
        {INCH, KIND, NULL, "+\r", "classical"},
        {INCH, KIND, NULL, "-\r", "other"},
        {INCH, KIND, NULL, "uke\r", "ukulele"},
        {INCH, KIND, NULL, "harp\r", REFUSED},
        {INCH, KIND, NULL, "clasical\r", REFUSED},
        {INCH, KIND, NULL, "clasical\r2\r", "classical"},
        {INCH, KIND, NULL, "ba\r", REFUSED},
        {INCH, KIND, NULL, "ba\033[B\r", "bass"},
        {INCH, KIND, NULL, "ba\033[B\033[B\r", "archtop"},
        {INCH, KIND, NULL, "ban\r", "banjo"},
        {INCH, KIND, NULL, "11\r", "steel-string"},
        {INCH, BRIDGE, NULL, "pins\r", "blank"},
        {INCH, BRIDGE, NULL, "saddle\r", REFUSED},
        {INCH, BRIDGE, NULL, "tremolo\r", REFUSED},
        {INCH, JOIN, NULL, "dovetail\r", "glued"},
        {INCH, JOIN, NULL, "bolt-on\r", REFUSED},
        {INCH, JOIN, NULL, "bolted\r", "bolted"},
        {METRIC, TOUCH, NULL, "light\r", "soft"},
        {INCH, ROD, NULL, "two\r", "two-way"},
        {INCH, ROD, NULL, "Two Way\r", "two-way"},
        {INCH, BUILD, NULL, "rou\r", "round-wound"},
        {INCH, BUILD, NULL, "wound\r", REFUSED},
        {INCH, HEX, NULL, "y\r", "yes"},
    };

    CHECK_ROWS(state, rows);
}

static void woods_and_materials(void **state)
{
    static const struct row rows[] = {
        {INCH, BOARD_WOOD, NULL, "ebony\r", "ebony"},
        {INCH, BOARD_WOOD, NULL, "EBO\r", "ebony"},
        {INCH, BOARD_WOOD, NULL, "rosewood\r", HELD},
        {INCH, BOARD_WOOD, NULL, "rosewood\r\r", "rosewood"},
        {INCH, BOARD_WOOD, NULL, "rosewood\r11\r", "Indian rosewood"},
        {INCH, BOARD_WOOD, NULL, "rosewood\033[B\r", "Indian rosewood"},
        {INCH, BOARD_WOOD, NULL, "rosewod\r", HELD},
        {METRIC, BOARD_WOOD, NULL, "rosewod\r\r", "rosewod"},
        {INCH, BOARD_WOOD, NULL, "12\r", "Brazilian rosewood"},
        {INCH, BOARD_WOOD, NULL, "-\r", "ebony"},
        {INCH, BOARD_WOOD, NULL, "++\r", "red maple"},
        {INCH, BOARD_WOOD, NULL, "Wych elm\r", "Wych elm"},
        {INCH, NECK_WOOD, NULL, "rock maple\r", "sugar maple"},
        {INCH, NECK_WOOD, NULL, "maple\r", HELD},
        {INCH, NECK_WOOD, NULL, "flamed maple\r", HELD},
        {METRIC, NECK_WOOD, NULL, "khaya\r", "African mahogany"},
        {INCH, NECK_WOOD, NULL, "Mahogany\r", "mahogany"},
        {INCH, WRAP, NULL, "bronze\r", HELD},
        {INCH, WRAP, NULL, "phos\r", "phosphor-bronze"},
        {INCH, WRAP, NULL, "80/20\r", "80/20-bronze"},
        {INCH, WRAP, NULL, "5\r", "phosphor-bronze"},
        {METRIC, WRAP, NULL, "titanium\r", "titanium"},
    };

    CHECK_ROWS(state, rows);
}

/* A profile writes # and all that is not ASCII in its own way. */
static void notes(void **state)
{
    static const struct row rows[] = {
        {INCH, NOTE, NULL, "Eb2\r", "Eb2"},
        {INCH, NOTE, NULL, "eb2\r", "eb2"},
        {INCH, NOTE, NULL, "E\xE2\x99\xAD" "2\r", "\"E\xE2\x99\xAD" "2\""},
        {INCH, NOTE, NULL, "E flat 2\r", "E flat 2"},
        {INCH, NOTE, NULL, "f sharp 2\r", "f sharp 2"},
        {INCH, NOTE, NULL, "E 2\r", "E 2"},
        {INCH, NOTE, NULL, "D#2\r", "\"D%232\""},
        {INCH, NOTE, NULL, "bb1\r", "bb1"},
        {INCH, NOTE, NULL, "H2\r", REFUSED},
        {INCH, NOTE, NULL, "Eb\r", "Eb2"},
        {METRIC, NOTE, NULL, "d\r", "D2"},
        {INCH, NOTE, "[string.6]\nnote = E4\n", "eb\r", "Eb4"},
        {INCH, NOTE, "[string.6]\nnote = D4\n", "B\r", "B3"},
        {INCH, NOTE, NULL, "H\r", REFUSED},
        {INCH, NOTE, "[string.6]\nnote = E2\n", "-\r", "Eb2"},
        {INCH, NOTE, "[string.6]\nnote = D2\n", "+\r", "\"D%232\""},
        {INCH, NOTE, "[string.5]\nnote = Ab2\n[string.6]\nnote = D2\n", "+\r", "Eb2"},
    };

    CHECK_ROWS(state, rows);
}

/* A tuning or a set by its name is a what-if until y takes it over. */
static void tunings_and_sets(void **state)
{
    static const struct row rows[] = {
        {INCH, NOTE, NULL, "*ndrop d\r*y", "D2"},
        {INCH, NOTE, NULL, "*nDrop D\r", REFUSED},
        {METRIC, NOTE, NULL, "*nhalf step down\r*y", "Eb2"},
        {INCH, NOTE, NULL, "*neb standard\r*y", "Eb2"},
        {INCH, NOTE, NULL, "*nopen g\r*y", "D2"},
        {INCH, NOTE, NULL, "*ndadga\r*y", "D2"},
        {INCH, NOTE, NULL, "*45\r*8", "D2"},
        {INCH, NOTE, NULL, "*46+\r*8", "D2"},
        {INCH, NOTE, NULL, "*ndrop c\033*y", REFUSED},
        {INCH, NOTE, NULL, "*ndrop\r\033*y", REFUSED},
        {INCH, NOTE, NULL, "*npolka\r\033*y", REFUSED},
        {INCH, NOTE, NULL, "*nopn g\r\033*y", REFUSED},
        {INCH, GAUGE, NULL, "gsteel-light\ry", ".053 in"},
        {INCH, GAUGE, NULL, "gacoustic 10\ry", ".047 in"},
        {METRIC, GAUGE, NULL, "g12\ry", ".053 in"},
        {INCH, GAUGE, NULL, "gnickel nines\r\033y", REFUSED},
        {INCH, GAUGE, NULL, "g1\ry", ".047 in"},
        {INCH, GAUGE, NULL, "glight\033y", REFUSED},
        {INCH, GAUGE, NULL, "gpiano wire\r\033y", REFUSED},
    };

    CHECK_ROWS(state, rows);
}

/* Today and yesterday hang on the clock: test_typing.c types them at one that stands still. */
static void days(void **state)
{
    static const struct row rows[] = {
        {INCH, DATE, NULL, "26.11.2025\r", "2025-11-26"},
        {METRIC, DATE, NULL, "26,11,2025\r", "2025-11-26"},
        {INCH, DATE, NULL, "24th June 2025\r", "2025-06-24"},
        {INCH, DATE, NULL, "24062025\r", "2025-06-24"},
        {INCH, DATE, NULL, "2025-6-24\r", "2025-06-24"},
        {INCH, DATE, NULL, "2025.06.24\r", "2025-06-24"},
        {INCH, DATE, NULL, "20250624\r", "2025-06-24"},
        {INCH, DATE, NULL, "24.6.25\r", "2025-06-24"},
        {INCH, DATE, NULL, "6/24/2025\r", "2025-06-24"},
        {INCH, DATE, NULL, "24/6/2025\r", "2025-06-24"},
        {INCH, DATE, NULL, "24 june 2025\r", "2025-06-24"},
        {INCH, DATE, NULL, "Jun 24, 2025\r", "2025-06-24"},
        {INCH, DATE, NULL, "6/7/2025\r", REFUSED},
        {INCH, DATE, NULL, "31.6.2025\r", REFUSED},
        {INCH, DATE, NULL, "29.2.2025\r", REFUSED},
        {INCH, DATE, NULL, "25-6-24\r", REFUSED},
        {INCH, DATE, NULL, "someday\r", REFUSED},
    };

    CHECK_ROWS(state, rows);
}

/* Saddle heights go by the action rule, sizes by the calliper, long lengths by the tape. */
static void sizes(void **state)
{
    static const struct row rows[] = {
        {INCH, EXPOSURE, NULL, "9\r", "9/64 in"},
        {INCH, EXPOSURE, NULL, "8.5\r", "8.5/64 in"},
        {INCH, EXPOSURE, NULL, "1/8\r", "1/8 in"},
        {INCH, EXPOSURE, NULL, ".125\r", ".125 in"},
        {INCH, EXPOSURE, NULL, "0,125\r", "0.125 in"},
        {INCH, EXPOSURE, NULL, "3.5 mm\r", "3.5 mm"},
        {METRIC, EXPOSURE, NULL, "3.5\r", "3.5 mm"},
        {METRIC, EXPOSURE, NULL, "3,5\r", "3.5 mm"},
        {METRIC, EXPOSURE, NULL, "9/64\r", "9/64 in"},
        {INCH, LEAST, NULL, "8\r", "8/64 in"},
        {INCH, LEAST, NULL, "1/8\r", "1/8 in"},
        {METRIC, LEAST, NULL, "3\r", "3 mm"},
        {INCH, WIDTH, NULL, "1.6875\r", "1.6875 in"},
        {INCH, WIDTH, NULL, "1,6875\r", "1.6875 in"},
        {INCH, WIDTH, NULL, "1 11/16\r", "1 11/16 in"},
        {INCH, WIDTH, NULL, "1-3/4\r", "1-3/4 in"},
        {INCH, WIDTH, NULL, "43 mm\r", "43 mm"},
        {METRIC, WIDTH, NULL, "43\r", "43 mm"},
        {METRIC, WIDTH, NULL, "42,9\r", "42.9 mm"},
        {INCH, SHAFT, NULL, ".78\r", ".78 in"},
        {INCH, SHAFT, NULL, ",78\r", ".78 in"},
        {INCH, SHAFT, NULL, "25/32\r", "25/32 in"},
        {METRIC, SHAFT, NULL, ".78\r", REFUSED},
        {INCH, SHAFT, NULL, "20\r", REFUSED},
        {METRIC, SHAFT, NULL, "20\r", "20 mm"},
        {METRIC, SHAFT, NULL, "19,8\r", "19.8 mm"},
        {INCH, CROWN, NULL, ".043\r", ".043 in"},
        {INCH, CROWN, NULL, "0,043\r", "0.043 in"},
        {METRIC, CROWN, NULL, "1.1\r", "1.1 mm"},
        {METRIC, CROWN, NULL, "1,1\r", "1.1 mm"},
        {INCH, SETBACK, NULL, ".09\r", ".09 in"},
        {INCH, SETBACK, NULL, "3/32\r", "3/32 in"},
        {METRIC, SETBACK, NULL, "2.2\r", "2.2 mm"},
        {METRIC, SETBACK, NULL, "2,2\r", "2.2 mm"},
        {INCH, THREAD, NULL, "1/32\r", "1/32 in"},
        {INCH, THREAD, NULL, ".5 mm\r", ".5 mm"},
        {METRIC, THREAD, NULL, "0,5\r", "0.5 mm"},
        {INCH, GAUGE, NULL, "53\r", "53 th"},
        {INCH, GAUGE, NULL, ".053\r", ".053 in"},
        {INCH, GAUGE, NULL, "0,0535\r", "0.0535 in"},
        {METRIC, GAUGE, NULL, "1.35\r", "1.35 mm"},
        {METRIC, GAUGE, NULL, "0,3\r", "0.3 mm"},
        {METRIC, GAUGE, NULL, ".053 in\r", ".053 in"},
        {INCH, SCALE, NULL, "25.5\r", "25.5 in"},
        {INCH, SCALE, NULL, "25,5\r", "25.5 in"},
        {INCH, SCALE, NULL, "25 1/2\r", "25 1/2 in"},
        {INCH, SCALE, NULL, "25-1/2\r", "25-1/2 in"},
        {INCH, SCALE, NULL, "648 mm\r", "648 mm"},
        {METRIC, SCALE, NULL, "648\r", "648 mm"},
        {METRIC, SCALE, NULL, "647,7\r", "647.7 mm"},
        {METRIC, SCALE, NULL, "25 1/2\r", "25 1/2 in"},
    };

    CHECK_ROWS(state, rows);
}

static void other_quantities(void **state)
{
    static const struct row rows[] = {
        {INCH, TEMPERATURE, NULL, "70\r", "70 F"},
        {INCH, TEMPERATURE, NULL, "70,5\r", "70.5 F"},
        {INCH, TEMPERATURE, NULL, "21 C\r", "21 C"},
        {INCH, TEMPERATURE, NULL, "21\r", HELD},
        {METRIC, TEMPERATURE, NULL, "70\r", HELD},
        {METRIC, TEMPERATURE, NULL, "21\r", "21 C"},
        {METRIC, TEMPERATURE, NULL, "21,5\r", "21.5 C"},
        {METRIC, TEMPERATURE, NULL, "70 f\r", "70 f"},
        {METRIC, TEMPERATURE, NULL, "21+2\r", REFUSED},
        {INCH, HUMIDITY, NULL, "46\r", "46 %"},
        {METRIC, HUMIDITY, NULL, "46,5\r", "46.5 %"},
        {INCH, CENTS, NULL, "+6\r", "6 cents"},
        {INCH, CENTS, NULL, "-3\r", "-3 cents"},
        {METRIC, CENTS, NULL, "2,5\r", "2.5 cents"},
        {METRIC, CENTS, NULL, "0.5\r", "0.5 cents"},
        {INCH, MODULUS, NULL, "11 GPa\r", "11 GPa"},
        {METRIC, MODULUS, NULL, "11000\r", "11000 N/mm2"},
        {METRIC, MODULUS, NULL, "11,000\r", REFUSED},
        {INCH, TURN, SECOND_PASS, "1/4\r", "1/4 turn"},
        {INCH, TURN, SECOND_PASS, ".25\r", ".25 turn"},
        {METRIC, TURN, SECOND_PASS, "-,25\r", "-.25 turn"},
    };

    CHECK_ROWS(state, rows);
}

/* --- held --- */

static void what_is_not_usual_is_held(void **state)
{
    static const struct row rows[] = {
        {METRIC, ACTION, NULL, "24\r\r", "24 mm"},
        {METRIC, ACTION, NULL, "24\r\1772.4\r", "2.4 mm"},
        {METRIC, ACTION, NULL, "24\r\1772.4\r", "2.4 mm"},
        {METRIC, ACTION, NULL, "24\r\0252.4\r", "2.4 mm"},
        {METRIC, ACTION, NULL, "24\r\033[A\r", HELD},
        {METRIC, ACTION, NULL, "24\r\t\r", HELD},
        {METRIC, ACTION, NULL, "0.30\r", HELD},
        {METRIC, ACTION, NULL, "30\r", HELD},
        {METRIC, ACTION, NULL, ".24\r", HELD},
        {INCH, ACTION, NULL, "42\r", HELD},
        {INCH, ACTION, NULL, "42/64\r", HELD},
        {INCH, ACTION, NULL, "42\r\1774.5\r", "4.5/64 in"},
        {INCH, ACTION, NULL, ".012\r", HELD},
        {INCH, ACTION, NULL, "0.012\r", HELD},
        {INCH, ACTION, NULL, "0,012\r", HELD},
        {INCH, ACTION, NULL, "1\r", HELD},
        {METRIC, RELIEF, NULL, "0.003\r", HELD},
        {METRIC, RELIEF, NULL, "1\r", HELD},
        {METRIC, RELIEF, NULL, "3.0\r", HELD},
        {METRIC, RELIEF, NULL, "300\r", HELD},
        {INCH, RELIEF, NULL, "130\r\17713\r", "13 th"},
        {INCH, RELIEF, NULL, "7/64\r", HELD},
        {INCH, RELIEF, NULL, "-20\r", HELD},
        {INCH, GAP, NULL, "7/64\r", HELD},
        {INCH, GAP, NULL, "2 3/4 in\r", REFUSED},
        {INCH, GAP, NULL, "240\r", HELD},
        {METRIC, GAP, NULL, "2.4\r", HELD},
        {METRIC, GAP, NULL, "240\r\17724\r", "24/100 mm"},
        {METRIC, EXPOSURE, NULL, ".012\r", HELD},
        {METRIC, EXPOSURE, NULL, "0,012\r", HELD},
        {INCH, EXPOSURE, NULL, ".012\r", HELD},
        {METRIC, EXPOSURE, NULL, "35\r", HELD},
        {METRIC, EXPOSURE, NULL, "3,5\r", "3.5 mm"},
        {INCH, TURN, SECOND_PASS, "2.9\r", HELD},
        {INCH, TURN, SECOND_PASS, ".029\r", HELD},
        {INCH, TURN, SECOND_PASS, "0.029\r", HELD},
        {METRIC, TURN, SECOND_PASS, "19\r", HELD},
        {INCH, TURN, SECOND_PASS, "2.9\r\r", "2.9 turn"},
        {INCH, GAUGE, NULL, "530\r", HELD},
        {METRIC, GAUGE, NULL, "13\r", REFUSED},
        {METRIC, HUMIDITY, NULL, "5\r", HELD},
        {INCH, SPOT, NULL, "30\r", HELD},
        {METRIC, SETBACK, NULL, "23\r", HELD},
        {METRIC, CENTS, NULL, "80\r", HELD},
    };

    CHECK_ROWS(state, rows);
}

static void what_does_not_fit_is_held(void **state)
{
    static const struct row rows[] = {
        {INCH, GAP, NEIGHBOURS, "4\r", HELD},
        {INCH, GAP, NEIGHBOURS, "2\r", HELD},
        {INCH, GAP, NEIGHBOURS, "44\r", HELD},
        {INCH, GAP, NEIGHBOURS, "26\r", "26 th"},
        {INCH, GAP, NEIGHBOURS, "16\r", "16 th"},
        {INCH, GAP, NEIGHBOURS, "4\r\r", "4 th"},
        {INCH, ACTION, NEIGHBOURS, "3\r", HELD},
        {INCH, ACTION, NEIGHBOURS, "13\r", HELD},
        {INCH, ACTION, NEIGHBOURS, "8\r", "8/64 in"},
        {METRIC, ACTION, NEIGHBOURS, "5.2\r", HELD},
        {METRIC, ACTION, NEIGHBOURS, "3.2\r", "3.2 mm"},
        {METRIC, EXPOSURE, NEIGHBOURS, "9\r", HELD},
        {METRIC, EXPOSURE, NEIGHBOURS, "5\r", "5 mm"},
        {INCH, STRINGS, NEIGHBOURS, "7\r", HELD},
        {INCH, STRINGS, NULL, "7\r", "7"},
        {INCH, STRINGS, NULL, "2\r", HELD},
        {METRIC, FRETS, NEIGHBOURS, "22\r", HELD},
        {METRIC, FRETS, NULL, "2\r", HELD},
        {METRIC, SCALE, NEIGHBOURS, "630\r", HELD},
        {METRIC, SCALE, NULL, "630\r", "630 mm"},
        {INCH, DATE, NULL, "2062-03-02\r", HELD},
        {INCH, DATE, NULL, "1926-03-02\r", HELD},
        {INCH, DATE, LATER_VISIT, "2026-05-01\r", HELD},
        {INCH, DATE, LATER_VISIT, "2026-03-03\r", "2026-03-03"},
        {METRIC, BUILT, NULL, "2062\r", HELD},
        {METRIC, BUILT, NULL, "2062\r\r", "2062"},
        {METRIC, BUILT, NULL, "1962\r", "1962"},
        {METRIC, BUILT, NULL, "about 2062\r", "about 2062"},
    };

    CHECK_ROWS(state, rows);
}

/* A row that falls to the treble, a saddle, a string with its core. */
#define ACTIONS                                                                                    \
    "[visit.1.pass.1]\naction.5 = 7.5/64 in\naction.4 = 7/64 in\naction.3 = 6.5/64 in\n"           \
    "action.2 = 6/64 in\naction.1 = 6/64 in\nexposure_treble = 4.3 mm\n"
#define STRING_6                                                                                   \
    "[string.6]\nnote = E2\ngauge = .053 in\ncore = .020 in\nbuild = round-wound\n"

static void slips_are_held(void **state)
{
    static const struct row rows[] = {
        {INCH, ACTION, ACTIONS, "4\r", HELD},
        {INCH, ACTION, ACTIONS, "11\r", HELD},
        {INCH, ACTION, ACTIONS, "8.5\r", "8.5/64 in"},
        {INCH, ACTION, NULL, "2.4\r", HELD},
        {INCH, ACTION, NULL, "7/46\r", HELD},
        {INCH, ACTION, NULL, "6.5/46\r", HELD},
        {INCH, ACTION, NULL, "6/65\r", HELD},
        {INCH, ACTION, NULL, "7/46\r\r", "7/46 in"},
        {INCH, ACTION, NULL, "5/32\r", "5/32 in"},
        {INCH, EXPOSURE, ACTIONS, "4.4\r", HELD},
        {METRIC, EXPOSURE, ACTIONS, "0.4\r", HELD},
        {METRIC, EXPOSURE, ACTIONS, "4.4\r", "4.4 mm"},
        {METRIC, RELIEF, NULL, "0.015\r", HELD},
        {METRIC, RELIEF_WANTED, NULL, "0.015\r", HELD},
        {METRIC, RELIEF_WANTED, NULL, "0.15\r", "0.15 mm"},
        {INCH, RELIEF, NULL, "1,012\r", HELD},
        {INCH, ACTION_WANTED, NULL, "2.4\r", HELD},
        {INCH, ACTION_WANTED, NULL, "6\r", "6/64 in"},
        {INCH, CORE, STRING_6, "60\r", HELD},
        {INCH, CORE, STRING_6, "22\r", "22 th"},
        {INCH, NOTE, STRING_6, "E9\r", HELD},
        {INCH, NOTE, STRING_6, "e3\r", HELD},
        {INCH, NOTE, STRING_6, "A0\r", HELD},
        {INCH, NOTE, STRING_6, "D2\r", "D2"},
        {METRIC, BUILT, NULL, "20262\r", HELD},
        {METRIC, BUILT, NULL, "196\r", HELD},
        {INCH, JOIN_FRET, NULL, "21\r", HELD},
        {INCH, JOIN_FRET, NULL, "12\r", "12"},
    };

    CHECK_ROWS(state, rows);
}

static void blanks_around_are_not_kept(void **state)
{
    static const struct row rows[] = {
        {INCH, OWNER, NULL, "Ann  \r", "Ann"},
        {INCH, BUZZ, NULL, "3+\r", "3"},
        {INCH, BUZZ, NULL, "+3\r", "3"},
        {INCH, BUZZ, NULL, "3+5-7\r", "3 5-7"},
        {INCH, REASON, NULL, "?why\r", "why"},
    };

    CHECK_ROWS(state, rows);
}

static void what_is_refused_waits_to_be_emptied(void **state)
{
    static const struct row rows[] = {
        {INCH, GAP, NULL, "1.2.3\r24\r", REFUSED},
        {INCH, GAP, NULL, "1.2.3\r\17724\r", "24 th"},
        {INCH, GAP, NULL, "24 23 22\r", REFUSED},
        {INCH, GAP, NULL, "24 23\r", REFUSED},
        {METRIC, ACTION, NULL, "2.4 2.3 2.2\r", REFUSED},
        {METRIC, ACTION, NULL, "2.4 2.3\r\1772.2\r", "2.2 mm"},
        {INCH, ACTION, NULL, "8 1/4\r", "8 1/4/64 in"},
        {INCH, GAP, NULL, "9999\r\17724\r", "24 th"},
        {INCH, GAP, "[visit.1.pass.1]\nnut_gap.6 = .020 in\n", "1.2.3\ru", HELD},
        {INCH, GAP, NULL, "\033[200~24 23 22\033[201~", "24 th"},
        {INCH, GAP, NULL, "\033[200~24\033[201~", HELD},
        {INCH, GAP, NULL, "\033[200~240\r23\033[201~", HELD},
        {INCH, REASON, NULL, "\033[200~buzz at 5\r\033[201~\r", "buzz at 5"},
    };

    CHECK_ROWS(state, rows);
}

/* --- letters where none are wanted --- */

#define HIGH_RELIEF "[targets]\nrelief = .006 in\n[visit.1.pass.1]\ntime = 10:00\nrelief = .013 in\n"

static void words_in_cells_of_numbers(void **state)
{
    static const struct row rows[] = {
        {INCH, STRINGS, NULL, "six\r", REFUSED},
        {INCH, STRINGS, NULL, "x", REFUSED},
        {INCH, STRINGS, NULL, "*\r", REFUSED},
        {INCH, STRINGS, NULL, "*2", ""},
        {INCH, STRINGS, NULL, "\033[3~", ""},
        {INCH, HUMIDITY, "humidity = 46 %\n", "max\r", REFUSED},
        {INCH, METHOD, HIGH_RELIEF, "none\r", REFUSED},
        {INCH, METHOD, HIGH_RELIEF, "o", REFUSED},
        {INCH, METHOD, HIGH_RELIEF, "*8", "held-3"},
        {INCH, RADIUS, NULL, "Flat\r", "flat"},
        {METRIC, RADIUS, NULL, "FLAT\r", "flat"},
        {METRIC, RADIUS, NULL, "flat\r", "flat"},
    };

    CHECK_ROWS(state, rows);
}

static void what_was_done(void **state)
{
    static const struct row rows[] = {
        {INCH, ROD_DONE, HIGH_RELIEF, "a\r", HELD},
        {INCH, ROD_DONE, HIGH_RELIEF, "d\r", HELD},
        {INCH, ROD_DONE, HIGH_RELIEF, "u\r", HELD},
        {INCH, ROD_DONE, HIGH_RELIEF, "u\r\r", "u"},
        {INCH, ROD_DONE, HIGH_RELIEF, "1/4\r", "1/4"},
        {INCH, ROD_LOGGED, HIGH_RELIEF, "1/4\r", "1/4 turn"},
        {METRIC, ROD_LOGGED, HIGH_RELIEF, ".25\r", ".25 turn"},
        {INCH, ROD_LOGGED, HIGH_RELIEF, "1/8 turn\r", "1/8 turn"},
        {INCH, ROD_LOGGED, HIGH_RELIEF, "tightened\r", ""},
        {INCH, ROD_LOGGED, HIGH_RELIEF, "*4" "90\r" "\177.25\r", ".25 turn"},
        {INCH, ROD_LOGGED, HIGH_RELIEF, " 2..5\r" "\1771/4\r", "1/4 turn"},
        {INCH, ROD_LOGGED, HIGH_RELIEF, " \177\033[C" "1/4\r", "1/4 turn"},
    };

    CHECK_ROWS(state, rows);
}
/* clang-format on */

static void blanks_behind_and_frets_that_are_not_there(void **state)
{
    static const struct row rows[] = {
        {INCH, STRINGS, NULL, "7 \r", "7"},
        {INCH, TURN, SECOND_PASS, "\xC2\xBC\r", "\"\xC2\xBC turn\""},
        {INCH, BUZZ, NULL, "20\r", "20"},
        {INCH, BUZZ, NULL, "3+5\r", "3 5"},
        {INCH, BUZZ, NULL, "21\r", REFUSED},
        {INCH, BUZZ, NULL, "0-25\r", REFUSED},
        {INCH, BUZZ, NULL, "35\r", REFUSED},
    };

    CHECK_ROWS(state, rows);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        BENCH_CASE(leaves_in_thousandths),
        BENCH_CASE(leaves_in_hundredths),
        BENCH_CASE(rules),
        BENCH_CASE(sizes),
        BENCH_CASE(other_quantities),
        BENCH_CASE(words_in_cells_of_numbers),
        BENCH_CASE(what_was_done),
        BENCH_CASE(choices),
        BENCH_CASE(woods_and_materials),
        BENCH_CASE(notes),
        BENCH_CASE(tunings_and_sets),
        BENCH_CASE(days),
        BENCH_CASE(what_is_not_usual_is_held),
        BENCH_CASE(what_does_not_fit_is_held),
        BENCH_CASE(slips_are_held),
        BENCH_CASE(blanks_around_are_not_kept),
        BENCH_CASE(what_is_refused_waits_to_be_emptied),
        BENCH_CASE(blanks_behind_and_frets_that_are_not_there),
    };

    if (!bench_set_up(argc, argv))
        return 2;
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
