/* What the kinds of a season's sap ask beyond single fields: the amount that was measured, the tree, tap or group a gathering is of,
 * a container that is not poured into itself, one piece of kit for a point of a checklist. */
#include "domain/maths/sap-keeping.h"
#include "domain/records/check-private.h"

#include <math.h>
#include <string.h>

static void
need (GArray *problems, const FrRecord *record, const char *name)
{
  const FrField *field = fr_kind_field (record->kind, name);
  gboolean there;

  switch (field->type)
    {
    case FR_FIELD_AMOUNT:
      there = !isnan (fr_record_amount ((FrRecord *)record, field)->value);
      break;
    case FR_FIELD_REF:
      there = fr_record_int (record, field) != 0;
      break;
    default:
      there = !fr_check_is_blank (fr_record_text (record, field));
      break;
    }
  if (!there)
    fr_check_add (problems, FR_PROBLEM_MISSING, field, NAN, 0);
}

/* The field that holds the amount for a way of measuring. */
static const char *
amount_of (const char *measured_by)
{
  if (strcmp (measured_by, "weight") == 0)
    return "weight_kg";
  return strcmp (measured_by, "depth") == 0 ? "depth_m" : "volume_l";
}

static void
check_container (GArray *problems, const FrContainer *container)
{
  static const char *const shape[] = { "diameter_m", "height_m", NULL };

  fr_check_whole (problems, &container->record, "made_in");
  fr_check_together (problems, &container->record, shape);
  if (!isnan (container->top_diameter_m.value) && isnan (container->diameter_m.value))
    fr_check_add_conflict (problems, &container->record, "top_diameter_m", "diameter_m");
}

static void
check_gathering (GArray *problems, const FrGathering *gathering)
{
  const FrRecord *record = &gathering->record;

  if (strcmp (gathering->scope, "tree") == 0)
    need (problems, record, "tree");
  else if (strcmp (gathering->scope, "tap") == 0)
    need (problems, record, "tap");
  else if (strcmp (gathering->scope, "group") == 0)
    need (problems, record, "stand");
  need (problems, record, amount_of (gathering->measured_by));
  if (strcmp (gathering->measured_by, "depth") == 0)
    need (problems, record, "bucket");
}

static void
check_pour (GArray *problems, const FrPour *pour)
{
  gboolean moved = strcmp (pour->reason, "moved") == 0;

  if (moved ? pour->target == pour->container : pour->target != 0)
    fr_check_add_conflict (problems, &pour->record, "target", moved ? "container" : "reason");
  if (pour->night != 0 && strcmp (pour->reason, "boiled") != 0)
    fr_check_add_conflict (problems, &pour->record, "night", "reason");
}

/* Something has to have been found. */
static void
check_dip (GArray *problems, const FrDip *dip)
{
  const FrRecord *record = &dip->record;
  const char *amount = amount_of (dip->measured_by);

  if (strcmp (amount, "depth_m") == 0 && !isnan (dip->depth_m.value))
    need (problems, record, "container");
  if (isnan (fr_record_amount ((FrRecord *)record, fr_kind_field (record->kind, amount))->value)
      && isnan (dip->reading_brix.value) && isnan (dip->temp_c.value) && strcmp (dip->clarity, "unknown") == 0
      && strcmp (dip->smell, "unknown") == 0)
    need (problems, record, amount);
}

static void
check_day (GArray *problems, const FrDay *day)
{
  if (day->low_c.value > day->high_c.value)
    fr_check_add_conflict (problems, &day->record, "high_c", "low_c");
}

static void
check_chore (GArray *problems, const FrChore *chore)
{
  static const char *const kit[] = { "container", "vessel", "cooker", "circuit" };
  const char *first = NULL;

  fr_check_whole (problems, &chore->record, "season");
  for (guint i = 0; i < G_N_ELEMENTS (kit); i++)
    if (fr_record_int (&chore->record, fr_kind_field (chore->record.kind, kit[i])) != 0)
      {
        if (first != NULL)
          fr_check_add_conflict (problems, &chore->record, kit[i], first);
        first = kit[i];
      }
}

static void
check_storing (GArray *problems, const FrStoring *storing)
{
  static const char *const counts[] = { "tap_weeks", "filters", "bottles" };
  FrKeepingTable table;
  guint line = 0;

  for (guint i = 0; i < G_N_ELEMENTS (counts); i++)
    fr_check_whole (problems, &storing->record, counts[i]);
  if (strcmp (storing->keeping, "own") != 0)
    return;
  need (problems, &storing->record, "own_rows");
  if (!fr_check_is_blank (storing->own_rows) && !fr_keeping_table_parse (storing->own_rows, &table, &line))
    fr_check_add_bad_text (problems, &storing->record, "own_rows", line);
}

void
fr_check_season (GArray *problems, const FrRecord *record)
{
  switch ((int)record->kind->id)
    {
    case FR_KIND_CONTAINER:
      check_container (problems, (const FrContainer *)record);
      break;
    case FR_KIND_GATHERING:
      check_gathering (problems, (const FrGathering *)record);
      break;
    case FR_KIND_POUR:
      check_pour (problems, (const FrPour *)record);
      break;
    case FR_KIND_DIP:
      check_dip (problems, (const FrDip *)record);
      break;
    case FR_KIND_DAY:
      check_day (problems, (const FrDay *)record);
      break;
    case FR_KIND_CHORE:
      check_chore (problems, (const FrChore *)record);
      break;
    case FR_KIND_STORING:
      check_storing (problems, (const FrStoring *)record);
      break;
    default:
      break;
    }
}
