/* New trees: their names, and where they stand when they were measured by tape and compass from another one.
 * The readings are kept as taken, beside the place they gave. */
#include "models/bush-edit-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "domain/units/bearing.h"
#include "words/entry-words.h"

/* Where the last number of a name stands; FALSE when it has none that can be raised. */
static gboolean
last_number (const char *name, gsize *start_out, gsize *length_out)
{
  gsize end = strlen (name);
  gsize start;

  while (end > 0 && !g_ascii_isdigit (name[end - 1]))
    end--;
  start = end;
  while (start > 0 && g_ascii_isdigit (name[start - 1]))
    start--;
  *start_out = start;
  *length_out = end - start;
  return end > start && end - start <= 9;
}

static GHashTable *
names_in_use (FrBook *book)
{
  FrRecordList *list = fr_book_get_list (book, FR_KIND_TREE);
  GHashTable *names = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < fr_record_list_get_size (list); i++)
    g_hash_table_add (names, (gpointer)fr_record_label (fr_record_list_get (list, i)));
  return names;
}

char *
fr_bush_edit_next_name (FrBook *book)
{
  FrRecordList *list = fr_book_get_list (book, FR_KIND_TREE);
  guint n = fr_record_list_get_size (list);
  const char *last = n > 0 ? fr_record_label (fr_record_list_get (list, n - 1)) : "";
  g_autoptr (GHashTable) names = names_in_use (book);
  g_autofree char *before = NULL;
  const char *after = "";
  guint64 number = 0;
  gsize start, length;

  if (last_number (last, &start, &length) && g_utf8_strlen (last, -1) < 100)
    {
      before = g_strndup (last, start);
      after = last + start + length;
      number = g_ascii_strtoull (last + start, NULL, 10);
    }
  else
    {
      before = g_strdup ("T");
      length = 1;
    }
  for (;;)
    {
      g_autofree char *name
          = g_strdup_printf ("%s%0*" G_GUINT64_FORMAT "%s", before, (int)length, ++number, after);

      if (!g_hash_table_contains (names, name))
        return g_steal_pointer (&name);
    }
}

static FrTree *
new_tree (FrEdit *edit, const char *name, const char *species, GError **error)
{
  FrTree *tree = (FrTree *)fr_edit_new_record (edit, FR_KIND_TREE, error);
  g_autofree char *free_name = name == NULL ? fr_bush_edit_next_name (edit->book) : NULL;

  if (tree == NULL)
    return NULL;
  fr_edit_set_text (&tree->record, "name", name != NULL ? name : free_name);
  if (species != NULL)
    fr_edit_set_text (&tree->record, "species", species);
  edit->change->subject = g_strdup (tree->name);
  return tree;
}

FrChange *
fr_bush_edit_add_tree (FrBook *book, const char *name, const char *species, double x_m, double y_m,
                       GError **error)
{
  FrEdit edit;
  g_autoptr (FrRecord) after = NULL;
  FrTree *tree;

  fr_edit_begin (&edit, book, "add-tree", NULL);
  tree = new_tree (&edit, name, species, error);
  after = (FrRecord *)tree;
  if (tree == NULL)
    return fr_edit_drop (&edit);
  fr_amount_set (&tree->x_m, x_m, NULL);
  fr_amount_set (&tree->y_m, y_m, NULL);
  if (!fr_edit_step (&edit, NULL, after, NULL, error))
    return fr_edit_drop (&edit);
  return fr_edit_end (&edit);
}

static gboolean
add_sizes (FrEdit *edit, gint64 tree, double girth_m, double diameter_m, FrDate today, GError **error)
{
  return (isnan (girth_m) || fr_bush_edit_add_measure (edit, tree, today, TRUE, girth_m, NULL, error))
         && (isnan (diameter_m)
             || fr_bush_edit_add_measure (edit, tree, today, FALSE, diameter_m, NULL, error));
}

