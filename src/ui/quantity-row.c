/* An entry row for an amount. */
#include "ui/quantity-row.h"

#include <math.h>

struct _FrQuantityRow
{
  FrEntryRow parent_instance;
  FrQuantityKind kind;
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
