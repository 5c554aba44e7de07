/* Arrivals as values, and the preview and change made from them. Which tree of the book is meant is found in
 * arrivals-match.c, how plan and earth lie in arrivals-tie.c, what is kept in arrivals-merge.c. The matching
 * needs no more than what a second reading of the same file still finds, so that it then changes nothing. */
#include "domain/plan/arrivals-private.h"

#include <math.h>
#include <string.h>

/* --- what a file says --- */

static void
arrival_free (gpointer data)
{
  FrArrival *arrival = data;

  fr_record_free (&arrival->tree->record);
  g_ptr_array_unref (arrival->history);
  g_free (arrival);
}

static void
path_free (gpointer data)
{
  FrArrivalPath *path = data;

  g_free (path->name);
  g_free (path->form);
  g_array_unref (path->points);
  g_free (path);
}

FrArrivals *
fr_arrivals_new (void)
{
  FrArrivals *arrivals = g_new0 (FrArrivals, 1);

  arrivals->trees = g_ptr_array_new_with_free_func (arrival_free);
  arrivals->paths = g_ptr_array_new_with_free_func (path_free);
  arrivals->anchor = (FrGeoAnchor){ NAN, NAN, NAN, NAN };
  arrivals->remarks = g_ptr_array_new_with_free_func (g_free);
  return arrivals;
}

void
fr_arrivals_free (FrArrivals *arrivals)
{
  if (arrivals == NULL)
    return;
  g_ptr_array_unref (arrivals->trees);
  g_ptr_array_unref (arrivals->paths);
  g_ptr_array_unref (arrivals->remarks);
  g_free (arrivals);
}

FrArrival *
fr_arrivals_add_tree (FrArrivals *arrivals, guint line)
{
  FrArrival *arrival = g_new0 (FrArrival, 1);

  arrival->line = line;
  arrival->where = (FrEarthPoint){ NAN, NAN };
  arrival->tree = (FrTree *)fr_record_new (FR_KIND_TREE);
  arrival->history = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_record_free);
  g_ptr_array_add (arrivals->trees, arrival);
  return arrival;
}

FrArrivalPath *
fr_arrivals_add_path (FrArrivals *arrivals, guint line, const char *form)
{
  FrArrivalPath *path = g_new0 (FrArrivalPath, 1);

  path->line = line;
  path->form = g_strdup (form);
  path->points = g_array_new (FALSE, FALSE, sizeof (FrEarthPoint));
  g_ptr_array_add (arrivals->paths, path);
  return path;
}

static guint64
field_bit (const char *name)
{
  const FrKind *kind = fr_kind (FR_KIND_TREE);
  const FrField *field = fr_kind_field (kind, name);

  g_return_val_if_fail (field != NULL && kind->n_fields <= 64, 0);

  return G_GUINT64_CONSTANT (1) << (field - kind->fields);
}

void
fr_arrival_say (FrArrival *arrival, const char *field)
{
  arrival->said |= field_bit (field);
}

gboolean
fr_arrival_says (const FrArrival *arrival, const char *field)
{
  return (arrival->said & field_bit (field)) != 0;
}

/* --- what the book holds --- */

gboolean
fr_bush_book_anchor (const FrBushBook *book, FrGeoAnchor *anchor_out)
{
  const FrGround *ground = book->ground;

  *anchor_out = (FrGeoAnchor){ NAN, NAN, NAN, NAN };
  if (ground == NULL || isnan (ground->anchor_x_m.value) || isnan (ground->anchor_y_m.value)
      || isnan (ground->anchor_lat_deg.value) || isnan (ground->anchor_lon_deg.value))
    return FALSE;
  *anchor_out = (FrGeoAnchor){ ground->anchor_lat_deg.value, ground->anchor_lon_deg.value,
                               ground->anchor_x_m.value, ground->anchor_y_m.value };
  return TRUE;
}

static void
add_to_list (GHashTable *table, gpointer key, gpointer value)
{
  GPtrArray *list = g_hash_table_lookup (table, key);

  if (list == NULL)
    {
      list = g_ptr_array_new ();
      g_hash_table_insert (table, key, list);
    }
  g_ptr_array_add (list, value);
}

static gint64 *
tree_of (FrRecord *record)
{
  switch (record->kind->id)
    {
    case FR_KIND_GIRTH:
      return &((FrGirth *)record)->tree;
    case FR_KIND_TAP:
      return &((FrTap *)record)->tree;
    default:
      return &((FrYield *)record)->tree;
    }
}

GHashTable *
fr_bush_book_history (const FrBushBook *book)
{
  GPtrArray *const lists[] = { book->girths, book->taps, book->yields };
  GHashTable *history
      = g_hash_table_new_full (g_int64_hash, g_int64_equal, NULL, (GDestroyNotify)g_ptr_array_unref);

  for (guint k = 0; k < G_N_ELEMENTS (lists); k++)
    for (guint i = 0; lists[k] != NULL && i < lists[k]->len; i++)
      add_to_list (history, tree_of (lists[k]->pdata[i]), lists[k]->pdata[i]);
  return history;
}

