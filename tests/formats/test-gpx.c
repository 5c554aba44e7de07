/* GPX in and out. What is written is held against the schema's facts by xmllint (libxml2's own checker; the
 * schema in tests/fixtures was written down apart from the program's table); what is read and must not be
 * gets one sentence, the same word for word. */
#include "formats/gpx.h"
#include "random-bush.h"

#include <glib/gstdio.h>
#include <string.h>

#define HEAD "<gpx version=\"1.1\" creator=\"x\" xmlns=\"http://www.topografix.com/GPX/1/1\">"
#define WPT HEAD "<wpt lat=\"44\" lon=\"-72\">"
#define END "</wpt></gpx>"

static char *
fixture (const char *name)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "fixtures", name, NULL);
  g_autoptr (GError) error = NULL;
  char *text;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  return text;
}

static FrArrivals *
read_text (const char *text)
{
  g_autoptr (GError) error = NULL;
  FrArrivals *arrivals = fr_gpx_read (text, strlen (text), &error);

  g_assert_no_error (error);
  return arrivals;
}

/* xmllint's word, and its reasons in the log when it says no. */
static void
assert_valid (const char *text)
{
  g_autofree char *schema = g_test_build_filename (G_TEST_DIST, "fixtures", "gpx-1.1-waypoints.xsd", NULL),
                  *path = NULL, *said = NULL;
  char *argv[]
      = { (char *)"xmllint", (char *)"--nonet", (char *)"--noout", (char *)"--schema", schema, NULL, NULL };
  g_autoptr (GError) error = NULL;
  int fd = g_file_open_tmp ("frostrun-XXXXXX.gpx", &path, &error), status;

  g_assert_no_error (error);
  g_assert_true (g_close (fd, NULL));
  g_file_set_contents (path, text, -1, &error);
  g_assert_no_error (error);
  argv[5] = path;
  g_spawn_sync (NULL, argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, NULL, &said, &status, &error);
  g_assert_no_error (error);
  g_unlink (path);
  if (status != 0)
    g_error ("%s\n%s", said, text);
}

static void
test_sample (void)
{
  g_autofree char *text = fixture ("sample.gpx");
  g_autoptr (FrArrivals) arrivals = read_text (text);
  const FrArrival *tree = arrivals->trees->pdata[0];
  const FrArrivalPath *path = arrivals->paths->pdata[0];

  g_assert_cmpuint (arrivals->trees->len, ==, 1);
  g_assert_cmpuint (tree->line, ==, 4);
  g_assert_cmpfloat (tree->where.lat_deg, ==, 44.2601);
  g_assert_cmpfloat (tree->where.lon_deg, ==, -72.5802);
  g_assert_cmpstr (tree->tree->name, ==, "T01");
  g_assert_cmpstr (tree->tree->note, ==, "two spouts");
  g_assert_cmpfloat (tree->tree->elevation_m.value, ==, 181.5);
  g_assert_false (fr_arrival_says (tree, "species"));
  g_assert_cmpuint (arrivals->paths->len, ==, 1);
  g_assert_cmpstr (path->name, ==, "walk");
  g_assert_cmpuint (path->points->len, ==, 2);
  g_assert_cmpuint (arrivals->remarks->len, ==, 1);
}

