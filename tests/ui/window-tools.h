/* What the window's tests share: the application in a folder of its own, windows on books made for the test,
 * ways to find what is shown and to press keys on it. */
#pragma once

#include <adwaita.h>

#include "ui/application.h"
#include "ui/entry-row.h"
#include "ui/window.h"

typedef enum
{
  TOOLS_AS_IT_IS, /* the file as an earlier window left it, or new */
  TOOLS_SAMPLES,  /* one invented record of every kind, and more */
  TOOLS_DEMO      /* the demo's household */
} ToolsBook;

/* Before g_test_add_func() and instead of g_test_run(). */
void
tools_init (int *argc, char ***argv);
int
tools_run (void);

FrApplication *
tools_app (void);

/* Lets the window work for a moment and until nothing is left to do. */
void
settle (void);

/* A path in the test's folder. Free it. */
char *
tools_path (const char *name);

FrWindow *
open_window (const char *name, ToolsBook book);
/* Closes it and checks that neither the window nor its book is left. */
void
close_window (FrWindow *window);

typedef gboolean (*Match) (GtkWidget *widget, const char *text);

/* The first mapped widget inside that matches, or NULL. */
GtkWidget *
find (GtkWidget *widget, Match match, const char *text);
gboolean
is_row (GtkWidget *widget, const char *title);
gboolean
is_button (GtkWidget *widget, const char *label);
/* By its tooltip, for buttons with an icon alone. */
gboolean
is_tooltip (GtkWidget *widget, const char *text);
gboolean
is_label (GtkWidget *widget, const char *text);
/* The widget is of the type of that name. */
gboolean
is_a (GtkWidget *widget, const char *type_name);

/* These fail the test when there is none. */
FrEntryRow *
row (gpointer window, const char *title);
void
press (gpointer window, const char *label);
void
act (FrWindow *window, const char *action, const char *target);

/* The open window of that type, or NULL. */
GtkWidget *
find_window (const char *type_name);

/* As a person does it: the row gets the focus, its text goes, and each character comes by itself. */
void
type_keys (FrEntryRow *into, const char *text);
/* A key as the widget's own controllers get it; whether one of them took it. */
gboolean
press_key (GtkWidget *widget, guint keyval);

/* The text of every label inside, shown or folded away, one a line, with every kind of space as one blank.
 * Free it. */
char *
label_texts (GtkWidget *widget);
/* The same spaces for one text. Free it. */
char *
plain_spaces (const char *text);
void
assert_shows (const char *texts, const char *part);

/* The number of rows in the diary of a book's file, and every record of it. */
guint
diary_rows (const char *path);
GPtrArray *
snapshot (FrBook *book);
void
assert_same (GPtrArray *before, GPtrArray *after);
