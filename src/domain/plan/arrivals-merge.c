/* What is kept of an arrival. A new tree is as the file says. A tree of the book gains what it did not know;
 * with replace the file goes before it. Girths, taps and yields are the same when their identity is, or their
 * day, their season and place on the trunk, or their season. */
#include "domain/plan/arrivals-private.h"

#include <math.h>
#include <string.h>

#define ALL_SAID G_MAXUINT64

/* --- fields --- */

static gboolean
known (const FrRecord *record, const FrField *field)
{
  switch (field->type)
    {
    case FR_FIELD_TEXT:
    case FR_FIELD_DATE:
      return fr_record_text (record, field) != NULL;
    case FR_FIELD_CODE:
      /* The first code of these is a question left open; of others it is an answer. */
      return !(strcmp (field->codes[0], "unknown") == 0 || strcmp (field->codes[0], "open") == 0)
             || g_strcmp0 (fr_record_text (record, field), field->codes[0]) != 0;
    case FR_FIELD_AMOUNT:
      return !isnan (fr_record_amount ((FrRecord *)record, field)->value);
    case FR_FIELD_BOOL:
      return fr_record_int (record, field) != 0;
    case FR_FIELD_TIME:
      return fr_record_int (record, field) != G_MININT64;
    case FR_FIELD_REF:
      return fr_record_int (record, field) != 0;
    }
  return FALSE;
}

/* Fields that hang together are asked for elsewhere. */
static gboolean
is_apart (const FrField *field)
{
  static const char *const apart[]
      = { "x_m", "y_m", "measured_from", "from_distance_m", "from_bearing_deg", "foreign_data", NULL };

  return field->type == FR_FIELD_REF || g_strv_contains (apart, field->name);
}

/* How many fields of @to gained or changed. */
static guint
merge_fields (FrRecord *to, const FrRecord *from, guint64 said, gboolean replace)
{
  guint n = 0;

  for (guint i = 0; i < to->kind->n_fields; i++)
    {
      const FrField *field = &to->kind->fields[i];

      if (is_apart (field) || (said & (G_GUINT64_CONSTANT (1) << i)) == 0
          || (said == ALL_SAID && !known (from, field)) || fr_record_field_equal (to, from, field)
          || (!replace && known (to, field)))
        continue;
      fr_record_copy_field (to, from, field);
      n++;
    }
  return n;
}

/* --- the tree --- */

static void
set_place (FrTree *tree, const FrArrivalRow *row)
{
  const FrTree *from = row->arrival->tree;
  gboolean as_said = row->x_m == from->x_m.value && row->y_m == from->y_m.value;

  fr_amount_set (&tree->x_m, row->x_m, as_said ? from->x_m.typed : NULL);
  fr_amount_set (&tree->y_m, row->y_m, as_said ? from->y_m.typed : NULL);
}

/* How it was measured goes with where it stands. */
static guint
merge_place (FrArrivalRow *row, FrTree *after, gboolean replace)
{
  static const char *const how[] = { "measured_from", "from_distance_m", "from_bearing_deg" };
  gboolean unknown = isnan (after->x_m.value);
  guint n = 0;

  if (!isnan (row->x_m) && (unknown || (replace && row->away_m > FR_ARRIVAL_SAME_PLACE_M)))
    {
      set_place (after, row);
      row->moves = TRUE;
    }
  if (!fr_arrival_says (row->arrival, "measured_from")
      || (after->measured_from != NULL && !replace && !unknown))
    return 0;
  for (guint i = 0; i < G_N_ELEMENTS (how); i++)
    {
      const FrField *field = fr_kind_field (after->record.kind, how[i]);

      if (fr_record_field_equal (&after->record, &row->arrival->tree->record, field))
        continue;
      fr_record_copy_field (&after->record, &row->arrival->tree->record, field);
      n++;
    }
  return n;
}