/* Everything a waypoint may say comes back, in valid order; a second time it is the same text. */
static void
test_full (void)
{
  static const char *const kept[] = { "lat=\"44.2601\" lon=\"-72.58020000001\"",
                                      "<ele>181.5</ele>",
                                      "<time>2026-03-01T12:00:00.5+01:00</time>",
                                      "<magvar>14.25</magvar>",
                                      "<geoidheight>-28.1</geoidheight>",
                                      "<name> T01 </name>",
                                      "<cmt>a &lt;comment&gt;\nover two lines</cmt>",
                                      "<desc>two spouts</desc>",
                                      "<src>walked</src>",
                                      "<link href=\"photo.jpg\">",
                                      "<text>a photo</text>",
                                      "<type>image/jpeg</type>",
                                      "<link href=\"http://example.org/?a=1&amp;b=2\"/>",
                                      "<sym>Tree</sym>",
                                      "<type>maple</type>",
                                      "<fix>3d</fix>",
                                      "<sat>7</sat>",
                                      "<hdop>1.2</hdop>",
                                      "<vdop>2</vdop>",
                                      "<pdop>2.3</pdop>",
                                      "<ageofdgpsdata>0.5</ageofdgpsdata>",
                                      "<dgpsid>12</dgpsid>",
                                      "b:kept=\"yes\"",
                                      "<a:two>b:three &amp; more</a:two>",
                                      "<plain xmlns=\"urn:example:c\"",
                                      "<b:empty ",
                                      "<ele>-99999</ele>",
                                      "lat=\"44.26012345678901\" lon=\"-72.5803123456789\"",
                                      "<desc>   </desc>",
                                      "lat=\"44.2602\" lon=\"-72.5801\"" };
  g_autofree char *text = fixture ("full.gpx"), *out = NULL, *again = NULL;
  g_autoptr (FrArrivals) arrivals = read_text (text);
  g_autoptr (RandomBush) bush = random_bush_new_empty ();
  g_autoptr (RandomBush) other = random_bush_new_empty ();
  g_autoptr (FrChange) change = random_bush_import (bush, arrivals, FALSE, FALSE);
  g_autoptr (FrChange) second = random_bush_import (bush, arrivals, FALSE, FALSE);
  g_autoptr (FrChange) third = NULL;
  g_autoptr (FrArrivals) back = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_cmpuint (bush->trees->len, ==, 3);
  g_assert_true (fr_change_is_empty (second));
  out = fr_gpx_write (&bush->book, FALSE, NULL, &error);
  g_assert_no_error (error);
  for (guint i = 0; i < G_N_ELEMENTS (kept); i++)
    if (strstr (out, kept[i]) == NULL)
      g_error ("%s is not in %s", kept[i], out);
  assert_valid (out);
  back = read_text (out);
  third = random_bush_import (other, back, FALSE, FALSE);
  random_bush_assert_same (bush, other, FALSE, FALSE, 0);
  again = fr_gpx_write (&other->book, FALSE, NULL, &error);
  g_assert_cmpstr (out, ==, again);
}

/* Version 1.0 has its links and foreign elements elsewhere. */
static void
test_version_10 (void)
{
  g_autoptr (FrArrivals) arrivals
      = read_text ("<gpx version=\"1.0\" creator=\"x\" xmlns=\"http://www.topografix.com/GPX/1/0\">"
                   "<name>old</name><wpt lat=\"1\" lon=\"2\"><name>A</name><url>http://example.org</url>"
                   "<urlname>u</urlname><sym>S</sym><x:y xmlns:x=\"urn:x\">z</x:y></wpt></gpx>");
  g_autoptr (RandomBush) bush = random_bush_new_empty ();
  g_autoptr (FrChange) change = random_bush_import (bush, arrivals, FALSE, FALSE);
  g_autofree char *out = fr_gpx_write (&bush->book, FALSE, NULL, NULL);

  g_assert_nonnull (strstr (out, "<link href=\"http://example.org\">\n    <text>u</text>"));
  g_assert_nonnull (strstr (out, "<x:y xmlns:x=\"urn:x\""));
  assert_valid (out);
}

static void
test_random_valid (void)
{
  for (guint i = 0; i < 25; i++)
    {
      g_autoptr (GRand) random = g_rand_new_with_seed (1000 + i);
      g_autoptr (RandomBush) bush = random_bush_new (random, 8);
      g_autofree char *out = fr_gpx_write (&bush->book, FALSE, NULL, NULL);

      assert_valid (out);
    }
}

