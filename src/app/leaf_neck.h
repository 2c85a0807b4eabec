/* SPDX-License-Identifier: MIT */
#ifndef SILLET_APP_LEAF_NECK_H
#define SILLET_APP_LEAF_NECK_H

#include "model/field.h"
#include "model/figure.h"

/* The figure that a reading of the neck bears on first. */
enum figure_id leaf_neck_figure(enum field_id field);

#endif
