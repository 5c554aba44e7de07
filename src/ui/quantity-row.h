/* An entry row for an amount: at rest the rounded number in the household's unit, while edited what was
 * typed. */
#pragma once

#include "domain/units/quantity.h"
#include "ui/entry-row.h"

G_BEGIN_DECLS

#define FR_TYPE_QUANTITY_ROW (fr_quantity_row_get_type ())
G_DECLARE_FINAL_TYPE (FrQuantityRow, fr_quantity_row, FR, QUANTITY_ROW, FrEntryRow)

GtkWidget *
fr_quantity_row_new (const char *title, const char *note, FrQuantityKind kind);

/**
 * fr_quantity_row_set:
 * @value: in the kind's inner unit, NAN unknown
 * @typed: the words it was typed in, or NULL
 * @units: how the household writes numbers
 * @unit: shown instead of the kind's unit, for prices "¢/kWh"; or NULL
 */
void
fr_quantity_row_set (FrQuantityRow *self, double value, const char *typed, const FrUnits *units,
                     const char *unit);

/* A text that could not be read stays as it is. */
void
fr_quantity_row_set_unread (FrQuantityRow *self, const char *text, const FrUnits *units, const char *unit);

FrQuantityKind
fr_quantity_row_get_kind (FrQuantityRow *self);

/* A text came: after a key, or @finished by Enter, by leaving, or by Escape with what stood there before. */
typedef void (*FrQuantityTake) (FrQuantityRow *row, const char *text, gboolean finished, gpointer data);

/* For a row whose dialog follows each key; @data must outlive the row. */
void fr_quantity_row_on_text (FrQuantityRow *self, FrQuantityTake take, gpointer data);

/**
 * fr_quantity_row_read:
 * @finished: then a text that cannot be read is told of under the row; half a number is no mistake yet
 * @value_out: the value, NAN for nothing typed
 *
 * Returns: FALSE when @text cannot be read
 */
gboolean fr_quantity_row_read (FrQuantityRow *self, const char *text, gboolean finished, const FrUnits *units,
                               double *value_out);

G_END_DECLS
