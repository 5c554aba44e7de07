/* A row with a title at the left, an entry at the right, its unit behind it, and a sentence under both when
 * something is wrong. At rest it shows one text (rounded, with the unit); while it has the focus it shows
 * another (as typed). Enter and leaving finish an edit; Escape takes it back. The row never decides whether a
 * text is right.
 *
 * Signals:
 * - "typed" (const char *text): the text differs after a key
 * - "finished" (const char *text): an edit is over and the text differs from what was set
 * - "restored" (): Escape took an edit back */
#pragma once

#include <adwaita.h>

G_BEGIN_DECLS

#define FR_TYPE_ENTRY_ROW (fr_entry_row_get_type ())
G_DECLARE_DERIVABLE_TYPE (FrEntryRow, fr_entry_row, FR, ENTRY_ROW, AdwPreferencesRow)

struct _FrEntryRowClass
{
  AdwPreferencesRowClass parent_class;
};

/* @title names the entry to screen readers too; @note may be NULL. */
GtkWidget *
fr_entry_row_new (const char *title, const char *note);
void
fr_entry_row_set_up (FrEntryRow *self, const char *title, const char *note);

/* What is shown at rest with @unit behind it (NULL: none), and what is there to edit. A text being edited
 * stays. */
void
fr_entry_row_set_texts (FrEntryRow *self, const char *rest, const char *edit, const char *unit);

/* Room for about this many characters. */
void
fr_entry_row_set_width (FrEntryRow *self, int chars);

/* NULL: nothing is wrong. */
void
fr_entry_row_set_problem (FrEntryRow *self, const char *sentence);
const char *
fr_entry_row_get_problem (FrEntryRow *self);

/* What stands in the entry now. */
const char *
fr_entry_row_get_text (FrEntryRow *self);
/* As if the person had typed it and pressed Enter. */
void
fr_entry_row_enter (FrEntryRow *self, const char *text);
/* Finishes an edit that is still under way. */
void
fr_entry_row_finish (FrEntryRow *self);
void
fr_entry_row_grab (FrEntryRow *self);
/* Whether a person has typed something that is not finished. */
gboolean
fr_entry_row_is_modified (FrEntryRow *self);

G_END_DECLS
