/* Records are made by their description, so that a field added later is carried too or the test fails. */
#include "random-bush.h"

#include "domain/records/ground-points.h"
#include "formats/foreign.h"

#include <math.h>
#include <string.h>

char *
random_text (GRand *random, guint most)
{
  static const char *const pieces[] = { "a",
                                        "T",
                                        "7",
                                        " ",
                                        "  ",
                                        "\n",
                                        "\r",
                                        "\r\n",
                                        "\t",
                                        "<",
                                        ">",
                                        "&",
                                        "\"",
                                        "'",
                                        "]]>",
                                        "<!--",
                                        "&amp;",
                                        "=1+1",
                                        "+",
                                        "-",
                                        "@",
                                        ",",
                                        ";",
                                        "\\",
                                        "\\u0001",
                                        "\x01",
                                        "\x1b",
                                        "é",
                                        "雪",
                                        "🍁",
                                        "\xEF\xBF\xBE",
                                        "\xEF\xBF\xBF",
                                        "\xC2\x85",
                                        "\xE2\x80\xA8",
                                        "\x7f",
                                        "{",
                                        "}",
                                        "[",
                                        ":",
                                        "null",
                                        "%s",
                                        "\xEF\xBB\xBF" };
  g_autoptr (GString) text = g_string_new (NULL);
  guint n = (guint)g_rand_int_range (random, 1, 12);

  for (guint i = 0; i < n; i++)
    {
      const char *piece = pieces[g_rand_int_range (random, 0, G_N_ELEMENTS (pieces))];

      if (g_utf8_strlen (text->str, -1) + g_utf8_strlen (piece, -1) < (glong)most)
        g_string_append (text, piece);
    }
  if (g_rand_boolean (random) || text->len == 0 || text->str[strspn (text->str, " \t\r\n")] == '\0')
    g_string_append_c (text, 'x');
  return g_strdup (text->str);
}

void
random_uid (char uid_out[33])
{
  static guint64 n;

  g_snprintf (uid_out, 33, "%016x%016" G_GINT64_MODIFIER "x", 0xabc, ++n);
}

static double
random_amount (GRand *random, const FrField *field)
{
  double value = g_rand_double_range (random, field->min, MIN (field->max, field->min + 1e6));

  switch (g_rand_int_range (random, 0, 4))
    {
    case 0:
      return round (value * 10) / 10 >= field->min && round (value * 10) / 10 <= field->max
                 ? round (value * 10) / 10
                 : value;
    case 1:
      return field->min;
    case 2:
      return field->max;
    default:
      return value;
    }
}

static void
fill (GRand *random, FrRecord *record)
{
  for (guint i = 0; i < record->kind->n_fields; i++)
    {
      const FrField *field = &record->kind->fields[i];
      g_autofree char *text = random_text (random, (guint)MIN (field->max, 100));

      if (!field->required && field->type != FR_FIELD_CODE && g_rand_int_range (random, 0, 3) == 0)
        continue;
      switch (field->type)
        {
        case FR_FIELD_TEXT:
          fr_record_set_text (record, field, text);
          break;
        case FR_FIELD_CODE:
          fr_record_set_text (
              record, field,
              field->codes[g_rand_int_range (random, 0, (gint)g_strv_length ((char **)field->codes))]);
          break;
        case FR_FIELD_DATE:
          {
            g_autofree char *day = fr_date_to_iso (fr_date_from_days (fr_date_to_days ((FrDate){ 2020, 1, 1 })
                                                                      + g_rand_int_range (random, 0, 2000)));

            fr_record_set_text (record, field, day);
            break;
          }
        case FR_FIELD_AMOUNT:
          fr_record_set_amount (record, field, random_amount (random, field),
                                g_rand_int_range (random, 0, 3) == 0 ? text : NULL);
          break;
        case FR_FIELD_BOOL:
          fr_record_set_int (record, field, g_rand_boolean (random));
          break;
        default:
          break;
        }
    }
  record->archived = g_rand_int_range (random, 0, 6) == 0;
  random_uid (record->uid);
}

