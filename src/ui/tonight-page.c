/* The first page. The model computes, the words speak; this lays them out, in two columns when there is room
 * and in one when there is not, and hands changes to the window. While the book lacks what a plan needs, it
 * says what is missing and where to add it. */
#include "ui/tonight-page.h"

#include <glib/gi18n-lib.h>

#include "models/tonight.h"
#include "ui/clock.h"
#include "ui/morning-dialog.h"
#include "ui/night-view.h"
#include "ui/tonight-answer.h"
#include "ui/tonight-inputs.h"
#include "ui/tonight-save.h"
#include "ui/window.h"

#define NARROW_PX 900
#define LEAST_PX 360
#define CLOCK_S 20

struct _FrTonightPage
{
  FrFoldBin parent_instance;
  GtkStack *stack;
  AdwStatusPage *empty;
  GtkButton *empty_button;
  AdwBin *plan;

  FrBook *book;
  FrTonight *tonight;
  GtkWidget *columns;
  GtkWidget *inputs;
  GtkWidget *answer_box;
  GtkWidget *answer;
  GtkWidget *trace_card;
  GtkWidget *chooser;
  GtkWidget *trace;
  GtkWidget *read_out;
  GtkWidget *last_night;
  GtkWidget *last_night_words;
  GtkWidget *last_night_button;
  GtkWidget *cards;
  GtkWidget *action;
  GtkWidget *keep_button;
  GSimpleActionGroup *actions;
  gboolean narrow;
  guint clock_id;
  guint share;
};

G_DEFINE_FINAL_TYPE (FrTonightPage, fr_tonight_page, FR_TYPE_FOLD_BIN)

static gboolean
has_any (FrTonightPage *self, FrKindId kind)
{
  FrRecordList *list = fr_book_get_list (self->book, kind);

  for (guint i = 0; i < fr_record_list_get_size (list); i++)
    if (!fr_record_list_get (list, i)->archived)
      return TRUE;
  return FALSE;
}

static void
say_missing (FrTonightPage *self, const char *title, const char *sentence, const char *button,
             const char *action)
{
  g_autofree char *name = NULL;
  g_autoptr (GVariant) target = NULL;

  adw_status_page_set_title (self->empty, title);
  adw_status_page_set_description (self->empty, sentence);
  gtk_button_set_label (self->empty_button, button);
  g_action_parse_detailed_name (action, &name, &target, NULL);
  /* Target before name, and no name meanwhile: an action must never meet the other one's target. */
  gtk_actionable_set_action_name (GTK_ACTIONABLE (self->empty_button), NULL);
  gtk_actionable_set_action_target_value (GTK_ACTIONABLE (self->empty_button), target);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (self->empty_button), name);
  gtk_stack_set_visible_child_name (self->stack, "empty");
}

/* --- showing --- */

static void
update_chooser (FrTonightPage *self)
{
  const FrPlan *plan = fr_tonight_get_plan (self->tonight);
  const FrPlanInput *input = fr_tonight_get_input (self->tonight);
  GtkStringList *names = gtk_string_list_new (NULL);
  guint n_used = 0;

  if (self->share >= plan->n_shares || !plan->shares[self->share].used)
    self->share = 0;
  for (guint i = 0; i < plan->n_shares; i++)
    {
      gtk_string_list_append (names, input->kits[plan->shares[i].kit].name);
      if (plan->shares[i].used)
        {
          n_used++;
          if (!plan->shares[self->share].used)
            self->share = i;
        }
    }
  gtk_widget_set_visible (self->chooser, n_used > 1);
  if (gtk_drop_down_get_model (GTK_DROP_DOWN (self->chooser)) == NULL
      || g_list_model_get_n_items (gtk_drop_down_get_model (GTK_DROP_DOWN (self->chooser))) != plan->n_shares)
    {
      guint share = self->share;

      gtk_drop_down_set_model (GTK_DROP_DOWN (self->chooser), G_LIST_MODEL (names));
      self->share = share;
      gtk_drop_down_set_selected (GTK_DROP_DOWN (self->chooser), share);
    }
  g_object_unref (names);
}