static guint
merge_foreign (const FrArrivalWork *work, const FrArrivalRow *row, FrTree *after)
{
  const char *arrived = row->arrival->tree->foreign_data;
  g_autofree char *joined = NULL;

  if (arrived == NULL || g_strcmp0 (arrived, after->foreign_data) == 0)
    return 0;
  if (after->foreign_data == NULL)
    joined = g_strdup (arrived);
  else if (work->options->join_foreign != NULL)
    joined = work->options->join_foreign (after->foreign_data, arrived, work->options->replace);
  if (joined == NULL || g_strcmp0 (joined, after->foreign_data) == 0)
    return 0;
  g_free (after->foreign_data);
  after->foreign_data = g_steal_pointer (&joined);
  return 1;
}

/* A number that no tree has. */
static char *
free_number (FrArrivalWork *work)
{
  char *name;

  do
    name = g_strdup_printf ("%u", ++work->next_number);
  while (g_hash_table_contains (work->names, name) && (g_free (name), TRUE));
  return name;
}

static void
drop_uid_in_use (FrArrivalWork *work, FrRecord *record, const FrRecord *arrived)
{
  if (record->uid[0] == '\0')
    return;
  if (g_hash_table_contains (work->by_uid, record->uid)
      || !g_hash_table_add (work->used, (gpointer)arrived->uid))
    record->uid[0] = '\0';
}

static FrTree *
new_tree (FrArrivalWork *work, FrArrivalRow *row)
{
  FrTree *tree = (FrTree *)fr_record_copy (&row->arrival->tree->record);

  tree->record.id = 0;
  drop_uid_in_use (work, &tree->record, &row->arrival->tree->record);
  set_place (tree, row);
  if (tree->name == NULL)
    tree->name = free_number (work);
  if (!fr_arrival_says (row->arrival, "species"))
    {
      g_free (tree->species);
      tree->species = g_strdup (work->options->species);
      row->species_assumed = TRUE;
    }
  return tree;
}

/* --- its history --- */

static gboolean
same_amount (const FrAmount *a, const FrAmount *b)
{
  return a->value == b->value || (isnan (a->value) && isnan (b->value));
}

/* Whether both are the same thing seen twice, whatever else is known of it. */
static gboolean
same_event (const FrRecord *a, const FrRecord *b)
{
  if (a->kind != b->kind)
    return FALSE;
  if (a->uid[0] != '\0' && strcmp (a->uid, b->uid) == 0)
    return TRUE;
  switch (a->kind->id)
    {
    case FR_KIND_GIRTH:
      {
        const FrGirth *one = (const FrGirth *)a, *two = (const FrGirth *)b;

        if (g_strcmp0 (one->measure, two->measure) != 0)
          return FALSE;
        return one->measured_on == NULL || two->measured_on == NULL
                   ? fabs (one->size_m.value - two->size_m.value) < 1e-9
                   : strcmp (one->measured_on, two->measured_on) == 0;
      }
    case FR_KIND_TAP:
      {
        const FrTap *one = (const FrTap *)a, *two = (const FrTap *)b;

        return one->season.value == two->season.value
               && same_amount (&one->direction_deg, &two->direction_deg)
               && same_amount (&one->height_m, &two->height_m) && g_strcmp0 (one->set_on, two->set_on) == 0;
      }
    case FR_KIND_YIELD:
      return ((const FrYield *)a)->season.value == ((const FrYield *)b)->season.value;
    default:
      return FALSE;
    }
}

/* What the tree has already, or gets from this file. */
static FrStep *
find_event (const FrArrivalWork *work, FrArrivalRow *row, const FrRecord *event, const FrRecord **known_out)
{
  const GPtrArray *history
      = row->tree != NULL ? g_hash_table_lookup (work->history, &row->tree->record.id) : NULL;

  *known_out = NULL;
  for (guint i = 0; i < row->after_history->len; i++)
    if (same_event (event, ((FrStep *)row->after_history->pdata[i])->after))
      return row->after_history->pdata[i];
  for (guint i = 0; history != NULL && i < history->len; i++)
    if (same_event (event, history->pdata[i]))
      {
        *known_out = history->pdata[i];
        break;
      }
  return NULL;
}

