/* One container of the store: its name and place, how full it is, its sweetness, age, temperature and until when it keeps, and what can be
 * done with it, by the page's actions with its number. */
#pragma once

#include "domain/plan/stock.h"
#include "words/say.h"

#include <adwaita.h>

G_BEGIN_DECLS

#define FR_TYPE_STORE_ROW (fr_store_row_get_type ())
G_DECLARE_FINAL_TYPE (FrStoreRow, fr_store_row, FR, STORE_ROW, GtkListBoxRow)

GtkWidget *fr_store_row_new (void);
/* @place: of @stock. */
void fr_store_row_set (FrStoreRow *self, const FrStockPlace *place, const FrStock *stock, const FrSay *say);

G_END_DECLS
