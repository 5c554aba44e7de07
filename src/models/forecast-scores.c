/* Scores in a thread. The simple ways were learned from the measured seasons that come with the program, which are of other bushes. */
#include "models/forecast-scores.h"

#include "formats/measured-seasons.h"

#include <string.h>

typedef struct
{
  FrForecastScores *owner; /* NULL when it is gone */
  FrBookForecast *asked;
  FrScoreTable table;
} Question;

struct _FrForecastScores
{
  GObject parent_instance;
  FrForecaster *forecaster;
  gboolean is_wanted;
  gboolean is_known;
  FrScoreTable table;
  GArray *scored; /* what had been emptied then */
  Question *running;
};

G_DEFINE_FINAL_TYPE (FrForecastScores, fr_forecast_scores, G_TYPE_OBJECT)

static guint changed_signal;

static void
score_thread (GTask *task, gpointer source, gpointer task_data, GCancellable *cancellable)
{
  Question *question = task_data;
  g_autoptr (FrScoreRivals) rivals = fr_measured_rivals (-1);

  fr_score_table_make (&question->asked->question, rivals, &question->table);
  g_task_return_boolean (task, TRUE);
}

static gboolean
is_same (const GArray *a, const GArray *b)
{
  return a != NULL && a->len == b->len
         && (a->len == 0 || memcmp (a->data, b->data, a->len * sizeof (FrSapGathered)) == 0);
}

static void
keep (FrForecastScores *self, const GArray *gathered, const FrScoreTable *table)
{
  g_clear_pointer (&self->scored, g_array_unref);
  self->scored = g_array_new (FALSE, FALSE, sizeof (FrSapGathered));
  g_array_append_vals (self->scored, gathered->data, gathered->len);
  self->table = *table;
  self->is_known = TRUE;
  g_signal_emit (self, changed_signal, 0);
}

static void ask (FrForecastScores *self);

static void
scored_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  Question *question = user_data;
  FrForecastScores *self = question->owner;

  if (self != NULL)
    {
      self->running = NULL;
      g_object_ref (self);
      keep (self, question->asked->gathered, &question->table);
      ask (self); /* when something was emptied meanwhile */
      g_object_unref (self);
    }
  fr_book_forecast_free (question->asked);
  g_free (question);
}

static void
ask (FrForecastScores *self)
{
  const FrBookForecast *asked = fr_forecaster_get_asked (self->forecaster);
  g_autoptr (GTask) task = NULL;

  if (!self->is_wanted || self->running != NULL || asked == NULL || is_same (self->scored, asked->gathered))
    return;
  if (asked->gathered->len < FR_SCORES_LEAST || asked->air->n_hours == 0)
    {
      const FrScoreTable none = { .n = MIN (asked->gathered->len, FR_SCORES_LEAST - 1) };

      keep (self, asked->gathered, &none);
      return;
    }
  self->running = g_new0 (Question, 1);
  self->running->owner = self;
  self->running->asked = fr_book_forecast_ref ((FrBookForecast *)asked);
  task = g_task_new (NULL, NULL, scored_cb, self->running);
  g_task_set_task_data (task, self->running, NULL);
  g_task_run_in_thread (task, score_thread);
}

static void
fr_forecast_scores_finalize (GObject *object)
{
  FrForecastScores *self = FR_FORECAST_SCORES (object);

  g_signal_handlers_disconnect_by_data (self->forecaster, self);
  if (self->running != NULL)
    self->running->owner = NULL;
  g_clear_pointer (&self->scored, g_array_unref);
  g_clear_object (&self->forecaster);
  G_OBJECT_CLASS (fr_forecast_scores_parent_class)->finalize (object);
}

static void
fr_forecast_scores_class_init (FrForecastScoresClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = fr_forecast_scores_finalize;
  changed_signal = g_signal_new ("changed", FR_TYPE_FORECAST_SCORES, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
fr_forecast_scores_init (FrForecastScores *self)
{
}

FrForecastScores *
fr_forecast_scores_new (FrForecaster *forecaster)
{
  FrForecastScores *self = g_object_new (FR_TYPE_FORECAST_SCORES, NULL);

  self->forecaster = g_object_ref (forecaster);
  g_signal_connect_swapped (forecaster, "changed", G_CALLBACK (ask), self);
  return self;
}

const FrScoreTable *
fr_forecast_scores_get (FrForecastScores *self)
{
  if (!self->is_wanted)
    {
      self->is_wanted = TRUE;
      ask (self);
    }
  return self->is_known ? &self->table : NULL;
}