static gboolean
check (FrArrivalRow *row, FrRecord *record)
{
  g_autoptr (GArray) problems = fr_record_check (record);

  if (problems->len == 0)
    return TRUE;
  row->fate = FR_ARRIVAL_REFUSED;
  row->reason = FR_ARRIVAL_BAD_RECORD;
  row->problem = g_array_index (problems, FrProblem, 0);
  row->problem_kind = record->kind->id;
  return FALSE;
}

static void
add_event (FrArrivalRow *row, const FrRecord *before, FrRecord *after)
{
  FrStep *step = g_new0 (FrStep, 1);

  step->before = before != NULL ? fr_record_copy (before) : NULL;
  step->after = after;
  g_ptr_array_add (row->after_history, step);
  row->n_history++;
}

static gboolean
merge_event (FrArrivalWork *work, FrArrivalRow *row, const FrRecord *event)
{
  const FrRecord *in_book;
  FrStep *in_file = find_event (work, row, event, &in_book);
  FrRecord *after;

  if (in_file != NULL)
    {
      merge_fields (in_file->after, event, ALL_SAID, work->options->replace);
      return check (row, in_file->after);
    }
  if (in_book != NULL)
    {
      after = fr_record_copy (in_book);
      if (merge_fields (after, event, ALL_SAID, work->options->replace) == 0)
        {
          fr_record_free (after);
          return TRUE;
        }
      add_event (row, in_book, after);
      return check (row, after);
    }
  after = fr_record_copy (event);
  after->id = 0;
  drop_uid_in_use (work, after, event);
  /* The tree it belongs to gets its id later; until then any will do. */
  fr_record_set_int (after, fr_kind_field (after->kind, "tree"),
                     row->tree != NULL ? row->tree->record.id : 1);
  if (after->kind->id == FR_KIND_GIRTH && ((FrGirth *)after)->measured_on == NULL)
    ((FrGirth *)after)->measured_on = g_strdup (work->options->today);
  add_event (row, NULL, after);
  return check (row, after);
}

/* A name goes with an identity; one that was found by its place keeps its own, lest the next reading find
 * another. */
static guint64
said_of (const FrArrivalRow *row)
{
  const FrKind *kind = row->arrival->tree->record.kind;
  guint64 name = G_GUINT64_CONSTANT (1) << (fr_kind_field (kind, "name") - kind->fields);

  return row->by == FR_ARRIVAL_BY_UID ? row->arrival->said : row->arrival->said & ~name;
}

static void
merge_row (FrArrivalWork *work, FrArrivalRow *row)
{
  const FrArrival *arrival = row->arrival;
  gboolean replace = work->options->replace;

  if (row->tree == NULL)
    row->after = new_tree (work, row);
  else
    {
      row->after = (FrTree *)fr_record_copy (&row->tree->record);
      row->n_fields = merge_fields (&row->after->record, &arrival->tree->record, said_of (row), replace)
                      + merge_place (row, row->after, replace) + merge_foreign (work, row, row->after);
    }
  if (!check (row, &row->after->record))
    return;
  for (guint i = 0; i < arrival->history->len; i++)
    if (!merge_event (work, row, arrival->history->pdata[i]))
      return;
  if (row->tree != NULL)
    row->fate = row->n_fields > 0 || row->n_history > 0 || row->moves ? FR_ARRIVAL_CHANGES : FR_ARRIVAL_SAME;
}

void
fr_arrivals_merge (FrArrivalWork *work)
{
  for (guint i = 0; i < work->preview->rows->len; i++)
    {
      FrArrivalRow *row = fr_arrival_row (work->preview, i);

      if (fr_arrival_comes_in (row))
        merge_row (work, row);
    }
}
