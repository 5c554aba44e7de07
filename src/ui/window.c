/* The frame. Under 1000 px the side list folds away and comes over the page on demand; the width is checked
 * when the window is allotted its size, for this libadwaita has no breakpoints, and acted upon just after,
 * for a child must not change while its parent is being laid out. */
#include "ui/window.h"

#include <glib/gi18n-lib.h>

#include "models/settings.h"
#include "ui/kit-page.h"
#include "ui/record-summary.h"
#include "ui/season-page.h"
#include "ui/setup-page.h"
#include "ui/sugarbush-page.h"
#include "ui/tonight-page.h"
#include "ui/window-private.h"
#include "words/entry-words.h"

#define FOLD_WIDTH_PX 1000
#define NARROW_HEAD_PX 720 /* under it the title gives up the middle, so that the buttons have room */

G_DEFINE_FINAL_TYPE (FrWindow, fr_window, ADW_TYPE_APPLICATION_WINDOW)

static const struct
{
  const char *name;
  const char *title;
  const char *icon;
  gboolean apart; /* a line before it in the side list */
} pages[] = {
  { "tonight", N_ ("Tonight"), "fr-tonight-symbolic", FALSE },
  { "sugarbush", N_ ("Sugarbush"), "fr-sugarbush-symbolic", FALSE },
  { "season", N_ ("Season"), "fr-season-symbolic", FALSE },
  { "kit", N_ ("Kit and prices"), "fr-kit-symbolic", TRUE },
};

static void
toast_dismissed_cb (AdwToast *toast, gpointer user_data)
{
  FrWindow *self = FR_WINDOW (user_data);

  if (self->toast == toast)
    self->toast = NULL;
}

static void
show_toast (FrWindow *self, const char *sentence, gboolean undo)
{
  g_autofree char *escaped = g_markup_escape_text (sentence, -1);
  AdwToast *toast = adw_toast_new (escaped);

  g_clear_pointer (&self->toast, adw_toast_dismiss);
  if (undo)
    {
      adw_toast_set_button_label (toast, _ ("Undo"));
      adw_toast_set_action_name (toast, "win.undo");
    }
  g_signal_connect_object (toast, "dismissed", G_CALLBACK (toast_dismissed_cb), self, 0);
  self->toast = toast;
  adw_toast_overlay_add_toast (self->toasts, toast);
}

/* What stands at the foot of the side list. */
static void
update_foot (FrWindow *self)
{
  const FrHousehold *household = fr_book_get_household (self->book);
  g_autofree char *file = g_path_get_basename (fr_book_get_path (self->book));
  g_autofree char *size = fr_book_summary (self->book);

  gtk_label_set_text (self->book_name, household != NULL ? household->name : file);
  gtk_label_set_text (self->book_size, size);
}

/* Views in the middle are wider than a title: held there strictly they would keep the window wide. */
static AdwCenteringPolicy
centering (FrWindow *self, int width_px)
{
  return width_px < NARROW_HEAD_PX || gtk_stack_get_visible_child (self->head) != GTK_WIDGET (self->title)
             ? ADW_CENTERING_POLICY_LOOSE
             : ADW_CENTERING_POLICY_STRICT;
}

