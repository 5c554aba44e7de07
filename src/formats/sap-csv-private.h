/* The columns, for reading and writing. */
#pragma once

#include "formats/sap-csv.h"

G_BEGIN_DECLS

/* Bits for the kinds of rows. */
#define FR_SAP_CSV_BIT(kind) (1u << ((kind) - FR_KIND_CONTAINER))
#define FR_SAP_CSV_CONTAINER FR_SAP_CSV_BIT (FR_KIND_CONTAINER)
#define FR_SAP_CSV_GATHERING FR_SAP_CSV_BIT (FR_KIND_GATHERING)
#define FR_SAP_CSV_POUR FR_SAP_CSV_BIT (FR_KIND_POUR)
#define FR_SAP_CSV_DIP FR_SAP_CSV_BIT (FR_KIND_DIP)

/* A column of a field: @name alone for texts, codes and yes or no; for amounts a unit follows it, or none for one as a person types it.
 * The same name may be another field's of another kind. */
typedef struct
{
  const char *name;
  guint kinds;
  const char *field;
} FrSapColumn;

extern const FrSapColumn fr_sap_columns[];
extern const guint fr_sap_n_columns;

/* How a number in a cell becomes the inner unit: a point moved by @shift, or else times @factor and, for °F and °Bé, as the code says. */
typedef enum
{
  FR_SAP_UNIT_SHIFT,
  FR_SAP_UNIT_FACTOR,
  FR_SAP_UNIT_FAHRENHEIT,
  FR_SAP_UNIT_BAUME,
  FR_SAP_UNIT_GALLON, /* the household's */
  FR_SAP_UNIT_TYPED   /* no unit in the name: as people type it */
} FrSapUnitKind;

typedef struct
{
  FrQuantityKind quantity;
  const char *suffix;
  FrSapUnitKind kind;
  int shift;
  double factor;
} FrSapUnit;

/* The unit that is written: the quantity's first. NULL for plain numbers. */
const FrSapUnit *fr_sap_unit_written (FrQuantityKind quantity);

/* What a column is for rows of one kind. */
typedef enum
{
  FR_SAP_CELL_UNKNOWN, /* of no kind */
  FR_SAP_CELL_ALIEN,   /* of another kind */
  FR_SAP_CELL_FIELD,
  FR_SAP_CELL_TYPED,   /* how the amount was typed */
  FR_SAP_CELL_NAME,
  FR_SAP_CELL_RECORD,
  FR_SAP_CELL_UID,
  FR_SAP_CELL_ARCHIVED,
  FR_SAP_CELL_DATE,
  FR_SAP_CELL_TIME,
  FR_SAP_CELL_OFFSET
} FrSapCellKind;

typedef struct
{
  FrSapCellKind kind;
  const FrField *field;
  const FrSapUnit *unit;
  FrSapName name;
} FrSapCell;

/* @name: in lower case, without blanks around. */
FrSapCell fr_sap_cell (const char *name, FrKindId kind);
/* Names to propose for one that is not known, NULL at the end. Free with g_ptr_array_unref. */
GPtrArray *fr_sap_column_names (void);

G_END_DECLS
