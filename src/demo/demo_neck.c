/* SPDX-License-Identifier: MIT */
#include "demo/demo_neck.h"

#include <math.h>
#include <string.h>

#include "model/reading/outfit.h"
#include "model/reading/record_access.h"

/* --- the neck --- */

static double station(double scale_mm, int fret)
{
    return scale_mm * (1 - exp2(-fret / 12.0));
}

/* A clamped beam's bend for a bending moment over the stiffness along it, made 1 mm at the nut:
 * w'' = m, w = w' = 0 at the heel, by steps from there. */
static void bend(double shape[DEMO_POINTS + 1], const double moment[DEMO_POINTS + 1])
{
    const double step = 1.0 / DEMO_POINTS;
    double slope = 0;

    shape[DEMO_POINTS] = 0;
    for (int i = DEMO_POINTS - 1; i >= 0; i--) {
        slope += step * (moment[i] + moment[i + 1]) / 2;
        shape[i] = shape[i + 1] + step * slope;
    }
    const double most = shape[0];
    for (int i = 0; i <= DEMO_POINTS; i++)
        shape[i] /= most;
}

/* The strings lie higher over the neck toward the heel, where it is also thicker. */
static void draw_shapes(struct demo_neck *neck, struct demo_chance *chance)
{
    const double taper = demo_between(chance, 1.3, 2.2), rise = demo_between(chance, 0.1, 0.4);
    const double from = demo_between(chance, 0.02, 0.08), to = demo_between(chance, 0.8, 1);
    double pull[DEMO_POINTS + 1], rod[DEMO_POINTS + 1];

    for (int i = 0; i <= DEMO_POINTS; i++) {
        const double at = (double)i / DEMO_POINTS;
        const double stiffness = pow(1 + (cbrt(taper) - 1) * at, 3);

        pull[i] = (1 + rise * at) / stiffness;
        rod[i] = (at >= from && at <= to ? 1 : 0) / stiffness;
    }
    bend(neck->pull, pull);
    bend(neck->rod, rod);
    neck->heel_mm = station(neck->middle_mm, neck->join) - demo_between(chance, 15, 60);
}

static double shape_at(const double shape[DEMO_POINTS + 1], double share)
{
    const double at = share * DEMO_POINTS;
    const int i = at >= DEMO_POINTS ? DEMO_POINTS - 1 : (int)at;

    return shape[i] + (shape[i + 1] - shape[i]) * (at - i);
}

static double height(const struct demo_neck *neck, double x_mm)
{
    const double share = x_mm / neck->heel_mm;

    if (share >= 1)
        return 0;
    return neck->pulled_mm * shape_at(neck->pull, share) -
           neck->rod_mm * shape_at(neck->rod, share);
}

static double crown(const struct demo_neck *neck, int fret)
{
    const double x = station(neck->middle_mm, fret), join = station(neck->middle_mm, neck->join);
    const double last = station(neck->middle_mm, neck->frets);
    const double fall = x > join && last > join ? neck->fall_mm * (x - join) / (last - join) : 0;

    return height(neck, x) + neck->uneven_mm[fret] - fall;
}

/* --- what is true --- */

static double over_crown(const struct demo_neck *neck, int string, int fret)
{
    const double x = station(neck->scale_mm[string], fret);
    const double nut = height(neck, 0) + neck->slot_mm[string];
    const double saddle = neck->saddle_mm[string];

    return nut + (saddle - nut) * x / neck->contact_mm[string] - crown(neck, fret);
}

double demo_neck_relief(const struct demo_neck *neck)
{
    const double x = station(neck->middle_mm, neck->relief_fret);
    const double low_x = station(neck->middle_mm, 1);
    const double high_x = station(neck->middle_mm, neck->join);
    const double low = crown(neck, 1), high = crown(neck, neck->join);

    return low + (high - low) * (x - low_x) / (high_x - low_x) - crown(neck, neck->relief_fret);
}

