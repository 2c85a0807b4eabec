/* SPDX-License-Identifier: MIT */
#include "model/derive.h"

#include "model/uncertainty.h"

static void advise_rod(struct derived *derived)
{
    double relief;

    if (!derived->choice.rod || !figures_get(&derived->figures, FIGURE_RELIEF, 0, &relief))
        return;
    if (relief < 0)
        findings_add(&derived->findings, FINDING_BACK_BOW, 0);
    if (derived->setup.rod == ROD_NONE || derived->setup.rod == ROD_FIXED)
        findings_add(&derived->findings, FINDING_ROD_NONE, 0);
    if (derived->setup.rod == ROD_ONE_WAY && relief < derived->setup.relief_target_mm.value)
        findings_add(&derived->findings, FINDING_ROD_ONE_WAY, 0);
}

static void advise_slots(struct derived *derived)
{
    double change;

    for (int s = 1; s <= derived->setup.board.strings; s++)
        if (figures_get(&derived->figures, FIGURE_SLOT_CHANGE, s, &change) && change > 0)
            findings_add(&derived->findings, FINDING_SLOT_LOW, s);
}

void derive_pass(const struct record *record, int visit, int pass, struct derived *ret_derived)
{
    *ret_derived = (struct derived){.verdict = RESET_UNKNOWN};
    setup_read(&ret_derived->setup, record, visit, pass, &ret_derived->findings);
    moves_solve(&ret_derived->setup, NULL, &ret_derived->figures, &ret_derived->choice,
                &ret_derived->lines);
    reset_solve(&ret_derived->setup, &ret_derived->figures);
    uncertainty_solve(&ret_derived->setup, &ret_derived->choice, &ret_derived->figures);
    ret_derived->verdict = reset_verdict(&ret_derived->setup, &ret_derived->figures);
    advise_rod(ret_derived);
    advise_slots(ret_derived);
    if (ret_derived->verdict == RESET_NECK)
        findings_add(&ret_derived->findings, FINDING_EXPOSURE_SHORT, 0);
}

void derive_current(const struct record *record, struct derived *ret_derived)
{
    int visit = 0, pass = 0;

    (void)record_current_pass(record, &visit, &pass);
    derive_pass(record, visit, pass, ret_derived);
}
