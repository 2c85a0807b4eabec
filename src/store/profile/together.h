/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PROFILE_TOGETHER_H
#define SILLET_STORE_PROFILE_TOGETHER_H

#include "model/reading/record_join.h"
#include "store/problem.h"
#include "store/profile/copy.h"
#include "store/profile/profile.h"

/*
 * A profile and another version beside it, being put together (record_join.h). The profile is open
 * for editing meanwhile, so that no other program changes it. Its earlier states are looked
 * through for the last one that both come from.
 */
struct together {
    struct profile *profile;
    struct copy version; /* its path is owned */
    struct together_inside *inside;
    struct record_join *join; /* left: the profile, right: the version */
    struct join_difference *differences;
    size_t count;
    char since[17]; /* when the state that both come from was kept; "" if none is known */
};

/*
 * Opens both; nothing is written. Fails as profile_open; with what profile_editable says, and
 * *ret_holder who has it then ("" else, valid until the next call of the caller's); as file_read
 * and profile_load for the version; STATUS_NEWER; as join_number. *ret_together is set on success
 * only.
 */
enum status together_open(const char *path, const struct copy *version, struct strbuf *holder,
                          struct together **ret_together);

/* Closes both. Keeps errno. Does nothing for NULL. */
void together_close(struct together *together);

/* How putting together went. */
enum joined {
    JOINED_NOTHING, /* the profile is unchanged; the status says why */
    JOINED_UNKEPT,  /* unchanged, because what it was joined from could not be kept first */
    JOINED_WRONG,   /* unchanged: what was chosen contradicts itself, as the problems say */
    JOINED_ALL,     /* joined; unless the status is STATUS_OK the version still lies beside it */
};

/*
 * Saves the record as chosen; none of the differences may be open. First the version and the
 * profile as it is are kept as earlier states, the profile as the newest, so that bringing that
 * back undoes it. Then the profile is saved (profile_save), and last the version's file is removed.
 * STATUS_CHANGED if either file is not what it was when it was opened. Else fails as
 * generations_keep, profile_save, and as disk_status if the version cannot be removed.
 */
enum status together_save(struct together *together, struct problems *problems,
                          enum joined *ret_joined);

#endif
