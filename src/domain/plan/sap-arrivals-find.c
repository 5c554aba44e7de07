/* What a row names, and which record of the book it is. Names that two records have are no names, unless all
 * but one are put away. */
#include "domain/plan/sap-arrivals-private.h"

#include "domain/plan/bush.h"

#include <math.h>
#include <string.h>

#define UID_CHARS 32

static const FrKindId name_kinds[FR_N_SAP_NAMES]
    = { FR_KIND_TREE, FR_KIND_TAP, FR_KIND_CONTAINER, FR_KIND_CONTAINER, FR_KIND_CONTAINER, FR_KIND_NIGHT };
static const char *const name_fields[FR_N_SAP_NAMES]
    = { "tree", "tap", "container", "bucket", "target", "night" };

/* --- the book --- */

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

static void
index_uids (FrSapWork *work, GPtrArray *list)
{
  for (guint i = 0; list != NULL && i < list->len; i++)
    {
      FrRecord *record = list->pdata[i];

      if (record->uid[0] != '\0')
        g_hash_table_insert (work->by_uid, record->uid, record);
    }
}

static void
append_ref (GString *key, gint64 id)
{
  g_string_append_printf (key, "|%" G_GINT64_FORMAT, id);
}

static void
append_amount (GString *key, const FrAmount *amount)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];

  g_string_append_printf (key, "|%s", g_ascii_dtostr (text, sizeof text, amount->value));
}

/* What two records must share to be the same without an identity, as a text: when, of what and how much. */
static char *
key_of (const FrRecord *record)
{
  GString *key = g_string_new (record->kind->name);

  switch (record->kind->id)
    {
    case FR_KIND_GATHERING:
      {
        const FrGathering *one = (const FrGathering *)record;

        append_ref (key, one->gathered_utc);
        g_string_append_printf (key, "|%s|%s|%s", one->scope, one->measured_by,
                                strcmp (one->scope, "group") == 0 && one->stand != NULL ? one->stand : "");
        append_ref (key, strcmp (one->scope, "tree") == 0 ? one->tree : 0);
        append_ref (key, strcmp (one->scope, "tap") == 0 ? one->tap : 0);
        append_amount (key, strcmp (one->measured_by, "weight") == 0  ? &one->weight_kg
                            : strcmp (one->measured_by, "depth") == 0 ? &one->depth_m
                                                                      : &one->volume_l);
        break;
      }
    case FR_KIND_POUR:
      {
        const FrPour *one = (const FrPour *)record;

        append_ref (key, one->poured_utc);
        g_string_append_printf (key, "|%s", one->reason);
        append_ref (key, one->container);
        append_ref (key, one->target);
        append_amount (key, &one->volume_l);
        break;
      }
    default:
      {
        const FrDip *one = (const FrDip *)record;

        append_ref (key, one->found_utc);
        append_ref (key, one->container);
        append_amount (key, &one->volume_l);
        append_amount (key, &one->weight_kg);
        append_amount (key, &one->depth_m);
      }
    }
  return g_string_free (key, FALSE);
}

static void
index_alike (FrSapWork *work, GPtrArray *list)
{
  for (guint i = 0; list != NULL && i < list->len; i++)
    {
      FrRecord *record = list->pdata[i];
      char *key = key_of (record);
      GPtrArray *alike = g_hash_table_lookup (work->alike, key);

      if (alike == NULL)
        {
          alike = g_ptr_array_new ();
          g_hash_table_insert (work->alike, g_strdup (key), alike);
        }
      g_free (key);
      g_ptr_array_add (alike, record);
    }
}

static GHashTable *
new_lists (GHashFunc hash, GEqualFunc equal)
{
  return g_hash_table_new_full (hash, equal, NULL, (GDestroyNotify)g_ptr_array_unref);
}

