/* Which seasons there are is read once, from the times of gatherings alone. The season that the forecast is asked about is taken as it asks, so
 * that both show the same; another is asked anew, as of its last gathering. Tables that have come are kept. */
#include "models/season-scores.h"

#include "domain/plan/season-air.h"
#include "formats/measured-seasons.h"
#include "formats/zone-source.h"
#include "models/forecast-scores.h"

#include <math.h>

typedef struct
{
  FrScoredSeason season;
  gint64 last_utc; /* gathering */
  guint n_days;
  FrScoreTable *table; /* NULL until it has come */
  gboolean is_running;
} Choice;

typedef struct
{
  FrSeasonScores *owner; /* NULL when it is gone */
  guint at;
  gint measured;
  FrBookForecast *asked; /* NULL: of the records */
  FrSeasonBook records;
  gboolean has_records;
  FrZoneTable *zone;
  double latitude_deg;
  gint64 now_utc;
  FrScoreTable *table;
} Question;

struct _FrSeasonScores
{
  GObject parent_instance;
  FrBook *book;
  FrForecaster *forecaster;
  FrZoneTable *zone;
  GArray *choices; /* (element-type Choice) */
  GPtrArray *running;
  guint chosen;
};

G_DEFINE_FINAL_TYPE (FrSeasonScores, fr_season_scores, G_TYPE_OBJECT)

static guint changed_signal;

static void
choice_clear (gpointer data)
{
  g_free (((Choice *)data)->season.name);
  g_free (((Choice *)data)->table);
}

/* --- which there are --- */

static void
take_time (const FrRecord *record, gpointer user_data)
{
  const FrGathering *gathering = (const FrGathering *)record;

  if (!record->archived && gathering->gathered_utc != G_MININT64)
    g_array_append_val ((GArray *)user_data, gathering->gathered_utc);
}

static gint
by_time (gconstpointer a, gconstpointer b)
{
  const gint64 one = *(const gint64 *)a, two = *(const gint64 *)b;

  return (one > two) - (one < two);
}

static void
load_zone (FrSeasonScores *self, gint64 first_utc, gint64 last_utc)
{
  const FrHousehold *household = fr_book_get_household (self->book);

  if (household != NULL && household->zone != NULL)
    self->zone = fr_zone_table_load (household->zone, fr_date_from_days (first_utc / 86400).year - 2,
                                     fr_date_from_days (last_utc / 86400).year + 2, NULL);
  if (self->zone == NULL)
    self->zone = fr_zone_table_new_utc ();
}

/* The latest first. Days with a gathering are no more than may be emptyings; of how many could be told, the table says. */
static void
add_book_seasons (FrSeasonScores *self, const GArray *times)
{
  Choice open = { .season = { 0, -1, NULL } };
  FrDate last = { 0, 0, 0 };

  for (guint i = times->len; i-- > 0;)
    {
      const gint64 utc = g_array_index (times, gint64, i);
      const FrDate date = fr_zone_local (self->zone, utc).date;

      if (fr_season_of (date) != open.season.season)
        {
          if (open.n_days >= FR_SCORES_LEAST)
            g_array_append_val (self->choices, open);
          open = (Choice){ .season = { fr_season_of (date), -1, NULL }, .last_utc = utc };
          last.year = 0;
        }
      open.n_days += last.year == 0 || fr_date_compare (last, date) != 0 ? 1 : 0;
      last = date;
    }
  if (open.n_days >= FR_SCORES_LEAST)
    g_array_append_val (self->choices, open);
}

static gboolean
find_seasons (FrSeasonScores *self, GError **error)
{
  static const char *const fields[] = { "gathered_utc", NULL };
  const FrRecordSpan always = { G_MININT64, G_MAXINT64, { 1, 1, 1 }, { 9999, 12, 31 } };
  g_autoptr (GArray) times = g_array_new (FALSE, FALSE, sizeof (gint64));

  if (!fr_book_each (self->book, FR_KIND_GATHERING, &always, fields, take_time, times, error))
    return FALSE;
  g_array_sort (times, by_time);
  if (times->len > 0)
    {
      load_zone (self, g_array_index (times, gint64, 0), g_array_index (times, gint64, times->len - 1));
      add_book_seasons (self, times);
    }
  for (guint i = 0; i < fr_n_measured_seasons (); i++)
    {
      g_auto (FrMeasuredSeason) measured = { 0 };
      Choice choice = { .season = { 0, (gint)i, NULL } };

      fr_measured_season (i, &measured);
      choice.season.name = g_strdup (measured.name);
      g_array_append_val (self->choices, choice);
    }
  return TRUE;
}

/* --- working it out --- */

static void
question_free (Question *question)
{
  fr_book_forecast_free (question->asked);
  if (question->has_records)
    fr_book_season_book_clear (&question->records);
  fr_zone_table_free (question->zone);
  g_free (question->table);
  g_free (question);
}

static void
score_measured (const Question *question)
{
  g_auto (FrMeasuredSeason) measured = { 0 };
  g_autoptr (FrSapFit) fit = fr_measured_fit (question->measured);
  g_autoptr (FrScoreRivals) rivals = fr_measured_rivals (question->measured);
  g_autoptr (FrAirHours) air = NULL;
  FrForecastQuestion season = { .gather_hour = -1, .n_draws = FR_BOOK_FORECAST_DRAWS, .seed = 1 };

  fr_measured_season ((guint)question->measured, &measured);
  air = fr_season_air (measured.weather, fr_midwinter (measured.tapped, FALSE), 0);
  season.air = air;
  season.tapped = measured.tapped;
  season.n_gathered = measured.gathered->len;
  season.gathered = (const FrSapGathered *)(gconstpointer)measured.gathered->data;
  season.members = &fit->members;
  season.errors = fr_forecast_error_usual ();
  fr_score_table_make (&season, rivals, question->table);
}

