/* SPDX-License-Identifier: MIT */
#include "model/derive/derive_pitch.h"

#include <math.h>

#include "model/setup/uncertainty.h"

/* The trade sets the saddle by fret 12, and the best compromise is sought up to it. */
enum { OCTAVE_FRET = 12 };

static struct intonation_conditions read_conditions(const struct record *record)
{
    return (struct intonation_conditions){
        .press_distance_mm = record_or_fallback(record, FIELD_PRESS_DISTANCE),
        .press_depth_mm = record_or_fallback(record, FIELD_PRESS_DEPTH),
        .free_length_mm = record_or_fallback(record, FIELD_FREE_LENGTH),
        .clamped_ends = record_or_fallback(record, FIELD_CLAMPED_ENDS),
    };
}

static void find_crowns(const struct board *board, const struct neck_curve *curve, int string,
                        double crown_mm[FRETS_MAX + 1])
{
    for (int n = 0; n <= board->frets; n++)
        crown_mm[n] = neck_curve_height_mm(curve, board, string, n);
}

/* Everything about a string but where it runs. Its frets are counted from its own nut. */
static struct intonation_setup begin_string(const struct board *board, int string,
                                            const struct string_facts *facts,
                                            const struct intonation_conditions *conditions)
{
    const int start = board->start_fret[string];

    return (struct intonation_setup){
        .mass_kg_per_m = facts->has_mass ? facts->mass.kg_per_m : 0,
        .hz = maybe_or(facts->hz, 0), /* an absent note, at 0 Hz, is refused */
        .core = facts->core,
        .modulus_mpa = facts->modulus_mpa,
        .conditions = *conditions,
        .scale_mm = board->scale_mm[string],
        .frets = board->frets - start,
        .fret_mm = board->station_mm[string] + start,
    };
}

/* And where it runs. */
static void place_string(const struct board *board, int number, const struct neck_curve *curve,
                         const struct string_line *line, double crown_mm[FRETS_MAX + 1],
                         struct intonation_setup *string)
{
    find_crowns(board, curve, number, crown_mm);
    string->crown_mm = crown_mm + board->start_fret[number];
    string->nut_height_mm = line->nut_mm;
    string->saddle_height_mm = line->saddle_mm;
}

bool derive_intonation_setup(const struct record *record, const struct setup *setup,
                             const struct string_facts *facts, const struct string_lines *lines,
                             int string, double crown_mm[FRETS_MAX + 1],
                             struct intonation_setup *ret_string)
{
    const struct intonation_conditions conditions = read_conditions(record);

    if (!lines->now[string].known)
        return false;
    *ret_string = begin_string(&setup->board, string, facts, &conditions);
    place_string(&setup->board, string, &lines->curve_now, &lines->now[string], crown_mm,
                 ret_string);
    return true;
}

bool derive_pitch_case(const struct record *record, const struct setup *setup,
                       const struct string_facts *facts, const struct string_lines *lines,
                       const struct string_lines *flat, int string, struct pitch_case_store *store,
                       struct pitch_case *ret_case)
{
    const struct board *board = &setup->board;
    const int first = board->start_fret[string] + 1;
    struct pitch_case found = {
        .has_now = true,
        .has_target = flat->after[string].known,
        .ends = {.setback_mm = board->contact_mm[string] - board->scale_mm[string]},
        .first_mm = board->frets >= first ? board->station_mm[string][first] : 0,
        .action_mm = board->action_fret > 0 ? board->station_mm[string][board->action_fret] : 0,
        .mass_follows_core =
            facts->build.kind == BUILD_PLAIN && facts->has_mass && facts->mass.origin == MASS_BUILD,
    };

    if (!derive_intonation_setup(record, setup, facts, lines, string, store->now_mm, &found.now))
        return false;
    found.target = found.now;
    if (found.has_target)
        place_string(board, string, &flat->curve_after, &flat->after[string], store->target_mm,
                     &found.target);
    *ret_case = found;
    return true;
}