/* A book may hold anything as foreign data; what is written is valid all the same. */
static void
test_tampered (void)
{
  static const char *const foreign[] = {
    "{\"gpx\":{\"time\":\"yesterday\",\"fix\":\"9d\",\"sat\":\"-1\",\"lat\":\"1e999\",\"magvar\":\"360\"}}",
    "{\"gpx\":{\"extensions\":\"</extensions><wpt/>\"}}",
    "{\"gpx\":{\"extensions\":\"<!DOCTYPE x>\"}}",
    "{\"gpx\":{\"extensions\":\"<x:y/>\"}}",
    "{\"gpx\":{\"extensions\":\"&bomb;\"}}",
    "{\"gpx\":{\"extensions\":7,\"link\":[1,{\"href\":2}],\"name\":{}}}",
    "{\"gpx\":[]}",
    "not JSON",
    "[1]"
  };

  for (guint i = 0; i < G_N_ELEMENTS (foreign); i++)
    {
      g_autoptr (GRand) random = g_rand_new_with_seed (1);
      g_autoptr (RandomBush) bush = random_bush_new (random, 1);
      FrTree *tree = bush->trees->pdata[0];
      g_autofree char *out = NULL;

      tree->record.archived = FALSE;
      g_free (tree->foreign_data);
      tree->foreign_data = g_strdup (foreign[i]);
      fr_amount_set (&tree->x_m, 1, NULL);
      fr_amount_set (&tree->y_m, 1, NULL);
      out = fr_gpx_write (&bush->book, FALSE, NULL, NULL);
      g_assert_nonnull (strstr (out, "<wpt"));
      assert_valid (out);
    }
}

static void
test_paths (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (2);
  g_autoptr (RandomBush) bush = random_bush_new (random, 0);
  g_autoptr (RandomBush) got = random_bush_new_empty ();
  FrFeature *lane = (FrFeature *)fr_record_new (FR_KIND_FEATURE);
  g_autofree char *out = NULL;
  g_autoptr (FrArrivals) arrivals = NULL;
  g_autoptr (FrChange) change = NULL;
  g_autoptr (FrChange) second = NULL;

  lane->name = g_strdup ("Lane & <wall>");
  lane->points = g_strdup ("0.000 0.000\n12.500 -3.250\n40.000 10.000");
  g_ptr_array_add (bush->features, lane);
  out = fr_gpx_write (&bush->book, TRUE, NULL, NULL);
  assert_valid (out);
  arrivals = read_text (out);
  change = random_bush_import (got, arrivals, FALSE, TRUE);
  second = random_bush_import (got, arrivals, FALSE, TRUE);
  g_assert_true (fr_change_is_empty (second));
  g_assert_cmpuint (got->features->len, ==, 1);
  g_assert_cmpstr (((FrFeature *)got->features->pdata[0])->name, ==, lane->name);
  /* With no tree to say where the file's plan lies, it still does so itself. */
  g_assert_cmpstr (((FrFeature *)got->features->pdata[0])->points, ==, lane->points);
}

static void
test_untied (void)
{
  g_autoptr (RandomBush) bush = random_bush_new_empty ();
  g_autoptr (GError) error = NULL;

  g_assert_null (fr_gpx_write (&bush->book, FALSE, NULL, &error));
  g_assert_error (error, FR_INPUT_ERROR, FR_INPUT_ERROR_FAILED);
}

/* --- what must not come in --- */