/* --- preview --- */

FrArrivalOptions
fr_arrival_options (const char *today)
{
  return (FrArrivalOptions){ .near_m = 3, .far_m = 100, .species = "sugar", .today = today };
}

static void
row_free (gpointer data)
{
  FrArrivalRow *row = data;

  if (row->after != NULL)
    fr_record_free (&row->after->record);
  g_ptr_array_unref (row->after_history);
  g_free (row);
}

static void
path_row_free (gpointer data)
{
  FrArrivalPathRow *row = data;

  if (row->after != NULL)
    fr_record_free (&row->after->record);
  g_free (row);
}

static void
step_free (gpointer data)
{
  FrStep *step = data;

  fr_record_free (step->before);
  fr_record_free (step->after);
  g_free (step);
}

static void
index_book (FrArrivalWork *work)
{
  GPtrArray *const lists[]
      = { work->book->trees, work->book->girths, work->book->taps, work->book->yields, work->book->features };

  for (guint k = 0; k < G_N_ELEMENTS (lists); k++)
    for (guint i = 0; lists[k] != NULL && i < lists[k]->len; i++)
      {
        FrRecord *record = lists[k]->pdata[i];

        if (record->uid[0] != '\0')
          g_hash_table_insert (work->by_uid, record->uid, record);
        if (record->kind->id == FR_KIND_TREE && ((FrTree *)record)->name != NULL)
          {
            add_to_list (work->by_name, ((FrTree *)record)->name, record);
            g_hash_table_add (work->names, ((FrTree *)record)->name);
          }
      }
  for (guint i = 0; i < work->arrivals->trees->len; i++)
    {
      const FrArrival *arrival = work->arrivals->trees->pdata[i];

      if (arrival->tree->name != NULL)
        g_hash_table_add (work->names, arrival->tree->name);
    }
}

static void
add_rows (FrArrivalWork *work)
{
  for (guint i = 0; i < work->arrivals->trees->len; i++)
    {
      FrArrivalRow *row = g_new0 (FrArrivalRow, 1);

      row->arrival = work->arrivals->trees->pdata[i];
      row->away_m = row->x_m = row->y_m = NAN;
      row->after_history = g_ptr_array_new_with_free_func (step_free);
      g_ptr_array_add (work->preview->rows, row);
    }
}

static void
set_ground (FrArrivalPreview *preview, const FrGround *ground)
{
  FrGround *after;

  if (ground != NULL)
    preview->ground_before = (FrGround *)fr_record_copy (&ground->record);
  if (preview->tie != FR_TIE_FROM_FILE && preview->tie != FR_TIE_MIDDLE && preview->tie != FR_TIE_NAMES)
    return;
  after = (FrGround *)(ground != NULL ? fr_record_copy (&ground->record) : fr_record_new (FR_KIND_GROUND));
  fr_amount_set (&after->anchor_lat_deg, preview->anchor.lat_deg, NULL);
  fr_amount_set (&after->anchor_lon_deg, preview->anchor.lon_deg, NULL);
  fr_amount_set (&after->anchor_x_m, preview->anchor.x_m, NULL);
  fr_amount_set (&after->anchor_y_m, preview->anchor.y_m, NULL);
  preview->ground_after = after;
}

static int
compare_doubles (gconstpointer a, gconstpointer b)
{
  const double *x = a, *y = b;

  return (*x > *y) - (*x < *y);
}

/* The middle one, which a few strays do not move; NAN when there is none. */
static double
median (GArray *values)
{
  g_array_sort (values, compare_doubles);
  return values->len > 0 ? g_array_index (values, double, values->len / 2) : NAN;
}

static gboolean
is_new_and_placed (const FrArrivalRow *row)
{
  return row->fate == FR_ARRIVAL_NEW && !isnan (row->x_m) && !isnan (row->y_m);
}

/* A file of another place, or a slip in its coordinates, would otherwise come in without a word. */
static void
find_remote (FrArrivalPreview *preview, const FrBushBook *book)
{
  g_autoptr (GArray) x = g_array_new (FALSE, FALSE, sizeof (double));
  g_autoptr (GArray) y = g_array_new (FALSE, FALSE, sizeof (double));
  double middle_x_m, middle_y_m;

  for (guint i = 0; i < book->trees->len; i++)
    {
      const FrTree *tree = book->trees->pdata[i];

      if (tree->record.archived || isnan (tree->x_m.value))
        continue;
      g_array_append_val (x, tree->x_m.value);
      g_array_append_val (y, tree->y_m.value);
    }
  for (guint i = 0, in_book = x->len; i < preview->rows->len && in_book == 0; i++)
    {
      const FrArrivalRow *row = fr_arrival_row (preview, i);

      if (!is_new_and_placed (row))
        continue;
      g_array_append_val (x, row->x_m);
      g_array_append_val (y, row->y_m);
    }
  middle_x_m = median (x);
  middle_y_m = median (y);
  for (guint i = 0; i < preview->rows->len; i++)
    {
      const FrArrivalRow *row = fr_arrival_row (preview, i);
      double off_m = is_new_and_placed (row) ? hypot (row->x_m - middle_x_m, row->y_m - middle_y_m) : NAN;

      if (!(off_m <= preview->remote_m) && !isnan (off_m))
        {
          preview->remote_m = off_m;
          preview->remote = row;
        }
    }
}