/* A night that is over asks what came of it; one that is kept offers to plan what is left, and the other way.
 */
static void
update_last_night (FrTonightPage *self)
{
  const FrNight *open = fr_tonight_open_night (self->tonight),
                *pending = fr_tonight_pending_night (self->tonight);
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (self->actions), "morning");
  const FrSay *say = fr_tonight_get_say (self->tonight);
  gboolean kept = fr_tonight_is_kept (self->tonight);
  g_autofree char *sentence = NULL, *end = NULL;
  const FrNight *night = pending != NULL ? pending : open;

  g_simple_action_set_enabled (G_SIMPLE_ACTION (action), open != NULL);
  gtk_widget_set_visible (self->last_night, night != NULL);
  if (night == NULL)
    return;
  end = fr_say_when (say, night->plan_end_utc, fr_tonight_get_now (self->tonight));
  if (night == open)
    sentence = g_strdup_printf (_ ("The boil that was to cut off at %s is over. What came of it?"), end);
  else if (kept)
    sentence = g_strdup (_ ("This is the night as it was kept. Undo takes it back."));
  else
    sentence = g_strdup_printf (_ ("A night is kept until %s. This plans the sap that is left."), end);
  gtk_label_set_text (GTK_LABEL (self->last_night_words), sentence);
  gtk_button_set_label (GTK_BUTTON (self->last_night_button), night == open ? _ ("_Write It Down…")
                                                              : kept        ? _ ("_Plan What Is Left")
                                                                            : _ ("_Show the Kept Night"));
  gtk_actionable_set_action_name (GTK_ACTIONABLE (self->last_night_button), night == open ? "tonight.morning"
                                                                            : kept        ? "tonight.anew"
                                                                                          : "tonight.kept");
}

/* Takes the focus out of the entries; NULL when it was not in them. */
static GtkWidget *
leave_inputs (FrTonightPage *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  if (focus == NULL || !gtk_widget_is_ancestor (focus, self->inputs))
    return NULL;
  gtk_root_set_focus (root, NULL);
  return focus;
}

static void
update_plan (FrTonightPage *self)
{
  const FrPlan *plan = fr_tonight_get_plan (self->tonight);
  const FrPlanWords *words = fr_tonight_get_words (self->tonight);
  const char *unread = fr_tonight_inputs_unread (FR_TONIGHT_INPUTS (self->inputs));
  g_autofree char *stale = NULL;
  gboolean ok = plan->status == FR_PLAN_OK && unread == NULL;
  static const char *const needing[] = { "keep", "print", "alarms" };

  for (guint i = 0; i < G_N_ELEMENTS (needing); i++)
    g_simple_action_set_enabled (
        G_SIMPLE_ACTION (g_action_map_lookup_action (G_ACTION_MAP (self->actions), needing[i])), ok);
  if (fr_tonight_is_kept (self->tonight))
    g_simple_action_set_enabled (
        G_SIMPLE_ACTION (g_action_map_lookup_action (G_ACTION_MAP (self->actions), "keep")), FALSE);
  if (fr_tonight_is_kept (self->tonight))
    leave_inputs (self); /* an entry must not be left insensitive while it is typed into */
  gtk_widget_set_sensitive (self->inputs, !fr_tonight_is_kept (self->tonight));
  fr_tonight_answer_set (FR_TONIGHT_ANSWER (self->answer), words);
  /* Translators: %s is the title of an entry, such as Amount */
  if (unread != NULL)
    stale = g_strdup_printf (_ ("“%s” cannot be read. Correct it; this is the answer before it."), unread);
  fr_tonight_answer_set_stale (FR_TONIGHT_ANSWER (self->answer), stale);
  gtk_widget_set_opacity (self->trace, unread != NULL ? .6 : 1);
  gtk_widget_set_opacity (self->cards, unread != NULL ? .6 : 1);
  gtk_widget_set_visible (self->read_out, plan->status == FR_PLAN_OK);
  fr_tonight_cards_set (FR_TONIGHT_CARDS (self->cards), words);
  update_chooser (self);
  fr_night_view_set (FR_NIGHT_VIEW (self->trace), plan, fr_tonight_get_input (self->tonight), self->share,
                     fr_tonight_get_say (self->tonight));
  update_last_night (self);
}