/* `fret` as the board counts. */
static void take_note(const struct intonation_setup *string, const struct intonation_note *note,
                      int fret, struct fret_pitch *pitch)
{
    pitch->cents[fret] = maybe_given(note->cents);
    pitch->rise_n[fret] =
        maybe_finite(string->modulus_mpa * string->core.area_mm2 * note->stretch_mm /
                     (note->open_length_mm + string->conditions.free_length_mm));
}

/* All notes at once, which is quicker; one by one where one of them cannot be. */
static void find_notes(const struct intonation_setup *string, int start, double setback_mm,
                       struct fret_pitch *pitch)
{
    const struct intonation_ends ends = {setback_mm, 0};
    struct intonation_note notes[FRETS_MAX + 1];
    const enum status status = intonation_find_notes(string, &ends, 0, string->frets, notes, NULL);

    if (status == STATUS_ABSENT)
        return;
    for (int n = 0; n <= string->frets; n++)
        if (status == STATUS_OK ||
            intonation_find_note(string, &ends, n, &notes[n], NULL) == STATUS_OK)
            take_note(string, &notes[n], start + n, pitch);
}

/* What pressing adds to the pull of a string whose pitch it does not tell. */
static void find_rough_rises(const struct intonation_setup *string, int start,
                             const struct string_build *build, double setback_mm,
                             struct fret_pitch *pitch)
{
    struct intonation_setup rough = *string;
    struct fret_pitch found = {.rough = true};

    if (string->modulus_mpa > 0 ||
        tension_find_rough_core(build, &rough.core, &rough.modulus_mpa) != STATUS_OK)
        return;
    find_notes(&rough, start, setback_mm, &found);
    for (int n = start; n <= start + string->frets; n++)
        found.cents[n] = maybe_absent();
    *pitch = found;
}

static void find_setbacks(const struct intonation_setup *string, int number, enum known known,
                          struct figures *figures)
{
    struct intonation_best best;
    double setback_mm;

    if (intonation_find_setback(string, OCTAVE_FRET, &setback_mm) == STATUS_OK)
        figures_set(figures, FIGURE_SETBACK_PREDICTED, number, setback_mm, known);
    if (intonation_find_best(string, 1, OCTAVE_FRET, &best) != STATUS_OK)
        return;
    figures_set(figures, FIGURE_SETBACK_BEST, number, best.ends.setback_mm, known);
    figures_set(figures, FIGURE_NUT_ADVANCE_BEST, number, best.ends.nut_advance_mm, known);
    figures_set(figures, FIGURE_CENTS_BEST_RMS, number, best.cents_rms, known);
}

/* The lines at the targets with no setback, from which the setbacks are looked for. */
static void find_flat_lines(const struct setup *setup, struct string_lines *ret_lines)
{
    struct setup flat = *setup;
    struct figures unused;

    board_drop_setbacks(&flat.board);
    moves_solve(&flat, NULL, &unused, NULL, ret_lines);
}

void derive_pitch(const struct record *record, const struct setup *setup,
                  const struct string_facts *facts, const struct string_lines *lines,
                  struct fret_pitch *ret_pitch)
{
    const struct intonation_conditions conditions = read_conditions(record);
    const struct board *board = &setup->board;
    double crown_mm[FRETS_MAX + 1];

    for (int s = 1; s <= board->strings; s++) {
        struct intonation_setup string = begin_string(board, s, &facts[s], &conditions);

        ret_pitch[s] = (struct fret_pitch){.rough = false};
        if (!lines->now[s].known)
            continue;
        place_string(board, s, &lines->curve_now, &lines->now[s], crown_mm, &string);
        find_notes(&string, board->start_fret[s], board->contact_mm[s] - board->scale_mm[s],
                   &ret_pitch[s]);
        find_rough_rises(&string, board->start_fret[s], &facts[s].build,
                         board->contact_mm[s] - board->scale_mm[s], &ret_pitch[s]);
    }
}

