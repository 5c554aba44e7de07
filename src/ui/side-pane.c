#include "ui/side-pane.h"

#include "paint/label.h"

#define FOLD_PX 900
#define LEAST_PX 340
#define PANEL_PX 320

struct _FrSidePane
{
  FrFoldBin parent_instance;
  AdwFlap *flap;
  GtkWidget *toggle;
  gboolean folded;
  gboolean known;
};

G_DEFINE_FINAL_TYPE (FrSidePane, fr_side_pane, FR_TYPE_FOLD_BIN)

static guint folded_signal;

static void
fr_side_pane_fold (FrFoldBin *bin, int width_px)
{
  FrSidePane *self = FR_SIDE_PANE (bin);

  double scale = fr_text_scale_of_context (gtk_widget_get_pango_context (GTK_WIDGET (self)));
  gboolean folded = width_px < FOLD_PX * scale;

  if (self->known && folded == self->folded)
    return; /* a panel that was asked for stays */
  self->known = TRUE;
  self->folded = folded;
  gtk_widget_set_visible (self->toggle, self->folded);
  adw_flap_set_fold_policy (self->flap,
                            self->folded ? ADW_FLAP_FOLD_POLICY_ALWAYS : ADW_FLAP_FOLD_POLICY_NEVER);
  adw_flap_set_reveal_flap (self->flap, !self->folded);
  g_signal_emit (self, folded_signal, 0);
}

static void
fr_side_pane_class_init (FrSidePaneClass *klass)
{
  /* The limit grows with the letters: it is looked at again at each of these. */
  static const int limits_px[] = { FOLD_PX, 1000, 1100, 1200, 1350, 1500, 1800, 2200, 0 };
  FrFoldBinClass *bin_class = FR_FOLD_BIN_CLASS (klass);

  bin_class->limits_px = limits_px;
  bin_class->least_px = LEAST_PX;
  bin_class->fold = fr_side_pane_fold;
  folded_signal = g_signal_new ("folded-changed", FR_TYPE_SIDE_PANE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                G_TYPE_NONE, 0);
}

static void
fr_side_pane_init (FrSidePane *self)
{
}

GtkWidget *
fr_side_pane_new (GtkWidget *content, GtkWidget *panel, GtkToggleButton *toggle)
{
  FrSidePane *self = g_object_new (FR_TYPE_SIDE_PANE, NULL);
  GtkWidget *scroller = gtk_scrolled_window_new (), *clamp = adw_clamp_new ();

  self->flap = ADW_FLAP (adw_flap_new ());
  self->toggle = GTK_WIDGET (toggle);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), panel);
  gtk_widget_set_hexpand (clamp, FALSE);
  gtk_widget_set_size_request (clamp, PANEL_PX, -1);
  adw_clamp_set_maximum_size (ADW_CLAMP (clamp), PANEL_PX);
  adw_clamp_set_tightening_threshold (ADW_CLAMP (clamp), PANEL_PX);
  adw_clamp_set_child (ADW_CLAMP (clamp), scroller);
  gtk_widget_add_css_class (clamp, "side-panel");
  adw_flap_set_flap_position (self->flap, GTK_PACK_END);
  adw_flap_set_fold_policy (self->flap, ADW_FLAP_FOLD_POLICY_NEVER);
  adw_flap_set_content (self->flap, content);
  adw_flap_set_separator (self->flap, gtk_separator_new (GTK_ORIENTATION_VERTICAL));
  adw_flap_set_flap (self->flap, clamp);
  adw_flap_set_swipe_to_open (self->flap, FALSE);
  adw_flap_set_swipe_to_close (self->flap, FALSE);
  g_object_bind_property (self->flap, "reveal-flap", toggle, "active",
                          G_BINDING_SYNC_CREATE | G_BINDING_BIDIRECTIONAL);
  adw_bin_set_child (ADW_BIN (self), GTK_WIDGET (self->flap));
  return GTK_WIDGET (self);
}

void
fr_side_pane_show_panel (FrSidePane *self, gboolean shown)
{
  if (self->folded)
    adw_flap_set_reveal_flap (self->flap, shown);
}

gboolean
fr_side_pane_is_folded (FrSidePane *self)
{
  return self->folded;
}
