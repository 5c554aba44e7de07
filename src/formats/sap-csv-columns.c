/* Which column is what. Amounts are written in the unit that stands first for their quantity, a power of ten
 * of the inner one, so that they come back to the last digit. */
#include "formats/sap-csv-private.h"

#include "domain/units/units.h"

#include <string.h>

#define EVENT (FR_SAP_CSV_GATHERING | FR_SAP_CSV_POUR | FR_SAP_CSV_DIP)
#define MEASURED (FR_SAP_CSV_GATHERING | FR_SAP_CSV_DIP)
#define ALL (EVENT | FR_SAP_CSV_CONTAINER)

const FrSapColumn fr_sap_columns[] = {
  { "name", FR_SAP_CSV_CONTAINER, "name" },
  { "role", FR_SAP_CSV_CONTAINER, "role" },
  { "capacity", FR_SAP_CSV_CONTAINER, "capacity_l" },
  { "place", FR_SAP_CSV_CONTAINER, "place" },
  { "insulation", FR_SAP_CSV_CONTAINER, "insulation" },
  { "material", FR_SAP_CSV_CONTAINER, "material" },
  { "made_in", FR_SAP_CSV_CONTAINER, "made_in" },
  { "diameter", FR_SAP_CSV_CONTAINER, "diameter_m" },
  { "top_diameter", FR_SAP_CSV_CONTAINER, "top_diameter_m" },
  { "height", FR_SAP_CSV_CONTAINER, "height_m" },
  { "empty", FR_SAP_CSV_CONTAINER, "empty_kg" },
  { "scope", FR_SAP_CSV_GATHERING, "scope" },
  { "group", FR_SAP_CSV_GATHERING, "stand" },
  { "reason", FR_SAP_CSV_POUR, "reason" },
  { "measured_by", MEASURED, "measured_by" },
  { "volume", EVENT, "volume_l" },
  { "weight", MEASURED, "weight_kg" },
  { "depth", MEASURED, "depth_m" },
  { "reading", EVENT, "reading_brix" },
  { "instrument", EVENT, "instrument" },
  { "sample", EVENT, "sample_c" },
  { "sap", FR_SAP_CSV_GATHERING, "sap_c" },
  { "temp", FR_SAP_CSV_DIP, "temp_c" },
  { "clarity", MEASURED, "clarity" },
  { "smell", MEASURED, "smell" },
  { "who", FR_SAP_CSV_GATHERING, "who" },
  { "ice", FR_SAP_CSV_GATHERING, "ice_l" },
  { "ice", FR_SAP_CSV_GATHERING, "ice_brix" },
  { "ice", FR_SAP_CSV_DIP, "ice_ratio" },
  { "confirmed", EVENT, "confirmed" },
  { "note", ALL, "note" },
};

const guint fr_sap_n_columns = G_N_ELEMENTS (fr_sap_columns);

const char *const fr_sap_csv_log_columns[]
    = { "date",      "time",    "tree",  "volume", "reading", "sample", "sap",
        "container", "clarity", "smell", "who",    "ice",     "note",   NULL };

static const FrSapUnit units[] = {
  { FR_QUANTITY_VOLUME, "l", FR_SAP_UNIT_SHIFT, 0, 0 },
  { FR_QUANTITY_VOLUME, "ml", FR_SAP_UNIT_SHIFT, 3, 0 },
  { FR_QUANTITY_VOLUME, "gal", FR_SAP_UNIT_GALLON, 0, 0 },
  { FR_QUANTITY_VOLUME, "us_gal", FR_SAP_UNIT_FACTOR, 0, FR_LITRES_PER_US_GALLON },
  { FR_QUANTITY_VOLUME, "imp_gal", FR_SAP_UNIT_FACTOR, 0, FR_LITRES_PER_IMPERIAL_GALLON },
  { FR_QUANTITY_MASS, "kg", FR_SAP_UNIT_SHIFT, 0, 0 },
  { FR_QUANTITY_MASS, "g", FR_SAP_UNIT_SHIFT, 3, 0 },
  { FR_QUANTITY_MASS, "lb", FR_SAP_UNIT_FACTOR, 0, FR_KG_PER_POUND },
  { FR_QUANTITY_LENGTH, "cm", FR_SAP_UNIT_SHIFT, 2, 0 },
  { FR_QUANTITY_LENGTH, "mm", FR_SAP_UNIT_SHIFT, 3, 0 },
  { FR_QUANTITY_LENGTH, "m", FR_SAP_UNIT_SHIFT, 0, 0 },
  { FR_QUANTITY_LENGTH, "in", FR_SAP_UNIT_FACTOR, 0, FR_METRES_PER_INCH },
  { FR_QUANTITY_TEMPERATURE, "c", FR_SAP_UNIT_SHIFT, 0, 0 },
  { FR_QUANTITY_TEMPERATURE, "f", FR_SAP_UNIT_FAHRENHEIT, 0, 0 },
  { FR_QUANTITY_SWEETNESS, "brix", FR_SAP_UNIT_SHIFT, 0, 0 },
  { FR_QUANTITY_SWEETNESS, "baume", FR_SAP_UNIT_BAUME, 0, 0 },
  { FR_QUANTITY_RATIO, "percent", FR_SAP_UNIT_SHIFT, 2, 0 },
};

/* Columns of amounts without a unit, and a year. */
static const FrSapUnit as_typed = { FR_QUANTITY_PLAIN, "", FR_SAP_UNIT_TYPED, 0, 0 };
static const FrSapUnit plain = { FR_QUANTITY_PLAIN, "", FR_SAP_UNIT_SHIFT, 0, 0 };

const FrSapUnit *
fr_sap_unit_written (FrQuantityKind quantity)
{
  for (guint i = 0; i < G_N_ELEMENTS (units); i++)
    if (units[i].quantity == quantity)
      return &units[i];
  return NULL;
}

