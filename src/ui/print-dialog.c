/* A few choices and one line that says what comes of them. */
#include "ui/print-dialog.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "ui/bush-paper.h"
#include "ui/choice-rows.h"
#include "ui/dialog-frame.h"
#include "ui/pieces.h"
#include "ui/save-file.h"

static const double scales[] = { NAN, 100, 200, 250, 500, 1000, 2000 };

struct _FrPrintDialog
{
  AdwWindow parent_instance;
  FrWindow *window;
  FrSugarbush *bush;
  GtkWidget *what;
  GtkWidget *trees;
  GtkWidget *paper;
  GtkWidget *turned;
  GtkWidget *scale;
  GtkWidget *way;
  GtkWidget *way_switch;
  GtkWidget *pages;
  GtkWidget *save;
};

G_DEFINE_FINAL_TYPE (FrPrintDialog, fr_print_dialog, ADW_TYPE_WINDOW)

static guint
chosen (GtkWidget *row)
{
  return adw_combo_row_get_selected (ADW_COMBO_ROW (row));
}

static FrBushPaper
paper_of (FrPrintDialog *self)
{
  return (FrBushPaper){
    .is_map = chosen (self->what) == 1,
    .field = (FrPaperKind)chosen (self->trees),
    .size = (FrSheetSize)chosen (self->paper),
    .is_landscape = chosen (self->turned) == 1,
    .scale_ratio = scales[MIN (chosen (self->scale), G_N_ELEMENTS (scales) - 1)],
    .with_way = gtk_switch_get_active (GTK_SWITCH (self->way_switch)),
  };
}

static void
update (FrPrintDialog *self)
{
  FrSay say = { .units = *fr_book_get_units (fr_sugarbush_get_book (self->bush)) };
  FrBushPaper paper = paper_of (self);
  FrMapSheetTiles tiles;
  double scale_ratio;
  g_autofree char *pages = NULL, *scale = NULL, *text = NULL;

  gtk_widget_set_visible (self->trees, !paper.is_map);
  gtk_widget_set_visible (self->scale, paper.is_map);
  gtk_widget_set_visible (self->way, paper.is_map);
  if (!paper.is_map)
    {
      gtk_widget_set_sensitive (self->save, TRUE);
      gtk_label_set_text (GTK_LABEL (self->pages),
                          paper.field == FR_PAPER_GATHERING
                              ? _ ("The trees in walking order, with boxes for sap, sweetness and remarks.")
                              : _ ("Every tree in walking order, with boxes for girth, health and remarks."));
      return;
    }
  if (!fr_bush_paper_tiles (self->bush, &paper, &tiles, &scale_ratio))
    {
      gtk_widget_set_sensitive (self->save, FALSE);
      gtk_label_set_text (GTK_LABEL (self->pages), _ ("No tree has its place on the map yet."));
      return;
    }
  gtk_widget_set_sensitive (self->save, tiles.n_pages <= FR_MAP_SHEET_MOST_PAGES);
  pages = fr_paper_pages (tiles.n_pages, FR_MAP_SHEET_MOST_PAGES, &say);
  scale = fr_paper_scale (scale_ratio, &say);
  /* Translators: a scale, "1 : 500"; a number of pages, "3 pages" */
  text = g_strdup_printf (_ ("At %s: %s."), scale, pages);
  gtk_label_set_text (GTK_LABEL (self->pages), tiles.n_pages <= FR_MAP_SHEET_MOST_PAGES ? text : pages);
}

GBytes *
fr_print_dialog_make (FrPrintDialog *self, guint *n_pages, GError **error)
{
  FrBushPaper paper = paper_of (self);

  return fr_bush_paper_pdf (self->bush, &paper, n_pages, error);
}

static GBytes *
make (GtkWindow *dialog, GError **error)
{
  return fr_print_dialog_make (FR_PRINT_DIALOG (dialog), NULL, error);
}

static void
save_cb (FrPrintDialog *self)
{
  FrBushPaper paper = paper_of (self);
  g_autofree char *day = fr_date_to_iso (fr_sugarbush_get_today (self->bush));
  g_autofree char *name = g_strdup_printf (paper.is_map ? "sugarbush-map-%s.pdf" : "field-sheet-%s.pdf", day);

  fr_save_pdf (self->window, GTK_WINDOW (self), name, make);
}

