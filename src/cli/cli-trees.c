/* Loading for import and export. A book without a household has trees all the same; it speaks metric. */
#include "cli/cli-trees.h"

#include "cli/cli-evening.h"
#include "domain/records/household-units.h"

#include <string.h>
#include <sys/stat.h>

gboolean
fr_cli_trees_load (FrCliTrees *trees, const char *path, GError **error)
{
  const FrHousehold *household;

  memset (trees, 0, sizeof *trees);
  trees->store = fr_cli_open_book (path, error);
  if (trees->store == NULL)
    return FALSE;
  for (guint kind = 0; kind < FR_N_KINDS; kind++)
    {
      if (fr_kind (kind)->time_field != NULL) /* no trees, and many */
        continue;
      trees->kinds[kind] = fr_store_load (trees->store, kind, error);
      if (trees->kinds[kind] == NULL)
        return FALSE;
    }
  trees->book = (FrBushBook){
    .trees = trees->kinds[FR_KIND_TREE],
    .girths = trees->kinds[FR_KIND_GIRTH],
    .taps = trees->kinds[FR_KIND_TAP],
    .yields = trees->kinds[FR_KIND_YIELD],
    .features = trees->kinds[FR_KIND_FEATURE],
    .ground = trees->kinds[FR_KIND_GROUND]->len > 0 ? trees->kinds[FR_KIND_GROUND]->pdata[0] : NULL,
    .tapping = trees->kinds[FR_KIND_TAPPING]->len > 0 ? trees->kinds[FR_KIND_TAPPING]->pdata[0] : NULL,
  };
  household = trees->kinds[FR_KIND_HOUSEHOLD]->len > 0 ? trees->kinds[FR_KIND_HOUSEHOLD]->pdata[0] : NULL;
  trees->say.units
      = fr_household_units (household, fr_cli_decimal_mark (), &trees->measures, &trees->n_measures);
  return TRUE;
}

void
fr_cli_trees_clear (FrCliTrees *trees)
{
  for (guint kind = 0; kind < FR_N_KINDS; kind++)
    g_clear_pointer (&trees->kinds[kind], g_ptr_array_unref);
  g_clear_pointer (&trees->store, fr_store_close);
  fr_measures_free (trees->measures, trees->n_measures);
  trees->measures = NULL;
}

gboolean
fr_cli_is_book (const char *book, const char *path)
{
  static const char *const beside[] = { "", "-wal", "-shm", "-journal" };
  g_autofree char *own = g_build_filename (g_get_user_data_dir (), "frostrun", "book.frostrun", NULL);
  struct stat one, two;

  for (guint i = 0; i < G_N_ELEMENTS (beside); i++)
    {
      g_autofree char *part = g_strconcat (book != NULL ? book : own, beside[i], NULL);

      if (strcmp (part, path) == 0
          || (stat (part, &one) == 0 && stat (path, &two) == 0 && one.st_dev == two.st_dev
              && one.st_ino == two.st_ino))
        return TRUE;
    }
  return FALSE;
}

void
fr_cli_new_uid (char uid_out[33])
{
  for (guint i = 0; i < 4; i++)
    g_snprintf (uid_out + 8 * i, 9, "%08x", g_random_int ());
}