static const struct
{
  const char *name;
  guint kinds;
  FrSapCell cell;
} others[] = {
  { "record", ALL, { .kind = FR_SAP_CELL_RECORD } },
  { "uid", ALL, { .kind = FR_SAP_CELL_UID } },
  { "archived", ALL, { .kind = FR_SAP_CELL_ARCHIVED } },
  { "date", EVENT, { .kind = FR_SAP_CELL_DATE } },
  { "time", EVENT, { .kind = FR_SAP_CELL_TIME } },
  { "utc_offset", EVENT, { .kind = FR_SAP_CELL_OFFSET } },
  { "tree", FR_SAP_CSV_GATHERING, { .kind = FR_SAP_CELL_NAME, .name = FR_SAP_NAMES_TREE } },
  { "tap", FR_SAP_CSV_GATHERING, { .kind = FR_SAP_CELL_NAME, .name = FR_SAP_NAMES_TAP } },
  { "container", EVENT, { .kind = FR_SAP_CELL_NAME, .name = FR_SAP_NAMES_CONTAINER } },
  { "bucket", FR_SAP_CSV_GATHERING, { .kind = FR_SAP_CELL_NAME, .name = FR_SAP_NAMES_BUCKET } },
  { "target", FR_SAP_CSV_POUR, { .kind = FR_SAP_CELL_NAME, .name = FR_SAP_NAMES_TARGET } },
  { "night", FR_SAP_CSV_POUR, { .kind = FR_SAP_CELL_NAME, .name = FR_SAP_NAMES_NIGHT } },
};

/* The unit that stands behind a column's name; NULL when what stands there is none. */
static const FrSapUnit *
unit_behind (const char *rest, FrQuantityKind quantity)
{
  if (*rest == '\0')
    return quantity == FR_QUANTITY_PLAIN ? &plain : &as_typed;
  for (guint i = 0; *rest == '_' && i < G_N_ELEMENTS (units); i++)
    if (units[i].quantity == quantity && strcmp (units[i].suffix, rest + 1) == 0)
      return &units[i];
  return NULL;
}

static gboolean
is_column (const FrSapColumn *column, const char *name, FrKindId kind, FrSapCell *cell_out)
{
  const FrField *field = fr_kind_field (fr_kind (kind), column->field);
  const gsize length = strlen (column->name);

  if (strncmp (name, column->name, length) != 0)
    return FALSE;
  *cell_out = (FrSapCell){ .kind = FR_SAP_CELL_FIELD, .field = field };
  if (field->type != FR_FIELD_AMOUNT)
    return name[length] == '\0';
  cell_out->unit = unit_behind (name + length, field->quantity);
  return cell_out->unit != NULL;
}

static gboolean
find_field (const char *name, FrKindId kind, FrSapCell *cell_out)
{
  for (guint i = 0; i < fr_sap_n_columns; i++)
    if ((fr_sap_columns[i].kinds & FR_SAP_CSV_BIT (kind)) != 0
        && is_column (&fr_sap_columns[i], name, kind, cell_out))
      return TRUE;
  return FALSE;
}

static gboolean
find (const char *name, FrKindId kind, FrSapCell *cell_out)
{
  g_autofree char *bare
      = g_str_has_suffix (name, "_typed") ? g_strndup (name, strlen (name) - strlen ("_typed")) : NULL;

  for (guint i = 0; i < G_N_ELEMENTS (others); i++)
    if ((others[i].kinds & FR_SAP_CSV_BIT (kind)) != 0 && strcmp (others[i].name, name) == 0)
      {
        *cell_out = others[i].cell;
        return TRUE;
      }
  if (find_field (name, kind, cell_out))
    return TRUE;
  if (bare == NULL || !find_field (bare, kind, cell_out) || cell_out->unit == NULL)
    return FALSE;
  cell_out->kind = FR_SAP_CELL_TYPED;
  return TRUE;
}

FrSapCell
fr_sap_cell (const char *name, FrKindId kind)
{
  FrSapCell cell = { .kind = FR_SAP_CELL_UNKNOWN };

  if (find (name, kind, &cell))
    return cell;
  for (FrKindId other = FR_KIND_CONTAINER; other <= FR_KIND_DIP; other++)
    if (find (name, other, &cell))
      return (FrSapCell){ .kind = FR_SAP_CELL_ALIEN };
  return (FrSapCell){ .kind = FR_SAP_CELL_UNKNOWN };
}

GPtrArray *
fr_sap_column_names (void)
{
  GPtrArray *names = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < G_N_ELEMENTS (others); i++)
    g_ptr_array_add (names, g_strdup (others[i].name));
  for (guint i = 0; i < fr_sap_n_columns; i++)
    for (guint k = 0; k < G_N_ELEMENTS (units); k++)
      for (FrKindId kind = FR_KIND_CONTAINER; kind <= FR_KIND_DIP; kind++)
        {
          g_autofree char *name = g_strdup_printf ("%s_%s", fr_sap_columns[i].name, units[k].suffix);
          FrSapCell cell;

          if ((fr_sap_columns[i].kinds & FR_SAP_CSV_BIT (kind)) != 0
              && is_column (&fr_sap_columns[i], name, kind, &cell))
            g_ptr_array_add (names, g_steal_pointer (&name));
          else if ((fr_sap_columns[i].kinds & FR_SAP_CSV_BIT (kind)) != 0 && k == 0
                   && is_column (&fr_sap_columns[i], fr_sap_columns[i].name, kind, &cell))
            g_ptr_array_add (names, g_strdup (fr_sap_columns[i].name));
        }
  g_ptr_array_add (names, NULL);
  return names;
}
