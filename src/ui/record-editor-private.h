/* What the files of the record editor share: its state, and one row of it. */
#pragma once

#include "ui/field-labels.h"
#include "ui/record-editor.h"
#include "ui/vessel-view.h"

G_BEGIN_DECLS

typedef struct
{
  FrRecordEditor *editor;
  const FrFieldLabel *label;
  const FrField *field;
  GtkWidget *widget;
  GtkWidget *group;
  GtkWidget *value; /* the switch of a boolean, the label of a fixed field */
  GArray *ids;      /* of a reference: the id of each choice */
  char *unread;     /* of an instant or a clock: what could not be read, and why */
  char *reason;
} FrEditorRow;

typedef struct
{
  FrKindId kind;
  gint64 id;
  char *label;
} FrEditorChoice;

struct _FrRecordEditor
{
  AdwBin parent_instance;
  GtkBox *box;
  FrVesselView *vessel_view;
  FrBook *book;
  FrDraft *draft;
  GPtrArray *rows;
  GArray *choices;
  const FrUnits *units;
  char *currency;
  FrRecordKeep keep; /* or NULL */
  gpointer keep_data;
  gboolean updating;
  gboolean show_missing;
};

/* How numbers and money are written in this editor. */
const FrUnits *
fr_record_editor_units (FrRecordEditor *self);
const char *
fr_record_editor_currency (FrRecordEditor *self);

/* What is wrong with a row's field, in words, or NULL. Free it. */
char *
fr_editor_row_sentence (FrRecordEditor *self, FrEditorRow *row);

/* Whether it is a time of day, kept in minutes after midnight. */
gboolean
fr_editor_row_is_clock (const FrEditorRow *row);

/* Sets the row's widget to what the draft holds. */
void
fr_editor_row_show (FrRecordEditor *self, FrEditorRow *row);

G_END_DECLS
