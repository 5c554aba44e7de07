/* The dialogs of sap. What each shows is a list of fields; wording, checks and editing are the record
 * editor's. */
#include "ui/sap-dialogs.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "domain/plan/gathering.h"
#include "models/edit.h"
#include "ui/record-dialog.h"
#include "words/ask-words.h"

static const char *const moved_fields[] = { "container", "target", "volume_l", "poured_utc", "note", NULL };
static const char *const boiled_fields[] = { "container",    "volume_l",   "night",
                                             "reading_brix", "instrument", "sample_c",
                                             "poured_utc",   "note",       NULL };
static const char *const lost_fields[] = { "container", "reason", "volume_l", "poured_utc", "note", NULL };
static const char *const ice_fields[]
    = { "container", "volume_l", "reading_brix", "instrument", "sample_c", "poured_utc", "note", NULL };

static char *
ask_cb (const FrRecord *record, gpointer data)
{
  return fr_sap_question (FR_SEASON (data), NULL, record);
}

static void
present (FrWindow *window, FrSeason *season, const FrRecord *record, const char *title,
         const char *const *only)
{
  GtkWidget *dialog = fr_record_dialog_new (window, record, title, only);

  if (season != NULL)
    fr_record_dialog_on_ask (FR_RECORD_DIALOG (dialog), ask_cb, g_object_ref (season), g_object_unref);
  fr_record_dialog_begin_at (FR_RECORD_DIALOG (dialog),
                             record->kind->id == FR_KIND_CONTAINER ? "name" : "volume_l");
  gtk_window_present (GTK_WINDOW (dialog));
}

static FrRecord *
new_record (FrWindow *window, FrKindId kind)
{
  g_autoptr (GError) error = NULL;
  FrRecord *record = fr_book_new_record (fr_window_get_book (window), kind, 0, &error);

  if (record == NULL)
    fr_window_show_error (window, error);
  return record;
}

static const char *const *
pour_fields (const char *reason)
{
  if (g_strcmp0 (reason, "moved") == 0)
    return moved_fields;
  if (g_strcmp0 (reason, "boiled") == 0)
    return boiled_fields;
  return g_strcmp0 (reason, "ice") == 0 ? ice_fields : lost_fields;
}

static const char *
pour_title (const char *reason)
{
  if (g_strcmp0 (reason, "moved") == 0)
    return _ ("Move Sap");
  if (g_strcmp0 (reason, "boiled") == 0)
    return _ ("Sap to the Boil");
  return g_strcmp0 (reason, "ice") == 0 ? _ ("Ice Thrown Out") : _ ("Sap Lost or Drunk");
}

/* A boil belongs to the night that is kept for this evening, if there is one. */
static gint64
night_of_today (FrSeason *season)
{
  FrRecordList *list = fr_book_get_list (fr_season_get_book (season), FR_KIND_NIGHT);
  g_autofree char *iso = fr_date_to_iso (fr_season_get_today (season));

  for (guint i = fr_record_list_get_size (list); i-- > 0;)
    {
      const FrNight *night = (const FrNight *)fr_record_list_get (list, i);

      if (!night->record.archived && g_strcmp0 (night->evening, iso) == 0)
        return night->record.id;
    }
  return 0;
}

void
fr_sap_pour (FrWindow *window, FrSeason *season, gint64 container, const char *reason)
{
  g_autoptr (FrRecord) record = new_record (window, FR_KIND_POUR);
  FrPour *pour = (FrPour *)record;

  if (record == NULL)
    return;
  pour->container = container;
  pour->poured_utc = fr_season_get_now (season) / 60 * 60;
  fr_edit_set_text (record, "reason", reason);
  if (g_strcmp0 (reason, "boiled") == 0)
    pour->night = night_of_today (season);
  present (window, season, record, pour_title (reason), pour_fields (reason));
}

void
fr_sap_look (FrWindow *window, FrSeason *season, gint64 container)
{
  g_autoptr (FrRecord) record = new_record (window, FR_KIND_DIP);
  FrDip *dip = (FrDip *)record;

  if (record == NULL)
    return;
  dip->container = container;
  dip->found_utc = fr_season_get_now (season) / 60 * 60;
  present (window, season, record, _ ("Look Into a Container"), NULL);
}

void
fr_sap_add_container (FrWindow *window)
{
  g_autoptr (FrRecord) record = new_record (window, FR_KIND_CONTAINER);

  if (record != NULL)
    present (window, NULL, record, NULL, NULL);
}

void
fr_sap_edit (FrWindow *window, FrSeason *season, const FrRecord *record)
{
  const char *const *only = NULL;

  if (record->kind->id == FR_KIND_POUR)
    only = pour_fields (((const FrPour *)record)->reason);
  present (window, season, record, NULL, only);
}

/* The first is the one that matters most; the others come when it is answered otherwise. */
char *
fr_sap_question (FrSeason *season, const FrBush *bush, const FrRecord *record)
{
  g_autoptr (GArray) questions = fr_season_ask (season, bush, record);
  const FrQuestion *first = questions->len > 0 ? &g_array_index (questions, FrQuestion, 0) : NULL;
  const FrRecord *container
      = first != NULL && (first->code == FR_ASK_OVERFLOW || first->code == FR_ASK_NEGATIVE)
            ? fr_book_find (fr_season_get_book (season), FR_KIND_CONTAINER, first->other)
            : NULL;

  double own_l = NAN;

  if (first == NULL)
    return NULL;
  if (record->kind->id == FR_KIND_GATHERING)
    {
      const FrGathering *gathering = (const FrGathering *)record;

      own_l = fr_gathering_l (gathering,
                              (const FrContainer *)fr_book_find (fr_season_get_book (season),
                                                                 FR_KIND_CONTAINER, gathering->bucket),
                              FR_STOCK_SAP_BRIX);
    }
  return fr_question_sentence (first, container != NULL ? fr_record_label (container) : NULL, own_l,
                               fr_season_get_say (season));
}
