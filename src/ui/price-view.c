/* What a price plan asks over a day. The lanes are read from the tariff itself by asking it for the price all
 * through a Wednesday, a Saturday and a Sunday, so what is seen is what will be charged, with adder and tax.
 * The days are taken in a table without clock changes: a plan is drawn as its clock says. */
#include "ui/price-view.h"

#include <adwaita.h>
#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "models/price-rows.h"
#include "paint/skyline.h"
#include "ui/theme.h"

#define N_LANES 3

typedef struct
{
  GArray *prices; /* FrSkylinePrice; labels owned */
  char *name;
} Lane;

struct _FrPriceView
{
  GtkWidget parent_instance;
  Lane lanes[N_LANES];
  gsize n_lanes;
};

G_DEFINE_FINAL_TYPE (FrPriceView, fr_price_view, GTK_TYPE_WIDGET)

static void
price_clear (gpointer data)
{
  g_free ((char *)((FrSkylinePrice *)data)->label);
}

static void
forget (FrPriceView *self)
{
  for (gsize i = 0; i < self->n_lanes; i++)
    {
      g_clear_pointer (&self->lanes[i].prices, g_array_unref);
      g_clear_pointer (&self->lanes[i].name, g_free);
    }
  self->n_lanes = 0;
}

static void
fr_price_view_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                       int *natural, int *minimum_baseline, int *natural_baseline)
{
  FrPriceView *self = FR_PRICE_VIEW (widget);
  double scale = fr_text_scale_of_context (gtk_widget_get_pango_context (widget));

  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    *minimum = *natural = 280;
  else
    *minimum = *natural = (int)ceil (fr_skyline_height_px (self->n_lanes, scale));
}

static void
fr_price_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  FrPriceView *self = FR_PRICE_VIEW (widget);
  int width = gtk_widget_get_width (widget);
  int height = gtk_widget_get_height (widget);
  PangoContext *context = gtk_widget_get_pango_context (widget);
  FrPalette palette = fr_theme_palette ();
  FrSkylineLane lanes[N_LANES];
  char *hours[5];
  cairo_t *cr;

  if (width <= 0 || height <= 0)
    return;
  for (gsize i = 0; i < self->n_lanes; i++)
    lanes[i]
        = (FrSkylineLane){ self->lanes[i].name, (const FrSkylinePrice *)(gpointer)self->lanes[i].prices->data,
                           self->lanes[i].prices->len };
  for (int i = 0; i < 5; i++)
    hours[i] = fr_price_clock_text (i * 360);
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
  fr_skyline_draw (cr, context, &palette, lanes, self->n_lanes, (const char *const *)hours, width, height,
                   fr_text_scale_of_context (context), NULL);
  cairo_destroy (cr);
  for (int i = 0; i < 5; i++)
    g_free (hours[i]);
}

static void
fr_price_view_finalize (GObject *object)
{
  forget (FR_PRICE_VIEW (object));
  G_OBJECT_CLASS (fr_price_view_parent_class)->finalize (object);
}

static void
fr_price_view_class_init (FrPriceViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = fr_price_view_finalize;
  widget_class->measure = fr_price_view_measure;
  widget_class->snapshot = fr_price_view_snapshot;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
  gtk_widget_class_set_css_name (widget_class, "drawing");
}

static void
fr_price_view_init (FrPriceView *self)
{
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  gtk_widget_add_css_class (GTK_WIDGET (self), "card");
  fr_theme_redraws (GTK_WIDGET (self));
}

GtkWidget *
fr_price_view_new (void)
{
  return g_object_new (FR_TYPE_PRICE_VIEW, NULL);
}

/* All prices of one day; NULL when the tariff has none for it. */
static GArray *
prices_of_day (const FrTariff *tariff, const FrZoneTable *zone, FrDate day, const FrUnits *units)
{
  g_autoptr (GArray) prices = g_array_new (FALSE, TRUE, sizeof (FrSkylinePrice));
  gint64 at_s = 0;
  gint64 start_s = 0;

  g_array_set_clear_func (prices, price_clear);
  fr_zone_instant (zone, day, 0, &start_s, &at_s);
  at_s = start_s;
  while (at_s < start_s + 86400) /* the table has no clock changes */
    {
      FrSkylinePrice price = { 0 };
      double listed, full;
      gint64 until_s;
      FrTariffProblem problem;

      if (!fr_tariff_price (tariff, zone, at_s, &listed, &full, &until_s, &problem) || until_s <= at_s)
        return NULL;
      price.from_min = (int)((at_s - start_s) / 60);
      price.to_min = (int)((MIN (until_s, start_s + 86400) - start_s) / 60);
      price.price_per_kwh = full;
      {
        g_autofree char *number = NULL;
        const char *unit;

        fr_quantity_format (full, FR_QUANTITY_PRICE, units, 1, &number, &unit);
        price.label = g_steal_pointer (&number);
      }
      g_array_append_val (prices, price);
      at_s = until_s;
    }
  return g_steal_pointer (&prices);
}

