/* One row of the gathering log. The draft is made anew from the base and the texts, so that another way of
 * measuring only reads the same text as another amount. */
#include "models/gather-log-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "domain/plan/gathering.h"
#include "words/entry-words.h"

G_DEFINE_FINAL_TYPE (FrGatherRow, fr_gather_row, G_TYPE_OBJECT)

static guint changed_signal;

static void
forget_texts (FrGatherRow *self)
{
  for (guint i = 0; i < FR_N_GATHER_FIELDS; i++)
    g_clear_pointer (&self->texts[i], g_free);
  g_clear_pointer (&self->clarity, g_free);
  g_clear_pointer (&self->smell, g_free);
}

static void
fr_gather_row_finalize (GObject *object)
{
  FrGatherRow *self = FR_GATHER_ROW (object);

  forget_texts (self);
  g_free (self->target.stand);
  g_free (self->title);
  g_free (self->name_key);
  g_clear_pointer (&self->base, fr_record_free);
  g_clear_pointer (&self->draft, fr_draft_free);
  G_OBJECT_CLASS (fr_gather_row_parent_class)->finalize (object);
}

static void
fr_gather_row_class_init (FrGatherRowClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = fr_gather_row_finalize;
  changed_signal
      = g_signal_new ("changed", FR_TYPE_GATHER_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
fr_gather_row_init (FrGatherRow *self)
{
}

FrGatherRow *
fr_gather_row_new (FrBook *book, const FrGatherTarget *target)
{
  FrGatherRow *self = g_object_new (FR_TYPE_GATHER_ROW, NULL);

  self->book = book;
  self->target = *target;
  self->target.stand = g_strdup (target->stand);
  self->title = fr_gather_target_title (book, target);
  self->name_key = g_utf8_collate_key_for_filename (self->title, -1);
  return self;
}

const FrField *
fr_gather_row_field (FrGatherRow *self, FrGatherField field)
{
  static const char *const names[FR_N_GATHER_FIELDS]
      = { NULL, "reading_brix", "sample_c", "ice_l", "ice_brix", "note" };
  const FrGathering *base = (const FrGathering *)self->base;
  const char *name = names[field];

  if (field == FR_GATHER_AMOUNT)
    name = g_strcmp0 (base->measured_by, "weight") == 0  ? "weight_kg"
           : g_strcmp0 (base->measured_by, "depth") == 0 ? "depth_m"
                                                         : "volume_l";
  return fr_kind_field (self->base->kind, name);
}

static FrDraft *
draft_of (FrGatherRow *self)
{
  if (self->draft != NULL)
    return self->draft;
  self->draft = fr_draft_new (self->base, self->base->id == 0);
  for (guint i = 0; i < FR_N_GATHER_FIELDS; i++)
    if (self->texts[i] != NULL)
      fr_draft_type (self->draft, fr_gather_row_field (self, (FrGatherField)i), self->texts[i],
                     fr_book_get_units (self->book));
  if (self->clarity != NULL)
    fr_draft_choose_text (self->draft, fr_kind_field (self->base->kind, "clarity"), self->clarity);
  if (self->smell != NULL)
    fr_draft_choose_text (self->draft, fr_kind_field (self->base->kind, "smell"), self->smell);
  return self->draft;
}

static void
forget_draft (FrGatherRow *self)
{
  g_clear_pointer (&self->draft, fr_draft_free);
}

void
fr_gather_row_set_base (FrGatherRow *self, const FrRecord *base, gboolean forget)
{
  FrRecord *copy = fr_record_copy (base);

  g_clear_pointer (&self->base, fr_record_free);
  self->base = copy;
  if (forget)
    forget_texts (self);
  forget_draft (self);
}

gboolean
fr_gather_row_set_text (FrGatherRow *self, FrGatherField field, const char *text)
{
  g_autofree char *before = fr_gather_row_text (self, field, fr_book_get_units (self->book));

  if (g_strcmp0 (before, text) == 0)
    return FALSE;
  g_free (self->texts[field]);
  self->texts[field] = g_strdup (text);
  forget_draft (self);
  return TRUE;
}

void
fr_gather_row_choose (FrGatherRow *self, const char *field, const char *code)
{
  char **place = g_strcmp0 (field, "smell") == 0 ? &self->smell : &self->clarity;

  g_free (*place);
  *place = g_strdup (code);
  forget_draft (self);
}

void
fr_gather_row_forget (FrGatherRow *self)
{
  forget_texts (self);
  forget_draft (self);
}

const char *
fr_gather_row_get_title (FrGatherRow *self)
{
  g_return_val_if_fail (FR_IS_GATHER_ROW (self), NULL);
  return self->title;
}

const FrGathering *
fr_gather_row_get (FrGatherRow *self)
{
  return (const FrGathering *)fr_draft_get_current (draft_of (self));
}

gint64
fr_gather_row_get_id (FrGatherRow *self)
{
  return self->base->id;
}

char *
fr_gather_row_text (FrGatherRow *self, FrGatherField field, const FrUnits *units)
{
  const FrField *of = fr_gather_row_field (self, field);
  const FrAmount *amount;

  if (self->texts[field] != NULL)
    return g_strdup (self->texts[field]);
  if (of->type == FR_FIELD_TEXT)
    return g_strdup (fr_record_text (self->base, of) != NULL ? fr_record_text (self->base, of) : "");
  amount = fr_record_amount (self->base, of);
  return fr_quantity_entry_text (amount->value, amount->typed, of->quantity, units);
}

char *
fr_gather_row_problem (FrGatherRow *self, FrGatherField field, const FrUnits *units)
{
  const FrField *of = fr_gather_row_field (self, field);
  FrDraftProblem problem;
  const char *typed;

  if (!fr_gather_row_is_begun (self) || !fr_draft_problem (draft_of (self), of, &problem))
    return NULL;
  typed = fr_draft_unread (draft_of (self), of);
  if (problem.entry != FR_QUANTITY_OK)
    return fr_entry_sentence (problem.entry, typed, problem.at, of->quantity, units);
  return fr_record_sentence (&problem.record, fr_draft_get_current (draft_of (self)), units);
}

gboolean
fr_gather_row_is_begun (FrGatherRow *self)
{
  if (self->base->id != 0)
    return fr_draft_is_dirty (draft_of (self));
  for (guint i = 0; i < FR_N_GATHER_FIELDS; i++)
    {
      const char *text = self->texts[i];

      while (text != NULL && g_ascii_isspace (*text))
        text++;
      if (text != NULL && *text != '\0')
        return TRUE;
    }
  return self->clarity != NULL || self->smell != NULL;
}

double
fr_gather_row_brix (FrGatherRow *self)
{
  return fr_gathering_brix (fr_gather_row_get (self));
}

double
fr_gather_row_volume_l (FrGatherRow *self)
{
  return fr_gather_volume_l (self->book, fr_gather_row_get (self));
}

FrRecord *
fr_gather_row_record (FrGatherRow *self)
{
  if (!fr_gather_row_is_begun (self) || fr_draft_n_problems (draft_of (self)) > 0)
    return NULL;
  return fr_record_copy (fr_draft_get_current (draft_of (self)));
}

void
fr_gather_row_tell (FrGatherRow *self)
{
  g_signal_emit (self, changed_signal, 0);
}
