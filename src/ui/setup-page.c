/* A new book's first questions. Only what this computer knows of itself (zone, currency of its locale) is
 * filled in, and shown to be changed; nothing about the kit is guessed. */
#include "ui/setup-page.h"

#include <glib/gi18n-lib.h>
#include <locale.h>
#include <string.h>

#include "domain/units/money.h"
#include "models/draft.h"
#include "ui/record-editor.h"
#include "ui/window.h"

#define N_STEPS 3

typedef enum
{
  PART_HOUSEHOLD,
  PART_VESSEL,
  PART_COOKER,
  PART_TARIFF,
  N_PARTS
} Part;

static const struct
{
  FrKindId kind;
  int step;
  const char *fields[16];
} parts[N_PARTS] = {
  [PART_HOUSEHOLD]
  = { FR_KIND_HOUSEHOLD, 0, { "name", "place", "zone", "altitude_m", "units", "currency", NULL } },
  [PART_VESSEL] = { FR_KIND_VESSEL,
                    1,
                    { "name", "shape", "diameter_m", "top_diameter_m", "length_m", "width_m", "height_m",
                      "rows", "hold_l", "cutoff_l", "bucket_l", NULL } },
  [PART_COOKER] = { FR_KIND_COOKER, 1, { "name", "power_w", "heat_ratio", "place", "cutoff_by", NULL } },
  [PART_TARIFF] = { FR_KIND_TARIFF, 2, { "name", "periods", NULL } },
};

static const struct
{
  const char *sentence;
  const char *reason;
} steps[N_STEPS] = {
  { N_ ("Where do you boil?"),
    N_ ("The height says where water boils, the zone when the price changes. Both can be changed later.") },
  { N_ ("What do you boil in, and on what?"), N_ ("Measure the pan inside. The levels are amounts of liquid: "
                                                  "what the feed holds, and where the power is cut.") },
  { N_ ("What does electricity cost, and when?"),
    N_ ("Take the prices by the kilowatt hour from your bill. Add hours until every minute of the day has a "
        "price.") },
};

struct _FrSetupPage
{
  AdwBin parent_instance;
  AdwWindowTitle *title;
  GtkStack *stack;
  GtkWidget *back;
  GtkWidget *skip;
  GtkWidget *next;

  FrBook *book;
  FrDraft *drafts[N_PARTS];
  FrRecordEditor *editors[N_PARTS];
  gboolean answered[N_STEPS];
  int step;
  FrUnits units;
};

G_DEFINE_FINAL_TYPE (FrSetupPage, fr_setup_page, ADW_TYPE_BIN)

static const FrHousehold *
household_of (FrSetupPage *self)
{
  return (const FrHousehold *)fr_draft_get_current (self->drafts[PART_HOUSEHOLD]);
}

static void
show_step (FrSetupPage *self, int step)
{
  g_autofree char *name = g_strdup_printf ("%d", step);
  g_autofree char *count = g_strdup_printf (_ ("Step %d of %d"), step + 1, N_STEPS);

  self->step = step;
  gtk_stack_set_visible_child_name (self->stack, name);
  adw_window_title_set_subtitle (self->title, count);
  gtk_widget_set_visible (self->back, step > 0);
  gtk_button_set_label (GTK_BUTTON (self->next), step + 1 < N_STEPS ? _ ("_Next") : _ ("_Finish"));
}

/* The later steps are written in the units chosen in the first. */
static void
household_changed_cb (FrSetupPage *self)
{
  const FrHousehold *household = household_of (self);

  self->units = *fr_book_get_units (self->book);
  self->units.system = g_strcmp0 (household->units, "us") == 0         ? FR_SYSTEM_US
                       : g_strcmp0 (household->units, "imperial") == 0 ? FR_SYSTEM_IMPERIAL
                                                                       : FR_SYSTEM_METRIC;
  for (int i = 0; i < N_PARTS; i++)
    fr_record_editor_set_units (self->editors[i], &self->units,
                                household->currency != NULL ? household->currency : "");
}

/* One change with every step that was answered; then the set-up is over. */
static void
finish (FrSetupPage *self)
{
  FrWindow *window = fr_window_of (GTK_WIDGET (self));
  g_autoptr (FrChange) all = fr_change_new ("set-up", self->answered[0] ? household_of (self)->name : NULL);

  for (int i = 0; i < N_PARTS; i++)
    if (self->answered[parts[i].step])
      fr_change_add (all, NULL, fr_draft_get_current (self->drafts[i]));
  if (!fr_change_is_empty (all) && !fr_window_apply (window, all))
    return;
  fr_window_set_up (window, FALSE);
}

static void
go_on (FrSetupPage *self)
{
  if (self->step + 1 < N_STEPS)
    show_step (self, self->step + 1);
  else
    finish (self);
}

static void
next_cb (FrSetupPage *self)
{
  guint problems = 0;

  for (int i = 0; i < N_PARTS; i++)
    if (parts[i].step == self->step)
      fr_record_editor_finish (self->editors[i]);
  for (int i = N_PARTS; i-- > 0;) /* backwards, so that the focus ends at the first problem */
    if (parts[i].step == self->step)
      problems += fr_record_editor_show_missing (self->editors[i]);
  if (problems > 0)
    return;
  self->answered[self->step] = TRUE;
  go_on (self);
}