static void
fr_print_dialog_dispose (GObject *object)
{
  g_clear_object (&FR_PRINT_DIALOG (object)->bush);
  G_OBJECT_CLASS (fr_print_dialog_parent_class)->dispose (object);
}

static void
fr_print_dialog_class_init (FrPrintDialogClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_print_dialog_dispose;
  fr_dialog_frame_class_init (GTK_WIDGET_CLASS (klass));
}

static void
fr_print_dialog_init (FrPrintDialog *self)
{
}

static GtkWidget *
add_choice (GtkWidget *list, const char *title, const char *const *words, guint selected)
{
  GtkWidget *row = fr_choice_row_new (title, words, selected);

  gtk_list_box_append (GTK_LIST_BOX (list), row);
  return row;
}

static GtkWidget *
add_scales (FrPrintDialog *self, GtkWidget *list)
{
  FrSay say = { .units = *fr_book_get_units (fr_sugarbush_get_book (self->bush)) };
  g_autoptr (GPtrArray) words = g_ptr_array_new_with_free_func (g_free);

  g_ptr_array_add (words, g_strdup (_ ("All on one page")));
  for (guint i = 1; i < G_N_ELEMENTS (scales); i++)
    g_ptr_array_add (words, fr_paper_scale (scales[i], &say));
  g_ptr_array_add (words, NULL);
  return add_choice (list, _ ("Scale"), (const char *const *)words->pdata, 0);
}

GtkWidget *
fr_print_dialog_new (FrWindow *window, FrSugarbush *bush, gboolean field_sheet)
{
  FrPrintDialog *self = g_object_new (FR_TYPE_PRINT_DIALOG, "transient-for", window, NULL);
  const char *const whats[] = { _ ("Field sheet"), _ ("Map"), NULL };
  /* By FrPaperKind. */
  const char *const trees[] = { _ ("With taps, to gather"), _ ("All, to measure"), NULL };
  const char *const ways[] = { _ ("Upright"), _ ("Lying"), NULL };
  GtkWidget *list = gtk_list_box_new ();
  GtkBox *inner;

  self->window = window;
  self->bush = g_object_ref (bush);
  self->save
      = fr_dialog_frame_build (ADW_WINDOW (self), _ ("Print"), 460, 430, G_CALLBACK (save_cb), self, &inner);
  gtk_button_set_label (GTK_BUTTON (self->save), _ ("_Save…"));
  gtk_list_box_set_selection_mode (GTK_LIST_BOX (list), GTK_SELECTION_NONE);
  gtk_widget_add_css_class (list, "boxed-list");
  self->what = add_choice (list, _ ("Sheet"), whats, field_sheet ? 0 : 1);
  self->trees = add_choice (list, _ ("Trees"), trees, 0);
  self->scale = add_scales (self, list);
  self->way = fr_switch_row_new (_ ("The gathering round"), NULL, &self->way_switch);
  gtk_switch_set_active (GTK_SWITCH (self->way_switch), TRUE);
  gtk_list_box_append (GTK_LIST_BOX (list), self->way);
  self->paper = fr_paper_row_new (fr_book_get_units (fr_sugarbush_get_book (bush))->system);
  gtk_list_box_append (GTK_LIST_BOX (list), self->paper);
  self->turned = add_choice (list, _ ("Turned"), ways, 0);
  self->pages = fr_wrapped_text (NULL, "soft");
  gtk_box_append (inner, list);
  gtk_box_append (inner, self->pages);
  {
    GtkWidget *rows[] = { self->what, self->trees, self->scale, self->paper, self->turned };

    for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
      g_signal_connect_object (rows[i], "notify::selected", G_CALLBACK (update), self, G_CONNECT_SWAPPED);
    g_signal_connect_object (self->way_switch, "notify::active", G_CALLBACK (update), self,
                             G_CONNECT_SWAPPED);
  }
  update (self);
  return GTK_WIDGET (self);
}
