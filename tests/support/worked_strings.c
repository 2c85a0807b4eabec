/* SPDX-License-Identifier: MIT */
#include "worked_strings.h"

#include "model/strings/pitch.h"

#define INCH_MM 25.4

/* The frets where relief and action are read. */
enum { RELIEF_FRET = 6, ACTION_FRET = 12 };

/* clang-format off */
const struct worked_string worked_strings[WORKED_STRINGS] = {
    {
        .semitone = 64,
        .gauge_in = 0.012,
        .core_in = 0,
        .nut_gap_in = 0.020,
        .action_64ths = 6,
        .cents_at_12 = 4,
        .slot_moves = false,
        .pitch_hz = 329.627557,
        .mass_g_per_m = 0.572782134,
        .stress_share = 0.522028017,
        .setback_predicted_mm = 1.48409078,
        .setback_best_mm = 1.3578117,
        .nut_advance_best_mm = 0.158004556,
        .cents_best_rms = 0.056031161,
        .setback_change_mm = 1.4768404,
        .cents = {0, 0.89035375, 1.13712182, 1.38148431, 1.57960566, 1.73001364, 1.83591457, 1.90121297, 1.92968197, 1.92474922, 1.88944978, 1.8448888, 1.79878962, 1.76004867, 1.72688728, 1.69798977, 1.67234966, 1.64917122, 1.6278041, 1.60769839},
    },
    {
        .semitone = 59,
        .gauge_in = 0.016,
        .core_in = 0,
        .nut_gap_in = 0.021,
        .action_64ths = 6.25,
        .cents_at_12 = 0,
        .slot_moves = false,
        .pitch_hz = 246.941651,
        .mass_g_per_m = 1.01827935,
        .stress_share = 0.306422478,
        .setback_predicted_mm = 2.86644826,
        .setback_best_mm = 2.60574607,
        .nut_advance_best_mm = 0.322112344,
        .cents_best_rms = 0.102093132,
        .setback_change_mm = 0,
        .cents = {0, 1.78690635, 2.26906779, 2.76903193, 3.19243768, 3.5343677, 3.80001218, 3.9962677, 4.12997002, 4.20742459, 4.23429059, 4.24962583, 4.26752683, 4.30551, 4.36083625, 4.43164329, 4.5166704, 4.61508354, 4.72636083, 4.85021528},
    },
    {
        .semitone = 55,
        .gauge_in = 0.024,
        .core_in = 0.013,
        .nut_gap_in = 0.024,
        .action_64ths = 6.75,
        .cents_at_12 = 0,
        .slot_moves = true,
        .pitch_hz = 195.997718,
        .mass_g_per_m = 2.11371237,
        .stress_share = 0.587668576,
        .setback_predicted_mm = 1.66449528,
        .setback_best_mm = 1.52924988,
        .nut_advance_best_mm = 0.170479868,
        .cents_best_rms = 0.060676811,
        .setback_change_mm = 0,
        .cents = {0, 1.13404325, 1.27428157, 1.46383187, 1.61763265, 1.72733065, 1.79365005, 1.81917821, 1.80680804, 1.75929197, 1.67910236, 1.58684899, 1.48863005, 1.39453059, 1.30252646, 1.21104426, 1.11880457, 1.02472089, 0.92783185, 0.827253942},
    },
    {
        .semitone = 50,
        .gauge_in = 0.032,
        .core_in = 0.014,
        .nut_gap_in = 0.025,
        .action_64ths = 7.25,
        .cents_at_12 = 0,
        .slot_moves = true,
        .pitch_hz = 146.832384,
        .mass_g_per_m = 3.72169863,
        .stress_share = 0.507093623,
        .setback_predicted_mm = 2.09191921,
        .setback_best_mm = 1.90999117,
        .nut_advance_best_mm = 0.226319613,
        .cents_best_rms = 0.0739574091,
        .setback_change_mm = 0,
        .cents = {0, 1.40519423, 1.56468686, 1.78616407, 1.9629297, 2.08411398, 2.15022182, 2.1641191, 2.12908282, 2.04823971, 1.9243879, 1.78301687, 1.63067322, 1.48103655, 1.33155728, 1.18021259, 1.02531908, 0.865411808, 0.699162768, 0.525323728},
    },
    {
        .semitone = 45,
        .gauge_in = 0.042,
        .core_in = 0.016,
        .nut_gap_in = 0.028,
        .action_64ths = 7.75,
        .cents_at_12 = 0,
        .slot_moves = true,
        .pitch_hz = 110,
        .mass_g_per_m = 6.38932822,
        .stress_share = 0.382110754,
        .setback_predicted_mm = 3.02220735,
        .setback_best_mm = 2.7437771,
        .nut_advance_best_mm = 0.343253638,
        .cents_best_rms = 0.102742428,
        .setback_change_mm = 0,
        .cents = {0, 2.49051331, 2.6818426, 3.05076826, 3.3789445, 3.64062745, 3.83343549, 3.96023105, 4.0251625, 4.03249413, 3.9862092, 3.92306021, 3.85139239, 3.79285028, 3.74425886, 3.70324991, 3.66798989, 3.63700505, 3.60906459, 3.58309967},
    },
    {
        .semitone = 40,
        .gauge_in = 0.053,
        .core_in = 0.018,
        .nut_gap_in = 0.030,
        .action_64ths = 8.25,
        .cents_at_12 = 9,
        .slot_moves = true,
        .pitch_hz = 82.4068892,
        .mass_g_per_m = 10.1580549,
        .stress_share = 0.274547879,
        .setback_predicted_mm = 4.48017848,
        .setback_best_mm = 4.04028773,
        .nut_advance_best_mm = 0.54050232,
        .cents_best_rms = 0.148333315,
        .setback_change_mm = 3.3707436,
        .cents = {0, 4.1773026, 4.53110092, 5.22528453, 5.88287756, 6.45767196, 6.94389548, 7.34509433, 7.66731402, 7.91706747, 8.10063236, 8.27334456, 8.44634854, 8.65517157, 8.89606782, 9.16653742, 9.46492696, 9.79017364, 10.1416354, 10.518974},
    },};
