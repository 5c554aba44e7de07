/* What window.c and window-actions.c share. */
#pragma once

#include "ui/season-notices.h"
#include "ui/window.h"

G_BEGIN_DECLS

struct _FrWindow
{
  AdwApplicationWindow parent_instance;

  AdwToastOverlay *toasts;
  GtkStack *outer;
  AdwFlap *flap;
  GtkListBox *pages;
  GtkLabel *book_name;
  GtkLabel *book_size;
  GtkWidget *side_button;
  GtkWidget *side_menu;
  GtkWidget *head_menu;
  GtkWidget *undo_button;
  GtkWidget *redo_button;
  AdwHeaderBar *header;
  GtkStack *head; /* the title, or a page's views */
  AdwWindowTitle *title;
  GtkBox *page_action;
  GtkStack *stack;

  FrBook *book;
  GSettings *settings;
  FrSeasonNotices *notices;
  AdwToast *toast; /* the last one, to be replaced */
  gboolean narrow;
  guint fold_id;
};

/* Installs every win. action on the class. */
void
fr_window_actions_init (GtkWidgetClass *widget_class);

/* Sets what can be done now: undo, redo and their words. */
void
fr_window_actions_update (FrWindow *self);

G_END_DECLS
