/* The prices of a plan as rows: seasons, and in each the hours of each kind of day with their price; above
 * them what they come to over a day.
 *
 * Signal "finished" (const char *text): the rows differ from what was set; @text is the plan as kept. Rows
 * without a price hold it back. */
#pragma once

#include <adwaita.h>

#include "domain/records/kinds.h"

G_BEGIN_DECLS

#define FR_TYPE_TARIFF_EDITOR (fr_tariff_editor_get_type ())
G_DECLARE_FINAL_TYPE (FrTariffEditor, fr_tariff_editor, FR, TARIFF_EDITOR, AdwBin)

GtkWidget *
fr_tariff_editor_new (void);
void
fr_tariff_editor_set (FrTariffEditor *self, const FrTariffRecord *tariff, const FrUnits *units,
                      const char *currency);

G_END_DECLS
