/* SPDX-License-Identifier: MIT */
#include "sheet_faults.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { LINE_MAX_ = 400, COLUMNS_MAX = 12, GROUPS_MAX = 4, STRINGS = 12, LEAST_LINES = 6 };

/* What the gauge and the tolerance leave open together: leaves of .001 in and as much wanted, a
 * rule of 1/128 in and as much wanted. */
static const struct {
    const char *name;
    double slack_mm;
} measures[] = {{"relief", 0.06}, {"gap", 0.06}, {"action", 0.42}, {"height", 0.85}};

static double slack_of(const char *name)
{
    for (size_t i = 0; i < sizeof measures / sizeof measures[0]; i++)
        if (strncmp(name, measures[i].name, strlen(measures[i].name)) == 0)
            return measures[i].slack_mm;
    return 0;
}

/* --- lines --- */

/* Copies the line at *at and goes on to the next; false at the end. */
static bool next_line(const char **at, char line[LINE_MAX_])
{
    const size_t length = strcspn(*at, "\n");
    const size_t kept = length < LINE_MAX_ - 1 ? length : LINE_MAX_ - 1;

    if (**at == '\0')
        return false;
    memcpy(line, *at, kept);
    line[kept] = '\0';
    *at += length + ((*at)[length] == '\n');
    return true;
}

static bool is_blank(const char *line)
{
    return line[strspn(line, " \f\r")] == '\0';
}

/* --- numbers: ".034 (0.86)", "over 7.6 (3.00)" --- */

struct pair {
    double mm;
    int end; /* the column after it */
};

/* The next such number at or after *from. */
static bool next_pair(const char *line, int *from, bool metric, struct pair *ret_pair)
{
    for (const char *at = line + *from; *at; at++) {
        double first, second;
        int length = 0;

        if ((at != line && at[-1] != ' ') || !strchr("-.0123456789", *at))
            continue;
        if (sscanf(at, "%lf (%lf)%n", &first, &second, &length) != 2 || length == 0)
            continue;
        *ret_pair = (struct pair){metric ? first : second, (int)(at - line) + length};
        *from = ret_pair->end;
        return true;
    }
    return false;
}

/* --- states --- */

enum heading { FOUND, LEFT, TARGET, HEADINGS };

struct column {
    enum heading heading;
    int group, end;
};

struct table {
    struct column column[COLUMNS_MAX];
    int count, groups;
    double slack_mm[GROUPS_MAX];
    struct {
        bool given;
        double mm;
    } value[COLUMNS_MAX][STRINGS];
    int strings;
};

static const char *const headings[HEADINGS] = {"as found", "as left", "target"};

static void read_headings(const char *line, struct table *table)
{
    table->count = table->groups = 0;
    for (int at = 0; line[at]; at++)
        for (int h = 0; h < HEADINGS && table->count < COLUMNS_MAX; h++) {
            if (strncmp(line + at, headings[h], strlen(headings[h])) != 0)
                continue;
            table->groups += h == FOUND;
            table->column[table->count++] =
                (struct column){(enum heading)h, table->groups - 1, at + (int)strlen(headings[h])};
        }
}

/* The measures in the line above the headings, from left to right. */
static void read_groups(const char *line, struct table *table)
{
    int group = 0;

    for (const char *at = line; *at && group < GROUPS_MAX; at++)
        if ((at == line || at[-1] == ' ') && slack_of(at) > 0)
            table->slack_mm[group++] = slack_of(at);
}

static int column_at(const struct table *table, int end)
{
    int best = 0;

    for (int c = 1; c < table->count; c++)
        if (abs(table->column[c].end - end) < abs(table->column[best].end - end))
            best = c;
    return best;
}

static void read_string(const char *line, bool metric, struct table *table)
{
    struct pair pair;
    int from = 0;

    while (table->strings < STRINGS && next_pair(line, &from, metric, &pair)) {
        const int c = column_at(table, pair.end);

        table->value[c][table->strings].given = true;
        table->value[c][table->strings].mm = pair.mm;
    }
    table->strings++;
}

static int target_of(const struct table *table, int c)
{
    for (int other = 0; other < table->count; other++)
        if (table->column[other].group == table->column[c].group &&
            table->column[other].heading == TARGET)
            return other;
    return -1;
}