static void
update (FrTonightPage *self)
{
  if (fr_book_get_household (self->book) == NULL)
    say_missing (self, _ ("Nothing to plan with yet"),
                 _ ("Say where you boil, with which pan and cooker, and what power costs."), _ ("Set Up"),
                 "win.set-up");
  else if (!has_any (self, FR_KIND_COOKER) || !has_any (self, FR_KIND_VESSEL))
    say_missing (self, _ ("No pan and cooker yet"),
                 _ ("Add the pan you boil in and what heats it. Then this page says how much sap to pour."),
                 _ ("Go to Kit and Prices"), "win.page::kit");
  else if (!fr_tonight_is_ready (self->tonight))
    say_missing (
        self, _ ("The time zone is not known"),
        _ ("Enter the household’s zone, such as America/Toronto, so that clock and prices are right."),
        _ ("Go to Kit and Prices"), "win.page::kit");
  else
    gtk_stack_set_visible_child_name (self->stack, "plan");
  gtk_widget_set_sensitive (self->action, fr_tonight_is_ready (self->tonight));
  if (fr_tonight_is_ready (self->tonight))
    update_plan (self);
  else
    fr_night_view_set (FR_NIGHT_VIEW (self->trace), NULL, NULL, 0, NULL);
}

static void
chosen_cb (FrTonightPage *self)
{
  guint chosen = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->chooser));
  const FrPlan *plan = fr_tonight_get_plan (self->tonight);

  if (chosen == GTK_INVALID_LIST_POSITION || chosen == self->share || plan == NULL
      || chosen >= plan->n_shares)
    return;
  self->share = chosen;
  fr_night_view_set (FR_NIGHT_VIEW (self->trace), plan, fr_tonight_get_input (self->tonight), chosen,
                     fr_tonight_get_say (self->tonight));
}

static void
moment_cb (FrNightView *trace, const char *sentence, gpointer user_data)
{
  FrTonightPage *self = FR_TONIGHT_PAGE (user_data);

  gtk_label_set_text (GTK_LABEL (self->read_out),
                      sentence != NULL ? sentence
                                       : _ ("Point at the night, or walk through it with the arrow keys."));
}

/* --- acting --- */

static void
keep_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  FrTonightPage *self = FR_TONIGHT_PAGE (user_data);
  FrWindow *window = fr_window_of (GTK_WIDGET (self));
  g_autoptr (FrChange) change = NULL;
  g_autoptr (GError) error = NULL;

  fr_tonight_inputs_finish (FR_TONIGHT_INPUTS (self->inputs));
  if (fr_tonight_inputs_unread (FR_TONIGHT_INPUTS (self->inputs)) != NULL)
    return; /* the answer says so by now */
  change = fr_tonight_keep (self->tonight, &error);
  if (change != NULL)
    fr_window_apply (window, change);
  else if (error != NULL)
    fr_window_show_error (window, error);
}

static void
print_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  FrTonightPage *self = FR_TONIGHT_PAGE (user_data);

  fr_tonight_save_page (GTK_WIDGET (self), self->tonight, fr_book_get_household (self->book)->name);
}

static void
alarms_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  fr_tonight_save_alarms (GTK_WIDGET (user_data), FR_TONIGHT_PAGE (user_data)->tonight);
}

static void
morning_keep (const FrChange *change, gpointer data)
{
  fr_window_apply (fr_window_of (GTK_WIDGET (data)), change);
}

