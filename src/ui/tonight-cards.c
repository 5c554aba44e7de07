/* The three cards under the trace, and a fourth when sap stays: what the same sap costs, how to set the feed,
 * what to mind. */
#include "ui/tonight-answer.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "ui/pieces.h"

#define MAX_CAUTIONS 3 /* shown at once; the rest fold away under them */

struct _FrTonightCards
{
  AdwBin parent_instance;
  GtkWidget *box;
  GtkWidget *row;
  GtkWidget *costs;
  GtkWidget *feed;
  GtkWidget *cautions;
  GtkWidget *cookers;
  GtkWidget *rest;
};

G_DEFINE_FINAL_TYPE (FrTonightCards, fr_tonight_cards, ADW_TYPE_BIN)

/* A card with a heading; its content is made anew each time. */
static GtkWidget *
pair (const char *left, const char *right, gboolean bold)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12),
            *what = fr_wrapped_text (left, bold ? "strong" : NULL), *much = fr_wrapped_text (right, "strong");

  gtk_widget_set_hexpand (what, TRUE);
  gtk_label_set_wrap (GTK_LABEL (much), FALSE);
  gtk_widget_set_valign (much, GTK_ALIGN_START);
  gtk_box_append (GTK_BOX (box), what);
  gtk_box_append (GTK_BOX (box), much);
  return box;
}

static void
fill_costs (GtkWidget *outer, const FrPlanWords *words)
{
  GtkBox *content = fr_card_emptied (outer);

  gtk_widget_set_visible (outer, words->costs->len > 0);
  for (guint i = 0; i < words->costs->len; i++)
    {
      const FrCostWords *cost = words->costs->pdata[i];
      GtkWidget *bar = gtk_level_bar_new_for_interval (0, 1);

      gtk_box_append (content, pair (cost->label, cost->cost, cost->code == FR_WAY_TONIGHT));
      if (isnan (cost->ratio))
        continue;
      gtk_level_bar_set_value (GTK_LEVEL_BAR (bar), cost->ratio);
      gtk_widget_add_css_class (bar, cost->code == FR_WAY_TONIGHT ? "cost-tonight" : "cost-other");
      gtk_accessible_update_property (GTK_ACCESSIBLE (bar), GTK_ACCESSIBLE_PROPERTY_LABEL, cost->label, -1);
      gtk_box_append (content, bar);
    }
  if (words->break_even != NULL)
    gtk_box_append (content, fr_wrapped_text (words->break_even, "note"));
  if (words->price_note != NULL)
    gtk_box_append (content, fr_wrapped_text (words->price_note, "note"));
}

static void
add_figure (GtkBox *content, const FrFigure *figure)
{
  g_autofree char *value = figure->unit[0] != '\0'
                               ? g_strdup_printf ("%s\u00a0%s", figure->number, figure->unit)
                               : g_strdup (figure->number);

  gtk_box_append (content, pair (figure->label, value, FALSE));
}

static void
fill_feed (GtkWidget *outer, const FrPlanWords *words)
{
  GtkBox *content = fr_card_emptied (outer);

  gtk_widget_set_visible (outer, words->feeds->len > 0);
  for (guint i = 0; i < words->feeds->len; i++)
    {
      const FrFeedWords *feed = words->feeds->pdata[i];
      g_autofree char *markup
          = g_markup_printf_escaped ("%s\u00a0<span size=\"62%%\" weight=\"normal\" alpha=\"75%%\">%s</span>",
                                     feed->setting->number, feed->setting->unit);
      GtkWidget *number = fr_wrapped_text (NULL, "figure-number");

      if (feed->title != NULL)
        gtk_box_append (content, fr_wrapped_text (feed->title, "strong"));
      gtk_box_append (content, fr_wrapped_text (feed->setting->label, "figure-label"));
      gtk_label_set_markup (GTK_LABEL (number), markup);
      gtk_box_append (content, number);
      for (guint k = 0; k < feed->lines->len; k++)
        add_figure (content, feed->lines->pdata[k]);
      for (guint k = 0; k < feed->warnings->len; k++)
        gtk_box_append (content, fr_wrapped_text (feed->warnings->pdata[k], "note"));
    }
}