static gboolean
same_prices (GArray *a, GArray *b)
{
  if (a == NULL || b == NULL || a->len != b->len)
    return a == b;
  for (guint i = 0; i < a->len; i++)
    {
      const FrSkylinePrice *one = &g_array_index (a, FrSkylinePrice, i);
      const FrSkylinePrice *two = &g_array_index (b, FrSkylinePrice, i);

      if (one->from_min != two->from_min || one->to_min != two->to_min
          || one->price_per_kwh != two->price_per_kwh)
        return FALSE;
    }
  return TRUE;
}

static void
add_lane (FrPriceView *self, const char *name, GArray *prices)
{
  if (prices == NULL)
    return;
  self->lanes[self->n_lanes].name = g_strdup (name);
  self->lanes[self->n_lanes].prices = g_array_ref (prices);
  self->n_lanes++;
}

/* The lowest price of all lanes is low, the highest high; when there is only one it is low. */
static void
rank (FrPriceView *self)
{
  double low = INFINITY, high = -INFINITY;

  for (gsize i = 0; i < self->n_lanes; i++)
    for (guint j = 0; j < self->lanes[i].prices->len; j++)
      {
        double price = g_array_index (self->lanes[i].prices, FrSkylinePrice, j).price_per_kwh;

        low = fmin (low, price);
        high = fmax (high, price);
      }
  for (gsize i = 0; i < self->n_lanes; i++)
    for (guint j = 0; j < self->lanes[i].prices->len; j++)
      {
        FrSkylinePrice *price = &g_array_index (self->lanes[i].prices, FrSkylinePrice, j);

        price->step = price->price_per_kwh <= low    ? FR_SKYLINE_LOW
                      : price->price_per_kwh >= high ? FR_SKYLINE_HIGH
                                                     : FR_SKYLINE_MID;
      }
}

static void
say (FrPriceView *self)
{
  g_autoptr (GString) words = g_string_new (_ ("Prices over a day."));

  for (gsize i = 0; i < self->n_lanes; i++)
    {
      g_string_append_printf (words, " %s:", self->lanes[i].name);
      for (guint j = 0; j < self->lanes[i].prices->len; j++)
        {
          const FrSkylinePrice *price = &g_array_index (self->lanes[i].prices, FrSkylinePrice, j);
          g_autofree char *from = fr_price_clock_text (price->from_min);

          /* Translators: a price, then a clock time */
          g_string_append_printf (words, j > 0 ? ", " : " ");
          g_string_append_printf (words, _ ("%s from %s"), price->label, from);
        }
      g_string_append_c (words, '.');
    }
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, words->str, -1);
}

void
fr_price_view_set (FrPriceView *self, const FrTariff *tariff, FrDate on, const FrUnits *units)
{
  g_autoptr (FrZoneTable) zone = fr_zone_table_new_utc ();
  g_autoptr (GArray) weekday = NULL;
  g_autoptr (GArray) saturday = NULL;
  g_autoptr (GArray) sunday = NULL;

  forget (self);
  if (tariff != NULL)
    {
      FrDate monday = fr_date_add_days (on, 1 - fr_date_weekday (on));

      weekday = prices_of_day (tariff, zone, fr_date_add_days (monday, 2), units);
      saturday = prices_of_day (tariff, zone, fr_date_add_days (monday, 5), units);
      sunday = prices_of_day (tariff, zone, fr_date_add_days (monday, 6), units);
    }
  if (same_prices (weekday, saturday) && same_prices (weekday, sunday))
    add_lane (self, _ ("Every day"), weekday);
  else if (same_prices (saturday, sunday))
    {
      add_lane (self, _ ("Weekdays"), weekday);
      add_lane (self, _ ("Weekend"), saturday);
    }
  else
    {
      add_lane (self, _ ("Weekdays"), weekday);
      add_lane (self, _ ("Saturday"), saturday);
      add_lane (self, _ ("Sunday"), sunday);
    }
  rank (self);
  say (self);
  gtk_widget_set_visible (GTK_WIDGET (self), self->n_lanes > 0);
  gtk_widget_queue_resize (GTK_WIDGET (self));
}