void
fr_sap_index (FrSapWork *work)
{
  const FrSeasonBook *book = work->book;
  GPtrArray *const lists[] = { book->trees,      book->girths, book->taps, book->yields, book->containers,
                               book->gatherings, book->pours,  book->dips, book->nights };

  work->utc = book->zone == NULL ? fr_zone_table_new_utc () : NULL;
  work->zone = book->zone != NULL ? book->zone : work->utc;
  work->by_uid = g_hash_table_new (g_str_hash, g_str_equal);
  work->trees = new_lists (g_str_hash, g_str_equal);
  work->containers = new_lists (g_str_hash, g_str_equal);
  work->nights = new_lists (g_str_hash, g_str_equal);
  work->taps = new_lists (g_int64_hash, g_int64_equal);
  work->stands = g_hash_table_new (g_str_hash, g_str_equal);
  work->lines = g_hash_table_new (g_str_hash, g_str_equal);
  work->taken = g_hash_table_new (NULL, NULL);
  work->alike = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify)g_ptr_array_unref);
  for (guint k = 0; k < G_N_ELEMENTS (lists); k++)
    index_uids (work, lists[k]);
  for (guint i = 0; book->trees != NULL && i < book->trees->len; i++)
    {
      FrTree *tree = book->trees->pdata[i];

      if (tree->name != NULL)
        add_to_list (work->trees, tree->name, tree);
      if (tree->stand != NULL)
        g_hash_table_add (work->stands, tree->stand);
    }
  for (guint i = 0; book->containers != NULL && i < book->containers->len; i++)
    fr_sap_index_add (work, book->containers->pdata[i]);
  for (guint i = 0; book->nights != NULL && i < book->nights->len; i++)
    if (((FrNight *)book->nights->pdata[i])->evening != NULL)
      add_to_list (work->nights, ((FrNight *)book->nights->pdata[i])->evening, book->nights->pdata[i]);
  for (guint i = 0; book->taps != NULL && i < book->taps->len; i++)
    add_to_list (work->taps, &((FrTap *)book->taps->pdata[i])->tree, book->taps->pdata[i]);
  index_alike (work, book->gatherings);
  index_alike (work, book->pours);
  index_alike (work, book->dips);
}

void
fr_sap_index_add (FrSapWork *work, FrContainer *container)
{
  if (container->name != NULL)
    add_to_list (work->containers, container->name, container);
  if (container->record.uid[0] != '\0')
    g_hash_table_insert (work->by_uid, container->record.uid, container);
}

void
fr_sap_index_clear (FrSapWork *work)
{
  g_clear_pointer (&work->utc, fr_zone_table_free);
  g_hash_table_unref (work->by_uid);
  g_hash_table_unref (work->trees);
  g_hash_table_unref (work->containers);
  g_hash_table_unref (work->nights);
  g_hash_table_unref (work->taps);
  g_hash_table_unref (work->stands);
  g_hash_table_unref (work->lines);
  g_hash_table_unref (work->taken);
  g_hash_table_unref (work->alike);
}

/* --- names --- */

static gboolean
refuse_name (FrSapArrivalRow *row, FrSapName name, FrSapRefusal refusal)
{
  fr_sap_refuse (row, refusal);
  row->name = name;
  return FALSE;
}

/* The only one that is not put away, else the only one. */
static const FrRecord *
only_one (const GPtrArray *list, gboolean *several_out)
{
  const FrRecord *found = NULL;
  guint n = 0;

  for (guint i = 0; list != NULL && i < list->len; i++)
    if (!((FrRecord *)list->pdata[i])->archived)
      {
        found = list->pdata[i];
        n++;
      }
  if (n == 0 && list != NULL && list->len == 1)
    return list->pdata[0];
  *several_out = n > 1 || (n == 0 && list != NULL && list->len > 1);
  return n == 1 ? found : NULL;
}

/* The how-manyeth hole of a tree in the season of a row; they stand by number. */
static const FrRecord *
tap_by_count (const FrSapWork *work, gint64 tree, gint64 utc_s, const char *text)
{
  const GPtrArray *taps = g_hash_table_lookup (work->taps, &tree);
  const guint season = fr_season_of (fr_zone_local (work->zone, utc_s).date);
  guint64 wanted;

  if (tree == 0 || !g_ascii_string_to_unsigned (text, 10, 1, 1000, &wanted, NULL))
    return NULL;
  for (guint i = 0; taps != NULL && i < taps->len; i++)
    {
      const FrTap *tap = taps->pdata[i];

      if (!tap->record.archived && tap->season.value == season && tap->set_on != NULL && --wanted == 0)
        return &tap->record;
    }
  return NULL;
}

