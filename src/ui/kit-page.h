/* Kit and prices: everything the book holds of one kind under the other, and beside it the editor of the
 * chosen one. */
#pragma once

#include <adwaita.h>

#include "models/book.h"

G_BEGIN_DECLS

#define FR_TYPE_KIT_PAGE (fr_kit_page_get_type ())
G_DECLARE_FINAL_TYPE (FrKitPage, fr_kit_page, FR, KIT_PAGE, AdwBin)

FrKitPage *
fr_kit_page_new (FrBook *book);

/* The page's own button for the header bar. */
GtkWidget *
fr_kit_page_action (FrKitPage *self);

/* Opens the editor of a new record, or of one the book has. */
void
fr_kit_page_add (FrKitPage *self, FrKindId kind);
void
fr_kit_page_show (FrKitPage *self, FrKindId kind, gint64 id);

G_END_DECLS
