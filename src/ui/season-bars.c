/* Columns of a tree's seasons. Seasons without a record between the first and the last keep their place,
 * empty. */
#include "ui/season-bars.h"

#include <adwaita.h>
#include <glib/gi18n-lib.h>
#include <math.h>

#include "paint/bars.h"
#include "ui/drawing.h"
#include "ui/theme.h"

#define SEASONS_MAX 12

struct _FrSeasonBars
{
  GtkWidget parent_instance;
  FrBar bars[SEASONS_MAX];
  char *values[SEASONS_MAX];
  char *notes[SEASONS_MAX];
  char *labels[SEASONS_MAX];
  char *spoken[SEASONS_MAX];
  guint n;
  FrRole role;
  gssize chosen;
};

G_DEFINE_FINAL_TYPE (FrSeasonBars, fr_season_bars, GTK_TYPE_WIDGET)

static void
forget (FrSeasonBars *self)
{
  for (guint i = 0; i < self->n; i++)
    {
      g_free (self->values[i]);
      g_free (self->notes[i]);
      g_free (self->labels[i]);
      g_free (self->spoken[i]);
    }
  self->n = 0;
  self->chosen = -1;
}

static void
say_chosen (FrSeasonBars *self)
{
  g_autoptr (GString) words = g_string_new (NULL);

  if (self->chosen >= 0)
    g_string_append (words, self->spoken[self->chosen]);
  else
    for (guint i = 0; i < self->n; i++)
      g_string_append_printf (words, i > 0 ? " %s" : "%s", self->spoken[i]);
  if (words->len == 0)
    g_string_append (words, _ ("No season is written down yet."));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, words->str, -1);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self), self->chosen >= 0 ? words->str : NULL);
  for (guint i = 0; i < self->n; i++)
    self->bars[i].is_chosen = (gssize)i == self->chosen;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static FrBarsView
view_of (FrSeasonBars *self)
{
  return (FrBarsView){ self->bars, self->n, self->role, _ ("No season yet") };
}

static void
fr_season_bars_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  FrSeasonBars *self = FR_SEASON_BARS (widget);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  FrPalette palette = fr_theme_palette ();
  PangoContext *context = gtk_widget_get_pango_context (widget);
  FrBarsView view = view_of (self);
  cairo_t *cr;

  if (width <= 0 || height <= 0)
    return;
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
  fr_bars_draw (cr, context, &palette, &view, width, height, fr_text_scale_of_context (context), NULL);
  cairo_destroy (cr);
}

static void
fr_season_bars_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                        int *natural, int *minimum_baseline, int *natural_baseline)
{
  *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? 200 : 150;
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 300 : 180;
}

static void
pressed_cb (GtkGestureClick *gesture, int n_press, double x, double y, gpointer user_data)
{
  FrSeasonBars *self = FR_SEASON_BARS (user_data);
  FrBarsView view = view_of (self);

  gtk_widget_grab_focus (GTK_WIDGET (self));
  self->chosen = fr_bars_at (&view, gtk_widget_get_width (GTK_WIDGET (self)), x);
  say_chosen (self);
}

static gboolean
key_cb (GtkEventControllerKey *controller, guint key, guint code, GdkModifierType state, gpointer user_data)
{
  FrSeasonBars *self = FR_SEASON_BARS (user_data);
  gssize last = (gssize)self->n - 1;

  if (self->n == 0 || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK)))
    return FALSE;
  switch (key)
    {
    case GDK_KEY_Left:
    case GDK_KEY_KP_Left:
      self->chosen = self->chosen < 0 ? last : MAX (self->chosen - 1, 0);
      break;
    case GDK_KEY_Right:
    case GDK_KEY_KP_Right:
      self->chosen = MIN (self->chosen + 1, last);
      break;
    case GDK_KEY_Home:
    case GDK_KEY_KP_Home:
      self->chosen = 0;
      break;
    case GDK_KEY_End:
    case GDK_KEY_KP_End:
      self->chosen = last;
      break;
    case GDK_KEY_Escape:
      if (self->chosen < 0)
        return FALSE;
      self->chosen = -1;
      break;
    default:
      return FALSE;
    }
  say_chosen (self);
  return TRUE;
}

