/* Small pieces that every page is put together from: a wrapped text, a card with its heading, a caution. */
#pragma once

#include <gtk/gtk.h>

#include "words/plan-words.h"

G_BEGIN_DECLS

/* A left-aligned text that wraps; @css_class may be NULL. */
GtkWidget *fr_wrapped_text (const char *words, const char *css_class);
/* Sets it, and hides the label when there is nothing to say. */
void fr_set_text (GtkWidget *label, const char *words);

/* A card; its content goes into fr_card_content(). */
GtkWidget *fr_card_new (const char *heading);
GtkBox *fr_card_content (GtkWidget *card);
/* The same with nothing left in it. */
GtkBox *fr_card_emptied (GtkWidget *card);
void fr_box_empty (GtkBox *box);

/* Tab goes past the list as a whole, as it does past a table; the arrows go from row to row. For lists whose rows hold nothing to
 * press: without this Tab stops at each of thousands. */
void fr_list_is_one_stop (GtkWidget *view);

/* A flat button that is a picture, with @name as its tooltip and for a screen reader; @clicked is called with @object first, for as long
 * as that lives. */
GtkWidget *fr_icon_button_new (const char *icon, const char *name, GCallback clicked, gpointer object);

/* Of a page that Ctrl+P prints. */
GtkWidget *fr_print_button_new (const char *action);

/* Whether a list to choose from says just these words. It is to stay then: a choice is told of while its popup is still open, and
 * another list given to it meanwhile is used after it is gone. */
gboolean fr_words_are_shown (GListModel *shown, GtkStringList *words);

/* A mark and its sentence. */
GtkWidget *fr_caution_row_new (const char *words, FrSeverity severity);

G_END_DECLS
