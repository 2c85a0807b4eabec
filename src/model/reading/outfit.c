/* SPDX-License-Identifier: MIT */
#include "model/reading/outfit.h"

#include <stddef.h>

#include "model/reading/place.h"

enum { NUT_SLOTTED, NUT_ZERO_FRET, NUT_RAISED };
enum { ON_BLANK, ON_SCREWS, ON_POSTS, ON_WHEELS };
enum { ROD_NONE, ROD_ONE_WAY, ROD_TWO_WAY, ROD_FIXED };

static const enum field_id own_fields[] = {FIELD_NUT_GAP, FIELD_ACTION, FIELD_HEIGHT_NUT,
                                           FIELD_HEIGHT_SADDLE};

/* Whether any pass of the visit has one of these readings, of a string or of none. */
static bool is_any_read(const struct record *record, int visit, int string,
                        const enum field_id *fields, size_t count)
{
    struct place at = place_of(record, visit, 0);

    while (place_next(&at) && at.visit == visit)
        for (size_t i = 0; i < count; i++)
            if (place_read_at(at, fields[i], string, 0).given)
                return true;
    return false;
}

/* By a gap or an action of its own. */
static bool is_read_by_itself(const struct record *record, int visit, int string)
{
    return is_any_read(record, visit, string, own_fields, sizeof own_fields / sizeof own_fields[0]);
}

static bool is_exposed(const struct record *record, int visit)
{
    static const enum field_id fields[] = {FIELD_EXPOSURE_BASS, FIELD_EXPOSURE_TREBLE};

    return is_any_read(record, visit, 0, fields, sizeof fields / sizeof fields[0]);
}

bool outfit_makes_alone(enum field_id field)
{
    for (size_t i = 0; i < sizeof own_fields / sizeof own_fields[0]; i++)
        if (own_fields[i] == field)
            return true;
    return false;
}

void outfit_read_alone(struct outfit *outfit, int string)
{
    outfit->read_as[string] = string;
}

static void read_courses(struct outfit *outfit, const struct record *record)
{
    const struct maybe entered = record_entered_one(record, FIELD_COURSES);
    const int courses = (int)maybe_or(entered, outfit->strings);

    outfit->courses_uneven = entered.given && (courses < 1 || outfit->strings % courses != 0);
    outfit->courses = courses < 1 || courses > outfit->strings || outfit->courses_uneven
                          ? outfit->strings
                          : courses;
}

/* A string has to cross a fret before the one where its action is read. */
static int find_highest_start(const struct record *record)
{
    const int frets = (int)maybe_or(record_entered_one(record, FIELD_FRETS), FRETS_MAX);
    const int action = (int)record_or_fallback(record, FIELD_ACTION_FRET);

    return (action < frets ? action : frets) - 2;
}

static void read_starts(struct outfit *outfit, const struct record *record)
{
    const int highest = find_highest_start(record);
    int at_nut = 0;

    for (int s = 1; s <= outfit->strings; s++) {
        const int from = (int)maybe_or(record_entered_string(record, FIELD_FROM_FRET, s), 0);

        outfit->start_beyond[s] = from > 0 && from > highest;
        outfit->from_fret[s] = outfit->start_beyond[s] ? 0 : from;
        at_nut += outfit->from_fret[s] == 0;
    }
    outfit->none_at_nut = at_nut == 0 && outfit->strings > 0;
    for (int s = 1; outfit->none_at_nut && s <= outfit->strings; s++)
        outfit->from_fret[s] = 0;
}

static void read_string(struct outfit *outfit, const struct record *record, int visit, int string)
{
    const int first = outfit_first(outfit, string);

    outfit->course[string] = 1 + (string - 1) / (outfit->strings / outfit->courses);
    outfit->read_as[string] =
        first == string || is_read_by_itself(record, visit, string) ? string : first;
}