static void
morning_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  FrTonightPage *self = FR_TONIGHT_PAGE (user_data);
  const FrNight *night = fr_tonight_open_night (self->tonight);
  FrWindow *window = fr_window_of (GTK_WIDGET (self));
  GtkWidget *dialog;

  if (night == NULL)
    return;
  dialog = fr_morning_dialog_new (GTK_WINDOW (window), self->book, self->tonight, night, morning_keep, self);
  if (dialog == NULL)
    fr_window_tell (window, _ ("The night’s cooker or pan is no longer in the book."));
  else
    gtk_window_present (GTK_WINDOW (dialog));
}

static void
anew_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  fr_tonight_set_anew (FR_TONIGHT_PAGE (user_data)->tonight, TRUE);
}

static void
kept_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  fr_tonight_set_anew (FR_TONIGHT_PAGE (user_data)->tonight, FALSE);
}

static const GActionEntry action_entries[] = {
  { .name = "anew", .activate = anew_cb },     { .name = "kept", .activate = kept_cb },
  { .name = "keep", .activate = keep_cb },     { .name = "print", .activate = print_cb },
  { .name = "alarms", .activate = alarms_cb }, { .name = "morning", .activate = morning_cb },
};

/* --- layout --- */

static void
set_narrow (FrTonightPage *self, gboolean narrow)
{
  GtkWidget *focus = leave_inputs (self); /* what is moved with the focus in it is never let go by GTK 4.8 */

  self->narrow = narrow;
  g_object_ref (self->inputs);
  if (gtk_widget_get_parent (self->inputs) != NULL)
    gtk_box_remove (GTK_BOX (gtk_widget_get_parent (self->inputs)), self->inputs);
  if (narrow)
    gtk_box_insert_child_after (GTK_BOX (self->answer_box), self->inputs, self->last_night);
  else
    gtk_box_prepend (GTK_BOX (self->columns), self->inputs);
  g_object_unref (self->inputs);
  gtk_widget_set_size_request (self->inputs, narrow ? -1 : 286, -1);
  gtk_widget_set_size_request (self->trace, -1, narrow ? 232 : 290);
  fr_tonight_inputs_set_narrow (FR_TONIGHT_INPUTS (self->inputs), narrow);
  fr_tonight_answer_set_narrow (FR_TONIGHT_ANSWER (self->answer), narrow);
  fr_tonight_cards_set_narrow (FR_TONIGHT_CARDS (self->cards), narrow);
  if (narrow)
    gtk_widget_add_css_class (self->columns, "narrow");
  else
    gtk_widget_remove_css_class (self->columns, "narrow");
  if (focus != NULL && gtk_widget_get_mapped (focus))
    gtk_widget_grab_focus (focus);
}

static void
fr_tonight_page_fold (FrFoldBin *bin, int width_px)
{
  FrTonightPage *self = FR_TONIGHT_PAGE (bin);

  if ((width_px < NARROW_PX) != self->narrow)
    set_narrow (self, width_px < NARROW_PX);
}

static void
make_trace_card (FrTonightPage *self)
{
  self->trace_card = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  gtk_widget_add_css_class (self->trace_card, "card");
  gtk_widget_add_css_class (self->trace_card, "trace-card");
  self->chooser = gtk_drop_down_new (NULL, NULL);
  gtk_widget_set_halign (self->chooser, GTK_ALIGN_START);
  gtk_widget_set_margin_start (self->chooser, 12);
  gtk_widget_set_margin_top (self->chooser, 10);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->chooser), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Cooker drawn"), -1);
  g_signal_connect_object (self->chooser, "notify::selected", G_CALLBACK (chosen_cb), self,
                           G_CONNECT_SWAPPED);
  self->trace = fr_night_view_new ();
  g_signal_connect_object (self->trace, "moment", G_CALLBACK (moment_cb), self, 0);
  self->read_out = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (self->read_out), 0);
  gtk_label_set_ellipsize (GTK_LABEL (self->read_out), PANGO_ELLIPSIZE_END);
  gtk_widget_add_css_class (self->read_out, "note");
  gtk_widget_add_css_class (self->read_out, "read-out");
  gtk_box_append (GTK_BOX (self->trace_card), self->chooser);
  gtk_box_append (GTK_BOX (self->trace_card), self->trace);
  gtk_box_append (GTK_BOX (self->trace_card), self->read_out);
}

