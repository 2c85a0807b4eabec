/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_PATHS_H
#define SILLET_STORE_PATHS_H

#include "base/status.h"

/*
 * Where things live: the folders of the XDG base directory specification. A variable
 * that is unset, empty or not absolute is passed over, as that specification wants.
 */

/* $XDG_DATA_HOME/sillet, else ~/.local/share/sillet: the profiles. */
enum status paths_data_folder(char **ret_path);

/* $XDG_CONFIG_HOME/sillet, else ~/.config/sillet: the shop's settings. */
enum status paths_config_folder(char **ret_path);

/* $XDG_CACHE_HOME/sillet, else ~/.cache/sillet: what can be made anew. */
enum status paths_cache_folder(char **ret_path);

/* $XDG_STATE_HOME/sillet, else ~/.local/state/sillet: what a session could not file. */
enum status paths_state_folder(char **ret_path);

/* All give a text that the caller frees; STATUS_NOT_FOUND where there is no home either,
 * STATUS_NO_MEMORY. Nothing is created. */

/* Makes a folder and those above it that are missing, with mode 0700. STATUS_READ_ONLY,
 * STATUS_FULL, STATUS_NO_MEMORY, STATUS_IO with errno set; fine when it is there. */
enum status paths_make_folder(const char *path);
/* The folder that a path lies in. */
enum status paths_make_folder_above(const char *path);

/* disk_sync_path for the folder that a path lies in. */
enum status paths_sync_above(const char *path);

/* The folder that a path's last part lies in, "." where it names none; NULL without memory.
 * The caller frees it. */
char *paths_folder_of(const char *path);

/* A path's last part, in it. */
const char *paths_name_of(const char *path);

/* folder + "/" + name; NULL without memory. The caller frees it. */
char *paths_join(const char *folder, const char *name);

#endif
