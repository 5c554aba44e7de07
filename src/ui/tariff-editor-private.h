/* What the files of the price editor share: its state, its rows, and the cells that show and change them. */
#pragma once

#include "domain/maths/tariff.h"
#include "ui/price-view.h"
#include "ui/tariff-editor.h"

G_BEGIN_DECLS

typedef enum
{
  CELL_FROM_DAY,
  CELL_TO_DAY,
  CELL_FROM_MONTH,
  CELL_TO_MONTH,
  CELL_DAYS,
  CELL_FROM,
  CELL_TO,
  CELL_PRICE
} FrTariffCell;

struct _FrTariffEditor
{
  AdwBin parent_instance;
  GtkBox *box;
  GtkBox *seasons;
  FrPriceView *view;
  GtkLabel *caption;
  GtkLabel *problem;
  GArray *rows; /* FrTariffPeriod */
  char *text;   /* as last set or sent */
  FrUnits units;
  char *currency;
  char *holidays;
  double adder_per_kwh;
  double tax_ratio;
  gboolean building;
};

FrTariffPeriod *
fr_tariff_row_at (FrTariffEditor *self, guint i);
/* The first row past the season that row @first begins. */
guint
fr_tariff_season_end (FrTariffEditor *self, guint first);
void
fr_tariff_tell_problem (FrTariffEditor *self, const char *sentence);
/* Draws what the rows come to, or says what keeps them from it. */
void
fr_tariff_review (FrTariffEditor *self);
/* Reviews, and tells whoever listens when the plan differs. */
void
fr_tariff_send (FrTariffEditor *self);
/* Builds all cells anew, when rows come or go. */
void
fr_tariff_rebuild (FrTariffEditor *self);

/* Cells of row @row; @name is what a screen reader says. */
GtkWidget *
fr_tariff_entry_cell (FrTariffEditor *self, guint row, FrTariffCell kind, const char *name, int chars);
GtkWidget *
fr_tariff_choice_cell (FrTariffEditor *self, guint row, FrTariffCell kind, const char *name,
                       const char *const *names, guint selected);
GtkWidget *
fr_tariff_month_cell (FrTariffEditor *self, guint row, FrTariffCell kind, const char *name, gint month);
void
fr_tariff_name_cell (FrTariffEditor *self, GtkWidget *cell, guint row, FrTariffCell kind, const char *name);
guint
fr_tariff_index_of (GtkWidget *cell);

G_END_DECLS
