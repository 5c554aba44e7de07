/* What becomes of rows of sap, word for word: what stays out says what to do. Previews are made by the
 * domain, so that each sentence stands for something that can happen. */
#include "words/sap-arrival-words.h"

#include "sentences.h"

#include <math.h>

typedef struct
{
  GPtrArray *trees;
  GPtrArray *containers;
  GPtrArray *gatherings;
  FrZoneTable *zone;
  FrSeasonBook book;
  FrSapArrivals *arrivals;
  FrSapArrivalPreview *preview;
  FrSay say;
} Case;

static gpointer
add (GPtrArray *list, FrKindId kind)
{
  FrRecord *record = fr_record_new (kind);

  record->id = (gint64)list->len + 1;
  g_snprintf (record->uid, sizeof record->uid, "%032x", kind * 100 + list->len);
  g_ptr_array_add (list, record);
  return record;
}

static GPtrArray *
records (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify)fr_record_free);
}

/* A tree called Gate, two called Twin, and a tub of 20 L. */
static Case *
case_new (void)
{
  static const char *const names[] = { "Gate", "Twin", "Twin" };
  Case *c = g_new0 (Case, 1);
  FrContainer *tub;

  c->trees = records ();
  c->containers = records ();
  c->gatherings = records ();
  c->zone = fr_zone_table_new_utc ();
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    ((FrTree *)add (c->trees, FR_KIND_TREE))->name = g_strdup (names[i]);
  tub = add (c->containers, FR_KIND_CONTAINER);
  tub->name = g_strdup ("Tub");
  tub->capacity_l.value = 20;
  c->book = (FrSeasonBook){
    .zone = c->zone, .trees = c->trees, .containers = c->containers, .gatherings = c->gatherings
  };
  c->arrivals = fr_sap_arrivals_new ();
  c->say.units.decimal_mark = '.';
  c->say.zone = c->zone;
  return c;
}

static void
case_free (Case *c)
{
  fr_sap_arrival_preview_free (c->preview);
  fr_sap_arrivals_free (c->arrivals);
  g_ptr_array_unref (c->trees);
  g_ptr_array_unref (c->containers);
  g_ptr_array_unref (c->gatherings);
  fr_zone_table_free (c->zone);
  g_free (c);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Case, case_free)

/* A line of 9 March 2026 for that tree. */
static FrSapArrival *
arrive (Case *c, const char *tree, double volume_l)
{
  FrSapArrival *arrival = fr_sap_arrivals_add (c->arrivals, c->arrivals->rows->len + 2, FR_KIND_GATHERING);
  FrGathering *line = (FrGathering *)arrival->record;

  line->gathered_utc = 1773043200 + 60 * arrival->line;
  line->volume_l.value = volume_l;
  fr_sap_arrival_say (arrival, fr_kind_field (arrival->record->kind, "gathered_utc"));
  fr_sap_arrival_say (arrival, fr_kind_field (arrival->record->kind, "volume_l"));
  arrival->names[FR_SAP_NAMES_TREE] = g_strdup (tree);
  return arrival;
}

static char *
sentence_of (Case *c, guint i)
{
  gint64 next_ids[FR_N_KINDS] = { 0 };

  for (guint k = 0; k < FR_N_KINDS; k++)
    next_ids[k] = 10;
  g_clear_pointer (&c->preview, fr_sap_arrival_preview_free);
  c->preview = fr_sap_arrivals_preview (c->arrivals, &c->book, next_ids, 1780000000);
  {
    GString *text = g_string_new (NULL);
    g_autofree char *said
        = fr_sap_arrival_sentence (c->preview->rows->pdata[i], c->preview, &c->book, &c->say);

    g_string_append (text, said);
    g_string_replace (text, "\xC2\xA0", " ", 0);
    return g_string_free (text, FALSE);
  }
}

static void
test_fates (void)
{
  g_autoptr (Case) c = case_new ();
  g_autofree char *fresh = NULL, *asked = NULL, *summary = NULL, *open = NULL, *title = NULL, *bush = NULL;

  arrive (c, "Gate", 4);
  arrive (c, "Gate", 5)->names[FR_SAP_NAMES_CONTAINER] = g_strdup ("Tub");
  arrive (c, "Gate", 17)->names[FR_SAP_NAMES_CONTAINER] = g_strdup ("Tub");
  arrive (c, NULL, 5);
  fresh = sentence_of (c, 0);
  g_assert_cmpstr (fresh, ==, "New.");
  asked = sentence_of (c, 2);
  g_assert_cmpstr (asked, ==,
                   "That makes 22.0 L in “Tub”, which holds 20.0 L. Perhaps something before it that was not "
                   "written down, another "
                   "container, or another unit? Choose another container, or write down what left this one.");
  summary = fr_sap_arrival_summary (c->preview);
  g_assert_cmpstr (summary, ==, "3 new, 1 asked about.");
  open = fr_sap_arrival_open_sentence (c->preview);
  g_assert_cmpstr (
      open, ==,
      "Nothing is read in while 1 row is refused or asked about. Correct it, leave it out, or confirm it.");
  title = fr_sap_arrival_title (c->preview->rows->pdata[0], &c->book);
  g_assert_cmpstr (title, ==, "Gate");
  bush = fr_sap_arrival_title (c->preview->rows->pdata[3], &c->book);
  g_assert_cmpstr (bush, ==, "whole bush");
  for (guint fate = 0; fate < FR_N_SAP_FATES; fate++)
    sentence_parts (fr_sap_fate_word (fate));
  ((FrSapArrivalRow *)c->preview->rows->pdata[2])->confirmed = TRUE;
  g_assert_null (fr_sap_arrival_open_sentence (c->preview));
}

