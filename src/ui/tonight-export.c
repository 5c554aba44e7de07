/* Paper and phone take the same words as the window. */
#include "ui/tonight-export.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "formats/ical.h"
#include "paint/sheet.h"
#include "ui/night-trace.h"

#define N_TIMES 4

static char *
value_markup (const FrFigure *figure)
{
  return figure->unit[0] != '\0' ? g_markup_printf_escaped ("<b>%s</b> %s", figure->number, figure->unit)
                                 : g_markup_printf_escaped ("<b>%s</b>", figure->number);
}

static void
add_figure (GArray *figures, GPtrArray *keep, const FrFigure *figure)
{
  char *markup = value_markup (figure);
  FrSheetFigure one = { figure->label, markup, figure->note };

  g_ptr_array_add (keep, markup);
  g_array_append_val (figures, one);
}

static void
add_time (GArray *times, GPtrArray *keep, const FrSay *say, gint64 utc, const char *word)
{
  FrSheetTime one = { NULL, word };

  if (utc == G_MININT64)
    return;
  one.time = fr_say_clock (say, utc);
  g_ptr_array_add (keep, (gpointer)one.time);
  g_array_append_val (times, one);
}

static guint
first_used (const FrPlan *plan)
{
  for (guint i = 0; i < plan->n_shares; i++)
    if (plan->shares[i].used)
      return i;
  return 0;
}

GBytes *
fr_tonight_pdf (FrTonight *tonight, const char *household, GError **error)
{
  const FrPlan *plan = fr_tonight_get_plan (tonight);
  const FrPlanInput *input = fr_tonight_get_input (tonight);
  const FrPlanWords *words = fr_tonight_get_words (tonight);
  const FrSay *say = fr_tonight_get_say (tonight);
  g_autoptr (FrNightTrace) trace = NULL;
  g_autoptr (GPtrArray) keep = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GArray) figures = g_array_new (FALSE, TRUE, sizeof (FrSheetFigure));
  g_autoptr (GArray) feeds = g_array_new (FALSE, TRUE, sizeof (FrSheetFigure));
  g_autoptr (GArray) times = g_array_new (FALSE, TRUE, sizeof (FrSheetTime));
  g_autoptr (GArray) cautions = g_array_new (FALSE, TRUE, sizeof (FrSheetCaution));
  g_autofree char *reason = NULL;
  FrSheet sheet = { 0 };

  if (plan == NULL || plan->status != FR_PLAN_OK)
    {
      g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_FAILED, _ ("There is no plan to print tonight."));
      return NULL;
    }
  trace = fr_night_trace_new (plan, input, first_used (plan), say);
  add_time (times, keep, say, input->start_utc, _ ("Switch on"));
  add_time (times, keep, say, plan->dry_utc, _ ("Bucket dry"));
  add_time (times, keep, say, plan->end_utc, _ ("Cut-off"));
  add_time (times, keep, say, plan->rise_utc, _ ("Price rises"));
  for (guint i = 0; i < words->figures->len; i++)
    add_figure (figures, keep, words->figures->pdata[i]);
  for (guint i = 0; i < words->feeds->len; i++)
    {
      const FrFeedWords *feed = words->feeds->pdata[i];

      add_figure (feeds, keep, feed->setting);
      for (guint k = 0; k < feed->lines->len; k++)
        add_figure (feeds, keep, feed->lines->pdata[k]);
    }
  for (guint i = 0; i < words->cautions->len; i++)
    {
      const FrCautionWords *caution = words->cautions->pdata[i];
      FrSheetCaution one = { caution->text, caution->severity == FR_SEVERITY_PASSED };

      g_array_append_val (cautions, one);
    }
  {
    g_autoptr (GPtrArray) parts = g_ptr_array_new ();

    g_ptr_array_add (parts, words->reason);
    if (words->danger != NULL)
      g_ptr_array_insert (parts, 0, words->danger);
    if (words->range != NULL)
      g_ptr_array_add (parts, words->range);
    for (guint i = 0; i < words->rest->len; i++)
      g_ptr_array_add (parts, words->rest->pdata[i]);
    g_ptr_array_add (parts, NULL);
    reason = g_strjoinv (" ", (char **)parts->pdata);
  }
  sheet.title = _ ("Tonight’s Boil");
  sheet.author = household;
  sheet.date = words->date;
  sheet.sentence_markup = words->sentence;
  sheet.reason = reason;
  sheet.times = (const FrSheetTime *)(gpointer)times->data;
  sheet.n_times = times->len;
  sheet.figures = (const FrSheetFigure *)(gpointer)figures->data;
  sheet.n_figures = figures->len;
  sheet.trace = fr_night_trace_view (trace);
  sheet.feed_heading = _ ("Feed");
  sheet.feeds = (const FrSheetFigure *)(gpointer)feeds->data;
  sheet.n_feeds = feeds->len;
  sheet.cautions_heading = _ ("Cautions");
  sheet.cautions = (const FrSheetCaution *)(gpointer)cautions->data;
  sheet.n_cautions = cautions->len;
  sheet.footer = household;
  return fr_sheet_pdf (&sheet, say->units.system == FR_SYSTEM_US ? FR_SHEET_LETTER : FR_SHEET_A4, NULL,
                       error);
}

char *
fr_tonight_ics (FrTonight *tonight, gint64 stamp_utc)
{
  const FrPlan *plan = fr_tonight_get_plan (tonight);
  const FrPlanInput *input = fr_tonight_get_input (tonight);
  const FrPlanWords *words = fr_tonight_get_words (tonight);
  g_autofree char *sentence = NULL, *body = NULL;
  char *uids[N_TIMES];
  FrAlarm alarms[N_TIMES];
  guint n = 0;
  char *text;

  if (plan == NULL || plan->status != FR_PLAN_OK)
    return NULL;
  sentence = fr_say_plain (words->sentence);
  body = g_strdup_printf ("%s %s", sentence, words->reason);
  {
    const struct
    {
      const char *what;
      gint64 utc;
      const char *summary;
      gint lead_min;
    } all[N_TIMES] = {
      { "on", input->start_utc, _ ("Switch the boil on"), 10 },
      { "dry", plan->dry_utc, _ ("The bucket runs dry"), 15 },
      { "off", plan->end_utc, _ ("The boil cuts off: be there"), 15 },
      { "price", plan->rise_utc, _ ("The price of electricity rises"), 10 },
    };

    for (guint i = 0; i < N_TIMES; i++)
      {
        if (all[i].utc == G_MININT64)
          continue;
        /* The same evening exported again replaces its alarms rather than doubling them. */
        uids[n] = g_strdup_printf ("%s-%" G_GINT64_FORMAT "@frostrun", all[i].what, input->start_utc / 86400);
        alarms[n] = (FrAlarm){ uids[n], all[i].utc, all[i].summary, body, all[i].lead_min };
        n++;
      }
  }
  text = fr_ical_write (alarms, n, stamp_utc);
  for (guint i = 0; i < n; i++)
    g_free (uids[i]);
  return text;
}
