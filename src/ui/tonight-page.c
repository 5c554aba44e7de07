/* The first page. While the book lacks what a plan needs, it says what is missing and where to add it. */
#include "ui/tonight-page.h"

#include <glib/gi18n-lib.h>

#include "ui/clock.h"
#include "ui/time-entry.h"

struct _FrTonightPage
{
  AdwBin parent_instance;
  GtkStack *stack;
  AdwStatusPage *empty;
  GtkButton *empty_button;
  AdwBin *plan;
  FrBook *book;
};

G_DEFINE_FINAL_TYPE (FrTonightPage, fr_tonight_page, ADW_TYPE_BIN)

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
  GtkActionable *actionable = GTK_ACTIONABLE (self->empty_button);
  g_autofree char *name = NULL;
  g_autoptr (GVariant) target = NULL;

  /* The target before the name: an action without the target it asks for is a warning. */
  g_action_parse_detailed_name (action, &name, &target, NULL);
  gtk_actionable_set_action_name (actionable, NULL);
  gtk_actionable_set_action_target_value (actionable, target);
  gtk_actionable_set_action_name (actionable, name);
  adw_status_page_set_title (self->empty, title);
  adw_status_page_set_description (self->empty, sentence);
  gtk_button_set_label (self->empty_button, button);
  gtk_stack_set_visible_child_name (self->stack, "empty");
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
  else
    gtk_stack_set_visible_child_name (self->stack, "plan");
}

static void
fr_tonight_page_dispose (GObject *object)
{
  FrTonightPage *self = FR_TONIGHT_PAGE (object);

  adw_bin_set_child (ADW_BIN (self), NULL); /* first: the bin must not be left with a child that is gone */
  gtk_widget_dispose_template (GTK_WIDGET (self), FR_TYPE_TONIGHT_PAGE);
  g_clear_object (&self->book);
  G_OBJECT_CLASS (fr_tonight_page_parent_class)->dispose (object);
}

static void
fr_tonight_page_class_init (FrTonightPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = fr_tonight_page_dispose;
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
}

FrTonightPage *
fr_tonight_page_new (FrBook *book)
{
  FrTonightPage *self = g_object_new (FR_TYPE_TONIGHT_PAGE, NULL);

  self->book = g_object_ref (book);
  g_signal_connect_object (book, "changed", G_CALLBACK (update), self, G_CONNECT_SWAPPED);
  update (self);
  return self;
}

char *
fr_tonight_page_subtitle (FrTonightPage *self)
{
  g_autoptr (FrZoneTable) zone = fr_book_zone (self->book, fr_clock_local (NULL).date.year);
  g_autoptr (GDateTime) evening = NULL;
  FrLocalTime now;
  FrDate day;

  if (zone == NULL)
    return NULL;
  now = fr_clock_local (zone);
  /* Until noon it is still the night that began yesterday evening. */
  day = now.second_of_day < 12 * 3600 ? fr_date_add_days (now.date, -1) : now.date;
  evening = g_date_time_new_utc (day.year, day.month, day.day, 12, 0, 0);
  /* Translators: weekday, day of the month, month */
  return g_date_time_format (evening, _ ("%A %-e %B"));
}
