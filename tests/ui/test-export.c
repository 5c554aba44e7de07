/* Tonight on paper and on the phone, from the demo's book: the page read back by pdftotext, the alarms by
 * libical. */
#include <libical/ical.h>
#include <string.h>

#include "models/tonight.h"
#include "ui/clock.h"
#include "ui/tonight-export.h"
#include "window-tools.h"

static FrBook *
demo_book (const char *name)
{
  FrWindow *window = open_window (name, TOOLS_DEMO);
  FrBook *book = g_object_ref (fr_window_get_book (window));

  gtk_window_destroy (GTK_WINDOW (window));
  settle ();
  return book;
}

/* The words of the page in the order they stand on it, every space as one blank. */
static char *
pdf_text (GBytes *pdf, const char *name)
{
  g_autofree char *path = tools_path (name), *out = NULL;
  char *command[] = { "pdftotext", "-enc", "UTF-8", path, "-", NULL };
  g_autoptr (GError) error = NULL;
  int status;

  g_file_set_contents (path, g_bytes_get_data (pdf, NULL), (gssize)g_bytes_get_size (pdf), &error);
  g_assert_no_error (error);
  g_spawn_sync (NULL, command, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &out, NULL, &status, &error);
  g_assert_no_error (error);
  g_assert_cmpint (status, ==, 0);
  return plain_spaces (out);
}

static void
assert_clock (const char *text, const FrSay *say, gint64 utc)
{
  g_autofree char *clock = NULL;

  if (utc == G_MININT64)
    return;
  clock = fr_say_clock (say, utc);
  assert_shows (text, clock);
}

static void
test_page (void)
{
  g_autoptr (FrBook) book = demo_book ("page.frostrun");
  g_autoptr (FrTonight) tonight = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) pdf = NULL;
  g_autofree char *text = NULL, *sentence = NULL;
  const FrPlanWords *words;
  const FrPlan *plan;
  const FrSay *say;

  g_assert_true (fr_clock_hold ("2026-03-19T18:30"));
  tonight = fr_tonight_new (book, fr_clock_now);
  words = fr_tonight_get_words (tonight);
  plan = fr_tonight_get_plan (tonight);
  say = fr_tonight_get_say (tonight);
  pdf = fr_tonight_pdf (tonight, "Gable End", &error);
  g_assert_no_error (error);
  text = pdf_text (pdf, "page.pdf");
  sentence = fr_say_plain (words->sentence);
  assert_shows (text, sentence);
  assert_shows (text, words->reason);
  assert_shows (text, words->range);
  assert_shows (text, words->date);
  assert_shows (text, "Gable End");
  assert_clock (text, say, fr_tonight_get_input (tonight)->start_utc);
  assert_clock (text, say, plan->dry_utc);
  assert_clock (text, say, plan->end_utc);
  assert_clock (text, say, plan->rise_utc);
  for (guint i = 0; i < words->figures->len; i++)
    assert_shows (text, ((const FrFigure *)words->figures->pdata[i])->number);
  for (guint i = 0; i < words->cautions->len; i++)
    assert_shows (text, ((const FrCautionWords *)words->cautions->pdata[i])->text);
}

static void
test_no_page (void)
{
  g_autoptr (FrBook) book = demo_book ("none.frostrun");
  g_autoptr (FrTonight) tonight = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (fr_clock_hold ("2026-03-19T18:30"));
  tonight = fr_tonight_new (book, fr_clock_now);
  fr_tonight_set_cooker_on (tonight, 0, FALSE);
  g_assert_null (fr_tonight_pdf (tonight, "Gable End", &error));
  g_assert_nonnull (error);
  g_assert_null (fr_tonight_ics (tonight, 0));
}

/* The same low hours every night, so that the price rises on a Sunday too. */
static void
price_every_night (FrBook *book)
{
  g_autoptr (FrChange) change = fr_change_new ("edit", NULL);
  const FrRecord *tariff = fr_book_find (book, FR_KIND_TARIFF, 1);
  g_autoptr (FrRecord) after = fr_record_copy (tariff);
  g_autoptr (GError) error = NULL;

  g_free (((FrTariffRecord *)after)->periods);
  ((FrTariffRecord *)after)->periods = g_strdup ("01-01 12-31 weekday 19:00 07:00 9.8\n"
                                                 "01-01 12-31 weekday 07:00 19:00 20.3\n"
                                                 "01-01 12-31 weekend 19:00 07:00 9.8\n"
                                                 "01-01 12-31 weekend 07:00 19:00 20.3\n");
  fr_change_add (change, tariff, after);
  fr_book_apply (book, change, &error);
  g_assert_no_error (error);
}