void outfit_read(struct outfit *ret_outfit, const struct record *record, int visit)
{
    const int nut = record_choice_or(record, reading_key_one(FIELD_NUT_KIND), NUT_SLOTTED);
    const int rod = record_choice_or(record, reading_key_one(FIELD_ROD), ROD_ONE_WAY);
    const int bridge = record_choice_or(record, reading_key_one(FIELD_BRIDGE_KIND), ON_BLANK);

    *ret_outfit = (struct outfit){
        .strings = record_string_count(record),
        .screws = bridge == ON_SCREWS,
        .posts = bridge == ON_POSTS,
        .sides = bridge == ON_POSTS || bridge == ON_WHEELS,
        .zero_fret = nut == NUT_ZERO_FRET,
        .lap = nut == NUT_RAISED,
        .fretless = record_choice_or(record, reading_key_one(FIELD_FRETLESS), 0) == 1};
    ret_outfit->rodless = rod == ROD_NONE || rod == ROD_FIXED;
    ret_outfit->one_piece =
        record_choice_or(record, reading_key_one(FIELD_FLOATING), 0) == 1 &&
        record_choice_or(record, reading_key_one(FIELD_BRIDGE_KIND), -1) == ON_BLANK;
    ret_outfit->exposed = is_exposed(record, visit);
    read_courses(ret_outfit, record);
    read_starts(ret_outfit, record);
    for (int s = 1; s <= ret_outfit->strings; s++)
        read_string(ret_outfit, record, visit, s);
}

struct outfit outfit_plain(int strings)
{
    struct outfit outfit = {.strings = strings, .courses = strings};

    for (int s = 1; s <= strings; s++)
        outfit.course[s] = outfit.read_as[s] = s;
    return outfit;
}

int outfit_first(const struct outfit *outfit, int string)
{
    return string - (string - 1) % (outfit->strings / outfit->courses);
}

bool outfit_is_read(const struct outfit *outfit, int string)
{
    return outfit->read_as[string] == string;
}

int outfit_read_count(const struct outfit *outfit)
{
    int count = 0;

    for (int s = 1; s <= outfit->strings; s++)
        count += outfit_is_read(outfit, s);
    return count;
}

bool outfit_is_course(const struct outfit *outfit, int string)
{
    int count = 0;

    for (int s = 1; s <= outfit->strings; s++)
        count += outfit->course[s] == outfit->course[string] &&
                 (s == string || !outfit_is_read(outfit, s));
    return count > 1 && count == outfit->strings / outfit->courses;
}

bool outfit_has_move(const struct outfit *outfit, enum move_kind kind)
{
    if (outfit->lap)
        return kind == MOVE_SLOTS || kind == MOVE_SADDLE;
    return !outfit->one_piece || outfit->exposed || kind != MOVE_RESET;
}

const char *outfit_move_name(const struct outfit *outfit, enum move_kind kind)
{
    if (kind == MOVE_SLOTS && (outfit->lap || outfit->zero_fret))
        return outfit->lap ? "nut" : "fret 0";
    if (kind == MOVE_SADDLE && (outfit->lap || outfit->one_piece))
        return "bridge";
    return work_mark_name(kind);
}

bool outfit_has_slot(const struct outfit *outfit, int string)
{
    return outfit->from_fret[string] == 0;
}

/* What is of no use where a bar lies on the strings. */
static bool is_of_frets(enum field_id field)
{
    switch (field) {
    case FIELD_RELIEF:
    case FIELD_RELIEF_AT:
    case FIELD_FALL_AWAY:
    case FIELD_ROD_TURN:
    case FIELD_NUT_GAP:
    case FIELD_ACTION:
    case FIELD_CENTS:
    case FIELD_SPOT:
    case FIELD_CROWN:
    case FIELD_BUZZ:
    case FIELD_CLEAN:
    case FIELD_EXPOSURE_BASS:
    case FIELD_EXPOSURE_TREBLE:
    case FIELD_EXPOSURE:
    case FIELD_ACTION_FRET:
    case FIELD_RELIEF_FRET:
    case FIELD_RELIEF_END_LOW:
    case FIELD_RELIEF_END_HIGH:
    case FIELD_EXPOSURE_MIN:
    case FIELD_EXPOSURE_NEW:
    case FIELD_TARGET_RELIEF:
    case FIELD_TARGET_ACTION_BASS:
    case FIELD_TARGET_ACTION_TREBLE:
    case FIELD_TARGET_GAP_BASS:
    case FIELD_TARGET_GAP_TREBLE:
    case FIELD_RELIEF_TOLERANCE:
    case FIELD_ACTION_TOLERANCE:
    case FIELD_GAP_TOLERANCE:
    case FIELD_CENTS_TOLERANCE:
    case FIELD_TOUCH:
        return true;
    default:
        return false;
    }
}

