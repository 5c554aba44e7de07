/* A new book's first three questions: where, with what, at which price. Each can be skipped; what was
 * answered is kept in one change at the end. */
#pragma once

#include <adwaita.h>

#include "models/book.h"

G_BEGIN_DECLS

#define FR_TYPE_SETUP_PAGE (fr_setup_page_get_type ())
G_DECLARE_FINAL_TYPE (FrSetupPage, fr_setup_page, FR, SETUP_PAGE, AdwBin)

FrSetupPage *
fr_setup_page_new (FrBook *book);

G_END_DECLS