static const FrRecord *
look_up (const FrSapWork *work, const FrRecord *record, FrSapName name, const char *text,
         gboolean *several_out)
{
  const FrRecord *found = strlen (text) == UID_CHARS ? g_hash_table_lookup (work->by_uid, text) : NULL;

  if (found != NULL && found->kind->id == name_kinds[name])
    return found;
  switch (name)
    {
    case FR_SAP_NAMES_TREE:
      return only_one (g_hash_table_lookup (work->trees, text), several_out);
    case FR_SAP_NAMES_TAP:
      return tap_by_count (work, ((const FrGathering *)record)->tree,
                           ((const FrGathering *)record)->gathered_utc, text);
    case FR_SAP_NAMES_NIGHT:
      return only_one (g_hash_table_lookup (work->nights, text), several_out);
    default:
      return only_one (g_hash_table_lookup (work->containers, text), several_out);
    }
}

static gboolean
find_name (FrSapWork *work, FrSapArrivalRow *row, FrRecord *record, FrSapName name)
{
  const char *said = row->arrival->names[name];
  g_autofree char *bare = said != NULL ? g_strstrip (g_strdup (said)) : NULL;
  const FrRecord *found;
  gboolean several = FALSE;

  if (said == NULL)
    return TRUE;
  found = look_up (work, record, name, said, &several);
  /* Blanks around a name are a slip, unless it has them in the book. */
  if (found == NULL && !several)
    found = look_up (work, record, name, bare, &several);
  if (found == NULL)
    return refuse_name (row, name, several ? FR_SAP_TWO_SUCH : FR_SAP_NO_SUCH);
  fr_record_set_int (record, fr_kind_field (record->kind, name_fields[name]), found->id);
  return TRUE;
}

static void
set_scope (FrGathering *gathering, const char *scope)
{
  fr_record_set_text (&gathering->record, fr_kind_field (gathering->record.kind, "scope"), scope);
}

static gboolean
says (const FrSapArrival *arrival, const char *name)
{
  const FrKind *kind = arrival->record->kind;

  return (arrival->said & (G_GUINT64_CONSTANT (1) << (fr_kind_field (kind, name) - kind->fields))) != 0;
}

/* What a gathering is of shows in what it names, unless it is said; a name in the place of a tree's may be a
 * group's. */
static gboolean
find_scope (FrSapWork *work, FrSapArrivalRow *row, FrGathering *gathering)
{
  char *const *names = row->arrival->names;
  const gboolean is_said = says (row->arrival, "scope");
  g_autofree char *bare
      = names[FR_SAP_NAMES_TREE] != NULL ? g_strstrip (g_strdup (names[FR_SAP_NAMES_TREE])) : NULL;
  gboolean several = FALSE;

  if (!is_said && names[FR_SAP_NAMES_TAP] == NULL && bare != NULL && gathering->stand == NULL
      && g_hash_table_contains (work->stands, bare)
      && look_up (work, &gathering->record, FR_SAP_NAMES_TREE, bare, &several) == NULL && !several)
    {
      set_scope (gathering, "group");
      fr_record_set_text (&gathering->record, fr_kind_field (gathering->record.kind, "stand"), bare);
      return TRUE;
    }
  if (!find_name (work, row, &gathering->record, FR_SAP_NAMES_TREE)
      || !find_name (work, row, &gathering->record, FR_SAP_NAMES_TAP))
    return FALSE;
  if (!is_said)
    set_scope (gathering, gathering->tap != 0        ? "tap"
                          : gathering->tree != 0     ? "tree"
                          : gathering->stand != NULL ? "group"
                                                     : "bush");
  /* Of a tap the tree is only named for people. */
  if (strcmp (gathering->scope, "tap") == 0)
    gathering->tree = 0;
  return TRUE;
}

