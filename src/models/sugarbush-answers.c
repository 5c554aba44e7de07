/* The round and the plan of the model. Both are kept until something they rest on changes. A view asks for
 * them, for with thousands of trees they take seconds: the answer is then worked out in a thread and told when
 * it is there. One question is under way at a time, and nobody waits for one that is no longer asked; who
 * still wants an answer asks again at the signal. The thread looks at the bush as it was, which with its
 * records is kept for it until it is done, and at nothing else. */
#include "models/sugarbush-private.h"

#include <string.h>

struct _FrBushQuestion
{
  FrSugarbush *owner; /* not a reference; NULL once the model is gone */
  const FrBush *bush;
  gboolean keeps_bush; /* the model has another one by now */
  GPtrArray *held[2 * FR_BUSH_KINDS];
  gboolean is_plan;
  FrRoundWhich which;
  double day_ratio;
  gint64 *ids; /* of a round past selected trees */
  guint n_ids;
  FrBushPlan *plan;
  FrBushRound *round;
};

static void
question_free (FrBushQuestion *question)
{
  if (question->keeps_bush)
    fr_bush_free ((FrBush *)question->bush);
  for (guint i = 0; i < G_N_ELEMENTS (question->held); i++)
    g_clear_pointer (&question->held[i], g_ptr_array_unref);
  fr_bush_plan_free (question->plan);
  fr_bush_round_free (question->round);
  g_free (question->ids);
  g_free (question);
}

static void
clear_round (gpointer data)
{
  g_clear_pointer (&((KeptRound *)data)->round, fr_bush_round_free);
}

void
fr_sugarbush_answers_init (FrSugarbush *self)
{
  self->rounds = g_array_new (FALSE, TRUE, sizeof (KeptRound));
  g_array_set_clear_func (self->rounds, clear_round);
}

void
fr_sugarbush_answers_clear (FrSugarbush *self)
{
  fr_sugarbush_forget_answers (self);
  g_clear_pointer (&self->rounds, g_array_unref);
  if (self->asked != NULL)
    self->asked->owner = NULL;
}

void
fr_sugarbush_forget_answers (FrSugarbush *self)
{
  g_array_set_size (self->rounds, 0);
  g_clear_pointer (&self->plan, fr_bush_plan_free);
  self->planned = FALSE;
}

void
fr_sugarbush_drop_bush (FrSugarbush *self, FrBush *bush)
{
  if (self->asked != NULL && self->asked->bush == bush)
    self->asked->keeps_bush = TRUE;
  else
    fr_bush_free (bush);
}

static const KeptRound *
find_round (FrSugarbush *self, FrRoundWhich which, double day_ratio)
{
  for (guint i = 0; i < self->rounds->len; i++)
    {
      const KeptRound *known = &g_array_index (self->rounds, KeptRound, i);

      if (known->which == which && known->day_ratio == day_ratio)
        return known;
    }
  return NULL;
}

static const FrBushRound *
keep_round (FrSugarbush *self, FrRoundWhich which, double day_ratio, FrBushRound *round)
{
  KeptRound kept = { which, day_ratio, round };

  g_array_append_val (self->rounds, kept);
  return round;
}

const FrBushRound *
fr_sugarbush_get_round (FrSugarbush *self, FrRoundWhich which, double day_ratio)
{
  const KeptRound *known = find_round (self, which, day_ratio);

  if (known != NULL)
    return known->round;
  return keep_round (self, which, day_ratio,
                     fr_bush_round (self->bush, which, (const gint64 *)(gpointer)self->selected->data,
                                    self->selected->len, day_ratio));
}

const FrBushPlan *
fr_sugarbush_get_plan (FrSugarbush *self)
{
  if (!self->planned)
    self->plan = fr_bush_plan (self->bush);
  self->planned = TRUE;
  return self->plan;
}

static gboolean
same_selection (FrSugarbush *self, const FrBushQuestion *question)
{
  return question->which != FR_ROUND_SELECTED
         || (question->n_ids == self->selected->len
             && (question->n_ids == 0
                 || memcmp (question->ids, self->selected->data, question->n_ids * sizeof (gint64)) == 0));
}

/* Takes the answer over if it still is one. */
static void
answered_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  FrBushQuestion *question = user_data;
  FrSugarbush *self = question->owner;

  if (self != NULL)
    {
      gboolean valid = question->bush == self->bush && same_selection (self, question);

      self->asked = NULL;
      if (valid && question->is_plan && !self->planned)
        {
          self->plan = g_steal_pointer (&question->plan);
          self->planned = TRUE;
        }
      else if (valid && !question->is_plan && find_round (self, question->which, question->day_ratio) == NULL)
        keep_round (self, question->which, question->day_ratio, g_steal_pointer (&question->round));
    }
  question_free (question);
  if (self != NULL)
    fr_sugarbush_tell_answered (self);
}

static void
answer_thread (GTask *task, gpointer source, gpointer task_data, GCancellable *cancellable)
{
  FrBushQuestion *question = task_data;

  if (question->is_plan)
    question->plan = fr_bush_plan (question->bush);
  else
    question->round = fr_bush_round (question->bush, question->which, question->ids, question->n_ids,
                                     question->day_ratio);
  g_task_return_boolean (task, TRUE);
}

/* Takes @question. One that is under way comes to its end first. */
static void
ask (FrSugarbush *self, FrBushQuestion *question)
{
  g_autoptr (GTask) task = NULL;

  if (self->asked != NULL)
    {
      question_free (question);
      return;
    }
  question->owner = self;
  question->bush = self->bush;
  for (guint k = 0; k < FR_BUSH_KINDS; k++)
    {
      question->held[2 * k] = g_ptr_array_ref (self->held[k].objects);
      question->held[2 * k + 1] = g_ptr_array_ref (self->held[k].records);
    }
  self->asked = question;
  task = g_task_new (NULL, NULL, answered_cb, question);
  g_task_set_task_data (task, question, NULL);
  g_task_run_in_thread (task, answer_thread);
}

gboolean
fr_sugarbush_ask_plan (FrSugarbush *self, const FrBushPlan **plan_out)
{
  FrBushQuestion *question;

  *plan_out = self->plan;
  if (self->planned)
    return TRUE;
  question = g_new0 (FrBushQuestion, 1);
  question->is_plan = TRUE;
  ask (self, question);
  return FALSE;
}

gboolean
fr_sugarbush_ask_round (FrSugarbush *self, FrRoundWhich which, double day_ratio,
                        const FrBushRound **round_out)
{
  const KeptRound *known = find_round (self, which, day_ratio);
  FrBushQuestion *question;

  *round_out = known != NULL ? known->round : NULL;
  if (known != NULL)
    return TRUE;
  question = g_new0 (FrBushQuestion, 1);
  question->which = which;
  question->day_ratio = day_ratio;
  if (which == FR_ROUND_SELECTED)
    {
      question->n_ids = self->selected->len;
      question->ids = g_memdup2 (self->selected->data, self->selected->len * sizeof (gint64));
    }
  ask (self, question);
  return FALSE;
}
