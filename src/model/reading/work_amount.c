/* SPDX-License-Identifier: MIT */
#include "model/reading/work_amount.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "base/ascii.h"
#include "base/num.h"
#include "base/strbuf.h"
#include "model/reading/work_line.h"

/* One number of the text. */
struct told {
    double value; /* in its unit */
    double factor;
    bool has_sign;
    int way;     /* 1 behind "back", -1 behind "forward", 0 behind neither */
    int string;  /* or course; 0: not said of one */
    bool course; /* which of the two */
    enum work_amount_unit unit;
};

enum { TOLD_MAX = STRINGS_MAX + 1 };

struct reader {
    const char *at;
    bool by_string; /* behind the word "string", or "course", numbers come in pairs */
    bool by_course;
    int way;
    struct told told[TOLD_MAX];
    int count;
};

/* The end of a number that begins at `text`: 1 1/4, 3/8, .008; `text` itself where none does. */
static const char *number_end(const char *text)
{
    const char *end = text;

    while (is_ascii_digit(*end) || *end == '.' || (*end == '/' && is_ascii_digit(end[1])))
        end++;
    const char *rest = end + (*end == ' ');
    const size_t digits = strspn(rest, "0123456789");
    /* A whole number and a fraction behind a blank are one. */
    if (rest > end && !memchr(text, '.', (size_t)(end - text)) &&
        !memchr(text, '/', (size_t)(end - text)) && digits > 0 && rest[digits] == '/' &&
        is_ascii_digit(rest[digits + 1]))
        return rest + digits + 1 + strspn(rest + digits + 1, "0123456789");
    return end;
}

/* The number at the reader, past which it goes; not a number where it makes no sense. */
static double take_number(struct reader *reader)
{
    char text[NUM_TEXT_MAX];
    const char *end = number_end(reader->at);
    const size_t length = (size_t)(end - reader->at);
    double value = (double)NAN;

    if (length < sizeof text) {
        memcpy(text, reader->at, length);
        text[length] = '\0';
        if (num_parse(text, QUANTITY_PLAIN, UNIT_NONE, &value, NULL) != STATUS_OK)
            value = (double)NAN;
    }
    reader->at = end;
    return value;
}

static bool is_word(const char *at, size_t length, const char *word)
{
    return strlen(word) == length && memcmp(at, word, length) == 0;
}

/* 1 for "back", -1 for "forward", 0 for any other word. */
static int way_of(const char *at, size_t length)
{
    return is_word(at, length, "back") ? 1 : is_word(at, length, "forward") ? -1 : 0;
}

/* Past the word for a way and the blanks behind it, if there is one. */
static const char *skip_way(const char *at)
{
    size_t length = 0;

    while (is_ascii_letter(at[length]))
        length++;
    if (way_of(at, length) == 0)
        return at;
    return at + length + strspn(at + length, " ");
}

/* "string 6 -.008, 5 -.007", "6 back .09": the number in front of a number. */
static int take_string(struct reader *reader)
{
    const char *end = reader->at + strspn(reader->at, "0123456789");
    const char *next = end + strspn(end, " :"), *number = skip_way(next);
    int string = 0;

    if (!reader->by_string || next == end || !(is_ascii_digit(*number) || strchr("+-.", *number)) ||
        num_count(reader->at, (size_t)(end - reader->at), STRINGS_MAX, &string) != STATUS_OK)
        return 0;
    if (number > next)
        reader->way = *next == 'b' ? 1 : -1;
    reader->at = number;
    return string;
}

/* "2 again", "3 ok": behind the word "string" a string of which no amount is said. */
static bool skip_without_amount(struct reader *reader)
{
    static const char *const words[] = {WORK_STRING_AGAIN, WORK_STRING_READ, WORK_STRING_OK,
                                        WORK_STRING_NEAR,  WORK_STRING_LOW,  WORK_STRING_HIGH};
    const char *at = reader->at + strspn(reader->at, "0123456789");
    size_t length = 0;

    if (!reader->by_string || *at != ' ')
        return false;
    at += strspn(at, " ");
    while (is_ascii_letter(at[length]))
        length++;
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        if (is_word(at, length, words[i])) {
            reader->at = at + length;
            return true;
        }
    return false;
}

