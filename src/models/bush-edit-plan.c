/* The tapping plan taken over into the book as planned taps. What the season's trees already have counts:
 * taps that are set are never touched, planned ones are kept as far as the plan wants them, the oldest first.
 */
#include "models/bush-edit-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* The season's planned taps by tree: number of the tree → GPtrArray of FrTap, by rising number. */
static GHashTable *
planned_by_tree (FrBook *book, guint season)
{
  FrRecordList *list = fr_book_get_list (book, FR_KIND_TAP);
  GHashTable *planned
      = g_hash_table_new_full (g_int64_hash, g_int64_equal, NULL, (GDestroyNotify)g_ptr_array_unref);

  for (guint i = 0; i < fr_record_list_get_size (list); i++)
    {
      const FrTap *tap = (const FrTap *)fr_record_list_get (list, i);
      GPtrArray *taps;

      if (!fr_bush_edit_tap_is_of (tap, season) || tap->set_on != NULL)
        continue;
      taps = g_hash_table_lookup (planned, &tap->tree);
      if (taps == NULL)
        {
          taps = g_ptr_array_new ();
          g_hash_table_insert (planned, (gpointer)&tap->tree, taps);
        }
      g_ptr_array_add (taps, (gpointer)tap);
    }
  return planned;
}

static gboolean
add_taps (FrEdit *edit, const FrBush *bush, gint64 tree, guint n, GError **error)
{
  g_autofree FrBushPlace *places = g_new0 (FrBushPlace, n);
  gboolean known = fr_bush_places (bush, tree, n, places);

  for (guint i = 0; i < n; i++)
    if (!fr_bush_edit_plan_tap (edit, tree, fr_bush_get_season (bush), known ? &places[i] : NULL, error))
      return FALSE;
  return TRUE;
}

FrChange *
fr_bush_edit_take_plan (FrBook *book, const FrBush *bush, const FrBushPlan *plan, GError **error)
{
  g_return_val_if_fail (bush != NULL && plan != NULL, NULL);

  FrEdit edit;
  g_autoptr (GHashTable) planned = NULL;

  if (plan->code != FR_BUSH_PLAN_OK)
    return fr_edit_refuse (error, _ ("There is no plan to take over. Say first how many buckets there are."));
  g_return_val_if_fail (plan->taps != NULL && plan->taps->len == fr_bush_n_trees (bush), NULL);

  planned = planned_by_tree (book, fr_bush_get_season (bush));
  fr_edit_begin (&edit, book, "plan-taps", NULL);
  for (guint i = 0; i < fr_bush_n_trees (bush); i++)
    {
      const FrBushTree *tree = fr_bush_tree_at (bush, i);
      const GPtrArray *has = g_hash_table_lookup (planned, &tree->id);
      guint wanted = g_array_index (plan->taps, guint, i);
      guint left = wanted > tree->taps_set ? wanted - tree->taps_set : 0;

      if (fr_bush_edit_tree (book, tree->id, error) == NULL)
        return fr_edit_drop (&edit);
      for (guint t = left; has != NULL && t < has->len; t++)
        {
          const FrTap *tap = g_ptr_array_index (has, t);

          fr_edit_take_out (&edit, &tap->record, fr_bush_edit_tap_has_history (book, tap));
        }
      if (left > (has != NULL ? has->len : 0)
          && !add_taps (&edit, bush, tree->id, left - (has != NULL ? has->len : 0), error))
        return fr_edit_drop (&edit);
    }
  return fr_edit_end (&edit);
}