FrArrivalPreview *
fr_arrivals_preview (const FrArrivals *arrivals, const FrBushBook *book, const FrArrivalOptions *options)
{
  FrArrivalPreview *preview = g_new0 (FrArrivalPreview, 1);
  FrArrivalWork work = { .arrivals = arrivals, .book = book, .options = options, .preview = preview };

  preview->rows = g_ptr_array_new_with_free_func (row_free);
  preview->paths = g_ptr_array_new_with_free_func (path_row_free);
  preview->anchor = (FrGeoAnchor){ NAN, NAN, NAN, NAN };
  preview->residual_m = preview->worst_m = preview->turn_deg = preview->stretch = preview->remote_m = NAN;
  work.by_uid = g_hash_table_new (g_str_hash, g_str_equal);
  work.by_name = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, (GDestroyNotify)g_ptr_array_unref);
  work.history = fr_bush_book_history (book);
  work.used = g_hash_table_new (g_str_hash, g_str_equal);
  work.names = g_hash_table_new (g_str_hash, g_str_equal);
  index_book (&work);
  add_rows (&work);
  fr_arrivals_find_tie (&work);
  fr_arrivals_place (&work);
  fr_arrivals_match (&work);
  fr_arrivals_merge (&work);
  if (options->with_paths)
    fr_arrivals_draw_paths (&work);
  set_ground (preview, book->ground);
  find_remote (preview, book);
  for (guint i = 0; i < preview->rows->len; i++)
    preview->n[fr_arrival_row (preview, i)->fate]++;
  g_hash_table_unref (work.by_uid);
  g_hash_table_unref (work.by_name);
  g_hash_table_unref (work.history);
  g_hash_table_unref (work.used);
  g_hash_table_unref (work.names);
  return preview;
}

void
fr_arrival_preview_free (FrArrivalPreview *preview)
{
  if (preview == NULL)
    return;
  g_ptr_array_unref (preview->rows);
  g_ptr_array_unref (preview->paths);
  if (preview->ground_before != NULL)
    fr_record_free (&preview->ground_before->record);
  if (preview->ground_after != NULL)
    fr_record_free (&preview->ground_after->record);
  g_free (preview);
}

/* --- change --- */

typedef struct
{
  FrChange *change;
  FrArrivalIds ids;
} Making;

/* What is new gets its id, and an identity unless the file brought one. */
static void
add_new (Making *making, const FrRecord *record, gint64 tree)
{
  g_autoptr (FrRecord) after = fr_record_copy (record);

  after->id = making->ids.next[after->kind->id]++;
  if (after->uid[0] == '\0')
    making->ids.new_uid (after->uid);
  if (tree != 0)
    *tree_of (after) = tree;
  fr_change_add (making->change, NULL, after);
}

static void
add_row (Making *making, const FrArrivalRow *row)
{
  gint64 tree = row->tree != NULL ? row->tree->record.id : making->ids.next[FR_KIND_TREE];

  if (row->tree == NULL)
    add_new (making, &row->after->record, 0);
  else
    fr_change_add (making->change, &row->tree->record, &row->after->record);
  for (guint i = 0; i < row->after_history->len; i++)
    {
      const FrStep *step = row->after_history->pdata[i];

      if (step->before == NULL)
        add_new (making, step->after, tree);
      else
        fr_change_add (making->change, step->before, step->after);
    }
}

FrChange *
fr_arrivals_change (const FrArrivalPreview *preview, const FrArrivalIds *ids, const char *subject)
{
  Making making = { fr_change_new ("import-trees", subject), *ids };

  for (guint i = 0; i < preview->rows->len; i++)
    {
      const FrArrivalRow *row = fr_arrival_row (preview, i);

      if ((row->fate == FR_ARRIVAL_NEW || row->fate == FR_ARRIVAL_CHANGES) && !row->left_out)
        add_row (&making, row);
    }
  for (guint i = 0; i < preview->paths->len; i++)
    {
      const FrArrivalPathRow *row = preview->paths->pdata[i];

      if (row->fate == FR_ARRIVAL_NEW && !row->left_out)
        add_new (&making, &row->after->record, 0);
    }
  /* The tie alone is no import. */
  if (preview->ground_after != NULL && !fr_change_is_empty (making.change))
    {
      if (preview->ground_before == NULL)
        add_new (&making, &preview->ground_after->record, 0);
      else
        fr_change_add (making.change, &preview->ground_before->record, &preview->ground_after->record);
    }
  return making.change;
}