static void
update_title (FrWindow *self)
{
  const char *name = gtk_stack_get_visible_child_name (self->stack);
  GtkWidget *page = gtk_stack_get_visible_child (self->stack), *action;
  g_autofree char *subtitle = NULL;

  GtkWidget *views = NULL;

  if (FR_IS_TONIGHT_PAGE (page))
    subtitle = fr_tonight_page_subtitle (FR_TONIGHT_PAGE (page));
  else if (FR_IS_SUGARBUSH_PAGE (page))
    {
      subtitle = fr_sugarbush_page_subtitle (FR_SUGARBUSH_PAGE (page));
      views = fr_sugarbush_page_views (FR_SUGARBUSH_PAGE (page));
    }
  else if (FR_IS_SEASON_PAGE (page))
    {
      subtitle = fr_season_page_subtitle (FR_SEASON_PAGE (page));
      views = fr_season_page_views (FR_SEASON_PAGE (page));
    }
  for (guint i = 0; i < G_N_ELEMENTS (pages); i++)
    if (g_strcmp0 (pages[i].name, name) == 0)
      adw_window_title_set_title (self->title, _ (pages[i].title));
  adw_window_title_set_subtitle (self->title, subtitle != NULL ? subtitle : "");
  if (views != NULL && gtk_widget_get_parent (views) == NULL)
    gtk_stack_add_child (self->head, views);
  gtk_stack_set_visible_child (self->head, views != NULL ? views : GTK_WIDGET (self->title));
  adw_header_bar_set_centering_policy (self->header,
                                       centering (self, gtk_widget_get_width (GTK_WIDGET (self))));
  /* A page's keys and the buttons it has in the header work while it is shown. */
  gtk_widget_insert_action_group (
      GTK_WIDGET (self), "bush",
      FR_IS_SUGARBUSH_PAGE (page) ? fr_sugarbush_page_actions (FR_SUGARBUSH_PAGE (page)) : NULL);
  gtk_widget_insert_action_group (
      GTK_WIDGET (self), "season",
      FR_IS_SEASON_PAGE (page) ? fr_season_page_actions (FR_SEASON_PAGE (page)) : NULL);
  action = FR_IS_KIT_PAGE (page)         ? fr_kit_page_action (FR_KIT_PAGE (page))
           : FR_IS_TONIGHT_PAGE (page)   ? fr_tonight_page_action (FR_TONIGHT_PAGE (page))
           : FR_IS_SUGARBUSH_PAGE (page) ? fr_sugarbush_page_action (FR_SUGARBUSH_PAGE (page))
           : FR_IS_SEASON_PAGE (page)    ? fr_season_page_action (FR_SEASON_PAGE (page))
                                         : NULL;
  /* Hidden rather than taken out: GTK 4.8 forgets the Alt key of a button that was out of its window. */
  if (action != NULL && gtk_widget_get_parent (action) == NULL)
    gtk_box_append (self->page_action, action);
  for (GtkWidget *at = gtk_widget_get_first_child (GTK_WIDGET (self->page_action)); at != NULL;
       at = gtk_widget_get_next_sibling (at))
    gtk_widget_set_visible (at, at == action);
}

static void
update_side (FrWindow *self)
{
  gboolean beside = !self->narrow && adw_flap_get_reveal_flap (self->flap);

  gtk_widget_set_visible (self->side_button, !beside);
  gtk_widget_set_visible (self->head_menu, !beside);
  gtk_menu_button_set_primary (GTK_MENU_BUTTON (self->head_menu), !beside);
  gtk_menu_button_set_primary (GTK_MENU_BUTTON (self->side_menu), beside);
}

static void
side_shown_cb (FrWindow *self)
{
  if (!self->narrow && self->settings != NULL
      && adw_flap_get_fold_policy (self->flap) == ADW_FLAP_FOLD_POLICY_NEVER)
    g_settings_set_boolean (self->settings, FR_SETTINGS_SIDEBAR, adw_flap_get_reveal_flap (self->flap));
  update_side (self);
}

static void
set_narrow (FrWindow *self, gboolean narrow)
{
  self->narrow = narrow;
  adw_flap_set_fold_policy (self->flap, narrow ? ADW_FLAP_FOLD_POLICY_ALWAYS : ADW_FLAP_FOLD_POLICY_NEVER);
  adw_flap_set_reveal_flap (
      self->flap,
      !narrow && (self->settings == NULL || g_settings_get_boolean (self->settings, FR_SETTINGS_SIDEBAR)));
  if (narrow)
    gtk_widget_add_css_class (GTK_WIDGET (self), "narrow");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self), "narrow");
  update_side (self);
}

static gboolean
fold_cb (gpointer user_data)
{
  FrWindow *self = FR_WINDOW (user_data);

  self->fold_id = 0;
  adw_header_bar_set_centering_policy (self->header,
                                       centering (self, gtk_widget_get_width (GTK_WIDGET (self))));
  set_narrow (self, gtk_widget_get_width (GTK_WIDGET (self)) < FOLD_WIDTH_PX);
  return G_SOURCE_REMOVE;
}

static void
fr_window_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  FrWindow *self = FR_WINDOW (widget);

  GTK_WIDGET_CLASS (fr_window_parent_class)->size_allocate (widget, width, height, baseline);
  if (((width < FOLD_WIDTH_PX) != self->narrow
       || centering (self, width) != adw_header_bar_get_centering_policy (self->header))
      && self->fold_id == 0)
    self->fold_id = g_idle_add (fold_cb, self);
}

static void
page_row_activated_cb (GtkListBox *list, GtkListBoxRow *row, gpointer user_data)
{
  FrWindow *self = FR_WINDOW (user_data);

  fr_window_show_page (self, gtk_widget_get_name (GTK_WIDGET (row)));
  if (self->narrow)
    adw_flap_set_reveal_flap (self->flap, FALSE);
}