static void
make_last_night (FrTonightPage *self)
{
  GtkWidget *button = gtk_button_new_with_mnemonic (_ ("_Write It Down…"));

  self->last_night_button = button;
  self->last_night = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  gtk_widget_add_css_class (self->last_night, "card");
  gtk_widget_add_css_class (self->last_night, "panel");
  self->last_night_words = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (self->last_night_words), 0);
  gtk_label_set_wrap (GTK_LABEL (self->last_night_words), TRUE);
  gtk_widget_set_hexpand (self->last_night_words, TRUE);
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (self->last_night), self->last_night_words);
  gtk_box_append (GTK_BOX (self->last_night), button);
}

/* Taken out of the header while another page has it, the box comes back without what its buttons act on:
 * GTK 4.8 lets go of a widget's action groups when it leaves the window. */
static void
action_rooted_cb (FrTonightPage *self)
{
  if (gtk_widget_get_root (self->action) == NULL)
    return;
  gtk_widget_insert_action_group (self->action, "tonight", NULL);
  gtk_widget_insert_action_group (self->action, "tonight", G_ACTION_GROUP (self->actions));
}

static void
make_action (FrTonightPage *self)
{
  GtkWidget *more = gtk_menu_button_new ();
  g_autoptr (GMenu) menu = g_menu_new ();

  self->action = g_object_ref_sink (gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6));
  self->keep_button = gtk_button_new_with_mnemonic (_ ("_Keep Night"));
  gtk_widget_add_css_class (self->keep_button, "suggested-action");
  gtk_actionable_set_action_name (GTK_ACTIONABLE (self->keep_button), "tonight.keep");
  gtk_widget_set_tooltip_text (self->keep_button, _ ("Keep this plan and take its sap from the store"));
  g_menu_append (menu, _ ("_Page for the Shed…"), "tonight.print");
  g_menu_append (menu, _ ("_Alarms for the Phone…"), "tonight.alarms");
  g_menu_append (menu, _ ("_Morning After…"), "tonight.morning");
  gtk_menu_button_set_icon_name (GTK_MENU_BUTTON (more), "view-more-symbolic");
  gtk_menu_button_set_menu_model (GTK_MENU_BUTTON (more), G_MENU_MODEL (menu));
  gtk_widget_set_tooltip_text (more, _ ("More for Tonight"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (more), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("More for tonight"), -1);
  gtk_box_append (GTK_BOX (self->action), more);
  gtk_box_append (GTK_BOX (self->action), self->keep_button);
  gtk_widget_insert_action_group (self->action, "tonight", G_ACTION_GROUP (self->actions));
  g_signal_connect_object (self->action, "notify::root", G_CALLBACK (action_rooted_cb), self,
                           G_CONNECT_SWAPPED);
}

static void
make_plan (FrTonightPage *self)
{
  GtkWidget *scroller = gtk_scrolled_window_new ();

  self->columns = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 20);
  gtk_widget_add_css_class (self->columns, "page");
  self->inputs = fr_tonight_inputs_new (self->tonight);
  gtk_widget_set_valign (self->inputs, GTK_ALIGN_START);
  self->answer_box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 16);
  gtk_widget_set_hexpand (self->answer_box, TRUE);
  self->answer = fr_tonight_answer_new ();
  self->cards = fr_tonight_cards_new ();
  make_trace_card (self);
  make_last_night (self);
  gtk_box_append (GTK_BOX (self->answer_box), self->answer);
  gtk_box_append (GTK_BOX (self->answer_box), self->trace_card);
  gtk_box_append (GTK_BOX (self->answer_box), self->last_night);
  gtk_box_append (GTK_BOX (self->answer_box), self->cards);
  gtk_box_append (GTK_BOX (self->columns), self->answer_box);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_EXTERNAL, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), self->columns);
  adw_bin_set_child (self->plan, scroller);
  set_narrow (self, FALSE);
}

