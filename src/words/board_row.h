/* SPDX-License-Identifier: MIT */
#ifndef SILLET_WORDS_BOARD_ROW_H
#define SILLET_WORDS_BOARD_ROW_H

#include "model/field.h"

/* The rows of the bench's readings board, in the order in which a tech measures. */
enum board_row { ROW_RELIEF, ROW_GAP, ROW_ACTION, ROW_EXPOSURE, ROW_COUNT_ };

/* The field that a row's cells hold (the bass one for exposure). */
enum field_id board_row_field(enum board_row row);

#endif
