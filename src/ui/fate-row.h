/* A row of an import's preview: a box to tick, what the row is about, and what becomes of it. */
#pragma once

#include <adwaita.h>

G_BEGIN_DECLS

/* For "setup" of a list's factory: builds the row into @item. */
void fr_fate_row_setup (GtkListItem *item);

/**
 * fr_fate_row_bind:
 * @title: what it is about; with @sentence it is also what a screen reader says of the box
 * @may_choose: whether it can be ticked at all
 * @caution: it cannot come in, or is asked about
 * @toggled: (scope async): called with the box and @item while it is bound
 */
void fr_fate_row_bind (GtkListItem *item, const char *title, const char *sentence, gboolean may_choose, gboolean ticked,
                       gboolean caution, GCallback toggled);

/* For "unbind". @toggled: as bound. */
void fr_fate_row_unbind (GtkListItem *item, GCallback toggled);

G_END_DECLS
