/* What the page's files share. */
#pragma once

#include "ui/map-pane.h"
#include "ui/round-view.h"
#include "ui/sugarbush-page.h"
#include "ui/tapping-view.h"

G_BEGIN_DECLS

struct _FrSugarbushPage
{
  FrFoldBin parent_instance;
  AdwViewStack *views;
  AdwViewSwitcherBar *bar;

  FrSugarbush *bush;
  FrMapPane *map;
  FrTappingView *plan;
  FrRoundView *round;
  GtkWidget *switcher;
  GtkWidget *action;
  GtkWidget *add_button;
  GtkWidget *take_button;
  GtkWidget *print_button;
  GSimpleActionGroup *actions;
  gboolean narrow;
  gboolean brief;
  gboolean shows_way; /* the round's, on the map */
};

/* The way of the round on the map, or none; as soon as it is known. */
void fr_sugarbush_page_show_way (FrSugarbushPage *self);

/* sugarbush-actions.c */
void fr_sugarbush_actions_init (FrSugarbushPage *self);
/* Which of them can be done now. */
void fr_sugarbush_actions_update (FrSugarbushPage *self);

/* sugarbush-menu.c: adds its actions to the page's; the button is to be put into the header bar. */
GtkWidget *fr_sugarbush_menu_new (FrSugarbushPage *self);

G_END_DECLS
