/* The frame: side list, header bar, pages, toasts. One window per book. Only the window shows errors. */
#pragma once

#include <adwaita.h>

#include "models/book.h"

G_BEGIN_DECLS

#define FR_TYPE_WINDOW (fr_window_get_type ())
G_DECLARE_FINAL_TYPE (FrWindow, fr_window, FR, WINDOW, AdwApplicationWindow)

/* A window on @book. @settings may be NULL: no state is kept then. */
FrWindow *
fr_window_new (GtkApplication *application, FrBook *book, GSettings *settings);

FrBook *
fr_window_get_book (FrWindow *self);

/* The window a widget stands in, or NULL while it stands in none. */
FrWindow *
fr_window_of (GtkWidget *widget);

/* The way from a page to the book: applies the change, says what was done with a way back, or shows why not.
 */
gboolean
fr_window_apply (FrWindow *self, const FrChange *change);

/* Ends an edit whose change is already worked out: applies it, or shows why there is none; NULL without an error is nothing to
 * do. Takes both. Returns whether the book changed. */
gboolean fr_window_finish (FrWindow *self, FrChange *change, GError *error);

/* The same without a toast, for what shows by itself that it is written and comes in quick succession. Takes both. */
gboolean fr_window_write (FrWindow *self, FrChange *change, GError *error);

/* A toast without a way back, and an error of something that can be tried again. */
void
fr_window_tell (FrWindow *self, const char *sentence);
void
fr_window_show_error (FrWindow *self, const GError *error);

/* Shows a page by its name: "tonight", "sugarbush", "season", "kit". */
void
fr_window_show_page (FrWindow *self, const char *name);
const char *
fr_window_get_page (FrWindow *self);

/* Shows the first record of a kind where it is edited: a tree on its page, all else on Kit and prices; nothing
 * happens when there is none. */
void
fr_window_show_first (FrWindow *self, FrKindId kind);

/* Shows or leaves the set-up. */
void
fr_window_set_up (FrWindow *self, gboolean on);

G_END_DECLS