static void take_told(struct reader *reader)
{
    if (skip_without_amount(reader))
        return;
    struct told told = {.string = take_string(reader), .course = reader->by_course};

    told.has_sign = *reader->at == '-' || *reader->at == '+';
    const double sign = *reader->at == '-' ? -1 : 1;
    told.way = told.has_sign ? 0 : reader->way;
    reader->at += told.has_sign;
    told.value = sign * take_number(reader);
    if (reader->count < TOLD_MAX)
        reader->told[reader->count++] = told;
}

/* A unit holds for what stands before it without one. */
static void give_unit(struct reader *reader, enum work_amount_unit unit, double factor)
{
    for (int i = reader->count - 1; i >= 0 && reader->told[i].unit == WORK_AMOUNT_NONE; i--) {
        reader->told[i].unit = unit;
        reader->told[i].factor = factor;
    }
}

static void take_word(struct reader *reader)
{
    const char *at = reader->at;

    while (is_ascii_letter(*reader->at))
        reader->at++;
    const size_t length = (size_t)(reader->at - at);
    if (is_word(at, length, "mm"))
        give_unit(reader, WORK_AMOUNT_MM, 1);
    else if (is_word(at, length, "in"))
        give_unit(reader, WORK_AMOUNT_MM, 25.4);
    else if (is_word(at, length, "turn") || is_word(at, length, "turns"))
        give_unit(reader, WORK_AMOUNT_TURNS, 1);
    else if (is_word(at, length, "string") || is_word(at, length, "course")) {
        reader->by_string = true;
        reader->by_course = *at == 'c';
    } else if (way_of(at, length) != 0) {
        reader->way = way_of(at, length);
    }
}

static bool begins_number(const char *at)
{
    return is_ascii_digit(*at) ||
           ((*at == '.' || *at == '-' || *at == '+') &&
            (is_ascii_digit(at[1]) || (at[1] == '.' && is_ascii_digit(at[2]))));
}

static void read_text(struct reader *reader)
{
    while (*reader->at)
        if (begins_number(reader->at))
            take_told(reader);
        else if (is_ascii_letter(*reader->at))
            take_word(reader);
        else
            reader->at++;
}

static void put(struct work_amount *amount, int string, const struct told *told, double value)
{
    amount->unit = told->unit;
    amount->is_said[string] = true;
    amount->has_sign[string] = told->has_sign;
    amount->value[string] = value * told->factor;
    if (told->way != 0)
        amount->back[string] = maybe_finite(told->way * value * told->factor);
}

static void take_units_from_the_left(struct reader *reader)
{
    for (int i = 1; i < reader->count; i++)
        if (reader->told[i].unit == WORK_AMOUNT_NONE) {
            reader->told[i].unit = reader->told[i - 1].unit;
            reader->told[i].factor = reader->told[i - 1].factor;
        }
}

/* All in one unit and way, each of a string or none, or nothing is said. */
static bool is_sound(const struct reader *reader)
{
    for (int i = 0; i < reader->count; i++)
        if (!isfinite(reader->told[i].value) || reader->told[i].unit == WORK_AMOUNT_NONE ||
            reader->told[i].unit != reader->told[0].unit ||
            reader->told[i].factor != reader->told[0].factor ||
            (reader->told[i].string > 0) != (reader->told[0].string > 0) ||
            (reader->told[i].way != 0) != (reader->told[0].way != 0))
            return false;
    return reader->count > 0;
}

/* A number for bass and one for treble, in either order, are a straight line from one to the other.
 */