double demo_neck_gap(const struct demo_neck *neck, int string)
{
    return over_crown(neck, string, 1);
}

double demo_neck_action(const struct demo_neck *neck, int string)
{
    return over_crown(neck, string, neck->action_fret);
}

static double wanted(const struct demo_neck *neck, const double ends[DEMO_ENDS], int string)
{
    return ends[DEMO_TREBLE] + (ends[DEMO_BASS] - ends[DEMO_TREBLE]) * neck->across[string];
}

/* --- what hands and air change --- */

/* The relief goes with either shape in a straight line. */
static void add_relief(struct demo_neck *neck, double *shape_mm, double change_mm)
{
    const double now = demo_neck_relief(neck);

    *shape_mm += 1;
    const double one = demo_neck_relief(neck) - now;
    *shape_mm += change_mm / one - 1;
}

void demo_neck_turn(struct demo_neck *neck, double turns)
{
    const double to = fmin(neck->turned + turns, neck->turns_most);

    add_relief(neck, &neck->rod_mm,
               neck->per_turn_mm * (to - fmin(neck->turned, neck->turns_most)));
    neck->turned += turns;
}

void demo_neck_season(struct demo_neck *neck, double moisture_pct)
{
    const double more_pct = moisture_pct - neck->moisture_pct;

    add_relief(neck, &neck->pulled_mm, neck->damp_mm * more_pct);
    for (int s = 1; s <= neck->strings; s++)
        neck->saddle_mm[s] += neck->lift_mm * more_pct;
    neck->moisture_pct = moisture_pct;
}

void demo_neck_restring(struct demo_neck *neck, double factor)
{
    neck->pulled_mm *= factor;
}

void demo_neck_slot(struct demo_neck *neck, int string, double mm)
{
    neck->slot_mm[string] += mm;
}

void demo_neck_saddle(struct demo_neck *neck, int string, double mm)
{
    neck->saddle_mm[string] += mm;
    if (string == neck->strings)
        neck->exposure_mm[DEMO_BASS] += mm;
    if (string == 1)
        neck->exposure_mm[DEMO_TREBLE] += mm;
}

/* --- as it comes in --- */

static double one(const struct record *record, enum field_id field, double otherwise)
{
    return maybe_or(record_entered_one(record, field), otherwise);
}

static void read_board(struct demo_neck *neck, const struct record *record)
{
    const double scale = one(record, FIELD_SCALE, 0);
    const double treble = one(record, FIELD_SCALE_TREBLE, scale);
    const double bass = one(record, FIELD_SCALE_BASS, scale);
    struct outfit outfit;

    outfit_read(&outfit, record, 0);
    neck->strings = outfit.strings;
    neck->frets = (int)one(record, FIELD_FRETS, 0);
    neck->join = (int)one(record, FIELD_JOIN_FRET, 0);
    neck->action_fret = (int)record_or_fallback(record, FIELD_ACTION_FRET);
    neck->relief_fret = (int)one(record, FIELD_RELIEF_FRET, neck->join / 2);
    neck->middle_mm = (treble + bass) / 2;
    for (int s = 1; s <= neck->strings; s++) {
        neck->across[s] = (double)outfit_step(&outfit, s) / outfit_last_step(&outfit);
        neck->scale_mm[s] = treble + (bass - treble) * neck->across[s];
        neck->contact_mm[s] =
            neck->scale_mm[s] + maybe_or(record_entered_string(record, FIELD_SETBACK, s), 0);
    }
    neck->relief_mm = one(record, FIELD_TARGET_RELIEF, 0);
    neck->action_mm[DEMO_BASS] = one(record, FIELD_TARGET_ACTION_BASS, 0);
    neck->action_mm[DEMO_TREBLE] = one(record, FIELD_TARGET_ACTION_TREBLE, 0);
    neck->gap_mm[DEMO_BASS] = one(record, FIELD_TARGET_GAP_BASS, 0);
    neck->gap_mm[DEMO_TREBLE] = one(record, FIELD_TARGET_GAP_TREBLE, 0);
}

