/* What the tests of the edits share: a book, what is in it, and taking a change there and back. */
#pragma once

#include <string.h>

#include "models/edit.h"
#include "words/entry-words.h"

static inline FrBook *
book_new (void)
{
  g_autoptr (GError) error = NULL;
  FrBook *book = fr_book_open (":memory:", &error);

  g_assert_no_error (error);
  fr_book_set_season (book, 2027, NULL, &error); /* that the tests are in, whatever the clock says */
  g_assert_no_error (error);
  return book;
}

static inline guint
count (FrBook *book, FrKindId kind)
{
  return fr_record_list_get_size (fr_book_get_list (book, kind));
}

static inline const FrRecord *
last (FrBook *book, FrKindId kind)
{
  return fr_record_list_get (fr_book_get_list (book, kind), count (book, kind) - 1);
}

/* All records, to compare by. */
static inline GPtrArray *
snapshot (FrBook *book)
{
  GPtrArray *all = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_record_free);

  for (guint k = 0; k < FR_N_KINDS; k++)
    for (guint i = 0; i < count (book, (FrKindId)k); i++)
      g_ptr_array_add (all, fr_record_copy (fr_record_list_get (fr_book_get_list (book, (FrKindId)k), i)));
  return all;
}

static inline gboolean
same (GPtrArray *a, GPtrArray *b)
{
  if (a->len != b->len)
    return FALSE;
  for (guint i = 0; i < a->len; i++)
    if (!fr_record_equal (a->pdata[i], b->pdata[i]))
      return FALSE;
  return TRUE;
}

/* Applies it; undo and redo must go there and back. */
static inline void
take (FrBook *book, FrChange *change, const GError *failure, const char *label)
{
  g_autoptr (FrChange) owned = change;
  g_autoptr (GPtrArray) before = snapshot (book);
  g_autoptr (GPtrArray) after = NULL, undone = NULL, redone = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *sentence = NULL;

  g_assert_no_error (failure);
  g_assert_nonnull (owned);
  g_assert_cmpstr (owned->label, ==, label);
  sentence = fr_change_sentence (owned->label, owned->subject);
  g_assert_cmpstr (sentence, !=, "Changed");
  g_assert_true (fr_book_apply (book, owned, &error));
  g_assert_no_error (error);
  after = snapshot (book);
  g_assert_false (same (before, after));
  g_assert_true (fr_book_undo (book, &error));
  undone = snapshot (book);
  g_assert_true (same (before, undone));
  g_assert_true (fr_book_redo (book, &error));
  redone = snapshot (book);
  g_assert_true (same (after, redone));
}

#define TAKE(label, call)                                                                                    \
  G_STMT_START                                                                                               \
  {                                                                                                          \
    GError *error = NULL;                                                                                    \
    FrChange *change = call;                                                                                 \
    take (book, change, error, label);                                                                       \
  }                                                                                                          \
  G_STMT_END

/* Refused with a sentence that has what is asked for in it. */
#define REFUSE(part, call)                                                                                   \
  G_STMT_START                                                                                               \
  {                                                                                                          \
    g_autoptr (GError) error = NULL;                                                                         \
    g_autoptr (FrChange) change = call;                                                                      \
    g_assert_null (change);                                                                                  \
    g_assert_error (error, FR_EDIT_ERROR, FR_EDIT_ERROR_REFUSED);                                            \
    if (strstr (error->message, part) == NULL)                                                               \
      g_error ("“%s” is not in “%s”", part, error->message);                                                 \
  }                                                                                                          \
  G_STMT_END

#define NOTHING(call)                                                                                        \
  G_STMT_START                                                                                               \
  {                                                                                                          \
    g_autoptr (GError) error = NULL;                                                                         \
    g_autoptr (FrChange) change = call;                                                                      \
    g_assert_no_error (error);                                                                               \
    g_assert_null (change);                                                                                  \
  }                                                                                                          \
  G_STMT_END
