/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "bench_session.h"
#include "golden.h"
#include "scenes.h"
#include "screen/ui.h"

/*
 * Whole screens after some keys, against screens that were reviewed and kept. Clock and
 * profiles are fixed. test_frames_leaves.c has every leaf before any key.
 */
#define PROFILE(name) SILLET_PROFILES "/" name ".ini"

/* From the bench. */
#define PITCH "{PgDn}{PgDn}"
#define FRETS "{PgDn}{PgDn}{PgDn}"
#define NECK  "{PgDn}{PgDn}{PgDn}{PgDn}"
/* Backwards from the bench, over the first leaf. */
#define HISTORY "{PgUp}{PgUp}"
#define WORK    "{PgUp}{PgUp}{PgUp}"
/* On the frets leaf: notes heard on the bass string; from the next string spots and a crown. */
#define HEARD "3+5-6{Enter}0-2+10-16{Enter}"
#define SPOTS                                                                                      \
    "{Down}{Down}{Down}{Down}{Down}{Right}{Right}{Right}{Right}{Right}{Right}.004{Enter}{Enter}."  \
    "002"                                                                                          \
    "{Enter}{Down}.028{Enter}{Home}"
#define UP_10 "{Up}{Up}{Up}{Up}{Up}{Up}{Up}{Up}{Up}{Up}"

struct scene {
    const char *name;    /* of the golden file */
    const char *profile; /* NULL: `strings` or, with 0, `lines` */
    int strings;
    const char *lines;
    const char *keys;
    int columns, rows;
    bool ascii, metric;
};

