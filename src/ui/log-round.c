/* The panel is a record editor on the log's defaults; nothing of it is written by itself. */
#include "ui/log-round.h"

#include <glib/gi18n-lib.h>

#include "ui/pieces.h"
#include "ui/record-editor.h"

struct _FrLogRound
{
  AdwBin parent_instance;
  FrGatherLog *log;
  FrDraft *draft;
  FrRecordEditor *editor;
  gboolean filling;
};

G_DEFINE_FINAL_TYPE (FrLogRound, fr_log_round, ADW_TYPE_BIN)

/* The moment of a round that is shown comes from the log; the rest is said here alone. */
static void
show (FrLogRound *self)
{
  const FrGathering *defaults = fr_gather_log_get_defaults (self->log);
  const FrField *field = fr_kind_field (fr_kind (FR_KIND_GATHERING), "gathered_utc");

  self->filling = TRUE;
  if (fr_record_int (fr_draft_get_current (self->draft), field) != defaults->gathered_utc)
    fr_draft_choose_int (self->draft, field, defaults->gathered_utc);
  fr_record_editor_update (self->editor);
  self->filling = FALSE;
}

static void
said_cb (FrLogRound *self)
{
  if (!self->filling)
    fr_gather_log_set_defaults (self->log, (const FrGathering *)fr_draft_get_current (self->draft));
}

static void
fr_log_round_dispose (GObject *object)
{
  FrLogRound *self = FR_LOG_ROUND (object);

  adw_bin_set_child (ADW_BIN (self), NULL); /* the editor borrows the draft */
  if (self->log != NULL)
    g_signal_handlers_disconnect_by_data (self->log, self);
  g_clear_pointer (&self->draft, fr_draft_free);
  g_clear_object (&self->log);
  G_OBJECT_CLASS (fr_log_round_parent_class)->dispose (object);
}

static void
fr_log_round_class_init (FrLogRoundClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_log_round_dispose;
}

static void
fr_log_round_init (FrLogRound *self)
{
}

GtkWidget *
fr_log_round_new (FrGatherLog *log)
{
  static const char *const fields[]
      = { "gathered_utc", "measured_by", "bucket",    "instrument", "sample_c", "sap_c",
          "clarity",      "smell",       "container", "who",        NULL };
  FrLogRound *self = g_object_new (FR_TYPE_LOG_ROUND, NULL);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12), *title = gtk_label_new (_ ("This Round"));

  self->log = g_object_ref (log);
  gtk_label_set_xalign (GTK_LABEL (title), 0);
  gtk_widget_add_css_class (title, "panel-title");
  gtk_box_append (GTK_BOX (box), title);
  gtk_box_append (GTK_BOX (box), fr_wrapped_text (_ ("For every row that is not written down yet."), "soft"));
  self->draft = fr_draft_new (&fr_gather_log_get_defaults (log)->record, TRUE);
  self->editor = fr_record_editor_new (fr_gather_log_get_book (log), self->draft, fields);
  g_signal_connect_object (self->editor, "changed", G_CALLBACK (said_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (self->editor));
  gtk_widget_add_css_class (box, "tree-panel");
  adw_bin_set_child (ADW_BIN (self), box);
  g_signal_connect_swapped (log, "changed", G_CALLBACK (show), self);
  return GTK_WIDGET (self);
}
