/* One record in a dialog of its own, for what belongs to something else: a measure of a trunk, a tap, a season. Nothing is kept until
 * Keep is pressed, which is one step of undo; a record of the book can be taken out of it here too. */
#pragma once

#include "ui/window.h"

G_BEGIN_DECLS

#define FR_TYPE_RECORD_DIALOG (fr_record_dialog_get_type ())
G_DECLARE_FINAL_TYPE (FrRecordDialog, fr_record_dialog, FR, RECORD_DIALOG, AdwWindow)

/**
 * fr_record_dialog_new:
 * @window: where it stands, and the way to the book
 * @record: (transfer none): what is edited; with an id the book has not, it is added
 * @title: of the dialog, or NULL for the kind's
 * @only: the fields to show, NULL-terminated, or NULL for all
 */
GtkWidget *fr_record_dialog_new (FrWindow *window, const FrRecord *record, const char *title, const char *const *only);

/* The field that the keyboard goes to first. */
void fr_record_dialog_begin_at (FrRecordDialog *self, const char *field);

/* What is asked before @record is kept, a sentence to be freed, or NULL. */
typedef char *(*FrRecordAsk) (const FrRecord *record, gpointer data);
/* A question stands over the entries, and Keep becomes Keep Anyway, which sets the record's "confirmed"; another entry takes both back. */
void fr_record_dialog_on_ask (FrRecordDialog *self, FrRecordAsk ask, gpointer data, GDestroyNotify destroy);

G_END_DECLS