void derive_setbacks(const struct record *record, const struct setup *setup,
                     const struct string_facts *facts, const struct string_lines *lines,
                     struct figures *figures)
{
    const struct intonation_conditions conditions = read_conditions(record);
    const struct board *board = &setup->board;
    struct string_lines flat;
    double crown_mm[FRETS_MAX + 1];

    find_flat_lines(setup, &flat);
    for (int s = 1; s <= board->strings; s++) {
        struct intonation_setup string = begin_string(board, s, &facts[s], &conditions);

        if (!lines->now[s].known || !flat.after[s].known)
            continue;
        place_string(board, s, &flat.curve_after, &flat.after[s], crown_mm, &string);
        find_setbacks(&string, s, figures->at[FIGURE_NUT_HEIGHT][s].known, figures);
    }
}

struct cents_read derive_read_cents(struct place place, const struct board *board, int string)
{
    const struct reading_key first =
        place_key_at(place, FIELD_CENTS, string, board->start_fret[string] + 1);
    const struct reading_key last = place_key_at(place, FIELD_CENTS, string, board->frets);
    const struct record *record = &place.record;
    struct cents_read read = {.count = 0};

    for (size_t i = record_lower_bound(record, &first); i < record->count; i++) {
        const struct reading *reading = &record->readings[i];

        if (reading_key_compare(&reading->key, &last) > 0)
            break;
        if (reading->value.state != READING_BAD)
            read.at[read.count++] = (struct fret_cents){reading->key.fret, reading->value.value};
    }
    return read;
}

/* The change answers to its one reading by no straight line: a central difference well
 * inside the step, as for the set-up figures. */
static void put_change(const struct board *board, int string, const struct fret_cents *read,
                       double step, struct figures *figures)
{
    const double contact = board->contact_mm[string];
    const double fret = board->station_mm[string][read->fret];
    const double delta = step / 64;
    double change, low, high, u = 0;

    if (intonation_setback_change(contact, fret, read->cents, &change) != STATUS_OK)
        return;
    if (delta > 0) {
        u = (double)INFINITY;
        if (intonation_setback_change(contact, fret, read->cents - delta, &low) == STATUS_OK &&
            intonation_setback_change(contact, fret, read->cents + delta, &high) == STATUS_OK)
            u = 2 * fabs(high - low) / (2 * delta) * uncertainty_of_step(step);
    }
    figures_set_u(figures, FIGURE_SETBACK_CHANGE, string, change, u);
}

static void put_fit(const struct board *board, int string, const struct cents_read *read,
                    double step, struct figures *figures)
{
    const double u = 2 * uncertainty_of_step(fmax(step, 0));
    struct cents_read own = *read;
    struct intonation_fit fit;

    for (int i = 0; i < own.count; i++)
        own.at[i].fret -= board->start_fret[string];
    if (intonation_fit_readings(board->scale_mm[string], own.at, own.count, &fit) != STATUS_OK)
        return;
    figures_set_u(figures, FIGURE_SETBACK_FIT, string, fit.change.setback_mm,
                  u * fit.u_per_cent.setback_mm);
    figures_set_u(figures, FIGURE_NUT_ADVANCE_FIT, string, fit.change.nut_advance_mm,
                  u * fit.u_per_cent.nut_advance_mm);
    figures_set(figures, FIGURE_CENTS_LEFT_RMS, string, fit.cents_left_rms, KNOWN_READ);
}

void derive_cents_read(struct place place, const struct setup *setup, struct figures *figures)
{
    const double step = fmax(0, record_or_fallback(&place.record, FIELD_TUNER_STEP));
    const struct board *board = &setup->board;

    for (int s = 1; s <= board->strings; s++) {
        const struct cents_read read = derive_read_cents(place, board, s);

        if (read.count == 1)
            put_change(board, s, &read.at[0], step, figures);
        else if (read.count > 1)
            put_fit(board, s, &read, step, figures);
    }
}
