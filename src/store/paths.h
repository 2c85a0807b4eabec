/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PATHS_H
#define SILLET_STORE_PATHS_H

#include "base/status.h"

/*
 * Paths, and the folders of the XDG base directory specification. A variable that is unset, empty
 * or not absolute is ignored, as the specification requires.
 */

/* $XDG_DATA_HOME/sillet, else ~/.local/share/sillet: the profiles. */
enum status paths_data_folder(char **ret_path);

/* $XDG_CONFIG_HOME/sillet, else ~/.config/sillet: the shop's settings. */
enum status paths_config_folder(char **ret_path);

/* $XDG_CACHE_HOME/sillet, else ~/.cache/sillet: what can be made again. */
enum status paths_cache_folder(char **ret_path);

/* $XDG_STATE_HOME/sillet, else ~/.local/state/sillet: records that could not be saved. */
enum status paths_state_folder(char **ret_path);

/* These four create nothing, and the caller frees the path. STATUS_NOT_FOUND if HOME is not set
 * either; STATUS_NO_MEMORY. */

/* Makes a folder and the missing ones above it, with mode 0700. STATUS_OK if it exists.
 * STATUS_READ_ONLY, STATUS_FULL, STATUS_NO_MEMORY, STATUS_IO with errno set. */
enum status paths_make_folder(const char *path);
/* The same for the folder that a path is in. */
enum status paths_make_folder_above(const char *path);

/* disk_sync_path for the folder that a path is in. */
enum status paths_sync_above(const char *path);

/* The path without its last part; "." if it has only one. The caller frees it; NULL if out of
 * memory. */
char *paths_folder_of(const char *path);

/* The last part of a path; points into it. */
const char *paths_name_of(const char *path);

/* folder + "/" + name. The caller frees it; NULL if out of memory. */
char *paths_join(const char *folder, const char *name);

#endif