static bool put_sides(const struct reader *reader, const char *text, const struct outfit *outfit,
                      struct work_amount *amount)
{
    const int last = outfit_last_step(outfit);
    const char *bass = strstr(text, "bass"), *treble = strstr(text, "treble");

    if (reader->count != 2 || last < 1 || !bass || !treble)
        return false;
    const struct told *at_bass = &reader->told[bass > treble],
                      *at_treble = &reader->told[bass < treble];
    const double bass_back = at_bass->way * at_bass->value * at_bass->factor;
    const double treble_back = at_treble->way * at_treble->value * at_treble->factor;

    for (int s = 1; s <= outfit->strings; s++) {
        const double share = (double)outfit_step(outfit, s) / last;

        put(amount, s, at_bass, at_treble->value + (at_bass->value - at_treble->value) * share);
        if (at_bass->way != 0)
            amount->back[s] = maybe_finite(treble_back + (bass_back - treble_back) * share);
    }
    return true;
}

/* As the strings lie on the bench. Without signs these may be strings and amounts in turn. */
static void put_row(const struct reader *reader, const struct outfit *outfit,
                    struct work_amount *amount)
{
    if (reader->count != outfit_read_count(outfit))
        return;
    for (int i = 0; i < reader->count; i++)
        if (!reader->told[i].has_sign)
            return;
    for (int s = 1; s <= outfit->strings; s++) {
        const struct told *told = &reader->told[outfit_column(outfit, outfit->read_as[s])];

        put(amount, s, told, told->value);
    }
}

/* Of a course, on each of its strings. */
static void put_one(const struct told *told, const struct outfit *outfit,
                    struct work_amount *amount)
{
    if (!told->course)
        put(amount, told->string, told, told->value);
    for (int s = 1; s <= outfit->strings && told->course; s++)
        if (outfit->course[s] == told->string)
            put(amount, s, told, told->value);
}

static void put_told(const struct reader *reader, const char *text, const struct outfit *outfit,
                     struct work_amount *amount)
{
    const struct told *told = reader->told;

    if (told[0].string > 0) {
        for (int i = 0; i < reader->count; i++)
            put_one(&told[i], outfit, amount);
    } else if (reader->count == 1) {
        put(amount, 0, &told[0], told[0].value);
    } else if (!put_sides(reader, text, outfit, amount)) {
        put_row(reader, outfit, amount);
    }
}

/* The program writes a plan with its doubt, and a shim where the nut is raised, or by how much a
 * zero fret is to be higher. */
static bool is_plan(const char *text)
{
    return strstr(text, "+-") || strstr(text, WORK_RAISE_NUT) || strstr(text, WORK_ZERO_FRET);
}

void work_amount_find(const char *text, const struct outfit *outfit, struct work_amount *ret_amount)
{
    struct reader reader = {.at = text ? text : ""};

    *ret_amount = (struct work_amount){.unit = WORK_AMOUNT_NONE};
    read_text(&reader);
    take_units_from_the_left(&reader);
    if (is_sound(&reader))
        put_told(&reader, text, outfit, ret_amount);
    ret_amount->unread = reader.count > 0 && ret_amount->unit == WORK_AMOUNT_NONE && !is_plan(text);
}

void work_amount_of_plan(const char *text, const struct outfit *outfit,
                         struct work_amount *ret_amount)
{
    const char *string = strstr(text, "; string "), *course = strstr(text, "; course ");
    const char *strings = !string || (course && course < string) ? course : string;
    char memory[480];
    struct strbuf named = STRBUF(memory);

    if (strings) {
        const char *mm = strstr(text, " mm");

        strbuf_add(&named, strings);
        strbuf_add(&named, strncmp(text, "turns ", strlen("turns ")) == 0 ? " turns"
                           : mm && mm < strings                           ? " mm"
                                                                          : " in");
    }
    work_amount_find(memory, outfit, ret_amount);
}

bool work_amount_is_bare(const char *text)
{
    return text[0] && !text[strspn(text, "0123456789+-./, ")];
}