/* clang-format on */

void worked_board_bend(double relief_mm, struct worked_board *ret_board)
{
    double share = relief_mm / -worked_crown_mm(RELIEF_FRET);

    for (int n = 0; n <= WORKED_FRETS; n++) {
        ret_board->fret_mm[n] = worked_fret_mm(n);
        ret_board->crown_mm[n] = share * worked_crown_mm(n);
    }
}

struct string_build worked_build(const struct worked_string *string)
{
    return (struct string_build){
        .kind = string->core_in > 0 ? BUILD_ROUND_WOUND : BUILD_PLAIN,
        .gauge_mm = string->gauge_in * INCH_MM,
        .core_mm = string->core_in * INCH_MM,
        .wrap_material = string->core_in > 0 ? MATERIAL_PHOSPHOR_BRONZE : MATERIAL_NONE,
    };
}

/* Fills in a setup, except for the heights of nut and saddle. */
static void begin(int index, struct worked_board *board, struct intonation_setup *setup)
{
    struct string_build build = worked_build(&worked_strings[index]);

    *setup = (struct intonation_setup){
        .conditions = {.press_distance_mm = 10, .free_length_mm = 75, .clamped_ends = 1},
        .scale_mm = WORKED_SCALE_MM,
        .frets = WORKED_FRETS,
        .fret_mm = board->fret_mm,
        .crown_mm = board->crown_mm,
    };
    (void)tension_mass_from_build(&build, &setup->mass_kg_per_m);
    (void)tension_find_core(&build, &setup->core);
    (void)tension_find_modulus(&build, &setup->modulus_mpa);
    (void)pitch_frequency(worked_strings[index].semitone, PITCH_A4_HZ, &setup->hz);
}

/* The nut height from an action and an open nut gap. */
static double nut_from(const struct worked_board *board, double action_mm, double gap_mm)
{
    const double *x = board->fret_mm, *z = board->crown_mm;
    double at_1 = z[1] + gap_mm, at_k = z[ACTION_FRET] + action_mm;

    return at_1 - (at_k - at_1) * x[1] / (x[ACTION_FRET] - x[1]);
}

void worked_as_found(int index, struct worked_board *board, struct intonation_setup *ret_setup)
{
    worked_board_bend(.013 * INCH_MM, board);
    begin(index, board, ret_setup);
    ret_setup->nut_height_mm = worked_nut_mm[index];
    ret_setup->saddle_height_mm = worked_saddle_mm[index];
}

void worked_at_target(int index, struct worked_board *board, struct intonation_setup *ret_setup)
{
    const struct worked_string *string = &worked_strings[index];
    struct worked_board found;
    double to_bass = index / (WORKED_STRINGS - 1.0);
    double action = (4 + 2 * to_bass) / 64 * INCH_MM;
    double gap = (.012 + .006 * to_bass) * INCH_MM;

    worked_board_bend(.013 * INCH_MM, &found);
    worked_board_bend(.006 * INCH_MM, board);
    begin(index, board, ret_setup);

    /* A slot inside its tolerance stays as it is on the neck; one outside is recut. */
    double nut = string->slot_moves ? nut_from(board, action, gap)
                                    : nut_from(&found, string->action_64ths / 64 * INCH_MM,
                                               string->nut_gap_in * INCH_MM) -
                                          found.crown_mm[0] + board->crown_mm[0];

    ret_setup->nut_height_mm = nut;
    ret_setup->saddle_height_mm = nut + (board->crown_mm[ACTION_FRET] + action - nut) *
                                            WORKED_SCALE_MM / board->fret_mm[ACTION_FRET];
}