static void
fr_season_bars_finalize (GObject *object)
{
  forget (FR_SEASON_BARS (object));
  G_OBJECT_CLASS (fr_season_bars_parent_class)->finalize (object);
}

static void
fr_season_bars_class_init (FrSeasonBarsClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = fr_season_bars_finalize;
  widget_class->snapshot = fr_season_bars_snapshot;
  widget_class->measure = fr_season_bars_measure;
  fr_drawing_class_init (widget_class);
}

static void
fr_season_bars_init (FrSeasonBars *self)
{
  self->chosen = -1;
  fr_drawing_listen (GTK_WIDGET (self), NULL, NULL, G_CALLBACK (pressed_cb), G_CALLBACK (key_cb));
}

GtkWidget *
fr_season_bars_new (void)
{
  return g_object_new (FR_TYPE_SEASON_BARS, NULL);
}

static const FrTreeSeason *
season_in (const GArray *history, guint season)
{
  for (guint i = 0; i < history->len; i++)
    if (g_array_index (history, FrTreeSeason, i).season == season)
      return &g_array_index (history, FrTreeSeason, i);
  return NULL;
}

static void
add_season (FrSeasonBars *self, guint season, const FrTreeSeason *given, gboolean is_open, const FrSay *say)
{
  guint at = self->n++;
  double shown
      = given != NULL ? fr_quantity_to_shown (given->volume_l, FR_QUANTITY_VOLUME, &say->units) : NAN;
  int decimals = shown >= 10 ? 0 : 1;
  g_autofree char *volume
      = isnan (shown) ? NULL : fr_say_amount (say, given->volume_l, FR_QUANTITY_VOLUME, decimals);

  self->values[at] = isnan (shown) ? NULL : fr_say_number (say, shown, decimals);
  self->notes[at] = given == NULL || isnan (given->brix)
                        ? NULL
                        : fr_say_amount (say, given->brix, FR_QUANTITY_SWEETNESS, 1);
  /* Translators: the last two digits of a year, as ’24 */
  self->labels[at] = g_strdup_printf (_ ("’%02u"), season % 100);
  if (volume == NULL)
    self->spoken[at] = g_strdup_printf (_ ("%u: not known."), season);
  else if (self->notes[at] == NULL)
    self->spoken[at] = g_strdup_printf (_ ("%u: %s."), season, volume);
  else
    self->spoken[at] = g_strdup_printf (_ ("%u: %s at %s."), season, volume, self->notes[at]);
  self->bars[at] = (FrBar){ .value = shown,
                            .value_text = self->values[at],
                            .note = NULL,
                            .label = self->labels[at],
                            .is_open = is_open };
}

void
fr_season_bars_set (FrSeasonBars *self, const GArray *history, guint season, FrTreeGroup group,
                    const FrSay *say)
{
  static const FrRole roles[] = { [FR_TREE_HARD] = FR_ROLE_TREE_HARD,
                                  [FR_TREE_SOFT] = FR_ROLE_TREE_SOFT,
                                  [FR_TREE_OTHER] = FR_ROLE_TREE_OTHER,
                                  [FR_TREE_NOT_MAPLE] = FR_ROLE_TREE_NONE };
  guint last, first;

  forget (self);
  self->role = roles[group];
  if (history->len > 0)
    {
      last = MAX (season, g_array_index (history, FrTreeSeason, history->len - 1).season);
      first = g_array_index (history, FrTreeSeason, 0).season;
      if (last - first >= SEASONS_MAX)
        first = last - SEASONS_MAX + 1;
      for (guint year = first; year <= last; year++)
        add_season (self, year, season_in (history, year), year == season, say);
    }
  say_chosen (self);
}
