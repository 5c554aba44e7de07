/* Pointers from the words' structs into the painters'. The first day of the week is the locale's. */
#include "ui/season-scene.h"

#include <langinfo.h>

#include "words/season-words.h"

/* 1 Monday to 7 Sunday. glibc's table counts from the weekday of a reference day, which is a Sunday or a
 * Monday (from memory of langinfo.h's comments: _NL_TIME_WEEK_1STDAY, _NL_TIME_FIRST_WEEKDAY). */
static gint
first_weekday (void)
{
  union
  {
    const char *text;
    guint number;
  } reference = { .text = nl_langinfo (_NL_TIME_WEEK_1STDAY) };
  gint first = nl_langinfo (_NL_TIME_FIRST_WEEKDAY)[0];
  gint sunday_based = first - 1 + (reference.number == 19971201 ? 1 : 0); /* that day was a Monday */

  return (sunday_based + 6) % 7 + 1;
}

static FrSeasonLaneText
lane (const FrSeasonLaneWords *words)
{
  return (FrSeasonLaneText){ words->name, words->unit, words->known, words->expected, words->empty };
}

static void
fill_texts (FrSeasonScene *scene)
{
  const FrSeasonPictureWords *words = scene->words;

  scene->months = g_new0 (FrSeasonMonth, words->months->len + 1);
  for (guint i = 0; i < words->months->len; i++)
    {
      const FrSeasonMonthMark *month = &g_array_index (words->months, FrSeasonMonthMark, i);

      scene->months[i] = (FrSeasonMonth){ month->day, month->label, month->label_short };
    }
  scene->feet = g_new0 (FrSeasonFoot, words->marks->len + 1);
  scene->month_words = g_new0 (FrMonthWord, words->marks->len + 1);
  for (guint i = 0; i < words->marks->len; i++)
    {
      const FrSeasonDayMark *mark = &g_array_index (words->marks, FrSeasonDayMark, i);

      scene->feet[i] = (FrSeasonFoot){ mark->day, NULL, mark->number, mark->words };
      scene->month_words[i] = (FrMonthWord){ mark->date, mark->words };
    }
  scene->texts = (FrSeasonTexts){
    .lanes = { [FR_SEASON_LANE_SPAN] = lane (&words->span),
               [FR_SEASON_LANE_GATHERED] = lane (&words->gathered),
               [FR_SEASON_LANE_SO_FAR] = lane (&words->so_far),
               [FR_SEASON_LANE_STORE] = lane (&words->store),
               [FR_SEASON_LANE_BOILS] = lane (&words->boils),
               [FR_SEASON_LANE_BOTTLES] = lane (&words->bottles),
               [FR_SEASON_LANE_PRICE] = lane (&words->price) },
    .today = words->today,
    .taps_set = words->taps_set,
    .taps_pulled = words->taps_pulled,
    .full = words->full,
    .months = scene->months,
    .n_months = words->months->len,
    .feet = scene->feet,
    .n_feet = words->marks->len,
  };
}

static gboolean
has_gathered (const FrSeasonView *view)
{
  for (guint i = 0; i < view->n_days; i++)
    if (view->days[i].n_gatherings > 0)
      return TRUE;
  return FALSE;
}

static guint
fill_past (FrSeasonScene *scene, const GPtrArray *past)
{
  guint n = 0;

  scene->past_l = g_ptr_array_new_with_free_func (g_free);
  scene->past_names = g_ptr_array_new_with_free_func (g_free);
  scene->past = g_new0 (FrSeasonPast, past != NULL ? past->len + 1 : 1);
  for (guint i = 0; past != NULL && i < past->len; i++)
    {
      const FrSeasonView *other = past->pdata[i];
      double *litres;

      if (other->season == scene->view->season || !has_gathered (other))
        continue;
      litres = g_new (double, other->n_days);
      for (guint k = 0; k < other->n_days; k++)
        litres[k] = other->days[k].gathered_l;
      g_ptr_array_add (scene->past_l, litres);
      g_ptr_array_add (scene->past_names, g_strdup_printf ("%u", other->season));
      scene->past[n] = (FrSeasonPast){ scene->past_names->pdata[n], other->season, other->days[0].date,
                                       other->n_days, litres };
      n++;
    }
  return n;
}

FrSeasonScene *
fr_season_scene_new (const FrSeasonView *view, const GPtrArray *past, const FrSay *say)
{
  FrSeasonScene *scene = g_new0 (FrSeasonScene, 1);
  guint n_past;

  scene->view = view;
  scene->units = say->units;
  scene->units.measures = NULL; /* not needed to write numbers, and not ours to keep */
  scene->units.n_measures = 0;
  scene->words = fr_season_picture_words_new (view, say);
  fill_texts (scene);
  scene->spoken = g_ptr_array_new_with_free_func (g_free);
  for (guint i = 0; i < view->n_days; i++)
    g_ptr_array_add (scene->spoken, fr_season_day_spoken (view, &view->days[i], say));
  n_past = fill_past (scene, past); /* which sets what is read below */
  scene->strip = (FrSeasonStrip){
    .view = view,
    .units = &scene->units,
    .texts = &scene->texts,
    .n_past = n_past,
    .past = scene->past,
    .selected = -1,
    .hovered = -1,
  };
  scene->month = (FrMonth){
    .first_weekday = first_weekday (),
    .view = view,
    .units = &scene->units,
    .weekdays = (const char *const *)scene->words->weekdays,
    .words = scene->month_words,
    .n_words = scene->words->marks->len,
    .today = view->today >= 0 ? view->days[view->today].date : (FrDate){ 0, 0, 0 },
  };
  return scene;
}

void
fr_season_scene_free (FrSeasonScene *scene)
{
  if (scene == NULL)
    return;
  fr_season_picture_words_free (scene->words);
  g_free (scene->months);
  g_free (scene->feet);
  g_free (scene->month_words);
  g_free (scene->past);
  g_ptr_array_unref (scene->past_l);
  g_ptr_array_unref (scene->past_names);
  g_ptr_array_unref (scene->spoken);
  g_free (scene);
}

gssize
fr_season_scene_find (const FrSeasonScene *scene, FrDate date)
{
  gint64 at;

  if (date.year == 0 || scene->view->n_days == 0)
    return -1;
  at = fr_date_to_days (date) - fr_date_to_days (scene->view->days[0].date);
  return at >= 0 && at < scene->view->n_days ? (gssize)at : -1;
}