static const struct
{
  const char *name;
  const char *text;
  const char *sentence;
} rows[] = {
  { "empty", "", "line 1: the file is not well-formed XML (it ends too early or goes on after its end)" },
  { "text", "maple", "line 1: the file is not well-formed XML (Document is empty)" },
  { "kml", "<kml/>", "line 1: the file is XML, but a GPX file begins with gpx, not with “kml”" },
  { "no-namespace", "<gpx/>",
    "line 1: gpx stands in the namespace “”; that of GPX 1.1 is http://www.topografix.com/GPX/1/1" },
  { "other-namespace", "\n<gpx xmlns=\"urn:x\"/>",
    "line 2: gpx stands in the namespace “urn:x”; that of GPX 1.1 is http://www.topografix.com/GPX/1/1" },
  { "doctype", "<!DOCTYPE gpx>\n" HEAD "</gpx>",
    "line 1: the file declares a document type or entities; GPX has neither" },
  { "bomb",
    "<?xml version=\"1.0\"?><!-- x --><!DOCTYPE gpx [<!ENTITY a \"aaaaaaaaaa\"><!ENTITY b "
    "\"&a;&a;&a;&a;\">]>" WPT "<name>&b;</name>" END,
    "line 1: the file declares a document type or entities; GPX has neither" },
  { "external", "<!DOCTYPE gpx [<!ENTITY x SYSTEM \"file:///etc/passwd\">]>" WPT "<name>&x;</name>" END,
    "line 1: the file declares a document type or entities; GPX has neither" },
  { "entity", WPT "<name>&x;</name>" END,
    "line 1: the file is not well-formed XML (Entity 'x' not defined)" },
  { "cut-short", WPT "<name>a",
    "line 1: the file is not well-formed XML (it ends too early or goes on after its end)" },
  { "crossed", WPT "<name></wpt></name></gpx>",
    "line 1: the file is not well-formed XML (Opening and ending tag mismatch:…)" },
  { "latin-1", "<?xml version=\"1.0\" encoding=\"ISO-8859-1\"?>" HEAD "</gpx>",
    "line 1: the file says that it is in “ISO-8859-1”; only UTF-8 is read" },
  { "not-utf8", HEAD "\n<!-- \xe9 --></gpx>",
    "line 2: the file is not text in UTF-8: see byte 80. Save it in UTF-8 and try again" },
  { "control", WPT "<name>&#1;</name>" END,
    "line 1: the file is not well-formed XML (xmlParseCharRef: invalid xmlChar…)" },
  { "no-lat", HEAD "\n<wpt lon=\"1\"/></gpx>", "line 2: lat is missing" },
  { "lat-nan", HEAD "<wpt lat=\"NaN\" lon=\"1\"/></gpx>",
    "line 1: lat is “NaN”, which is no number of degrees" },
  { "lat-inf", HEAD "<wpt lat=\"INF\" lon=\"1\"/></gpx>",
    "line 1: lat is “INF”, which is no number of degrees" },
  { "lat-hex", HEAD "<wpt lat=\"0x10\" lon=\"1\"/></gpx>",
    "line 1: lat is “0x10”, which is no number of degrees" },
  { "lat-comma", HEAD "<wpt lat=\"44,5\" lon=\"1\"/></gpx>",
    "line 1: lat is “44,5”, which is no number of degrees" },
  { "lat-empty", HEAD "<wpt lat=\"\" lon=\"1\"/></gpx>", "line 1: lat is “”, which is no number of degrees" },
  { "lat-1e308", HEAD "<wpt lat=\"1e308\" lon=\"1\"/></gpx>",
    "line 1: lat is 1e308; latitude goes from −90 to 90" },
  { "lat-1e999", HEAD "<wpt lat=\"1e999\" lon=\"1\"/></gpx>",
    "line 1: lat is “1e999”, which is no number of degrees" },
  { "swapped", HEAD "<wpt lat=\"95\" lon=\"44\"/></gpx>",
    "line 1: lat is 95; latitude goes from −90 to 90. Are the two swapped?" },
  { "lon", HEAD "<wpt lat=\"5\" lon=\"-180.5\"/></gpx>",
    "line 1: lon is -180.5; longitude goes from −180 to 180" },
  { "attribute", HEAD "<wpt lat=\"5\" lon=\"5\" name=\"x\"/></gpx>",
    "line 1: a waypoint has lat and lon, and no “name”" },
  { "order", WPT "\n<name>a</name>\n<ele>5</ele>" END,
    "line 3: ele stands too late: GPX wants a waypoint’s elements in order, ele, time, …, name, cmt, desc, "
    "src, "
    "link, sym, type, …, extensions" },
  { "twice", WPT "<name>a</name><name>b</name>" END, "line 1: name stands twice in one waypoint" },
  { "unknown", WPT "<height>5</height>" END, "line 1: “height” is no element of a GPX waypoint" },
  { "foreign-in-waypoint", WPT "<x:y xmlns:x=\"urn:x\"/>" END,
    "line 1: “y” stands outside of the waypoint’s extensions" },
  { "foreign-in-file", HEAD "<x:y xmlns:x=\"urn:x\"/></gpx>",
    "line 1: “y” stands outside of the file’s extensions" },
  { "unknown-part", HEAD "<waypoint/></gpx>", "line 1: “waypoint” is no element of GPX" },
  { "file-order", HEAD "<trk/>\n<wpt lat=\"1\" lon=\"1\"/></gpx>",
    "line 2: wpt stands too late: GPX wants metadata, then all wpt, all rte, all trk, and extensions last" },
  { "ele", WPT "<ele>high</ele>" END, "line 1: ele is “high”; it must be a number" },
  { "ele-exponent", WPT "<ele>1e2</ele>" END, "line 1: ele is “1e2”; it must be a number" },
  { "time", WPT "<time>yesterday</time>" END,
    "line 1: time is “yesterday”; it must be a time like 2026-03-01T12:00:00Z" },
  { "time-day", WPT "<time>2026-02-30T12:00:00Z</time>" END,
    "line 1: time is “2026-02-30T12:00:00Z”; it must be a time like 2026-03-01T12:00:00Z" },
  { "fix", WPT "<fix>4d</fix>" END, "line 1: fix is “4d”; it must be none, 2d, 3d, dgps or pps" },
  { "sat", WPT "<sat>-1</sat>" END, "line 1: sat is “-1”; it must be a whole number" },
  { "magvar", WPT "<magvar>360</magvar>" END,
    "line 1: magvar is “360”; it must be a number from 0 to under 360" },
  { "dgpsid", WPT "<dgpsid>1024</dgpsid>" END,
    "line 1: dgpsid is “1024”; it must be a whole number from 0 to 1023" },
  { "name-elements", WPT "<name><b>x</b></name>" END, "line 1: name holds other elements; it must be text" },
  { "link", WPT "<link><text>x</text></link>" END, "line 1: a link has no href" },
  { "link-order", WPT "<link href=\"x\"><type>t</type><text>x</text></link>" END,
    "line 1: a link holds text and type, in this order, and nothing else" },
  { "track-point", HEAD "<trk><trkseg>\n<trkpt lat=\"x\" lon=\"1\"/></trkseg></trk></gpx>",
    "line 2: lat is “x”, which is no number of degrees" },
  { "own-unknown", WPT "<extensions><f:tree xmlns:f=\"urn:frostrun:gpx:1\" colour=\"red\"/></extensions>" END,
    "line 1: a tree of Frostrun’s has no “colour”" },
  { "own-element", WPT "<extensions><f:night xmlns:f=\"urn:frostrun:gpx:1\"/></extensions>" END,
    "line 1: “night” is no element of Frostrun’s" },
  { "own-number",
    WPT "<extensions><f:girth xmlns:f=\"urn:frostrun:gpx:1\" size_m=\"thick\"/></extensions>" END,
    "line 1: size_m is “thick”, which it cannot be" },
  { "own-uid", WPT "<extensions><f:tree xmlns:f=\"urn:frostrun:gpx:1\" uid=\"7\"/></extensions>" END,
    "line 1: uid must be 32 digits 0 to 9 and a to f" },
  { "plan",
    HEAD
    "<metadata><extensions><f:plan xmlns:f=\"urn:frostrun:gpx:1\" anchor_lat_deg=\"95\" anchor_lon_deg=\"0\" "
    "anchor_x_m=\"0\" anchor_y_m=\"0\"/></extensions></metadata></gpx>",
    "line 1: the plan’s anchor is no place on the earth" },
};

