/* Pictures of every page. The window is really shown, sized and drawn; what its renderer made is saved, so a
 * picture is what a person would see. */
#include "ui/pictures.h"

#include <glib/gi18n-lib.h>

static const struct
{
  const char *page;
  const char *name;
  int kind;         /* of the record to open on the page, −1 none */
  const char *view; /* an action with the view it shows, "bush.view::map"; NULL for none */
  const char *dialog; /* an action whose dialog is drawn in place of the window */
} scenes[] = {
  { "tonight", "tonight", -1 },
  { "sugarbush", "sugarbush", FR_KIND_TREE, "bush.view::map" },
  { "sugarbush", "tapping-plan", -1, "bush.view::plan" },
  { "sugarbush", "round", -1, "bush.view::round" },
  { "season", "season-calendar", -1, "season.calendar::season" },
  { "season", "season-month", -1, "season.calendar::month" },
  { "season", "season-log", -1, "season.view::log" },
  { "season", "season-store", -1, "season.view::store" },
  { "season", "season-forecast", -1, "season.view::forecast" },
  { "season", "weather-service", -1, "season.view::forecast", "season.weather-service" },
  { "season", "night-and-day", -1, "season.view::forecast", "season.add-air" },
  { "kit", "kit-container", FR_KIND_CONTAINER },
  { "kit", "kit-cooker", FR_KIND_COOKER },
  { "kit", "kit-pan", FR_KIND_VESSEL },
  { "kit", "kit-prices", FR_KIND_TARIFF },
  { "kit", "kit-station", FR_KIND_STATION },
  { "kit", "kit-household", FR_KIND_HOUSEHOLD },
};

static gboolean
tick (gpointer data)
{
  *(gboolean *)data = TRUE;
  return G_SOURCE_REMOVE;
}

static void
settle (guint span_ms)
{
  gboolean done = FALSE;

  g_timeout_add (span_ms, tick, &done);
  while (!done)
    g_main_context_iteration (NULL, TRUE);
}

/* Asks for a size and lets it be drawn. Without a window manager GTK draws an edge of its own inside the size
 * asked for; what that took is asked for on top. */
static void
resize (FrWindow *window, int width_px, int height_px)
{
  int more_px = 0;

  for (guint attempt = 0; attempt < 2; attempt++)
    {
      gtk_window_set_default_size (GTK_WINDOW (window), width_px + more_px, height_px + more_px);
      settle (400);
      more_px = width_px - gtk_widget_get_width (GTK_WIDGET (window));
      if (more_px == 0)
        return;
    }
}

/* What the renderer makes of the window; NULL while a part of it waits to be drawn. */
static GdkTexture *
draw (GtkWidget *widget)
{
  g_autoptr (GdkPaintable) paintable = gtk_widget_paintable_new (widget);
  g_autoptr (GtkSnapshot) snapshot = gtk_snapshot_new ();
  g_autoptr (GskRenderNode) node = NULL;

  gdk_paintable_snapshot (paintable, snapshot, gtk_widget_get_width (widget), gtk_widget_get_height (widget));
  node = gtk_snapshot_free_to_node (g_steal_pointer (&snapshot));
  return node != NULL
             ? gsk_renderer_render_texture (gtk_native_get_renderer (GTK_NATIVE (widget)), node, NULL)
             : NULL;
}

static gboolean
save (GtkWindow *window, const char *folder, const char *scene, const char *size, gboolean dark,
      GError **error)
{
  g_autofree char *name = g_strdup_printf ("%s-%s-%s.png", scene, size, dark ? "dark" : "light");
  g_autofree char *path = g_build_filename (folder, name, NULL);
  g_autoptr (GdkTexture) texture = draw (GTK_WIDGET (window));

  for (guint attempt = 0; texture == NULL && attempt < 20; attempt++)
    {
      settle (50);
      texture = draw (GTK_WIDGET (window));
    }
  if (texture == NULL || !gdk_texture_save_to_png (texture, path))
    {
      g_set_error (error, G_IO_ERROR, G_IO_ERROR_FAILED, _ ("The picture %s cannot be written."), path);
      return FALSE;
    }
  return TRUE;
}

/* The dialog that stands over the window. */
static GtkWindow *
dialog_of (FrWindow *window)
{
  g_autoptr (GList) all = gtk_window_list_toplevels ();

  for (GList *at = all; at != NULL; at = at->next)
    if (gtk_window_get_transient_for (at->data) == GTK_WINDOW (window))
      return at->data;
  return NULL;
}

/* One scene, as it is shown now. */
static gboolean
take (FrWindow *window, guint scene, const char *folder, const char *size, gboolean dark, GError **error)
{
  GtkWindow *target = GTK_WINDOW (window);
  gboolean ok;

  if (scenes[scene].dialog != NULL)
    {
      gtk_widget_activate_action (GTK_WIDGET (window), scenes[scene].dialog, NULL);
      settle (250);
      target = dialog_of (window);
    }
  ok = target == NULL || save (target, folder, scenes[scene].name, size, dark, error);
  if (target != NULL && target != GTK_WINDOW (window))
    gtk_window_close (target);
  return ok;
}

static void
show_view (FrWindow *window, const char *detailed)
{
  g_autofree char *action = NULL;
  g_autoptr (GVariant) target = NULL;

  if (g_action_parse_detailed_name (detailed, &action, &target, NULL))
    gtk_widget_activate_action_variant (GTK_WIDGET (window), action, target);
}

gboolean
fr_pictures_take (FrWindow *window, const char *folder, GError **error)
{
  static const struct
  {
    const char *name;
    int width_px, height_px;
  } sizes[] = { { "1280x800", 1280, 800 }, { "800x600", 800, 600 } };
  AdwStyleManager *style = adw_style_manager_get_default ();

  for (guint dark = 0; dark < 2; dark++)
    for (guint s = 0; s < G_N_ELEMENTS (sizes); s++)
      {
        adw_style_manager_set_color_scheme (style, dark ? ADW_COLOR_SCHEME_FORCE_DARK
                                                        : ADW_COLOR_SCHEME_FORCE_LIGHT);
        resize (window, sizes[s].width_px, sizes[s].height_px);
        for (guint i = 0; i < G_N_ELEMENTS (scenes); i++)
          {
            fr_window_show_page (window, scenes[i].page);
            if (scenes[i].view != NULL)
              show_view (window, scenes[i].view);
            if (scenes[i].kind >= 0)
              fr_window_show_first (window, (FrKindId)scenes[i].kind);
            settle (250);
            if (!take (window, i, folder, sizes[s].name, dark, error))
              return FALSE;
          }
        fr_window_set_up (window, TRUE);
        settle (250);
        if (!save (GTK_WINDOW (window), folder, "set-up", sizes[s].name, dark, error))
          return FALSE;
        fr_window_set_up (window, FALSE);
      }
  return TRUE;
}