static const struct scene scenes[] = {
    {.name = "parlour-ascii",
     .profile = PROFILE("parlour"),
     .keys = "{Down}{Down}",
     .columns = 80,
     .rows = 24,
     .ascii = true},
    {.name = "typing",
     .profile = PROFILE("parlour"),
     .keys = "{Enter}.010+.006",
     .columns = 80,
     .rows = 24},
    {.name = "refused",
     .profile = PROFILE("parlour"),
     .keys = "13 apples{Enter}",
     .columns = 80,
     .rows = 24},
    {.name = "doubted",
     .profile = PROFILE("parlour"),
     .keys = "{Enter}240",
     .columns = 80,
     .rows = 24},
    {.name = "held",
     .profile = PROFILE("parlour"),
     .keys = "{Down}{Down}42{Enter}",
     .columns = 80,
     .rows = 24},
    {.name = "held-metric",
     .profile = PROFILE("parlour"),
     .keys = "{Down}{Down}24{Enter}",
     .columns = 80,
     .rows = 24,
     .metric = true},
    {.name = "take-out",
     .profile = PROFILE("parlour"),
     .keys = "{F8}{Left}{Left}z",
     .columns = 80,
     .rows = 24},
    {.name = "next-pass",
     .profile = PROFILE("parlour"),
     .keys = "p7{Enter}",
     .columns = 80,
     .rows = 24},
    {.name = "bench-typing",
     .profile = PROFILE("parlour"),
     .keys = ".008",
     .columns = 100,
     .rows = 30},
    {.name = "bolt-on",
     .profile = PROFILE("bolt-on"),
     .keys = "{Down}{Down}",
     .columns = 100,
     .rows = 30},
    {.name = "bolt-on-metric",
     .profile = PROFILE("bolt-on"),
     .keys = "{Enter}{Enter}",
     .columns = 80,
     .rows = 24,
     .metric = true},
    {.name = "bass",
     .profile = PROFILE("bass"),
     .keys = "{Down}{Right}",
     .columns = 132,
     .rows = 43},
    {.name = "bass-ascii",
     .profile = PROFILE("bass"),
     .keys = "{End}",
     .columns = 100,
     .rows = 30,
     .ascii = true},
    {.name = "keys", .profile = PROFILE("parlour"), .keys = "h", .columns = 80, .rows = 24},
    {.name = "keys-end",
     .profile = PROFILE("parlour"),
     .keys = "h{Down}{Down}{Down}{Down}{Down}{Down}{Down}{Down}{Down}{Down}{Down}{Down}{Down}{Down}"
             "{Down}{Down}{Down}{Down}{Down}{Down}{Down}{Down}{Down}{Down}{Down}{Down}{Down}{Down}"
             "{Down}{Down}{Down}{Down}{Down}{Down}{Down}{Down}{Down}{Down}{Down}{Down}",
     .columns = 80,
     .rows = 24},
    {.name = "menu",
     .profile = PROFILE("parlour"),
     .keys = ".011{Enter}*",
     .columns = 80,
     .rows = 24},
    {.name = "menu-strings-wide",
     .profile = PROFILE("bass"),
     .keys = "{F3}*n+{Enter}*.",
     .columns = 132,
     .rows = 43},
    {.name = "menu-typing-ascii",
     .profile = PROFILE("parlour"),
     .keys = ".01*",
     .columns = 80,
     .rows = 24,
     .ascii = true},
    {.name = "break-angle",
     .lines = "board scale = 25.5 in\nboard strings = 2\nboard frets = 20\n"
              "board join_fret = 14\nbridge kind = blank\nbridge anchor_distance = 12 mm\n"
              "string.2 note = E2\nstring.2 mass = 6.2 g/m\n"
              "visit.1.pass.1 relief = .010 in\nvisit.1.pass.1 nut_gap.1 = .012 in\n"
              "visit.1.pass.1 nut_gap.2 = .018 in\nvisit.1.pass.1 action.1 = 4/64 in\n"
              "visit.1.pass.1 action.2 = 6/64 in\nvisit.1.pass.1 exposure_bass = 5 mm\n",
     .keys = "{End}{Up}{Left}",
     .columns = 80,
     .rows = 24},
    {.name = "choices",
     .profile = PROFILE("parlour"),
     .keys = "{PgUp}{Down}{Down}{Down}{Down}{Down}{Down}{Down}{Down}{Down}",
     .columns = 80,
     .rows = 24},
    {.name = "choices-typing",
     .profile = PROFILE("parlour"),
     .keys = "{PgUp}{Down}{Down}{Down}{Down}{Down}{Down}{Down}{Down}{Down}++",
     .columns = 80,
     .rows = 24},
    {.name = "as-last", .profile = PROFILE("parlour"), .keys = "v", .columns = 80, .rows = 24},
    {.name = "why",
     .profile = PROFILE("parlour"),
     .keys = "{Down}{Down}{Right}?",
     .columns = 80,
     .rows = 24},
    {.name = "twelve", .strings = 12, .keys = "{Enter}", .columns = 80, .rows = 24},
    {.name = "empty", .lines = "", .keys = "", .columns = 80, .rows = 24},
    {.name = "started",
     .lines = "instrument name = Sp\xC3\xA4te \xE6\x9C\x88\xE7\x90\xB4\n"
              "board scale = 25.5 in\nboard strings = 4\nboard frets = 19\n"
              "board join_fret = 12\ntargets relief = .006 in\n",
     .keys = ".011{Enter}",
     .columns = 80,
     .rows = 24},
    {.name = "strings-what-if",
     .profile = PROFILE("parlour"),
     .keys = "{PgDn}{Right}n4{Enter}g1{Enter}jj",
     .columns = 80,
     .rows = 24},
    {.name = "strings-ask-tuning",
     .profile = PROFILE("parlour"),
     .keys = "{PgDn}*n",
     .columns = 80,
     .rows = 24},
    {.name = "strings-ask-set",
     .profile = PROFILE("parlour"),
     .keys = "{PgDn}{Right}gsteel",
     .columns = 80,
     .rows = 24,
     .ascii = true},
    {.name = "strings-ask-pull",
     .profile = PROFILE("bolt-on"),
     .keys = "{F3}*.820",
     .columns = 80,
     .rows = 24},
    {.name = "strings-ask-gauges",
     .profile = PROFILE("bolt-on"),
     .keys = "{F3}*j*j*.8+++{Enter}*8",
     .columns = 132,
     .rows = 43},
    {.name = "strings-twelve",
     .strings = 12,
     .keys = "{PgDn}*n+{Enter}*g+{Enter}",
     .columns = 80,
     .rows = 24,
     .ascii = true},
    {.name = "strings-wide",
     .profile = PROFILE("bass"),
     .keys = "{PgDn}*6{Right}.110",
     .columns = 132,
     .rows = 43},
    {.name = "strings-metric",
     .profile = PROFILE("bolt-on"),
     .keys = "{PgDn}*g+{Enter}",
     .columns = 100,
     .rows = 30,
     .metric = true},
    {.name = "strings-empty", .lines = "", .keys = "{PgDn}", .columns = 80, .rows = 24},
    {.name = "neck-ascii",
     .profile = PROFILE("bolt-on"),
     .keys = NECK "{Down}{Down}",
     .columns = 80,
     .rows = 24,
     .ascii = true},
    {.name = "neck-wide",
     .profile = PROFILE("parlour"),
     .keys = NECK "{End}" UP_10 "{Up}{Up}12000{Enter}.25{Enter}.5",
     .columns = 132,
     .rows = 43},
    {.name = "neck-metric",
     .profile = PROFILE("bass"),
     .keys = NECK "{End}",
     .columns = 100,
     .rows = 30,
     .metric = true},
    {.name = "neck-empty", .lines = "", .keys = NECK, .columns = 80, .rows = 24},
    {.name = "pitch-ascii",
     .profile = PROFILE("parlour"),
     .keys = PITCH "{End}{Home}{Right}-1.5",
     .columns = 80,
     .rows = 24,
     .ascii = true},
    {.name = "pitch-wide",
     .profile = PROFILE("parlour"),
     .keys = PITCH "8{Enter}1{Enter}{Home}{Left}{Left}{Left}{Left}{Left}{Left}{Left}5{Enter}",
     .columns = 132,
     .rows = 43},
    {.name = "pitch-metric",
     .profile = PROFILE("bolt-on"),
     .keys = PITCH "4{Enter}",
     .columns = 100,
     .rows = 30,
     .metric = true},
    {.name = "pitch-twelve",
     .strings = 12,
     .keys = PITCH "{Up}{Down}{Down}{Down}{Down}{Down}{Down}{Down}",
     .columns = 80,
     .rows = 24},
    {.name = "pitch-empty", .lines = "", .keys = PITCH, .columns = 80, .rows = 24},
    {.name = "frets-ascii",
     .profile = PROFILE("parlour"),
     .keys = FRETS HEARD SPOTS,
     .columns = 80,
     .rows = 24,
     .ascii = true},
    {.name = "frets-wide",
     .profile = PROFILE("parlour"),
     .keys = FRETS HEARD SPOTS,
     .columns = 132,
     .rows = 43},
    {.name = "frets-typing",
     .profile = PROFILE("bolt-on"),
     .keys = FRETS "3+5",
     .columns = 100,
     .rows = 30,
     .metric = true},
    {.name = "frets-twelve", .strings = 12, .keys = FRETS "kkk", .columns = 80, .rows = 24},
    {.name = "frets-why",
     .profile = PROFILE("parlour"),
     .keys = FRETS "?",
     .columns = 80,
     .rows = 24},
    {.name = "frets-empty", .lines = "", .keys = FRETS, .columns = 80, .rows = 24},
    {.name = "work-done",
     .profile = PROFILE("bass"),
     .keys = WORK " *afret 3 seated, thin cyanoacrylate under the tang{Enter}2{Enter}",
     .columns = 80,
     .rows = 24},
    /* A move that is done is not asked for once more. */
    {.name = "bench-done", .strings = 6, .keys = WORK " {Enter}{F2}", .columns = 80, .rows = 24},
    {.name = "work-unread",
     .strings = 6,
     .keys = ".006{Enter}" WORK " 1.2 off the bass{Enter}{Enter}{Up}",
     .columns = 80,
     .rows = 24},
    {.name = "work-back",
     .profile = PROFILE("parlour"),
     .keys = "<" WORK "{Home}{Down}{Down}{Down}{Down}{Down}{Right}",
     .columns = 100,
     .rows = 30},
    {.name = "work-ascii",
     .profile = PROFILE("bass"),
     .keys = WORK " ",
     .columns = 80,
     .rows = 24,
     .ascii = true,
     .metric = true},
    {.name = "work-wide", .profile = PROFILE("bass"), .keys = WORK " ", .columns = 132, .rows = 43},
    {.name = "work-twelve", .strings = 12, .keys = WORK, .columns = 80, .rows = 24},
    {.name = "work-empty", .lines = "", .keys = WORK, .columns = 80, .rows = 24},
    {.name = "history-action",
     .profile = PROFILE("parlour"),
     .keys = HISTORY "{Left}{Left}{Down}{Down}",
     .columns = 80,
     .rows = 24},
    {.name = "history-ascii",
     .profile = PROFILE("bolt-on"),
     .keys = HISTORY "{Down}",
     .columns = 80,
     .rows = 24,
     .ascii = true,
     .metric = true},
    {.name = "history-wide",
     .profile = PROFILE("bass"),
     .keys = HISTORY "{Up}{Down}{Down}{Down}{Down}{Down}{Down}{Down}",
     .columns = 132,
     .rows = 43},
    {.name = "history-empty", .lines = "", .keys = HISTORY, .columns = 80, .rows = 24},
    {.name = "too-small-ascii",
     .profile = PROFILE("parlour"),
     .keys = "",
     .columns = 60,
     .rows = 30,
     .ascii = true},
    {.name = "too-small", .profile = PROFILE("parlour"), .keys = "", .columns = 79, .rows = 23},
};
enum { SCENES = sizeof scenes / sizeof scenes[0] };