/* The reader's own words about broken XML may go on after three dots. */
static void
assert_sentence (const char *got, const char *wanted)
{
  const char *dots = strstr (wanted, "…)");

  if (dots != NULL ? strncmp (got, wanted, dots - wanted) != 0 : strcmp (got, wanted) != 0)
    g_test_fail_printf ("got %s, wanted %s", got, wanted);
}

static void
refused (const char *text, gsize length, const char *sentence)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (fr_gpx_read (text, length, &error));
  g_assert_error (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG);
  assert_sentence (error->message, sentence);
}

static void
test_row (gconstpointer data)
{
  guint i = GPOINTER_TO_UINT (data);

  refused (rows[i].text, strlen (rows[i].text), rows[i].sentence);
}

static char *
repeated (const char *before, const char *what, guint n, const char *after)
{
  GString *text = g_string_new (before);

  for (guint i = 0; i < n; i++)
    g_string_append (text, what);
  g_string_append (text, after);
  return g_string_free (text, FALSE);
}

static void
test_long_name (void)
{
  g_autofree char *some = repeated (WPT "<name>", "x", 121, "</name>" END),
                  *much = repeated (WPT "<name>", "xxxxxxxxxx", 1024 * 1024, "</name>" END);

  refused (some, strlen (some),
           "line 1: the name “xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx…” has 121 characters; a tree’s may "
           "have 120");
  refused (much, strlen (much), "line 1: the file is not well-formed XML (…)");
}