/* What fields ask of each other. */
static void
mend (GRand *random, FrRecord *record)
{
  if (record->kind->id == FR_KIND_TREE)
    {
      FrTree *tree = (FrTree *)record;
      gboolean placed = g_rand_int_range (random, 0, 8) != 0;

      fr_amount_set (&tree->x_m, placed ? g_rand_double_range (random, -5000, 5000) : NAN, NULL);
      fr_amount_set (&tree->y_m, placed ? g_rand_double_range (random, -5000, 5000) : NAN,
                     placed ? "7 m" : NULL);
      g_clear_pointer (&tree->foreign_data, g_free);
      if (g_rand_boolean (random))
        tree->foreign_data = g_strdup ("{\"other\":{\"n\":1.50,\"s\":\"\\u0001\"}}");
    }
  if (record->kind->id == FR_KIND_TAP)
    {
      FrTap *tap = (FrTap *)record;

      if (tap->set_on == NULL || g_strcmp0 (tap->pulled_on, tap->set_on) < 0)
        g_clear_pointer (&tap->pulled_on, g_free);
      g_clear_pointer (&tap->closed_on, g_free);
      tap->season.value = floor (tap->season.value);
    }
  if (record->kind->id == FR_KIND_YIELD)
    ((FrYield *)record)->season.value = floor (((FrYield *)record)->season.value);
}

static FrRecord *
make (GRand *random, FrKindId kind, gint64 id, gint64 tree)
{
  FrRecord *record = fr_record_new (kind);
  g_autoptr (GArray) problems = NULL;

  record->id = id;
  fill (random, record);
  mend (random, record);
  if (tree != 0)
    fr_record_set_int (record, fr_kind_field (record->kind, "tree"), tree);
  problems = fr_record_check (record);
  if (problems->len > 0)
    g_error ("%s: %s", record->kind->name, g_array_index (problems, FrProblem, 0).field->name);
  return record;
}

static gint64
tree_of (const FrRecord *record)
{
  return fr_record_int (record, fr_kind_field (record->kind, "tree"));
}

/* Two that would be taken for the same event are one too many. */
static gboolean
is_second (const GPtrArray *list, const FrRecord *record)
{
  for (guint i = 0; i < list->len; i++)
    {
      const FrRecord *other = list->pdata[i];

      if (tree_of (other) != tree_of (record))
        continue;
      if (record->kind->id == FR_KIND_GIRTH
          && g_strcmp0 (((FrGirth *)other)->measured_on, ((FrGirth *)record)->measured_on) == 0)
        return TRUE;
      if (record->kind->id == FR_KIND_YIELD
          && ((FrYield *)other)->season.value == ((FrYield *)record)->season.value)
        return TRUE;
      if (record->kind->id == FR_KIND_TAP
          && ((FrTap *)other)->season.value == ((FrTap *)record)->season.value)
        return TRUE;
    }
  return FALSE;
}

static void
set_book (RandomBush *bush)
{
  bush->book = (FrBushBook){ .trees = bush->trees,
                             .girths = bush->girths,
                             .taps = bush->taps,
                             .yields = bush->yields,
                             .features = bush->features,
                             .ground = bush->ground };
}

RandomBush *
random_bush_new_empty (void)
{
  RandomBush *bush = g_new0 (RandomBush, 1);
  GPtrArray **const lists[] = { &bush->trees, &bush->girths, &bush->taps, &bush->yields, &bush->features };

  for (guint i = 0; i < G_N_ELEMENTS (lists); i++)
    *lists[i] = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_record_free);
  set_book (bush);
  return bush;
}