static void
score_thread (GTask *task, gpointer source, gpointer task_data, GCancellable *cancellable)
{
  Question *question = task_data;

  if (question->measured >= 0)
    score_measured (question);
  else
    {
      g_autoptr (FrScoreRivals) rivals = fr_measured_rivals (-1);

      if (question->asked == NULL)
        question->asked
            = fr_book_forecast_new (&question->records, NULL, NULL, question->latitude_deg, question->now_utc);
      if (question->asked->gathered->len >= FR_SCORES_LEAST && question->asked->air->n_hours > 0)
        fr_score_table_make (&question->asked->question, rivals, question->table);
    }
  g_task_return_boolean (task, TRUE);
}

static void
scored_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  Question *question = user_data;
  FrSeasonScores *self = question->owner;

  if (self != NULL)
    {
      Choice *choice = &g_array_index (self->choices, Choice, question->at);

      g_ptr_array_remove_fast (self->running, question);
      choice->is_running = FALSE;
      choice->table = g_steal_pointer (&question->table);
      if (question->at == self->chosen)
        g_signal_emit (self, changed_signal, 0);
    }
  question_free (question);
}

static double
latitude_of (FrBook *book)
{
  FrRecordList *list = fr_book_get_list (book, FR_KIND_GROUND);

  return fr_record_list_get_size (list) > 0 ? ((const FrGround *)fr_record_list_get (list, 0))->anchor_lat_deg.value : NAN;
}

static gboolean
put_book (FrSeasonScores *self, const Choice *choice, Question *question, GError **error)
{
  const FrBookForecast *asked = fr_forecaster_get_asked (self->forecaster);

  if (asked != NULL && fr_season_of (asked->today) == choice->season.season)
    {
      question->asked = fr_book_forecast_ref ((FrBookForecast *)asked);
      return TRUE;
    }
  question->zone = fr_zone_table_copy (self->zone);
  question->latitude_deg = latitude_of (self->book);
  question->now_utc = choice->last_utc;
  question->has_records
      = fr_book_other_season_book (self->book, &question->records, choice->season.season, question->zone, error);
  return question->has_records;
}

gboolean
fr_season_scores_choose (FrSeasonScores *self, guint at, GError **error)
{
  Choice *choice;

  g_return_val_if_fail (at < self->choices->len, FALSE);
  choice = &g_array_index (self->choices, Choice, at);
  if (choice->table == NULL && !choice->is_running)
    {
      Question *question = g_new0 (Question, 1);
      g_autoptr (GTask) task = NULL;

      question->owner = self;
      question->at = at;
      question->measured = choice->season.measured;
      question->table = g_new0 (FrScoreTable, 1);
      if (choice->season.measured < 0 && !put_book (self, choice, question, error))
        {
          question_free (question);
          return FALSE;
        }
      choice->is_running = TRUE;
      g_ptr_array_add (self->running, question);
      task = g_task_new (NULL, NULL, scored_cb, question);
      g_task_set_task_data (task, question, NULL);
      g_task_run_in_thread (task, score_thread);
    }
  self->chosen = at;
  g_signal_emit (self, changed_signal, 0);
  return TRUE;
}

/* --- the object --- */

static void
fr_season_scores_finalize (GObject *object)
{
  FrSeasonScores *self = FR_SEASON_SCORES (object);

  for (guint i = 0; i < self->running->len; i++)
    ((Question *)self->running->pdata[i])->owner = NULL;
  g_ptr_array_unref (self->running);
  g_array_unref (self->choices);
  fr_zone_table_free (self->zone);
  g_clear_object (&self->forecaster);
  g_clear_object (&self->book);
  G_OBJECT_CLASS (fr_season_scores_parent_class)->finalize (object);
}

static void
fr_season_scores_class_init (FrSeasonScoresClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = fr_season_scores_finalize;
  changed_signal = g_signal_new ("changed", FR_TYPE_SEASON_SCORES, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
fr_season_scores_init (FrSeasonScores *self)
{
  self->choices = g_array_new (FALSE, FALSE, sizeof (Choice));
  g_array_set_clear_func (self->choices, choice_clear);
  self->running = g_ptr_array_new ();
}

FrSeasonScores *
fr_season_scores_new (FrBook *book, FrForecaster *forecaster, GError **error)
{
  g_autoptr (FrSeasonScores) self = g_object_new (FR_TYPE_SEASON_SCORES, NULL);

  self->book = g_object_ref (book);
  self->forecaster = g_object_ref (forecaster);
  if (!find_seasons (self, error) || !fr_season_scores_choose (self, 0, error))
    return NULL;
  return g_steal_pointer (&self);
}

guint
fr_season_scores_n (FrSeasonScores *self)
{
  return self->choices->len;
}

const FrScoredSeason *
fr_season_scores_season (FrSeasonScores *self, guint at)
{
  g_return_val_if_fail (at < self->choices->len, NULL);
  return &g_array_index (self->choices, Choice, at).season;
}

guint
fr_season_scores_get_chosen (FrSeasonScores *self)
{
  return self->chosen;
}

const FrScoreTable *
fr_season_scores_get_table (FrSeasonScores *self)
{
  return g_array_index (self->choices, Choice, self->chosen).table;
}