/* The mark stays on the page that is shown; passing over another with Tab only moves the focus. */
static void
page_row_selected_cb (GtkListBox *list, GtkListBoxRow *row, gpointer user_data)
{
  FrWindow *self = FR_WINDOW (user_data);
  const char *shown;

  if (row == NULL || self->stack == NULL) /* the list is taken down */
    return;
  shown = gtk_stack_get_visible_child_name (self->stack);
  if (g_strcmp0 (gtk_widget_get_name (GTK_WIDGET (row)), shown) == 0)
    return;
  for (guint i = 0; i < G_N_ELEMENTS (pages); i++)
    if (g_strcmp0 (pages[i].name, shown) == 0)
      gtk_list_box_select_row (list, gtk_list_box_get_row_at_index (list, (int)i));
}

static void
page_header_cb (GtkListBoxRow *row, GtkListBoxRow *before, gpointer user_data)
{
  if (before == NULL || !pages[gtk_list_box_row_get_index (row)].apart)
    gtk_list_box_row_set_header (row, NULL);
  else if (gtk_list_box_row_get_header (row) == NULL)
    {
      GtkWidget *line = gtk_separator_new (GTK_ORIENTATION_HORIZONTAL);

      gtk_widget_add_css_class (line, "side-line");
      gtk_list_box_row_set_header (row, line);
    }
}

static void
book_changed_cb (FrWindow *self)
{
  update_foot (self);
  update_title (self);
}

static void
book_moved_cb (FrBook *book, const char *code, guint n, gpointer user_data)
{
  FrWindow *self = FR_WINDOW (user_data);

  if (g_strcmp0 (code, "book-moved-undo-lost") == 0)
    {
      g_autofree char *sentence = g_strdup_printf (
          g_dngettext (GETTEXT_PACKAGE, "Another program changed the book; %u step can no longer be undone.",
                       "Another program changed the book; %u steps can no longer be undone.", n),
          n);

      show_toast (self, sentence, FALSE);
    }
  else
    show_toast (self, _ ("Another program changed the book; this shows it as it is now."), FALSE);
}

static void
active_cb (FrWindow *self)
{
  g_autoptr (GError) error = NULL;

  if (gtk_window_is_active (GTK_WINDOW (self)) && !fr_book_refresh (self->book, &error))
    fr_window_show_error (self, error);
}

/* What is being typed is finished, as by leaving it. */
static gboolean
fr_window_close_request (GtkWindow *window)
{
  gtk_window_set_focus (window, NULL);
  return GTK_WINDOW_CLASS (fr_window_parent_class)->close_request (window);
}

static void
fr_window_dispose (GObject *object)
{
  FrWindow *self = FR_WINDOW (object);

  g_clear_handle_id (&self->fold_id, g_source_remove);
  g_clear_object (&self->notices);
  gtk_widget_dispose_template (GTK_WIDGET (self), FR_TYPE_WINDOW);
  g_clear_object (&self->settings);
  g_clear_object (&self->book);
  G_OBJECT_CLASS (fr_window_parent_class)->dispose (object);
}

static void
fr_window_class_init (FrWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = fr_window_dispose;
  widget_class->size_allocate = fr_window_size_allocate;
  GTK_WINDOW_CLASS (klass)->close_request = fr_window_close_request;

  gtk_widget_class_set_template_from_resource (widget_class, "/org/frostrun/Frostrun/ui/window.ui");
  gtk_widget_class_bind_template_child (widget_class, FrWindow, toasts);
  gtk_widget_class_bind_template_child (widget_class, FrWindow, outer);
  gtk_widget_class_bind_template_child (widget_class, FrWindow, flap);
  gtk_widget_class_bind_template_child (widget_class, FrWindow, pages);
  gtk_widget_class_bind_template_child (widget_class, FrWindow, book_name);
  gtk_widget_class_bind_template_child (widget_class, FrWindow, book_size);
  gtk_widget_class_bind_template_child (widget_class, FrWindow, side_button);
  gtk_widget_class_bind_template_child (widget_class, FrWindow, side_menu);
  gtk_widget_class_bind_template_child (widget_class, FrWindow, head_menu);
  gtk_widget_class_bind_template_child (widget_class, FrWindow, undo_button);
  gtk_widget_class_bind_template_child (widget_class, FrWindow, redo_button);
  gtk_widget_class_bind_template_child (widget_class, FrWindow, header);
  gtk_widget_class_bind_template_child (widget_class, FrWindow, head);
  gtk_widget_class_bind_template_child (widget_class, FrWindow, title);
  gtk_widget_class_bind_template_child (widget_class, FrWindow, page_action);
  gtk_widget_class_bind_template_child (widget_class, FrWindow, stack);
  gtk_widget_class_bind_template_callback (widget_class, page_row_activated_cb);
  gtk_widget_class_bind_template_callback (widget_class, page_row_selected_cb);
  fr_window_actions_init (widget_class);
}

