/* How long one key on the first page takes, in display frames of 16.7 ms: the whole answer (the book's
 * evening, the plan, its words) and one drawing of the night. bench-tonight DEMO_BOOK_JSON; medians. Not part
 * of the tests. */
#include <math.h>
#include <stdio.h>

#include "formats/book-json.h"
#include "formats/json-text.h"
#include "models/tonight.h"
#include "ui/night-trace.h"

#define N_RUNS 301
#define FRAME_S (1.0 / 60)

/* The demo's evening, 18:30 in Toronto on 19 March 2026 (EDT, -4 h). */
static gint64
demo_clock (const FrZoneTable *zone)
{
  return 1773959400;
}

static int
compare (const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;

  return x < y ? -1 : x > y;
}

static void
report (const char *what, double *seconds)
{
  qsort (seconds, N_RUNS, sizeof *seconds, compare);
  printf ("%s: %.2f ms, %.3f of a frame (slowest %.2f ms)\n", what, 1e3 * seconds[N_RUNS / 2],
          seconds[N_RUNS / 2] / FRAME_S, 1e3 * seconds[N_RUNS - 1]);
}

static FrBook *
demo_book (const char *path)
{
  g_autofree char *text = NULL;
  g_autoptr (JsonNode) root = NULL;
  g_autoptr (GPtrArray) records = NULL;
  g_autoptr (FrChange) change = fr_change_new ("demo-book", NULL);
  g_autoptr (GError) error = NULL;
  FrBook *book = fr_book_open (":memory:", &error);
  gsize length;

  if (!g_file_get_contents (path, &text, &length, &error)
      || (root = fr_json_parse (text, length, &error)) == NULL
      || (records = fr_book_from_json (root, &error)) == NULL)
    g_error ("%s", error->message);
  for (guint i = 0; i < records->len; i++)
    fr_change_add (change, NULL, records->pdata[i]);
  if (!fr_book_apply (book, change, &error))
    g_error ("%s", error->message);
  return book;
}

static void
type (FrTonight *tonight, guint i)
{
  g_autofree char *text = g_strdup_printf ("%u.%u", 12 + i % 20, i % 10);
  FrQuantityProblem problem;
  gsize at;

  if (!fr_tonight_type_amount (tonight, FR_TONIGHT_SAP_L, text, &problem, &at)
      || fr_tonight_get_plan (tonight)->status != FR_PLAN_OK)
    g_error ("no plan for %s L", text);
}

static void
draw (FrTonight *tonight, PangoContext *context)
{
  g_autoptr (FrNightTrace) trace = fr_night_trace_new (
      fr_tonight_get_plan (tonight), fr_tonight_get_input (tonight), 0, fr_tonight_get_say (tonight));
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, 940, 290);
  cairo_t *cr = cairo_create (surface);
  FrPalette palette = { FR_THEME_LIGHT, FALSE };
  FrTraceFrame frame;

  fr_trace_draw (cr, context, &palette, fr_night_trace_view (trace), 940, 290, 1, &frame, NULL);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

int
main (int argc, char **argv)
{
  g_autoptr (FrBook) book = demo_book (argv[1]);
  g_autoptr (FrTonight) tonight = fr_tonight_new (book, demo_clock);
  g_autoptr (PangoFontMap) map = pango_cairo_font_map_new ();
  PangoContext *context = pango_font_map_create_context (map);
  PangoFontDescription *font = pango_font_description_from_string ("Cantarell 11");
  double answers[N_RUNS], drawings[N_RUNS];

  pango_context_set_font_description (context, font);
  for (guint i = 0; i < N_RUNS; i++)
    {
      gint64 begin = g_get_monotonic_time (), between;

      type (tonight, i);
      between = g_get_monotonic_time ();
      draw (tonight, context);
      answers[i] = (double)(between - begin) / G_USEC_PER_SEC;
      drawings[i] = (double)(g_get_monotonic_time () - between) / G_USEC_PER_SEC;
    }
  report ("a whole answer", answers);
  report ("one drawing of the night", drawings);
  pango_font_description_free (font);
  g_object_unref (context);
  return 0;
}