static gint64
seconds (icaltimetype time)
{
  return (gint64)icaltime_as_timet_with_zone (time, icaltimezone_get_utc_timezone ());
}

static void
assert_alarms (const char *book_name, const char *now, gint64 off_s, gint64 offset_start_s,
               gint64 offset_end_s)
{
  g_autoptr (FrBook) book = demo_book (book_name);
  g_autoptr (FrTonight) tonight = NULL;
  g_autofree char *text = NULL, *sentence = NULL;
  const FrPlan *plan;
  const FrPlanInput *input;
  icalcomponent *calendar;
  /* The evening's sap, for the demo's own is of one evening only. */
  static const char *const typed[] = { "24 L", "2.2", "3 C" };
  FrQuantityProblem problem;
  gint64 wanted[4];
  gsize at;
  guint n = 0;

  price_every_night (book);
  g_assert_true (fr_clock_hold (now));
  tonight = fr_tonight_new (book, fr_clock_now);
  for (guint i = 0; i < G_N_ELEMENTS (typed); i++)
    g_assert_true (fr_tonight_type_amount (tonight, (FrTonightAmount)i, typed[i], &problem, &at));
  plan = fr_tonight_get_plan (tonight);
  input = fr_tonight_get_input (tonight);
  g_assert_cmpint (plan->status, ==, FR_PLAN_OK);
  g_assert_cmpint (fr_zone_local (input->zone, input->start_utc).offset_s, ==, offset_start_s);
  g_assert_cmpint (fr_zone_local (input->zone, plan->end_utc).offset_s, ==, offset_end_s);
  wanted[0] = input->start_utc;
  wanted[1] = plan->dry_utc;
  wanted[2] = plan->end_utc;
  wanted[3] = plan->rise_utc;
  sentence = fr_say_plain (fr_tonight_get_words (tonight)->sentence);
  text = fr_tonight_ics (tonight, fr_tonight_get_now (tonight));
  calendar = icalparser_parse_string (text);
  g_assert_nonnull (calendar);
  g_assert_cmpint (icalcomponent_count_errors (calendar), ==, 0);
  for (icalcomponent *event = icalcomponent_get_first_component (calendar, ICAL_VEVENT_COMPONENT);
       event != NULL; event = icalcomponent_get_next_component (calendar, ICAL_VEVENT_COMPONENT))
    {
      icalcomponent *ring = icalcomponent_get_first_component (event, ICAL_VALARM_COMPONENT);

      g_assert_cmpuint (n, <, 4);
      g_assert_cmpint (wanted[n], !=, G_MININT64);
      g_assert_true (icaltime_is_utc (icalcomponent_get_dtstart (event)));
      g_assert_cmpint (seconds (icalcomponent_get_dtstart (event)), ==, wanted[n]);
      g_assert_nonnull (ring);
      /* before it, not after */
      g_assert_cmpint (icaldurationtype_as_int (icalproperty_get_trigger (icalcomponent_get_first_property (
                                                                              ring, ICAL_TRIGGER_PROPERTY))
                                                    .duration),
                       <, 0);
      {
        g_autofree char *described = plain_spaces (icalcomponent_get_description (event));

        assert_shows (described, sentence);
      }
      n++;
    }
  g_assert_cmpuint (n, ==, 4);
  g_assert_cmpint (wanted[3] - wanted[0], ==, off_s);
  icalcomponent_free (calendar);
}

/* The tariff is low from 19:00 to 07:00: twelve hours on 19 March 2026. */
static void
test_alarms (void)
{
  assert_alarms ("alarms.frostrun", "2026-03-19T18:30", 12 * 3600, -4 * 3600, -4 * 3600);
}

/* Toronto's clock goes from 02:00 EST to 03:00 EDT on Sunday 14 March 2027 (zoneinfo): from 19:00 to 07:00
 * the night has eleven hours. */
static void
test_spring (void)
{
  assert_alarms ("spring.frostrun", "2027-03-13T18:30", 11 * 3600, -5 * 3600, -4 * 3600);
}

int
main (int argc, char **argv)
{
  tools_init (&argc, &argv);
  g_test_add_func ("/export/page", test_page);
  g_test_add_func ("/export/no-page", test_no_page);
  g_test_add_func ("/export/alarms", test_alarms);
  g_test_add_func ("/export/spring-alarms", test_spring);
  return tools_run ();
}
