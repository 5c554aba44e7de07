/* An entry row for an amount. */
#include "ui/quantity-row.h"

#include <math.h>

#include "words/entry-words.h"

struct _FrQuantityRow
{
  FrEntryRow parent_instance;
  FrQuantityKind kind;
  FrQuantityTake take;
  gpointer data;
};

G_DEFINE_FINAL_TYPE (FrQuantityRow, fr_quantity_row, FR_TYPE_ENTRY_ROW)

static void
fr_quantity_row_class_init (FrQuantityRowClass *klass)
{
}

static void
fr_quantity_row_init (FrQuantityRow *self)
{
}

GtkWidget *
fr_quantity_row_new (const char *title, const char *note, FrQuantityKind kind)
{
  FrQuantityRow *self = g_object_new (FR_TYPE_QUANTITY_ROW, NULL);

  self->kind = kind;
  fr_entry_row_set_up (FR_ENTRY_ROW (self), title, note);
  gtk_widget_add_css_class (GTK_WIDGET (self), "quantity");
  return GTK_WIDGET (self);
}

void
fr_quantity_row_set (FrQuantityRow *self, double value, const char *typed, const FrUnits *units,
                     const char *unit)
{
  g_autofree char *rest = NULL;
  g_autofree char *edit = fr_quantity_entry_text (value, typed, self->kind, units);
  const char *own = NULL;

  fr_quantity_format (value, self->kind, units, -1, &rest, &own);
  if (isnan (value))
    fr_entry_row_set_texts (FR_ENTRY_ROW (self), "", "", unit != NULL ? unit : own);
  else
    fr_entry_row_set_texts (FR_ENTRY_ROW (self), rest, edit, unit != NULL ? unit : own);
}

void
fr_quantity_row_set_unread (FrQuantityRow *self, const char *text, const FrUnits *units, const char *unit)
{
  fr_entry_row_set_texts (FR_ENTRY_ROW (self), text, text,
                          unit != NULL ? unit : fr_quantity_unit (self->kind, units));
}

FrQuantityKind
fr_quantity_row_get_kind (FrQuantityRow *self)
{
  return self->kind;
}

static void
typed_cb (FrQuantityRow *self, const char *text)
{
  self->take (self, text, FALSE, self->data);
}

static void
finished_cb (FrQuantityRow *self, const char *text)
{
  self->take (self, text, TRUE, self->data);
}

/* Each key was taken; Escape takes them back. */
static void
restored_cb (FrQuantityRow *self)
{
  g_autofree char *text = g_strdup (fr_entry_row_get_text (FR_ENTRY_ROW (self)));

  self->take (self, text, TRUE, self->data);
}

void
fr_quantity_row_on_text (FrQuantityRow *self, FrQuantityTake take, gpointer data)
{
  g_return_if_fail (self->take == NULL);
  self->take = take;
  self->data = data;
  g_signal_connect (self, "typed", G_CALLBACK (typed_cb), NULL);
  g_signal_connect (self, "finished", G_CALLBACK (finished_cb), NULL);
  g_signal_connect (self, "restored", G_CALLBACK (restored_cb), NULL);
}

gboolean
fr_quantity_row_read (FrQuantityRow *self, const char *text, gboolean finished, const FrUnits *units,
                      double *value_out)
{
  FrQuantityProblem problem;
  gsize at;

  if (fr_quantity_parse (text, self->kind, units, value_out, &problem, &at) || problem == FR_QUANTITY_EMPTY)
    {
      fr_entry_row_set_problem (FR_ENTRY_ROW (self), NULL);
      return TRUE;
    }
  if (finished)
    {
      g_autofree char *sentence = fr_entry_sentence (problem, text, at, self->kind, units);

      fr_quantity_row_set_unread (self, text, units, NULL);
      fr_entry_row_set_problem (FR_ENTRY_ROW (self), sentence);
    }
  return FALSE;
}
