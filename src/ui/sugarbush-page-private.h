/* What the page's files share. */
#pragma once

#include "ui/map-pane.h"
#include "ui/sugarbush-page.h"

G_BEGIN_DECLS

struct _FrSugarbushPage
{
  AdwBin parent_instance;
  AdwViewStack *views;
  AdwViewSwitcherBar *bar;

  FrSugarbush *bush;
  FrMapPane *map;
  GtkWidget *switcher;
  GtkWidget *action;
  GSimpleActionGroup *actions;
  gboolean narrow;
  guint fold_id;
};

/* sugarbush-actions.c */
void fr_sugarbush_actions_init (FrSugarbushPage *self);
/* Which of them can be done now. */
void fr_sugarbush_actions_update (FrSugarbushPage *self);

/* sugarbush-menu.c: adds its actions to the page's; the button is to be put into the header bar. */
GtkWidget *fr_sugarbush_menu_new (FrSugarbushPage *self);

G_END_DECLS