static void
skip_cb (FrSetupPage *self)
{
  self->answered[self->step] = FALSE;
  go_on (self);
}

static void
back_cb (FrSetupPage *self)
{
  show_step (self, self->step - 1);
}

static void
fr_setup_page_dispose (GObject *object)
{
  FrSetupPage *self = FR_SETUP_PAGE (object);

  adw_bin_set_child (ADW_BIN (self), NULL); /* first: the bin must not be left with a child that is gone */
  gtk_widget_dispose_template (GTK_WIDGET (self), FR_TYPE_SETUP_PAGE);
  for (int i = 0; i < N_PARTS; i++)
    g_clear_pointer (&self->drafts[i], fr_draft_free);
  g_clear_object (&self->book);
  G_OBJECT_CLASS (fr_setup_page_parent_class)->dispose (object);
}

static void
fr_setup_page_class_init (FrSetupPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = fr_setup_page_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/frostrun/Frostrun/ui/setup-page.ui");
  gtk_widget_class_bind_template_child (widget_class, FrSetupPage, title);
  gtk_widget_class_bind_template_child (widget_class, FrSetupPage, stack);
  gtk_widget_class_bind_template_child (widget_class, FrSetupPage, back);
  gtk_widget_class_bind_template_child (widget_class, FrSetupPage, skip);
  gtk_widget_class_bind_template_child (widget_class, FrSetupPage, next);
  gtk_widget_class_bind_template_callback (widget_class, back_cb);
  gtk_widget_class_bind_template_callback (widget_class, skip_cb);
  gtk_widget_class_bind_template_callback (widget_class, next_cb);
}

static void
fr_setup_page_init (FrSetupPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

static GtkWidget *
build_step (FrSetupPage *self, int step)
{
  GtkWidget *scroller = gtk_scrolled_window_new ();
  GtkWidget *clamp = adw_clamp_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 18);
  GtkWidget *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkWidget *sentence = gtk_label_new (_ (steps[step].sentence));
  GtkWidget *reason = gtk_label_new (_ (steps[step].reason));

  gtk_label_set_xalign (GTK_LABEL (sentence), 0.0f);
  gtk_label_set_wrap (GTK_LABEL (sentence), TRUE);
  gtk_widget_add_css_class (sentence, "answer");
  gtk_label_set_xalign (GTK_LABEL (reason), 0.0f);
  gtk_label_set_wrap (GTK_LABEL (reason), TRUE);
  gtk_widget_add_css_class (reason, "soft");
  gtk_box_append (GTK_BOX (words), sentence);
  gtk_box_append (GTK_BOX (words), reason);
  gtk_box_append (GTK_BOX (box), words);
  gtk_widget_add_css_class (box, "editor-pane");
  for (int i = 0; i < N_PARTS; i++)
    if (parts[i].step == step)
      {
        self->editors[i] = fr_record_editor_new (self->book, self->drafts[i], parts[i].fields);
        gtk_box_append (GTK_BOX (box), GTK_WIDGET (self->editors[i]));
      }
  adw_clamp_set_maximum_size (ADW_CLAMP (clamp), 600);
  adw_clamp_set_tightening_threshold (ADW_CLAMP (clamp), 600);
  adw_clamp_set_child (ADW_CLAMP (clamp), box);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), clamp);
  return scroller;
}

/* What this computer says of itself. */
static void
fill_from_computer (FrHousehold *household)
{
  g_autoptr (GTimeZone) local = g_time_zone_new_local ();
  const char *zone = g_time_zone_get_identifier (local);
  const char *money = localeconv ()->int_curr_symbol;
  g_autofree char *currency = g_strndup (money, strnlen (money, 3));

  if (zone != NULL && strchr (zone, '/') != NULL && *zone != '/')
    {
      g_free (household->zone);
      household->zone = g_strdup (zone);
    }
  if (fr_money_is_code (currency))
    {
      g_free (household->currency);
      household->currency = g_steal_pointer (&currency);
    }
}

FrSetupPage *
fr_setup_page_new (FrBook *book)
{
  FrSetupPage *self = g_object_new (FR_TYPE_SETUP_PAGE, NULL);
  gint64 vessel_id = 0;

  self->book = g_object_ref (book);
  self->units = *fr_book_get_units (book);
  for (int i = 0; i < N_PARTS; i++)
    {
      g_autoptr (FrRecord) record = fr_book_new_record (book, parts[i].kind, 0, NULL);

      /* A book that cannot be read says so when the first change is applied. */
      if (record == NULL)
        record = fr_record_new (parts[i].kind);
      if (i == PART_HOUSEHOLD)
        fill_from_computer ((FrHousehold *)record);
      else if (i == PART_VESSEL)
        vessel_id = record->id;
      else if (i == PART_COOKER)
        ((FrCooker *)record)->vessel = vessel_id;
      else
        ((FrTariffRecord *)record)->in_use = TRUE;
      self->drafts[i] = fr_draft_new (record, TRUE);
    }
  for (int step = 0; step < N_STEPS; step++)
    {
      g_autofree char *name = g_strdup_printf ("%d", step);

      gtk_stack_add_named (self->stack, build_step (self, step), name);
    }
  g_signal_connect_object (self->editors[PART_HOUSEHOLD], "changed", G_CALLBACK (household_changed_cb), self,
                           G_CONNECT_SWAPPED);
  household_changed_cb (self);
  show_step (self, 0);
  return self;
}