/* Three at most, worst first; danger is always among them, and so is who stays within call. */
static void
fill_cautions (GtkWidget *outer, const FrPlanWords *words)
{
  GtkBox *content = fr_card_emptied (outer);
  GtkWidget *more = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  guint shown = 0, hidden = 0;

  g_object_ref_sink (more);
  gtk_widget_set_visible (outer, words->cautions->len > 0);
  for (guint i = 0; i < words->cautions->len; i++)
    {
      const FrCautionWords *caution = words->cautions->pdata[i];

      if (caution->severity == FR_SEVERITY_DANGER || caution->code == FR_CAUTION_ATTEND
          || shown < MAX_CAUTIONS - 1)
        {
          gtk_box_append (content, fr_caution_row_new (caution->text, caution->severity));
          shown++;
        }
      else
        {
          gtk_box_append (GTK_BOX (more), fr_caution_row_new (caution->text, caution->severity));
          hidden++;
        }
    }
  if (hidden > 0)
    {
      g_autofree char *label
          = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u more", "%u more", hidden), hidden);
      GtkWidget *expander = gtk_expander_new (label);

      gtk_accessible_update_property (GTK_ACCESSIBLE (expander), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
      gtk_expander_set_child (GTK_EXPANDER (expander), more);
      gtk_box_append (content, expander);
    }
  g_object_unref (more);
}

static void
fill_cookers (GtkWidget *outer, const FrPlanWords *words)
{
  GtkBox *content = fr_card_emptied (outer);

  gtk_widget_set_visible (outer, words->cookers->len > 0);
  for (guint i = 0; i < words->cookers->len; i++)
    {
      const FrCookerWords *cooker = words->cookers->pdata[i];
      GtkWidget *pour = fr_wrapped_text (NULL, NULL);

      gtk_box_append (content, fr_wrapped_text (cooker->name, "strong"));
      gtk_label_set_markup (GTK_LABEL (pour), cooker->pour);
      gtk_box_append (content, pour);
      gtk_box_append (content, fr_wrapped_text (cooker->when, "note"));
    }
}

static void
fill_rest (GtkWidget *outer, const FrPlanWords *words)
{
  GtkBox *content = fr_card_emptied (outer);

  gtk_widget_set_visible (outer, words->rest->len > 0);
  for (guint i = 0; i < words->rest->len; i++)
    gtk_box_append (content, fr_wrapped_text (words->rest->pdata[i], i == 0 ? "strong" : NULL));
}

/* Beside each other in fifteenths; narrow, the cautions under the other two. */
static void
place (FrTonightCards *self, gboolean narrow)
{
  static const int wide_parts[] = { 5, 4, 6 }, narrow_parts[] = { 8, 7, 15 };
  const int *parts = narrow ? narrow_parts : wide_parts;
  GtkWidget *cards[] = { self->costs, self->feed, self->cautions };
  int column = 0;

  for (guint i = 0; i < G_N_ELEMENTS (cards); i++)
    {
      g_object_ref (cards[i]);
      if (gtk_widget_get_parent (cards[i]) != NULL)
        gtk_grid_remove (GTK_GRID (self->row), cards[i]);
      gtk_grid_attach (GTK_GRID (self->row), cards[i], column % 15, column / 15, parts[i], 1);
      g_object_unref (cards[i]);
      column += parts[i];
    }
}

static void
fr_tonight_cards_class_init (FrTonightCardsClass *klass)
{
}

static void
fr_tonight_cards_init (FrTonightCards *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 16);
  self->row = gtk_grid_new ();
  gtk_grid_set_column_homogeneous (GTK_GRID (self->row), TRUE);
  gtk_grid_set_column_spacing (GTK_GRID (self->row), 16);
  gtk_grid_set_row_spacing (GTK_GRID (self->row), 16);
  self->cookers = fr_card_new (_ ("Cookers"));
  self->costs = fr_card_new (_ ("The Same Sap Costs"));
  self->feed = fr_card_new (_ ("Feed"));
  self->cautions = fr_card_new (_ ("Cautions"));
  self->rest = fr_card_new (_ ("What Stays"));
  place (self, FALSE);
  gtk_box_append (GTK_BOX (self->box), self->cookers);
  gtk_box_append (GTK_BOX (self->box), self->row);
  gtk_box_append (GTK_BOX (self->box), self->rest);
  adw_bin_set_child (ADW_BIN (self), self->box);
}

GtkWidget *
fr_tonight_cards_new (void)
{
  return g_object_new (FR_TYPE_TONIGHT_CARDS, NULL);
}

void
fr_tonight_cards_set (FrTonightCards *self, const FrPlanWords *words)
{
  fill_cookers (self->cookers, words);
  fill_costs (self->costs, words);
  fill_feed (self->feed, words);
  fill_cautions (self->cautions, words);
  fill_rest (self->rest, words);
}

void
fr_tonight_cards_set_narrow (FrTonightCards *self, gboolean narrow)
{
  place (self, narrow);
}