/* Whether numbers so far over and so far under what is wanted go with a state. */
static bool goes_with(const char *word, double over, double under, double slack_mm)
{
    if (strcmp(word, "good") == 0)
        return over <= slack_mm && under <= slack_mm;
    if (strcmp(word, "near") == 0)
        return over > 0 || under > 0;
    if (strcmp(word, "high") == 0)
        return over > 0;
    if (strcmp(word, "low") == 0)
        return under > 0;
    return strcmp(word, "mixed") == 0 && over > 0 && under > 0;
}

static bool column_goes(const struct table *table, int c, const char *word)
{
    const int wanted = target_of(table, c);
    double over = 0, under = 0;

    for (int s = 0; wanted >= 0 && s < table->strings; s++) {
        if (!table->value[c][s].given || !table->value[wanted][s].given)
            continue;
        over = fmax(over, table->value[c][s].mm - table->value[wanted][s].mm);
        under = fmax(under, table->value[wanted][s].mm - table->value[c][s].mm);
    }
    return goes_with(word, over, under, table->slack_mm[table->column[c].group]);
}

/* Takes the next word, and a "now" behind it. */
static bool next_word(const char *line, int *from, char word[16], int *ret_end)
{
    const int at = *from + (int)strspn(line + *from, " ");
    const int length = (int)strcspn(line + at, " \f");

    if (length == 0)
        return false;
    snprintf(word, 16, "%.*s", length, line + at);
    *from = *ret_end = at + length;
    if (strncmp(line + *from, " now", 4) == 0)
        *from = *ret_end += 4;
    return true;
}

/* Whether the sheet says that all is as wanted while a state as left is not good. */
static bool denies_wanted(const struct sheet_said *said, bool left, const char *word)
{
    return left && strcmp(word, "good") != 0 && strcmp(word, "near") != 0 &&
           strstr(said->text, "where they are wanted");
}

/* Whether a column has the readings as left, or the only ones. */
static bool is_left(const struct table *table, int c)
{
    return table->column[c].heading == LEFT || c + 1 == table->count ||
           table->column[c + 1].heading != LEFT;
}

static const char *check_states(const struct sheet_said *said, const char *line,
                                const struct table *table, int *states, char *memory, size_t size)
{
    int from = (int)strlen("state"), end;
    char word[16];

    while (next_word(line, &from, word, &end)) {
        const int c = column_at(table, end);

        ++*states;
        if (column_goes(table, c, word) && !denies_wanted(said, is_left(table, c), word))
            continue;
        snprintf(memory, size, "'%s' against its numbers, in: %s", word, line);
        return memory;
    }
    return NULL;
}

/* "relief at fret 6, in (mm)  .011 (0.28)  .006 (0.15)  good" */
static const char *check_single(const struct sheet_said *said, const char *line, int *states,
                                char *memory, size_t size)
{
    const char *names = strstr(line, ", ") ? strstr(line, ")") : NULL;
    struct pair pair[3];
    char word[16];
    int from = names ? (int)(names - line) + 1 : 0, count = 0, end;

    while (count < 3 && next_pair(line, &from, said->metric, &pair[count]))
        count++;
    if (!names || count < 2 || !next_word(line, &from, word, &end))
        return NULL;
    const bool least = strstr(line, " over ") != NULL;
    const double over = pair[count - 2].mm - pair[count - 1].mm;
    ++*states;
    if (!denies_wanted(said, true, word) &&
        (least ? (strcmp(word, "good") == 0) == (over >= -0.005)
               : goes_with(word, fmax(over, 0), fmax(-over, 0), slack_of(line))))
        return NULL;
    snprintf(memory, size, "'%s' against its numbers, in: %s", word, line);
    return memory;
}

static bool begins(const char *line, const char *word)
{
    return strncmp(line, word, strlen(word)) == 0;
}

static const char *find_wrong_state(const struct sheet_said *said, int *states, char *memory,
                                    size_t size)
{
    const char *at = said->text, *fault = NULL;
    char line[LINE_MAX_], above[LINE_MAX_] = "";
    struct table table = {.count = 0};

    *states = 0;
    while (!fault && next_line(&at, line)) {
        if ((begins(line, "string ") || begins(line, "course ")) && strstr(line, headings[FOUND]) &&
            !strstr(line, "fret 12")) {
            table = (struct table){.count = 0};
            read_headings(line, &table);
            read_groups(above, &table);
        } else if (table.count > 0 && begins(line, "state ")) {
            fault = check_states(said, line, &table, states, memory, size);
            table.count = 0;
        } else if (table.count > 0 && isdigit((unsigned char)line[0])) {
            read_string(line, said->metric, &table);
        } else if (begins(line, "relief ") || begins(line, "saddle, ")) {
            fault = check_single(said, line, states, memory, size);
        }
        if (!is_blank(line))
            memcpy(above, line, sizeof above);
    }
    return fault;
}