static void
fr_window_init (FrWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_list_box_set_header_func (self->pages, page_header_cb, NULL, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (pages); i++)
    {
      GtkWidget *row = gtk_list_box_row_new ();
      GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
      GtkWidget *label = gtk_label_new (_ (pages[i].title));

      gtk_label_set_xalign (GTK_LABEL (label), 0.0f);
      gtk_box_append (GTK_BOX (box), gtk_image_new_from_icon_name (pages[i].icon));
      gtk_box_append (GTK_BOX (box), label);
      gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
      gtk_widget_set_name (row, pages[i].name);
      gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, _ (pages[i].title),
                                      -1);
      gtk_list_box_append (self->pages, row);
    }
  g_signal_connect_object (self->flap, "notify::reveal-flap", G_CALLBACK (side_shown_cb), self,
                           G_CONNECT_SWAPPED);
}

FrWindow *
fr_window_new (GtkApplication *application, FrBook *book, GSettings *settings)
{
  FrWindow *self = g_object_new (FR_TYPE_WINDOW, "application", application, NULL);
  g_autoptr (GAction) notify = NULL;
  int width = 0, height = 0;

  self->book = g_object_ref (book);
  if (settings != NULL)
    {
      self->settings = g_object_ref (settings);
      g_settings_bind (settings, FR_SETTINGS_WIDTH, self, "default-width", G_SETTINGS_BIND_DEFAULT);
      g_settings_bind (settings, FR_SETTINGS_HEIGHT, self, "default-height", G_SETTINGS_BIND_DEFAULT);
      g_settings_bind (settings, FR_SETTINGS_MAXIMIZED, self, "maximized", G_SETTINGS_BIND_DEFAULT);
      notify = g_settings_create_action (settings, FR_SETTINGS_NOTIFY);
      g_action_map_add_action (G_ACTION_MAP (self), notify);
    }
  {
    FrTonightPage *tonight = fr_tonight_page_new (book);
    FrSugarbushPage *bush = fr_sugarbush_page_new (book);
    FrSeasonPage *season = fr_season_page_new (book, fr_sugarbush_page_get_bush (bush));

    gtk_stack_add_named (self->stack, GTK_WIDGET (tonight), "tonight");
    fr_tonight_page_set_forecaster (tonight, fr_season_page_get_forecaster (season));
    gtk_stack_add_named (self->stack, GTK_WIDGET (bush), "sugarbush");
    g_signal_connect_object (bush, "head-changed", G_CALLBACK (update_title), self, G_CONNECT_SWAPPED);
    gtk_stack_add_named (self->stack, GTK_WIDGET (season), "season");
    g_signal_connect_object (season, "head-changed", G_CALLBACK (update_title), self, G_CONNECT_SWAPPED);
    self->notices = fr_season_notices_new (G_APPLICATION (application), fr_season_page_get_season (season), settings);
  }
  gtk_stack_add_named (self->stack, GTK_WIDGET (fr_kit_page_new (book)), "kit");
  {
    g_autoptr (GtkBuilder) builder = gtk_builder_new_from_resource ("/org/frostrun/Frostrun/ui/shortcuts.ui");

    gtk_application_window_set_help_overlay (
        GTK_APPLICATION_WINDOW (self),
        GTK_SHORTCUTS_WINDOW (gtk_builder_get_object (builder, "help_overlay")));
  }
  g_signal_connect_object (book, "changed", G_CALLBACK (book_changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (book, "undo-changed", G_CALLBACK (fr_window_actions_update), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (book, "moved", G_CALLBACK (book_moved_cb), self, 0);
  g_signal_connect (self, "notify::is-active", G_CALLBACK (active_cb), NULL);

  gtk_window_get_default_size (GTK_WINDOW (self), &width, &height);
  set_narrow (self, width < FOLD_WIDTH_PX && !gtk_window_is_maximized (GTK_WINDOW (self)));
  fr_window_actions_update (self);
  update_foot (self);
  {
    g_autofree char *page = settings != NULL ? g_settings_get_string (settings, FR_SETTINGS_PAGE) : NULL;

    fr_window_show_page (self, "tonight"); /* stays when the kept name is none of this version */
    if (page != NULL)
      fr_window_show_page (self, page);
  }
  if (fr_book_get_household (book) == NULL)
    fr_window_set_up (self, TRUE);
  return self;
}

FrBook *
fr_window_get_book (FrWindow *self)
{
  return self->book;
}

FrWindow *
fr_window_of (GtkWidget *widget)
{
  GtkRoot *root = gtk_widget_get_root (widget);

  return FR_IS_WINDOW (root) ? FR_WINDOW (root) : NULL;
}

gboolean
fr_window_apply (FrWindow *self, const FrChange *change)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *sentence = NULL;

  if (!fr_book_apply (self->book, change, &error))
    {
      fr_window_show_error (self, error);
      return FALSE;
    }
  sentence = fr_change_sentence (change->label, change->subject);
  show_toast (self, sentence, TRUE);
  return TRUE;
}

gboolean
fr_window_write (FrWindow *self, FrChange *change, GError *error)
{
  gboolean applied = change != NULL && fr_book_apply (self->book, change, &error);

  if (!applied && error != NULL)
    fr_window_show_error (self, error);
  g_clear_pointer (&change, fr_change_free);
  g_clear_error (&error);
  return applied;
}

gboolean
fr_window_finish (FrWindow *self, FrChange *change, GError *error)
{
  gboolean applied = change != NULL && fr_window_apply (self, change);

  if (change == NULL && error != NULL)
    fr_window_show_error (self, error);
  g_clear_pointer (&change, fr_change_free);
  g_clear_error (&error);
  return applied;
}

void
fr_window_tell (FrWindow *self, const char *sentence)
{
  show_toast (self, sentence, FALSE);
}

void
fr_window_show_error (FrWindow *self, const GError *error)
{
  if (g_error_matches (error, FR_STORE_ERROR, FR_STORE_ERROR_FULL)
      || g_error_matches (error, FR_STORE_ERROR, FR_STORE_ERROR_READ_ONLY)
      || g_error_matches (error, FR_STORE_ERROR, FR_STORE_ERROR_NOT_A_BOOK))
    {
      GtkWidget *dialog = adw_message_dialog_new (GTK_WINDOW (self), _ ("Nothing was kept"), error->message);

      adw_message_dialog_add_response (ADW_MESSAGE_DIALOG (dialog), "close", _ ("_Close"));
      gtk_window_present (GTK_WINDOW (dialog));
    }
  else
    show_toast (self, error->message, FALSE);
}

void
fr_window_show_page (FrWindow *self, const char *name)
{
  for (guint i = 0; i < G_N_ELEMENTS (pages); i++)
    {
      if (g_strcmp0 (pages[i].name, name) != 0)
        continue;
      gtk_stack_set_visible_child_name (self->outer, "book");
      gtk_stack_set_visible_child_name (self->stack, name);
      gtk_list_box_select_row (self->pages, gtk_list_box_get_row_at_index (self->pages, (int)i));
      if (self->settings != NULL)
        g_settings_set_string (self->settings, FR_SETTINGS_PAGE, name);
      update_title (self);
    }
}

void
fr_window_show_first (FrWindow *self, FrKindId kind)
{
  FrRecordList *list = fr_book_get_list (self->book, kind);

  if (fr_record_list_get_size (list) == 0)
    return;
  if (kind == FR_KIND_TREE)
    {
      GtkWidget *page = gtk_stack_get_child_by_name (self->stack, "sugarbush");

      fr_window_show_page (self, "sugarbush");
      fr_sugarbush_select (fr_sugarbush_page_get_bush (FR_SUGARBUSH_PAGE (page)),
                           fr_record_list_get (list, 0)->id);
      return;
    }
  fr_window_show_page (self, "kit");
  fr_kit_page_show (FR_KIT_PAGE (gtk_stack_get_child_by_name (self->stack, "kit")), kind,
                    fr_record_list_get (list, 0)->id);
}

const char *
fr_window_get_page (FrWindow *self)
{
  return gtk_stack_get_visible_child_name (self->stack);
}

void
fr_window_set_up (FrWindow *self, gboolean on)
{
  GtkWidget *page = gtk_stack_get_child_by_name (self->outer, "set-up");

  if (on && page == NULL)
    gtk_stack_add_named (self->outer, GTK_WIDGET (fr_setup_page_new (self->book)), "set-up");
  gtk_stack_set_visible_child_name (self->outer, on ? "set-up" : "book");
  if (!on && page != NULL)
    gtk_stack_remove (self->outer, page);
}
