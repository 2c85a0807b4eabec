/* SPDX-License-Identifier: MIT */
#include "shelf/shelf_table.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/num.h"
#include "words/amount.h"

/* Fewer checks than this say nothing about the +-. */
enum { PROOF_LEAST = 20 };

/* Of so many checks the +- has to hold. */
#define PROOF_SHARE 0.95

enum { KINDS_MAX = 16 };

struct maker {
    const struct shelf_list *list;
    struct shelf_table *table;
    char kind[KINDS_MAX][KIND_NAME_SIZE];
    int kinds;
    const struct shelf_item **items; /* those that match what is typed */
    size_t count;
    double *values; /* room for one of each of them */
};

/* --- cells --- */

/* The next row; past the last one the last is written again, which nobody sees happen: there are
 * fewer kinds than rows. */
static int add_row(struct maker *maker)
{
    struct shelf_table *table = maker->table;

    if (table->rows < TABLE_ROWS_MAX)
        table->rows++;
    memset(table->cell[table->rows - 1], 0, sizeof table->cell[0]);
    return table->rows - 1;
}

static struct strbuf cell_of(struct maker *maker, int row, int column)
{
    return strbuf_over(maker->table->cell[row][column], TABLE_CELL_MAX);
}

static void put_text(struct maker *maker, int row, int column, const char *text)
{
    struct strbuf cell = cell_of(maker, row, column);

    strbuf_add(&cell, text);
}

static void put_count(struct maker *maker, int row, int column, int count)
{
    struct strbuf cell = cell_of(maker, row, column);

    strbuf_addf(&cell, "%d", count);
}

static void put_number(struct maker *maker, int row, int column, double value, int decimals)
{
    struct strbuf cell = cell_of(maker, row, column);

    num_format_fixed(value, decimals, false, &cell);
}

static enum unit unit_of(const struct maker *maker, enum field_id field)
{
    return field_bare_unit(field_get(field), &maker->list->ground.units);
}

static void add_length(const struct maker *maker, double mm, enum unit unit, struct strbuf *out)
{
    if (maker->list->ground.plain)
        num_format_fixed(mm, 3, false, out);
    else
        amount_add(out, mm, unit, false);
}

static void add_unit(const struct maker *maker, enum unit unit, struct strbuf *out)
{
    if (!maker->list->ground.plain)
        amount_add_unit(out, unit);
}

static void put_heads(struct maker *maker, const char *const heads[], int count)
{
    maker->table->columns = count;
    for (int i = 0; i < count; i++) {
        struct strbuf head = strbuf_over(maker->table->head[i], TABLE_CELL_MAX);

        strbuf_add(&head, heads[i]);
    }
}

/* --- what is usual --- */

/* A fact of the instruments of a kind. */
static struct usual find_usual(struct maker *maker, const char *kind, enum fact_number fact)
{
    int used = 0;

    for (size_t i = 0; i < maker->count; i++) {
        const struct shelf_item *item = maker->items[i];
        const struct maybe number = item->facts->number[fact];

        if (number.given && strcmp(item->card.kind, kind) == 0)
            maker->values[used++] = number.value;
    }
    return usual_of(maker->values, used);
}

/* "6", "5 to 6.5 /64 in", and how many. */
static void put_usual(struct maker *maker, int row, int column, const struct usual *usual,
                      enum unit unit)
{
    struct strbuf median = cell_of(maker, row, column), half = cell_of(maker, row, column + 1);

    if (usual->count == 0)
        return;
    add_length(maker, usual->median_mm, unit, &median);
    add_unit(maker, unit, &median);
    add_length(maker, usual->low_mm, unit, &half);
    strbuf_add(&half, " to ");
    add_length(maker, usual->high_mm, unit, &half);
}