/* By the plan's declination, when it is known. */
static void
place_from (FrTree *tree, const FrTree *from, double distance_m, double bearing_deg, const FrGround *ground)
{
  double dx_m, dy_m;

  fr_plan_offset (distance_m, bearing_deg, ground != NULL ? ground->declination_deg.value : NAN, &dx_m,
                  &dy_m);
  fr_amount_set (&tree->from_distance_m, distance_m, NULL);
  fr_amount_set (&tree->from_bearing_deg, bearing_deg, NULL);
  fr_amount_set (&tree->x_m, from->x_m.value + dx_m, NULL);
  fr_amount_set (&tree->y_m, from->y_m.value + dy_m, NULL);
}

/* The first tree has nothing to be measured from: it stands at the plan's zero. */
static FrChange *
add_first (FrBook *book, const char *name, const char *species, double girth_m, double diameter_m,
           FrDate today, GError **error)
{
  FrEdit edit;
  g_autoptr (FrRecord) after = NULL;
  FrTree *tree;

  fr_edit_begin (&edit, book, "add-tree", NULL);
  tree = new_tree (&edit, name, species, error);
  after = (FrRecord *)tree;
  if (tree == NULL)
    return fr_edit_drop (&edit);
  fr_amount_set (&tree->x_m, 0, NULL);
  fr_amount_set (&tree->y_m, 0, NULL);
  if (!fr_edit_step (&edit, NULL, after, NULL, error)
      || !add_sizes (&edit, after->id, girth_m, diameter_m, today, error))
    return fr_edit_drop (&edit);
  return fr_edit_end (&edit);
}

/* The two readings by themselves: a tree may do without them, this way of placing it may not. */
static gboolean
readings_are_known (FrBook *book, double distance_m, double bearing_deg, GError **error)
{
  const char *const names[] = { "from_distance_m", "from_bearing_deg" };
  const double values[] = { distance_m, bearing_deg };

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      const FrField *field = fr_kind_field (fr_kind (FR_KIND_TREE), names[i]);
      g_autofree char *sentence = NULL;

      if (values[i] >= field->min && values[i] <= field->max)
        continue;
      sentence = fr_amount_sentence (field->name, values[i], field->min, field->max, field->quantity,
                                     fr_book_get_units (book));
      fr_edit_refuse (error, sentence);
      return FALSE;
    }
  return TRUE;
}

FrChange *
fr_bush_edit_add_measured (FrBook *book, const char *name, const char *species, gint64 from,
                           double distance_m, double bearing_deg, double girth_m, double diameter_m,
                           FrDate today, GError **error)
{
  const FrTree *origin = from != 0 ? fr_bush_edit_tree (book, from, error) : NULL;
  FrRecordList *grounds = fr_book_get_list (book, FR_KIND_GROUND);
  FrEdit edit;
  g_autoptr (FrRecord) after = NULL;
  FrTree *tree;

  if (from == 0)
    return add_first (book, name, species, girth_m, diameter_m, today, error);
  if (origin == NULL || !readings_are_known (book, distance_m, bearing_deg, error))
    return NULL;
  if (isnan (origin->x_m.value) || isnan (origin->y_m.value))
    {
      g_autofree char *sentence = g_strdup_printf (
          _ ("“%s” has no place on the plan yet, so nothing can be measured from it. Place it first."),
          origin->name);

      return fr_edit_refuse (error, sentence);
    }

  fr_edit_begin (&edit, book, "add-tree", NULL);
  tree = new_tree (&edit, name, species, error);
  after = (FrRecord *)tree;
  if (tree == NULL)
    return fr_edit_drop (&edit);
  fr_edit_set_text (after, "measured_from", origin->name);
  place_from (tree, origin, distance_m, bearing_deg,
              fr_record_list_get_size (grounds) > 0 ? (const FrGround *)fr_record_list_get (grounds, 0)
                                                    : NULL);
  if (!fr_edit_step (&edit, NULL, after, NULL, error)
      || !add_sizes (&edit, after->id, girth_m, diameter_m, today, error))
    return fr_edit_drop (&edit);
  return fr_edit_end (&edit);
}
