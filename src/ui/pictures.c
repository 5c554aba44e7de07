/* Pictures of every page. The window is really shown, sized and drawn; what its renderer made is saved, so a
 * picture is what a person would see. */
#include "ui/pictures.h"

#include <glib/gi18n-lib.h>

static const struct
{
  const char *page;
  const char *name;
  int kind; /* of the record to open on the page, −1 none */
} scenes[] = {
  { "tonight", "tonight", -1 },
  { "kit", "kit-sap", FR_KIND_SAP_LOT },
  { "kit", "kit-cooker", FR_KIND_COOKER },
  { "kit", "kit-pan", FR_KIND_VESSEL },
  { "kit", "kit-prices", FR_KIND_TARIFF },
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

static gboolean
save (FrWindow *window, const char *path, GError **error)
{
  GtkWidget *widget = GTK_WIDGET (window);
  g_autoptr (GdkPaintable) paintable = gtk_widget_paintable_new (widget);
  g_autoptr (GtkSnapshot) snapshot = gtk_snapshot_new ();
  g_autoptr (GskRenderNode) node = NULL;
  g_autoptr (GdkTexture) texture = NULL;

  gdk_paintable_snapshot (paintable, snapshot, gtk_widget_get_width (widget), gtk_widget_get_height (widget));
  node = gtk_snapshot_free_to_node (g_steal_pointer (&snapshot));
  if (node != NULL)
    texture = gsk_renderer_render_texture (gtk_native_get_renderer (GTK_NATIVE (widget)), node, NULL);
  if (texture == NULL || !gdk_texture_save_to_png (texture, path))
    {
      g_set_error (error, G_IO_ERROR, G_IO_ERROR_FAILED, _ ("The picture %s cannot be written."), path);
      return FALSE;
    }
  return TRUE;
}

gboolean
fr_pictures_take (FrWindow *window, const char *folder, GError **error)
{
  static const struct
  {
    int width_px, height_px;
  } sizes[] = { { 1280, 800 }, { 800, 600 } };
  AdwStyleManager *style = adw_style_manager_get_default ();

  for (guint dark = 0; dark < 2; dark++)
    for (guint s = 0; s < G_N_ELEMENTS (sizes); s++)
      {
        adw_style_manager_set_color_scheme (style, dark ? ADW_COLOR_SCHEME_FORCE_DARK
                                                        : ADW_COLOR_SCHEME_FORCE_LIGHT);
        gtk_window_set_default_size (GTK_WINDOW (window), sizes[s].width_px, sizes[s].height_px);
        settle (400);
        for (guint i = 0; i < G_N_ELEMENTS (scenes); i++)
          {
            g_autofree char *name = g_strdup_printf ("%s-%dx%d-%s.png", scenes[i].name, sizes[s].width_px,
                                                     sizes[s].height_px, dark ? "dark" : "light");
            g_autofree char *path = g_build_filename (folder, name, NULL);

            fr_window_show_page (window, scenes[i].page);
            if (scenes[i].kind >= 0)
              fr_window_show_first (window, (FrKindId)scenes[i].kind);
            settle (250);
            if (!save (window, path, error))
              return FALSE;
          }
      }
  return TRUE;
}