/* --- what was done --- */

static bool is_plan(const char *words)
{
    static const char *const orders[] = {"tighten ", "slacken ", "file ",    "lower ", "raise ",
                                         "level ",   "set the ", "move ",    "sand ",  "put in ",
                                         "cut ",     "tighten:", "slacken:", "until "};

    for (size_t i = 0; i < sizeof orders / sizeof orders[0]; i++)
        if (begins(words, orders[i]))
            return true;
    return strstr(words, "then reads") || strstr(words, "to be ") || strstr(words, "expect");
}

/* "string 6 -.008, 5 -.007": a change with its sign, as a tech logs it. */
static bool is_logged(const char *words)
{
    for (const char *at = strstr(words, " -"); at; at = strstr(at + 1, " -"))
        if (at[2] == '.' || isdigit((unsigned char)at[2]))
            return !strstr(words, "relief");
    return false;
}

/* Where the right column begins, by a heading's line; no line reaches as far if there is none. */
static int right_column(const char *line, const char *heading)
{
    const int after = (int)strlen(heading), blanks = (int)strspn(line + after, " ");

    return line[after + blanks] ? after + blanks : LINE_MAX_;
}

/* The next line of the left column. */
static bool next_left_line(const char **at, int right, char line[LINE_MAX_])
{
    enum { GAP = 3 }; /* between the columns, at least */

    if (!next_line(at, line))
        return false;
    if ((int)strlen(line) > right - GAP)
        line[right - GAP] = '\0';
    return true;
}

static const char *find_done_fault(const struct sheet_said *said, char *memory, size_t size)
{
    static const char heading[] = "What was done";
    const char *at = strstr(said->text, heading);
    char line[LINE_MAX_];
    int lines = 0;

    if (!at || !next_line(&at, line))
        return NULL;
    const int right = right_column(line, heading);
    while (next_left_line(&at, right, line) && !(is_blank(line) && lines > 0)) {
        const char *gap = strstr(line, "  ");
        const char *words = gap ? gap + strspn(gap, " ") : line;

        if (strstr(line, "+-") || strstr(line, "\xC2\xB1") || is_plan(words) || is_logged(words)) {
            snprintf(memory, size, "a plan as work done: %s", line);
            return memory;
        }
        lines += !is_blank(line) && line[0] != ' ' && !begins(line, "Not everything");
    }
    if (lines <= said->works)
        return NULL;
    snprintf(memory, size, "%d lines of work done, and %d logged", lines, said->works);
    return memory;
}

/* --- pages --- */

static const char *find_short_page(const struct sheet_said *said, char *memory, size_t size)
{
    const char *last = said->text, *at = said->text;
    char line[LINE_MAX_];
    int lines = 0;

    for (const char *page = strchr(at, '\f'); page && page[1]; page = strchr(page + 1, '\f'))
        last = page + 1;
    if (last == said->text)
        return NULL;
    for (at = last; next_line(&at, line);)
        lines += !is_blank(line) && !begins(line, "Set-up sheet:");
    if (lines >= LEAST_LINES)
        return NULL;
    snprintf(memory, size, "a last page of %d lines", lines);
    return memory;
}

const char *sheet_fault(const struct sheet_said *said, char *memory, size_t size)
{
    int states;

    if (strstr(said->text, said->secret))
        return "a word of the shop's note";
    if (!said->heard && strstr(said->text, "would buzz"))
        return "notes are said that would buzz, and nobody listened";
    if (!said->heard && strstr(said->text, "Room for the strings"))
        return "room to swing is shown, and nobody listened";
    const char *fault = find_done_fault(said, memory, size);
    fault = fault ? fault : find_short_page(said, memory, size);
    return fault ? fault : find_wrong_state(said, &states, memory, size);
}

int sheet_fault_states(const struct sheet_said *said)
{
    char memory[LINE_MAX_ + 80];
    int states;

    (void)find_wrong_state(said, &states, memory, sizeof memory);
    return states;
}