static void
test_large (void)
{
  g_autofree char *text = g_malloc (FR_GPX_SIZE_MAX + 1);

  memset (text, ' ', FR_GPX_SIZE_MAX + 1);
  refused (text, FR_GPX_SIZE_MAX + 1, "the file is larger than 20 MiB");
}

static void
test_many (void)
{
  g_autofree char *text = repeated (HEAD, "<wpt lat=\"1\" lon=\"1\"/>", 100000, "</gpx>");

  refused (text, strlen (text), "line 1: the file has more than 20000 waypoints");
}

static void
test_deep (void)
{
  g_autofree char *some = repeated (HEAD "<extensions>", "<a xmlns=\"urn:x\">", 100, ""),
                  *much = repeated (WPT "<extensions>", "<a xmlns=\"urn:x\">", 100000, "");

  refused (some, strlen (some), "line 1: the file is not well-formed XML (…)");
  refused (much, strlen (much), "line 1: the file is not well-formed XML (…)");
}

static void
test_long_foreign (void)
{
  g_autofree char *text = repeated (WPT "<cmt>", "x", 20000, "</cmt>" END);

  refused (text, strlen (text),
           "line 1: this waypoint says 20018 characters that a tree has no place for; 20000 can be kept");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/gpx/sample", test_sample);
  g_test_add_func ("/gpx/full", test_full);
  g_test_add_func ("/gpx/version-1.0", test_version_10);
  g_test_add_func ("/gpx/random-is-valid", test_random_valid);
  g_test_add_func ("/gpx/tampered-is-valid", test_tampered);
  g_test_add_func ("/gpx/paths", test_paths);
  g_test_add_func ("/gpx/untied", test_untied);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *path = g_strdup_printf ("/gpx/refused/%s", rows[i].name);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_row);
    }
  g_test_add_func ("/gpx/refused/long-name", test_long_name);
  g_test_add_func ("/gpx/refused/large", test_large);
  g_test_add_func ("/gpx/refused/many", test_many);
  g_test_add_func ("/gpx/refused/deep", test_deep);
  g_test_add_func ("/gpx/refused/long-foreign", test_long_foreign);
  return g_test_run ();
}