RandomBush *
random_bush_new (GRand *random, guint n_trees)
{
  static const FrKindId kinds[] = { FR_KIND_GIRTH, FR_KIND_TAP, FR_KIND_YIELD };
  RandomBush *bush = random_bush_new_empty ();
  GPtrArray *const lists[] = { bush->girths, bush->taps, bush->yields };

  for (guint i = 0; i < n_trees; i++)
    {
      g_ptr_array_add (bush->trees, make (random, FR_KIND_TREE, i + 1, 0));
      for (guint k = 0; k < G_N_ELEMENTS (kinds); k++)
        for (gint n = g_rand_int_range (random, 0, 4); n > 0; n--)
          {
            FrRecord *record = make (random, kinds[k], lists[k]->len + 1, i + 1);

            if (is_second (lists[k], record))
              fr_record_free (record);
            else
              g_ptr_array_add (lists[k], record);
          }
    }
  bush->ground = (FrGround *)fr_record_new (FR_KIND_GROUND);
  bush->ground->record.id = 1;
  random_uid (bush->ground->record.uid);
  fr_amount_set (&bush->ground->anchor_lat_deg, g_rand_double_range (random, -89, 89), NULL);
  fr_amount_set (&bush->ground->anchor_lon_deg,
                 g_rand_int_range (random, 0, 5) == 0 ? 180 : g_rand_double_range (random, -180, 180), NULL);
  fr_amount_set (&bush->ground->anchor_x_m, g_rand_double_range (random, -300, 300), NULL);
  fr_amount_set (&bush->ground->anchor_y_m, g_rand_double_range (random, -300, 300), NULL);
  set_book (bush);
  return bush;
}

void
random_bush_free (RandomBush *bush)
{
  g_ptr_array_unref (bush->trees);
  g_ptr_array_unref (bush->girths);
  g_ptr_array_unref (bush->taps);
  g_ptr_array_unref (bush->yields);
  g_ptr_array_unref (bush->features);
  if (bush->ground != NULL)
    fr_record_free (&bush->ground->record);
  g_free (bush);
}

static GPtrArray *
list_of (const RandomBush *bush, FrKindId kind)
{
  switch (kind)
    {
    case FR_KIND_TREE:
      return bush->trees;
    case FR_KIND_GIRTH:
      return bush->girths;
    case FR_KIND_TAP:
      return bush->taps;
    case FR_KIND_YIELD:
      return bush->yields;
    case FR_KIND_FEATURE:
      return bush->features;
    default:
      g_assert_not_reached ();
    }
}

void
random_bush_apply (RandomBush *bush, const FrChange *change)
{
  for (guint i = 0; i < change->steps->len; i++)
    {
      const FrStep *step = change->steps->pdata[i];
      const FrRecord *record = step->after != NULL ? step->after : step->before;
      g_autoptr (GArray) problems = fr_record_check (record);
      GPtrArray *list;
      guint at = G_MAXUINT;

      g_assert_cmpuint (problems->len, ==, 0);
      g_assert_cmpint (record->id, >, 0);
      g_assert_cmpuint (strlen (record->uid), ==, 32);
      if (record->kind->id == FR_KIND_GROUND)
        {
          if (bush->ground != NULL)
            fr_record_free (&bush->ground->record);
          bush->ground = (FrGround *)fr_record_copy (step->after);
          continue;
        }
      list = list_of (bush, record->kind->id);
      for (guint k = 0; k < list->len; k++)
        if (((FrRecord *)list->pdata[k])->id == record->id)
          at = k;
      g_assert_true ((at == G_MAXUINT) == (step->before == NULL));
      if (at != G_MAXUINT)
        {
          g_assert_true (fr_record_equal (list->pdata[at], step->before));
          g_ptr_array_remove_index (list, at);
        }
      if (step->after != NULL)
        g_ptr_array_insert (list, at != G_MAXUINT ? (gint)at : -1, fr_record_copy (step->after));
    }
  set_book (bush);
}

FrChange *
random_bush_import (RandomBush *bush, const FrArrivals *arrivals, gboolean replace, gboolean with_paths)
{
  FrArrivalOptions options = fr_arrival_options ("2026-03-19");
  g_autoptr (FrArrivalPreview) preview = NULL;
  FrArrivalIds ids = { .new_uid = random_uid };
  FrChange *change;

  options.replace = replace;
  options.with_paths = with_paths;
  options.join_foreign = fr_foreign_join;
  for (guint k = FR_KIND_TREE; k <= FR_KIND_FEATURE; k++)
    {
      GPtrArray *list = list_of (bush, k);

      ids.next[k] = 1;
      for (guint i = 0; i < list->len; i++)
        ids.next[k] = MAX (ids.next[k], ((FrRecord *)list->pdata[i])->id + 1);
    }
  ids.next[FR_KIND_GROUND] = 1;
  preview = fr_arrivals_preview (arrivals, &bush->book, &options);
  change = fr_arrivals_change (preview, &ids, "file");
  random_bush_apply (bush, change);
  return change;
}

