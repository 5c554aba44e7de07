/* Whether a line is of holes that were set on its day, and what hangs at them holds as much. Lines of one day
 * are mostly asked one after the other, and those of the whole bush look at every hole, so what was found
 * last is kept. */
#include "domain/plan/gathering-ask-private.h"

#include <math.h>
#include <string.h>

#define FULL_RATIO 1.05 /* a bucket heaped with ice, or larger than it says; common practice, no source */

static void
look_near (FrAskHoles *holes, const char *day)
{
  FrDate one, two;
  gint64 away_days;

  if (day == NULL || !fr_date_parse (day, &one) || !fr_date_parse (holes->day, &two))
    return;
  away_days = ABS (fr_date_to_days (one) - fr_date_to_days (two));
  if (holes->nearest != NULL && away_days >= holes->away_days)
    return;
  holes->nearest = day;
  holes->away_days = away_days;
}

static void
add_hole (FrAskHoles *holes, const FrTap *tap)
{
  if (tap->season.value != holes->season || tap->set_on == NULL)
    return;
  if (strcmp (tap->set_on, holes->day) <= 0
      && (tap->pulled_on == NULL || strcmp (tap->pulled_on, holes->day) >= 0))
    {
      holes->n++;
      holes->holds_l += tap->container_l.value;
      return;
    }
  look_near (holes, tap->set_on);
  look_near (holes, tap->pulled_on);
}

static void
add_holes_of (FrAskHoles *holes, const FrBush *bush, guint entry)
{
  for (guint i = bush->tap_starts[entry]; i < bush->tap_starts[entry + 1]; i++)
    add_hole (holes, bush->taps[i]);
}

static void
add_holes (FrAskHoles *holes, const FrBush *bush)
{
  switch (holes->scope)
    {
    case FR_SAP_RUN_TAP:
      add_hole (holes, bush->taps[holes->tap]);
      break;
    case FR_SAP_RUN_TREE:
      add_holes_of (holes, bush, holes->entry);
      break;
    case FR_SAP_RUN_GROUP:
      for (guint i = 0; holes->group != NULL && i < holes->group->len; i++)
        add_holes_of (holes, bush, g_array_index (holes->group, guint, i));
      break;
    default:
      for (guint i = 0; i < bush->n_entries; i++)
        add_holes_of (holes, bush, i);
    }
}

/* FALSE when the book has no hole of the season with a day: then nothing can be said. */
static gboolean
find_holes (FrAsker *asker, const FrSapRunLine *line)
{
  const FrBush *bush = asker->run.bush;
  const FrDate date = fr_zone_local (asker->run.zone, line->utc_s).date;
  g_autofree char *day = fr_date_to_iso (date);
  FrAskHoles *holes = &asker->holes;

  holes->season = fr_season_of (date);
  if (holes->known_season != holes->season)
    {
      holes->known_season = holes->season;
      holes->is_known = FALSE;
      for (guint i = 0; i < bush->tap_starts[bush->n_entries] && !holes->is_known; i++)
        holes->is_known = bush->taps[i]->season.value == holes->season && bush->taps[i]->set_on != NULL;
    }
  if (strcmp (holes->day, day) == 0 && holes->scope == line->scope && holes->entry == line->entry
      && holes->tap == line->tap && holes->group == line->group)
    return holes->is_known;
  g_strlcpy (holes->day, day, sizeof holes->day);
  holes->scope = line->scope;
  holes->entry = line->entry;
  holes->tap = line->tap;
  holes->group = line->group;
  holes->n = 0;
  holes->holds_l = 0;
  holes->nearest = NULL;
  if (holes->is_known)
    add_holes (holes, bush);
  return holes->is_known;
}

void
fr_asker_look_at_holes (FrAsker *asker, const FrSapRunLine *line, GArray *questions)
{
  FrQuestion question = fr_question (FR_ASK_NO_TAP);
  double value_l = line->volume_l;

  if (!find_holes (asker, line))
    return;
  if (asker->holes.n == 0)
    {
      question.day = asker->holes.nearest;
      question.utc_s = line->utc_s;
      fr_question_because (&question, FR_CAUSE_TAP_UNWRITTEN);
      fr_question_because (&question, FR_CAUSE_DATE);
      fr_question_because (&question, FR_CAUSE_OTHER_TREE);
      g_array_append_val (questions, question);
      return;
    }
  if (line->entry != FR_SAP_RUN_NONE)
    value_l = fr_sap_run_taken (&asker->run, line)->taken_l;
  if (!(value_l > FULL_RATIO * asker->holes.holds_l))
    return;
  question.code = FR_ASK_OVER_BUCKETS;
  question.value_l = value_l;
  question.limit_l = asker->holes.holds_l;
  fr_question_because (&question, FR_CAUSE_MISSED_LINE);
  fr_question_because (&question, FR_CAUSE_UNIT);
  fr_question_because (&question, FR_CAUSE_SIZE);
  g_array_append_val (questions, question);
}