static void
test_names (void)
{
  g_autoptr (Case) c = case_new ();
  g_autofree char *none = NULL, *twins = NULL, *tub = NULL;

  arrive (c, "Gat", 4);
  arrive (c, "Twin", 4);
  arrive (c, "Gate", 4)->names[FR_SAP_NAMES_CONTAINER] = g_strdup ("Tubs");
  none = sentence_of (c, 0);
  g_assert_cmpstr (none, ==, "No tree is called “Gat”. Correct the name, or add the tree first.");
  twins = sentence_of (c, 1);
  g_assert_cmpstr (twins, ==,
                   "Two trees are called “Twin”. Give one of them another name, or write its identity.");
  tub = sentence_of (c, 2);
  g_assert_cmpstr (tub, ==,
                   "No container is called “Tubs”. Correct the name, or read the table of containers first.");
}

static void
test_cells (void)
{
  g_autoptr (Case) c = case_new ();
  g_autofree char *number = NULL, *code = NULL, *skipped = NULL, *kept = NULL, *twice = NULL;
  FrSapArrival *one;

  fr_sap_arrival_refuse (arrive (c, "Gate", NAN), FR_SAP_NO_NUMBER, "volume_l", "1,5");
  number = sentence_of (c, 0);
  g_assert_cmpstr (number, ==, "volume_l is “1,5”, which is no number; decimals are written with a point.");
  fr_sap_arrival_refuse (arrive (c, "Gate", 4), FR_SAP_NO_CODE, "clarity", "murky");
  code = sentence_of (c, 1);
  g_assert_cmpstr (code, ==, "clarity is “murky”; it must be one of unknown, clear, hazy, cloudy, yellow.");
  one = arrive (c, "Gate", 4);
  fr_sap_arrival_refuse (one, FR_SAP_SKIPPED, NULL, NULL);
  one->before_utc = 1772953199; /* 06:59:59 */
  one->after_utc = 1772953200;
  skipped = sentence_of (c, 2);
  g_assert_cmpstr (skipped, ==,
                   "The clock jumped over that time, from 06:59 to 07:00. Write one before or after it.");
  arrive (c, "Gate", 1e308);
  kept = sentence_of (c, 3);
  g_assert_true (g_str_has_prefix (kept, "It cannot be kept: volume_l: "));
  sentence_parts (kept);
  for (guint i = 0; i < 2; i++)
    memcpy (arrive (c, "Gate", 4)->record->uid, "0123456789abcdef0123456789abcdef", 33);
  twice = sentence_of (c, 5);
  g_assert_cmpstr (twice, ==, "It is the same record as in line 6.");
}

/* Every reason has its sentence, whatever stands in the cell. */
static void
test_every (void)
{
  for (guint refusal = 1; refusal < FR_N_SAP_REFUSALS; refusal++)
    {
      g_autoptr (Case) c = case_new ();
      FrSapArrival *arrival = arrive (c, "Gate", 4);
      g_autofree char *text = NULL, *long_cell = g_strnfill (4000, 'x');

      if (refusal >= FR_SAP_NO_SUCH)
        continue; /* told by the preview, above */
      fr_sap_arrival_refuse (arrival, refusal, "clarity", refusal % 2 == 0 ? long_cell : "\xff=1+1");
      arrival->before_utc = arrival->after_utc = 1772953200;
      arrival->quantity = FR_QUANTITY_UNKNOWN_UNIT;
      text = sentence_of (c, 0);
      sentence_parts (text);
      g_assert_cmpuint (strlen (text), <, 400);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sap-arrival-words/fates", test_fates);
  g_test_add_func ("/sap-arrival-words/names", test_names);
  g_test_add_func ("/sap-arrival-words/cells", test_cells);
  g_test_add_func ("/sap-arrival-words/every", test_every);
  return g_test_run ();
}