static const FrRecord *
by_uid (const GPtrArray *list, const char *uid)
{
  for (guint i = 0; i < list->len; i++)
    if (strcmp (((FrRecord *)list->pdata[i])->uid, uid) == 0)
      return list->pdata[i];
  return NULL;
}

static void
assert_same_record (const FrRecord *wanted, const FrRecord *got, gint64 tree, double place_tolerance_m)
{
  g_autoptr (FrRecord) copy = fr_record_copy (got);
  const FrKind *kind = wanted->kind;

  copy->id = wanted->id;
  if (tree != 0)
    fr_record_set_int (copy, fr_kind_field (kind, "tree"), tree);
  if (kind->id == FR_KIND_TREE && place_tolerance_m > 0 && !isnan (((FrTree *)wanted)->x_m.value))
    {
      FrTree *one = (FrTree *)copy;
      const FrTree *two = (const FrTree *)wanted;

      g_assert_cmpfloat (hypot (one->x_m.value - two->x_m.value, one->y_m.value - two->y_m.value), <=,
                         place_tolerance_m);
      fr_amount_set (&one->x_m, two->x_m.value, two->x_m.typed);
      fr_amount_set (&one->y_m, two->y_m.value, two->y_m.typed);
    }
  for (guint i = 0; i < kind->n_fields && !fr_record_equal (wanted, copy); i++)
    {
      g_autofree char *is = NULL, *was = NULL;

      if (kind->fields[i].type == FR_FIELD_TEXT)
        {
          is = g_strescape (
              fr_record_text (copy, &kind->fields[i]) != NULL ? fr_record_text (copy, &kind->fields[i]) : "-",
              NULL);
          was = g_strescape (fr_record_text (wanted, &kind->fields[i]) != NULL
                                 ? fr_record_text (wanted, &kind->fields[i])
                                 : "-",
                             NULL);
          if (strcmp (is, was) != 0)
            g_test_message ("%s.%s: “%s”, wanted “%s”", kind->name, kind->fields[i].name, is, was);
        }
      else if (kind->fields[i].type == FR_FIELD_AMOUNT)
        g_test_message ("%s.%s: %.17g “%s”, wanted %.17g “%s”", kind->name, kind->fields[i].name,
                        fr_record_amount (copy, &kind->fields[i])->value,
                        fr_record_amount (copy, &kind->fields[i])->typed,
                        fr_record_amount ((FrRecord *)wanted, &kind->fields[i])->value,
                        fr_record_amount ((FrRecord *)wanted, &kind->fields[i])->typed);
    }
  g_assert_true (fr_record_equal (wanted, copy));
}

void
random_bush_assert_same (const RandomBush *wanted, const RandomBush *got, gboolean archived_too,
                         gboolean unplaced_too, double place_tolerance_m)
{
  GPtrArray *const wanted_lists[] = { wanted->girths, wanted->taps, wanted->yields }, *const got_lists[] = {
    got->girths, got->taps, got->yields
  };
  guint n_trees = 0, n_events[3] = { 0 };

  for (guint i = 0; i < wanted->trees->len; i++)
    {
      const FrTree *tree = wanted->trees->pdata[i];
      const FrRecord *there = by_uid (got->trees, tree->record.uid);

      if ((!archived_too && tree->record.archived) || (!unplaced_too && isnan (tree->x_m.value)))
        continue;
      n_trees++;
      g_assert_nonnull (there);
      assert_same_record (&tree->record, there, 0, place_tolerance_m);
      for (guint k = 0; k < 3; k++)
        for (guint j = 0; j < wanted_lists[k]->len; j++)
          {
            const FrRecord *event = wanted_lists[k]->pdata[j], *event_there;

            if (tree_of (event) != tree->record.id)
              continue;
            n_events[k]++;
            event_there = by_uid (got_lists[k], event->uid);
            g_assert_nonnull (event_there);
            g_assert_cmpint (tree_of (event_there), ==, there->id);
            assert_same_record (event, event_there, tree->record.id, 0);
          }
    }
  g_assert_cmpuint (got->trees->len, ==, n_trees);
  for (guint k = 0; k < 3; k++)
    g_assert_cmpuint (got_lists[k]->len, ==, n_events[k]);
}
