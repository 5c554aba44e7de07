/* What each field of each kind is called to people: label, note, group, the words of its codes, and for which
 * shape or feed it is shown. One table, so that wording is changed in one place and a new kind is a few lines
 * here. */
#pragma once

#include "domain/records/kinds.h"

G_BEGIN_DECLS

/**
 * FrFieldLabel:
 * @kind, @field: which field; a field may stand several times with different @when
 * @group: heading of its group; a new heading begins a new group
 * @label: what it is called
 * @note: what to know when filling it in, or NULL
 * @when: "shape=cylinder,cone" when it only applies to some codes of another field, else NULL
 * @fixed: shown, not edited here
 */
typedef struct
{
  FrKindId kind;
  const char *field;
  const char *group;
  const char *label;
  const char *note;
  const char *when;
  gboolean fixed;
} FrFieldLabel;

/* The rows of a kind in the order an editor shows them. Strings are not translated yet: use the functions
 * below. */
const FrFieldLabel *
fr_field_labels (FrKindId kind, guint *n_out);

/* Whether the row applies to the record as it is. */
gboolean
fr_field_label_applies (const FrFieldLabel *label, const FrRecord *record);

const char *
fr_field_label_group (const FrFieldLabel *label);
const char *
fr_field_label_text (const FrFieldLabel *label);
const char *
fr_field_label_note (const FrFieldLabel *label); /* NULL when there is none */

/* The word for a code of a field; the code itself when the table has none. */
const char *
fr_code_word (const char *field, const char *code);

/* "Cookers"; "Cooker"; "Add Cooker"; what an empty list says. */
const char *
fr_kind_plural (FrKindId kind);
const char *
fr_kind_singular (FrKindId kind);
const char *
fr_kind_add (FrKindId kind);
const char *
fr_kind_empty (FrKindId kind);

G_END_DECLS