static void add_usual_kind(struct maker *maker, const char *kind)
{
    for (int i = 0; i < USUAL_ROWS; i++) {
        const struct usual_row *about = usual_row_get(i);
        const struct usual wanted = find_usual(maker, kind, about->wanted);
        const struct usual left = find_usual(maker, kind, about->left);
        const enum unit unit = unit_of(maker, about->target);

        if (wanted.count == 0 && left.count == 0)
            continue;
        const int row = add_row(maker);
        put_text(maker, row, 0, kind);
        put_text(maker, row, 1, about->label);
        put_usual(maker, row, 2, &wanted, unit);
        put_count(maker, row, 4, wanted.count);
        put_usual(maker, row, 5, &left, unit);
        put_count(maker, row, 7, left.count);
    }
}

static void make_usual(struct maker *maker)
{
    static const char *const heads[] = {"kind", "",     "wanted",      "middle half",
                                        "of",   "left", "middle half", "of"};
    static const char *const plain[] = {"kind",
                                        "what",
                                        "wanted, mm",
                                        "wanted, middle half, mm",
                                        "wanted, count",
                                        "left, mm",
                                        "left, middle half, mm",
                                        "left, count"};

    maker->table->title = "What do we usually set?";
    maker->table->note =
        "Medians of what is wanted, and of what was last left, with the middle half.";
    put_heads(maker, maker->list->ground.plain ? plain : heads, 8);
    for (int k = 0; k < maker->kinds; k++)
        add_usual_kind(maker, maker->kind[k]);
}

/* --- turns of the rod --- */

static struct rod_prior prior_of(const struct maker *maker, const char *kind)
{
    struct rod_necks necks = {.count = 0};

    for (size_t i = 0; i < maker->count; i++) {
        const struct card *card = &maker->items[i]->card;

        if (rod_neck_is_known(&card->rod) && strcmp(card->kind, kind) == 0)
            rod_necks_add(&necks, &card->rod);
    }
    struct rod_prior prior = rod_prior_of(&necks);
    /* Too few for a median: how many there are is said all the same. */
    if (prior.necks == 0)
        prior = (struct rod_prior){.necks = -necks.count};
    return prior;
}

static void add_turns_kind(struct maker *maker, const char *kind)
{
    const struct rod_prior prior = prior_of(maker, kind);
    const enum unit unit = unit_of(maker, FIELD_RELIEF);

    if (prior.necks == 0)
        return;
    const int row = add_row(maker);
    put_text(maker, row, 0, kind);
    put_count(maker, row, 3, abs(prior.necks));
    if (prior.necks < 0) {
        put_text(maker, row, 1, maker->list->ground.plain ? "" : "too few to say");
        return;
    }
    struct strbuf change = cell_of(maker, row, 1), u = cell_of(maker, row, 2);
    add_length(maker, prior.per_turn_mm / 4, unit, &change);
    add_unit(maker, unit, &change);
    add_length(maker, prior.per_turn_u_mm / 4, unit, &u);
}

static void make_turns(struct maker *maker)
{
    static const char *const heads[] = {"kind", "relief", "give or take", "necks"};
    static const char *const plain[] = {"kind", "a quarter turn, mm", "give or take, mm", "necks"};

    maker->table->title = "What does a quarter turn do?";
    maker->table->note = "To the relief, tightened, on the necks whose own turns say so.";
    put_heads(maker, maker->list->ground.plain ? plain : heads, 4);
    for (int k = 0; k < maker->kinds; k++)
        add_turns_kind(maker, maker->kind[k]);
}

/* --- how right we were --- */

struct levels {
    int checked, inside, at[PROOF_LEVELS];
    int necks; /* that they are from: one measured often says little of others */
};

static void count_levels(const char *proof, struct levels *levels)
{
    for (; *proof; proof++) {
        const int level = shelf_facts_level(*proof);

        if (level < 0)
            continue;
        levels->checked++;
        levels->inside += level <= PROOF_INSIDE;
        levels->at[level]++;
    }
}

/* Kind and move may be "" and -1 for all. */
static struct levels levels_of(const struct maker *maker, const char *kind, int move)
{
    static const enum fact_text proofs[] = {FACT_PROOF_ROD, FACT_PROOF_SLOTS, FACT_PROOF_SADDLE};
    struct levels levels = {.checked = 0};

