/* An edit in the making: a change that grows step by step, each record checked before it is added, so that words that help stand under
 * the entry; the store's are the last ones. What the files of the edits (bush-edit.h, season-edit.h) share. */
#pragma once

#include "models/book.h"

G_BEGIN_DECLS

#define FR_EDIT_ERROR (fr_edit_error_quark ())
GQuark fr_edit_error_quark (void);

typedef enum
{
  FR_EDIT_ERROR_REFUSED /* a value that may not be kept, a record that is not there */
} FrEditError;

/* A change while it grows. Records new to the book are counted by kind, so that each gets a number of its own. */
typedef struct
{
  FrBook *book;
  FrChange *change;
  guint n_new[FR_N_KINDS];
} FrEdit;

void fr_edit_begin (FrEdit *edit, FrBook *book, const char *label, const char *subject);
/* A record not yet in the book, with number and identity; free it. NULL and @error when the book cannot be read. */
FrRecord *fr_edit_new_record (FrEdit *edit, FrKindId kind, GError **error);
/* Adds a step, or refuses it in words when @after may not be kept. @whose NULL, or the name to put before the sentence where many
 * records are edited at once. */
gboolean fr_edit_step (FrEdit *edit, const FrRecord *before, const FrRecord *after, const char *whose, GError **error);
/* Takes a record out: for good, or by putting it away where something of it has to stay. */
void fr_edit_take_out (FrEdit *edit, const FrRecord *record, gboolean has_to_stay);
/* The change, or NULL when it would change nothing. The edit is over. */
FrChange *fr_edit_end (FrEdit *edit);
/* Throws away what was begun; gives NULL, to be returned. */
FrChange *fr_edit_drop (FrEdit *edit);

/* Always NULL; @error is set to the sentence. */
gpointer fr_edit_refuse (GError **error, const char *sentence);

/* A text without the blanks around it; NULL or nothing left: unknown. */
void fr_edit_set_text (FrRecord *record, const char *field, const char *text);
/* A number; the same one again keeps how it was typed, unless it was typed anew. */
void fr_edit_set_amount (FrAmount *amount, double value, const char *typed);
/* One field of any type but a reference: @text for texts and codes, @amount for amounts and switches (0 or 1); for an amount @text
 * is how it was typed, or NULL. */
void fr_edit_set_field (FrRecord *record, const FrField *field, const char *text, double amount, const char *typed);

/* For a kind of which a book holds one: a copy to edit, new when there is none yet, and what it was or NULL. */
FrRecord *fr_edit_single_copy (FrEdit *edit, FrKindId kind, const FrRecord **before_out, GError **error);
/* Whether the record says no more than none at all. */
gboolean fr_edit_says_nothing (const FrRecord *record);
/* Ends it; nothing is kept for a record that would say nothing. */
FrChange *fr_edit_end_single (FrEdit *edit, const FrRecord *before, const FrRecord *after, GError **error);

G_END_DECLS
