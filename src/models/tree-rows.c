/* The rows of the sugarbush's list. A new order is told as few spans taken out and put in: the longest run of
 * rows that keep their order (patience sorting, Schensted 1961) stays, everything else moves. Where that
 * would be very many spans, one that covers them all is told instead, for a view does the same work for each.
 */
#include "models/sugarbush-private.h"

#define MOST_SPANS 32

struct _FrTreeRows
{
  GObject parent_instance;
  GPtrArray *items;
};

static void
fr_tree_rows_model_init (GListModelInterface *iface);

G_DEFINE_FINAL_TYPE_WITH_CODE (FrTreeRows, fr_tree_rows, G_TYPE_OBJECT,
                               G_IMPLEMENT_INTERFACE (G_TYPE_LIST_MODEL, fr_tree_rows_model_init))

static GType
fr_tree_rows_get_item_type (GListModel *model)
{
  return FR_TYPE_TREE_ITEM;
}

static guint
fr_tree_rows_get_n_items (GListModel *model)
{
  return FR_TREE_ROWS (model)->items->len;
}

static gpointer
fr_tree_rows_get_item (GListModel *model, guint position)
{
  FrTreeRows *self = FR_TREE_ROWS (model);

  return position < self->items->len ? g_object_ref (g_ptr_array_index (self->items, position)) : NULL;
}

static void
fr_tree_rows_model_init (GListModelInterface *iface)
{
  iface->get_item_type = fr_tree_rows_get_item_type;
  iface->get_n_items = fr_tree_rows_get_n_items;
  iface->get_item = fr_tree_rows_get_item;
}

static void
fr_tree_rows_finalize (GObject *object)
{
  g_ptr_array_unref (FR_TREE_ROWS (object)->items);
  G_OBJECT_CLASS (fr_tree_rows_parent_class)->finalize (object);
}

static void
fr_tree_rows_class_init (FrTreeRowsClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = fr_tree_rows_finalize;
}

static void
fr_tree_rows_init (FrTreeRows *self)
{
  self->items = g_ptr_array_new_with_free_func (g_object_unref);
}

FrTreeRows *
fr_tree_rows_new (void)
{
  return g_object_new (FR_TYPE_TREE_ROWS, NULL);
}

guint
fr_tree_rows_get_size (FrTreeRows *self)
{
  return self->items->len;
}

FrTreeItem *
fr_tree_rows_get (FrTreeRows *self, guint position)
{
  g_return_val_if_fail (position < self->items->len, NULL);
  return g_ptr_array_index (self->items, position);
}

/* Marks in @stays the wanted rows of a longest subsequence whose old places rise. @old: place from 1 in the
 * old rows, 0 new. */
static void
mark_longest_run (const guint *old, guint n, gboolean *stays)
{
  g_autofree guint *tails = g_new (guint, n + 1); /* tails[k]: where the best run of k + 1 ends */
  g_autofree guint *before = g_new (guint, n + 1);
  guint length = 0;

  for (guint i = 0; i < n; i++)
    {
      guint low = 0, high = length;

      if (old[i] == 0)
        continue;
      while (low < high)
        {
          guint middle = low + (high - low) / 2;

          if (old[tails[middle]] < old[i])
            low = middle + 1;
          else
            high = middle;
        }
      before[i] = low > 0 ? tails[low - 1] : G_MAXUINT;
      tails[low] = i;
      length = MAX (length, low + 1);
    }
  for (guint i = length > 0 ? tails[length - 1] : G_MAXUINT; i != G_MAXUINT; i = before[i])
    stays[i] = TRUE;
}

/* One span: rows @from to below @to of the wanted ones stand where @n_old rows stood at @position. */
typedef struct
{
  guint position;
  guint n_old;
  guint from;
  guint to;
} Span;

/* Spans by rising place; each position holds once the spans before it are done. */
static GArray *
find_spans (const guint *old, const gboolean *stays, guint n, guint n_old)
{
  GArray *spans = g_array_new (FALSE, FALSE, sizeof (Span));
  guint at_old = 0;

  for (guint i = 0; i <= n;)
    {
      Span span = { .position = i, .from = i };

      while (i < n && !stays[i])
        i++;
      span.to = i;
      span.n_old = (i < n ? old[i] - 1 : n_old) - at_old;
      if (span.n_old > 0 || span.to > span.from)
        g_array_append_val (spans, span);
      at_old = i < n ? old[i] : n_old;
      i++;
    }
  return spans;
}

static void
replace_span (FrTreeRows *self, const Span *span, GPtrArray *wanted)
{
  if (span->n_old > 0)
    g_ptr_array_remove_range (self->items, span->position, span->n_old);
  for (guint i = span->from; i < span->to; i++)
    g_ptr_array_insert (self->items, (gint)(span->position + i - span->from),
                        g_object_ref (g_ptr_array_index (wanted, i)));
  g_list_model_items_changed (G_LIST_MODEL (self), span->position, span->n_old, span->to - span->from);
}

/* All spans as one. */
static Span
join_spans (const GArray *spans)
{
  const Span *first = &g_array_index (spans, Span, 0);
  const Span *last = &g_array_index (spans, Span, spans->len - 1);
  gint64 grown = 0;

  for (guint i = 0; i < spans->len; i++)
    {
      const Span *span = &g_array_index (spans, Span, i);

      grown += (gint64)(span->to - span->from) - span->n_old;
    }
  return (Span){ .position = first->position,
                 .n_old = (guint)((gint64)(last->to - first->from) - grown),
                 .from = first->from,
                 .to = last->to };
}

void
fr_tree_rows_set (FrTreeRows *self, GPtrArray *wanted)
{
  g_autoptr (GHashTable) places = g_hash_table_new (NULL, NULL);
  g_autofree guint *old = g_new (guint, wanted->len + 1);
  g_autofree gboolean *stays = g_new0 (gboolean, wanted->len + 1);
  g_autoptr (GArray) spans = NULL;

  for (guint i = 0; i < self->items->len; i++)
    g_hash_table_insert (places, g_ptr_array_index (self->items, i), GUINT_TO_POINTER (i + 1));
  for (guint i = 0; i < wanted->len; i++)
    old[i] = GPOINTER_TO_UINT (g_hash_table_lookup (places, g_ptr_array_index (wanted, i)));
  mark_longest_run (old, wanted->len, stays);
  spans = find_spans (old, stays, wanted->len, self->items->len);
  if (spans->len > MOST_SPANS)
    {
      Span all = join_spans (spans);

      replace_span (self, &all, wanted);
      return;
    }
  for (guint i = 0; i < spans->len; i++)
    replace_span (self, &g_array_index (spans, Span, i), wanted);
}