/* What the air and a turn of the rod do. Soundboards lift their saddles; solid bodies do not.
 * Source of the sizes: memory. */
static void draw_answers(struct demo_neck *neck, const struct record *record,
                         struct demo_chance *chance)
{
    char kind[KIND_NAME_SIZE], rod[KIND_NAME_SIZE] = "";
    const char *text = record_text(record, &(struct reading_key){.field = FIELD_ROD});

    record_kind(record, kind);
    if (text)
        strncat(rod, text, sizeof rod - 1);
    const bool solid = strcmp(kind, "electric") == 0 || strcmp(kind, "bass") == 0;
    const bool turns = strcmp(rod, "one-way") == 0 || strcmp(rod, "two-way") == 0;
    neck->per_turn_mm = turns ? -demo_between(chance, 0.22, 0.42) : 0;
    neck->turns_most = 9;
    neck->damp_mm = solid ? demo_between(chance, 0.005, 0.03) : demo_between(chance, 0.01, 0.05);
    neck->lift_mm = solid ? 0 : demo_between(chance, 0.01, 0.12);
    neck->fall_mm = fabs(demo_normal(chance, 0.08));
    for (int n = 1; n <= neck->frets; n++)
        neck->uneven_mm[n] = demo_normal(chance, 0.010);
}

/* As wanted to begin with, then as it comes in: a few of the slots were cut well, the saddle is a
 * little high more often than low. */
static void draw_strings(struct demo_neck *neck, struct demo_chance *chance)
{
    const bool cut_well = demo_pick(chance, 3) == 0;
    const double slots = demo_between(chance, 0, 0.28), bass = demo_between(chance, -0.4, 1.3);
    const double treble = bass * demo_between(chance, 0.6, 1);

    for (int i = 0; i < 4; i++) /* the slot moves the action a little, and the saddle the gap */
        for (int s = 1; s <= neck->strings; s++) {
            neck->slot_mm[s] += wanted(neck, neck->gap_mm, s) - demo_neck_gap(neck, s);
            neck->saddle_mm[s] +=
                2 * (wanted(neck, neck->action_mm, s) - demo_neck_action(neck, s));
        }
    for (int s = 1; s <= neck->strings; s++) {
        const double high = treble + (bass - treble) * neck->across[s];

        neck->slot_mm[s] +=
            cut_well ? demo_normal(chance, 0.015) : slots + demo_normal(chance, 0.03);
        neck->saddle_mm[s] += 2 * high + demo_normal(chance, 0.08);
    }
}

void demo_neck_draw(struct demo_neck *neck, const struct record *record, double moisture_pct,
                    struct demo_chance *chance)
{
    const double least = record_or_fallback(record, FIELD_EXPOSURE_MIN);
    const double new = record_or_fallback(record, FIELD_EXPOSURE_NEW);

    *neck = (struct demo_neck){.moisture_pct = moisture_pct};
    read_board(neck, record);
    draw_shapes(neck, chance);
    draw_answers(neck, record, chance);
    neck->pulled_mm = demo_between(chance, 1, 2);
    add_relief(neck, &neck->rod_mm, neck->relief_mm - demo_neck_relief(neck));
    draw_strings(neck, chance);
    neck->exposure_mm[DEMO_BASS] = demo_between(chance, least + 0.8, new + 1.6);
    neck->exposure_mm[DEMO_TREBLE] = neck->exposure_mm[DEMO_BASS] - demo_between(chance, 0, 0.4);
    if (demo_pick(chance, 4) > 0 && neck->per_turn_mm < 0)
        add_relief(neck, &neck->rod_mm, demo_between(chance, -0.12, 0.30));
    else
        add_relief(neck, &neck->rod_mm, demo_normal(chance, 0.03));
}