void outfit_row_of(const struct outfit *outfit, int string, const struct maybe *row,
                   struct maybe *ret_row)
{
    for (int s = 0; s <= STRINGS_MAX; s++)
        ret_row[s] =
            s > 0 && outfit->from_fret[s] == outfit->from_fret[string] ? row[s] : maybe_absent();
}

bool outfit_asks(const struct outfit *outfit, enum field_id field, int string)
{
    if (outfit->lap && is_of_frets(field))
        return false;
    switch (field) {
    case FIELD_EXPOSURE_BASS:
    case FIELD_EXPOSURE_TREBLE:
    case FIELD_EXPOSURE_MIN:
    case FIELD_EXPOSURE_NEW:
        return !outfit->one_piece || outfit->exposed;
    case FIELD_ROD_TURN:
        return !outfit->rodless;
    case FIELD_HEIGHT_NUT:
    case FIELD_HEIGHT_SADDLE:
        return outfit->lap && outfit_is_read(outfit, string);
    case FIELD_COURSE_GAP:
        return outfit->courses < outfit->strings;
    case FIELD_EXPOSURE:
        return outfit->screws && string > 1 && string < outfit->strings &&
               outfit_is_read(outfit, string);
    case FIELD_POST_TO_SADDLE:
    case FIELD_POST_TO_REST:
        return outfit->posts;
    case FIELD_TARGET_HEIGHT_NUT:
    case FIELD_TARGET_HEIGHT_SADDLE:
    case FIELD_HEIGHT_TOLERANCE:
        return outfit->lap;
    case FIELD_NUT_GAP:
        return outfit_is_read(outfit, string) && outfit_has_slot(outfit, string);
    case FIELD_ACTION:
    case FIELD_BUZZ:
    case FIELD_CLEAN:
        return outfit_is_read(outfit, string);
    case FIELD_CROWN:
    case FIELD_CROWN_HEIGHT:
    case FIELD_CROWN_WIDTH:
        return !outfit->fretless && !outfit->lap;
    default:
        return true;
    }
}

bool outfit_is_open(const struct outfit *outfit, int string, int note)
{
    return note == 0 || note == outfit->from_fret[string];
}

int outfit_octave_fret(const struct outfit *outfit, int string)
{
    return outfit->from_fret[string] + 12;
}

const char *outfit_noun(const struct outfit *outfit, int string)
{
    return outfit_is_course(outfit, string) ? "course" : "string";
}

const char *outfit_fret_noun(const struct outfit *outfit)
{
    return outfit->fretless ? "mark" : "fret";
}

int outfit_number(const struct outfit *outfit, int string)
{
    return outfit_is_course(outfit, string) ? outfit->course[string] : string;
}

bool outfit_is_of_course(enum field_id field)
{
    switch (field) {
    case FIELD_NUT_GAP:
    case FIELD_ACTION:
    case FIELD_HEIGHT_NUT:
    case FIELD_HEIGHT_SADDLE:
    case FIELD_BUZZ:
    case FIELD_CLEAN:
        return true;
    default:
        return false;
    }
}

int outfit_column(const struct outfit *outfit, int string)
{
    int column = 0;

    for (int s = string + 1; s <= outfit->strings; s++)
        column += outfit_is_read(outfit, s);
    return column;
}

int outfit_at_column(const struct outfit *outfit, int column)
{
    for (int s = outfit->strings; s >= 1; s--)
        if (outfit_is_read(outfit, s) && column-- == 0)
            return s;
    return 0;
}

int outfit_step(const struct outfit *outfit, int string)
{
    return outfit->course[string] - 1;
}

int outfit_last_step(const struct outfit *outfit)
{
    return outfit->courses - 1;
}
