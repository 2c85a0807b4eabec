/* SPDX-License-Identifier: MIT */
#include "leaf/leaves.h"

#include "leaf/bench/bench_actions.h"
#include "leaf/bench/own_string.h"
#include "leaf/frets/frets_actions.h"
#include "leaf/history/history_actions.h"
#include "leaf/intake/intake_actions.h"
#include "leaf/intake/price_question.h"
#include "leaf/strings/question.h"
#include "leaf/strings/restring.h"
#include "leaf/strings/strings_actions.h"
#include "leaf/jobs/work_actions.h"
#include "session/cell_actions.h"
#include "session/command.h"
#include "session/filing.h"
#include "session/hand_over.h"
#include "session/menu_actions.h"
#include "session/change_actions.h"
#include "session/pass_actions.h"
#include "session/take_out.h"
#include "session/typing.h"
#include "session/undo_actions.h"

/* The functions of command_table.h are those of the session and of all leaves' folders. The session
 * may not know the leaves, so the table is filled in here. */
#define COMMAND(id, key, other_key, letter, place, where, hint, title, words, act, can_, what)     \
    [COMMAND_##id] = {act, .can = can_, .add_what = what},

static const struct command_act acts[COMMAND_COUNT_] = {
#include "session/command_table.h"
};
#undef COMMAND

const struct leaves leaves_all = {
    .row =
        {
#define LEAF(id, name, letter, room) [LEAF_##id] = &leaf_##room,
#include "session/leaf_table.h"
#undef LEAF
        },
    .act = acts,
};