gboolean
fr_sap_find_names (FrSapWork *work, FrSapArrivalRow *row, FrRecord *record)
{
  if (record->kind->id == FR_KIND_GATHERING && !find_scope (work, row, (FrGathering *)record))
    return FALSE;
  for (FrSapName name = FR_SAP_NAMES_CONTAINER; name < FR_N_SAP_NAMES; name++)
    if (!find_name (work, row, record, name))
      return FALSE;
  return TRUE;
}

/* --- records --- */

static gboolean
refuse_twin (FrSapArrivalRow *row, guint line)
{
  fr_sap_refuse (row, FR_SAP_TWICE);
  row->other_line = line;
  return FALSE;
}

/* A record of the book is taken once. */
static gboolean
take (FrSapWork *work, FrSapArrivalRow *row, const FrRecord *found)
{
  gpointer line = found != NULL ? g_hash_table_lookup (work->taken, found) : NULL;

  if (line != NULL)
    return refuse_twin (row, GPOINTER_TO_UINT (line));
  if (found != NULL)
    g_hash_table_insert (work->taken, (gpointer)found, GUINT_TO_POINTER (row->arrival->line));
  row->before = found;
  return TRUE;
}

static gboolean
find_by_uid (FrSapWork *work, FrSapArrivalRow *row, const FrRecord *record)
{
  const FrRecord *found = g_hash_table_lookup (work->by_uid, record->uid);
  gpointer line = g_hash_table_lookup (work->lines, record->uid);

  if (line != NULL)
    return refuse_twin (row, GPOINTER_TO_UINT (line));
  g_hash_table_insert (work->lines, (gpointer)row->arrival->record->uid,
                       GUINT_TO_POINTER (row->arrival->line));
  if (found != NULL && found->kind != record->kind)
    {
      fr_sap_refuse (row, FR_SAP_ELSEWHERE);
      return FALSE;
    }
  return take (work, row, found);
}

static gboolean
find_by_name (FrSapWork *work, FrSapArrivalRow *row, const FrContainer *container)
{
  const GPtrArray *list
      = container->name != NULL ? g_hash_table_lookup (work->containers, container->name) : NULL;
  const FrRecord *found;
  gboolean several = FALSE;
  gpointer line = container->name != NULL ? g_hash_table_lookup (work->lines, container->name) : NULL;

  if (line != NULL)
    return refuse_twin (row, GPOINTER_TO_UINT (line));
  found = only_one (list, &several);
  if (several)
    return refuse_name (row, FR_SAP_NAMES_CONTAINER, FR_SAP_TWO_SUCH);
  if (container->name != NULL)
    g_hash_table_insert (work->lines, ((FrContainer *)row->arrival->record)->name,
                         GUINT_TO_POINTER (row->arrival->line));
  return take (work, row, found);
}

static gboolean
says_the_same (const FrRecord *record, const FrRecord *other, guint64 said)
{
  for (guint i = 0; i < record->kind->n_fields; i++)
    if ((said & (G_GUINT64_CONSTANT (1) << i)) != 0
        && !fr_record_field_equal (record, other, &record->kind->fields[i]))
      return FALSE;
  return record->archived == other->archived;
}

gboolean
fr_sap_find_record (FrSapWork *work, FrSapArrivalRow *row, const FrRecord *record, guint64 said)
{
  g_autofree char *key = NULL;
  GPtrArray *alike;

  if (record->uid[0] != '\0')
    return find_by_uid (work, row, record);
  if (record->kind->id == FR_KIND_CONTAINER)
    return find_by_name (work, row, (const FrContainer *)record);
  key = key_of (record);
  alike = g_hash_table_lookup (work->alike, key);
  for (guint i = 0; alike != NULL && i < alike->len; i++)
    if (!g_hash_table_contains (work->taken, alike->pdata[i])
        && says_the_same (record, alike->pdata[i], said))
      {
        const FrRecord *found = alike->pdata[i];

        g_ptr_array_remove_index_fast (alike, i);
        return take (work, row, found);
      }
  return TRUE;
}