    for (size_t i = 0; i < maker->count; i++) {
        const struct shelf_item *item = maker->items[i];

        if (kind[0] && strcmp(item->card.kind, kind) != 0)
            continue;
        const int before = levels.checked;
        for (int m = 0; m < 3; m++)
            if (move < 0 || move == m)
                count_levels(shelf_facts_text(item->facts, proofs[m]), &levels);
        levels.necks += levels.checked > before;
    }
    return levels;
}

/* By what the +- has to be multiplied for its share of the checks to be inside. The last level
 * stands for all beyond it, so that no more than the one before it is known. */
static void put_factor(struct maker *maker, int row, int column, const struct levels *levels)
{
    struct strbuf cell = cell_of(maker, row, column);
    int within = 0, level = -1;

    while (level + 1 < PROOF_LEVELS && within < PROOF_SHARE * levels->checked)
        within += levels->at[++level];
    const bool beyond = level == PROOF_LEVELS - 1;
    strbuf_add(&cell, beyond ? "over " : "");
    num_format_fixed((level - beyond) * PROOF_STEP, 2, false, &cell);
}

static void add_proof(struct maker *maker, const char *kind, int move)
{
    static const char *const moves[] = {"rod", "slots", "saddle"};
    const struct levels levels = levels_of(maker, kind, move);

    if (levels.checked == 0)
        return;
    const int row = add_row(maker);
    put_text(maker, row, 0, kind[0] ? kind : "all");
    put_text(maker, row, 1, move < 0 ? "all" : moves[move]);
    put_count(maker, row, 2, levels.checked);
    put_count(maker, row, 3, levels.inside);
    put_number(maker, row, 4, 100.0 * levels.inside / levels.checked, 1);
    if (levels.checked >= PROOF_LEAST)
        put_factor(maker, row, 5, &levels);
    else
        put_text(maker, row, 5, maker->list->ground.plain ? "" : "too few");
    put_count(maker, row, 6, levels.necks);
}

static void make_proof(struct maker *maker)
{
    static const char *const heads[] = {"kind", "move",   "checked", "inside",
                                        "%",    "factor", "necks"};

    maker->table->title = "How right were we?";
    maker->table->note =
        "What was expected after a move, and then read: how often inside the \xC2\xB1; "
        "with the \xC2\xB1 that many times as wide, 95 % would be.";
    put_heads(maker, heads, 7);
    for (int move = -1; move < 3; move++)
        add_proof(maker, "", move);
    for (int k = 0; k < maker->kinds; k++)
        for (int move = -1; move < 3; move++)
            add_proof(maker, maker->kind[k], move);
}

/* --- all --- */

static void find_kinds(struct maker *maker)
{
    while (maker->kinds < KINDS_MAX && field_choice(field_get(FIELD_KIND), maker->kinds,
                                                    maker->kind[maker->kinds], KIND_NAME_SIZE))
        maker->kinds++;
}

/* Whatever question the list answers: a table is one of its own. */
static void find_items(struct maker *maker)
{
    const struct shelf_list *list = maker->list;
    struct shelf_words words;

    shelf_words_take(&words, list->filter.text);
    maker->values = calloc(list->count + 1, sizeof *maker->values);
    maker->items = calloc(list->count + 1, sizeof *maker->items);
    for (size_t i = 0; maker->items && i < list->count; i++)
        if (shelf_words_match(&words, &list->items[i]))
            maker->items[maker->count++] = &list->items[i];
}

bool shelf_table_make(const struct shelf_list *list, enum shelf_table_id id,
                      struct shelf_table *ret_table)
{
    static void (*const makers[TABLES_])(struct maker * maker) = {
        [TABLE_USUAL] = make_usual, [TABLE_TURNS] = make_turns, [TABLE_PROOF] = make_proof};
    struct maker *maker = calloc(1, sizeof *maker);

    if (!maker)
        return false;
    maker->list = list;
    maker->table = ret_table;
    find_items(maker);
    ret_table->rows = ret_table->columns = 0;
    ret_table->note = "";
    find_kinds(maker);
    const bool good = maker->values && maker->items;
    if (good)
        makers[id](maker);
    free(maker->items);
    free(maker->values);
    free(maker);
    return good;
}