static void
fr_tonight_page_dispose (GObject *object)
{
  FrTonightPage *self = FR_TONIGHT_PAGE (object);

  g_clear_handle_id (&self->clock_id, g_source_remove);
  adw_bin_set_child (ADW_BIN (self), NULL); /* first: the bin must not be left with a child that is gone */
  gtk_widget_dispose_template (GTK_WIDGET (self), FR_TYPE_TONIGHT_PAGE);
  g_clear_object (&self->action);
  g_clear_object (&self->actions);
  g_clear_object (&self->tonight);
  g_clear_object (&self->book);
  G_OBJECT_CLASS (fr_tonight_page_parent_class)->dispose (object);
}

static void
fr_tonight_page_class_init (FrTonightPageClass *klass)
{
  static const int limits_px[] = { NARROW_PX, 0 };
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  FrFoldBinClass *bin_class = FR_FOLD_BIN_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = fr_tonight_page_dispose;
  bin_class->limits_px = limits_px;
  bin_class->least_px = LEAST_PX;
  bin_class->fold = fr_tonight_page_fold;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/frostrun/Frostrun/ui/tonight-page.ui");
  gtk_widget_class_bind_template_child (widget_class, FrTonightPage, stack);
  gtk_widget_class_bind_template_child (widget_class, FrTonightPage, empty);
  gtk_widget_class_bind_template_child (widget_class, FrTonightPage, empty_button);
  gtk_widget_class_bind_template_child (widget_class, FrTonightPage, plan);
}

static void
fr_tonight_page_init (FrTonightPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->actions = g_simple_action_group_new ();
  g_action_map_add_action_entries (G_ACTION_MAP (self->actions), action_entries,
                                   G_N_ELEMENTS (action_entries), self);
  gtk_widget_insert_action_group (GTK_WIDGET (self), "tonight", G_ACTION_GROUP (self->actions));
}

/* The night goes on while the window stands open; what is being typed comes first. */
static gboolean
clock_cb (gpointer user_data)
{
  FrTonightPage *self = FR_TONIGHT_PAGE (user_data);

  if (gtk_widget_get_mapped (GTK_WIDGET (self))
      && fr_tonight_inputs_unread (FR_TONIGHT_INPUTS (self->inputs)) == NULL)
    fr_tonight_refresh (self->tonight);
  return G_SOURCE_CONTINUE;
}

FrTonightPage *
fr_tonight_page_new (FrBook *book)
{
  FrTonightPage *self = g_object_new (FR_TYPE_TONIGHT_PAGE, NULL);

  self->book = g_object_ref (book);
  self->tonight = fr_tonight_new (book, fr_clock_now);
  make_action (self);
  make_plan (self);
  g_signal_connect_object (self->tonight, "changed", G_CALLBACK (update), self, G_CONNECT_SWAPPED);
  self->clock_id = g_timeout_add_seconds (CLOCK_S, clock_cb, self);
  g_signal_connect_object (self->inputs, "unread", G_CALLBACK (update), self, G_CONNECT_SWAPPED);
  update (self);
  return self;
}

void
fr_tonight_page_set_forecaster (FrTonightPage *self, FrForecaster *forecaster)
{
  fr_tonight_set_forecaster (self->tonight, forecaster);
}

char *
fr_tonight_page_subtitle (FrTonightPage *self)
{
  const FrPlanInput *input = fr_tonight_get_input (self->tonight);

  return input != NULL ? fr_say_date (fr_zone_local (input->zone, input->start_utc).date) : NULL;
}

GtkWidget *
fr_tonight_page_action (FrTonightPage *self)
{
  return self->action;
}
