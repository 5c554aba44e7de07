/* The editor of one record, built from the kind's description and the labels. A record of the book is kept
 * field by field as each entry is finished; a new record is kept as a whole when its button is pressed. */
#pragma once

#include <adwaita.h>

#include "models/book.h"
#include "models/draft.h"

G_BEGIN_DECLS

#define FR_TYPE_RECORD_EDITOR (fr_record_editor_get_type ())
G_DECLARE_FINAL_TYPE (FrRecordEditor, fr_record_editor, FR, RECORD_EDITOR, AdwBin)

/**
 * fr_record_editor_new:
 * @book: where references and units come from
 * @draft: (transfer none): what is edited; must outlive the editor
 * @only: names of the fields to show, NULL-terminated, or NULL for all
 */
FrRecordEditor *
fr_record_editor_new (FrBook *book, FrDraft *draft, const char *const *only);

FrDraft *
fr_record_editor_get_draft (FrRecordEditor *self);

/* Shows what the draft holds now. */
void
fr_record_editor_update (FrRecordEditor *self);

/* A new record shows what is missing only from now on. Returns the number of fields with something wrong. */
guint
fr_record_editor_show_missing (FrRecordEditor *self);

/* Finishes an entry that still has the focus. */
void
fr_record_editor_finish (FrRecordEditor *self);

/* Puts the keyboard into the entry of a field, if it has one. */
void fr_record_editor_grab (FrRecordEditor *self, const char *field);

/* How the household would write numbers, while the book has none of its own; NULL takes the book's. */
void
fr_record_editor_set_units (FrRecordEditor *self, const FrUnits *units, const char *currency);

/* Records that can be referred to though the book has them not yet. */
void
fr_record_editor_add_choice (FrRecordEditor *self, FrKindId kind, gint64 id, const char *label);

/* Who keeps the record in another way than by its own edits: gives the change for @record as it would become, NULL when there is
 * none. Called as each entry is finished, whether or not the draft is new. */
typedef FrChange *(*FrRecordKeep) (FrBook *book, const FrRecord *record, gpointer data);
void fr_record_editor_set_keep (FrRecordEditor *self, FrRecordKeep keep, gpointer data);

G_END_DECLS