static void start(struct app *app, const struct scene *scene)
{
    if (scene->profile)
        scene_profile(app, scene->profile, scene->metric);
    else if (scene->strings)
        scene_strings(app, scene->strings);
    else
        bench_start(app, scene->lines);
}

static void check_scene(void **state)
{
    const struct scene *scene = *state;
    struct app *app = malloc(sizeof *app);
    struct frame frame;

    start(app, scene);
    const struct app_effects effects = bench_press(app, scene->keys);
    if (effects.save)
        app_kept(app, STATUS_OK, &bench_clock, NULL);
    assert_int_equal(frame_init(&frame, scene->rows, scene->columns), STATUS_OK);
    ui_compose(app, !scene->ascii, &frame);
    golden_check(&frame, scene->name);
    frame_done(&frame);
    app_done(app);
    free(app);
}

int main(void)
{
    struct CMUnitTest tests[SCENES];

    for (int i = 0; i < SCENES; i++)
        tests[i] = (struct CMUnitTest){.name = scenes[i].name,
                                       .test_func = check_scene,
                                       /* cmocka wants it writable, the test does not write. */
                                       .initial_state = (void *)(uintptr_t)&scenes[i]};
    return _cmocka_run_group_tests("frames", tests, SCENES, NULL, NULL) ? 1 : 0;
}
