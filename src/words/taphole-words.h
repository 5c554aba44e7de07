/* Why a hole goes where it goes, or what is wrong with a place that somebody chose. */
#pragma once

#include "domain/maths/taphole.h"
#include "words/say.h"

G_BEGIN_DECLS

/**
 * fr_taphole_reason:
 * @place: with the figures of fr_taphole_find, _find_several or _clearance
 * @holes: what they were asked with
 * @seasons: (nullable): the year of each hole's season, 0 unknown; a hole without one is called by its number in
 * the list, from 1
 * @found: it is the search's own place, so nothing is better
 *
 * One to four sentences: outside the heights, the distance kept, the nearest hole and its side, the stained wood it
 * would sit in. Free it.
 */
char *fr_taphole_reason (const FrTaphole *place, const FrHole *holes, guint n_holes, const guint *seasons,
                         gboolean found, const FrSay *say);

/* "south-east side". Static. */
const char *fr_trunk_side (double angle_deg);

G_END_DECLS
