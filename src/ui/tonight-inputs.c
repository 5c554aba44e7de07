/* The evening's entries. The rows are made once and live in either face of their group; the model is asked
 * for every text. */
#include "ui/tonight-inputs.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "ui/quantity-row.h"
#include "words/entry-words.h"
#include "words/evening-words.h"

#define COLUMN_PX 290

typedef enum
{
  GROUP_SAP,
  GROUP_KIT,
  GROUP_HOURS,
  GROUP_AIR,
  N_GROUPS
} Group;

typedef struct
{
  GPtrArray *rows;   /* owned references */
  GtkWidget *wide;   /* AdwPreferencesGroup */
  GtkWidget *narrow; /* AdwExpanderRow */
} Face;

struct _FrTonightInputs
{
  AdwBin parent_instance;
  FrTonight *tonight;
  GtkWidget *wide; /* clamps the column to its width */
  GtkWidget *narrow_list;
  gboolean narrow;
  Face groups[N_GROUPS];
  GtkWidget *amounts[FR_N_TONIGHT_AMOUNTS];
  GtkWidget *times[FR_N_TONIGHT_TIMES];
  GtkWidget *oldest;
  GtkWidget *cooker_rows[FR_PLAN_KITS_MAX];
  GtkWidget *cooker_switches[FR_PLAN_KITS_MAX];
  guint n_cookers;
  gboolean amount_unread[FR_N_TONIGHT_AMOUNTS]; /* left with a text that says no amount */
  gboolean time_unread[FR_N_TONIGHT_TIMES];
  gpointer typed_in; /* the row last typed in; only compared */
  gboolean updating;
};

G_DEFINE_FINAL_TYPE (FrTonightInputs, fr_tonight_inputs, ADW_TYPE_BIN)

static guint unread_signal;

static const struct
{
  const char *title;
  const char *note;
  Group group;
  const char *member; /* of the plan's input, where it may be at fault */
} amount_rows[FR_N_TONIGHT_AMOUNTS] = {
  { N_ ("Amount"), NULL, GROUP_SAP, "sap_l" },
  { N_ ("Sweetness"), NULL, GROUP_SAP, "sap_brix" },
  { N_ ("Temperature"), NULL, GROUP_SAP, "sap_c" },
  { N_ ("No thicker than"), NULL, GROUP_HOURS, "max_brix" },
  { N_ ("Air at the pan"), N_ ("Through the night"), GROUP_AIR, "air_c" },
  { N_ ("Night’s low"), N_ ("Outdoors; frost stops a feed line"), GROUP_AIR, "air_low_c" },
  { N_ ("Water boils at"), N_ ("In this pot today; empty: by altitude"), GROUP_AIR, "water_boils_c" },
  { N_ ("In the pan already"), N_ ("Left from last night"), GROUP_KIT, "rest_l" },
  { N_ ("Its sweetness"), NULL, GROUP_KIT, "rest_brix" },
};

static const char *const group_titles[N_GROUPS]
    = { N_ ("Sap on Hand"), N_ ("Kit"), N_ ("Hours"), N_ ("Air and Pot") };

static void
place_row (FrTonightInputs *self, Group group, GtkWidget *row)
{
  Face *face = &self->groups[group];

  if (self->narrow)
    adw_expander_row_add_row (ADW_EXPANDER_ROW (face->narrow), row);
  else
    adw_preferences_group_add (ADW_PREFERENCES_GROUP (face->wide), row);
}

static void
lift_row (FrTonightInputs *self, Group group, GtkWidget *row)
{
  Face *face = &self->groups[group];

  if (self->narrow)
    adw_expander_row_remove (ADW_EXPANDER_ROW (face->narrow), row);
  else
    adw_preferences_group_remove (ADW_PREFERENCES_GROUP (face->wide), row);
}

static void
add_row (FrTonightInputs *self, Group group, GtkWidget *row)
{
  g_ptr_array_add (self->groups[group].rows, g_object_ref_sink (row));
  place_row (self, group, row);
}

void
fr_tonight_inputs_set_narrow (FrTonightInputs *self, gboolean narrow)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;
  GtkWidget *row = focus != NULL ? gtk_widget_get_ancestor (focus, FR_TYPE_ENTRY_ROW) : NULL;

  if (narrow == self->narrow)
    return;
  /* Whoever is typing goes on typing; a focus that nobody has used yet is no reason to open a group. */
  if (row == NULL || !(row == self->typed_in || fr_entry_row_is_modified (FR_ENTRY_ROW (row))))
    row = NULL;
  for (guint g = 0; g < N_GROUPS; g++)
    for (guint i = 0; i < self->groups[g].rows->len; i++)
      lift_row (self, g, self->groups[g].rows->pdata[i]);
  self->narrow = narrow;
  for (guint g = 0; g < N_GROUPS; g++)
    for (guint i = 0; i < self->groups[g].rows->len; i++)
      place_row (self, g, self->groups[g].rows->pdata[i]);
  adw_bin_set_child (ADW_BIN (self), narrow ? self->narrow_list : self->wide);
  for (guint g = 0; g < N_GROUPS && row != NULL; g++)
    for (guint i = 0; i < self->groups[g].rows->len; i++)
      if (self->groups[g].rows->pdata[i] == row)
        {
          if (narrow)
            adw_expander_row_set_expanded (ADW_EXPANDER_ROW (self->groups[g].narrow), TRUE);
          gtk_widget_grab_focus (focus);
          gtk_editable_set_position (GTK_EDITABLE (focus), -1); /* or the next key replaces it all */
        }
}

/* --- what the rows say --- */

static void
update_amounts (FrTonightInputs *self)
{
  const FrSay *say = fr_tonight_get_say (self->tonight);

  for (guint i = 0; i < FR_N_TONIGHT_AMOUNTS; i++)
    {
      const char *typed;
      gboolean changed;
      double value = fr_tonight_get_amount (self->tonight, i, &typed, &changed);

      if (self->amount_unread[i])
        continue;
      fr_quantity_row_set (FR_QUANTITY_ROW (self->amounts[i]), value, typed, &say->units, NULL);
    }
}

/* What was read but cannot be stands under its row too, once the row is left or finished. */
static void
update_faults (FrTonightInputs *self)
{
  const FrPlan *plan = fr_tonight_get_plan (self->tonight);
  g_autofree char *sentence = fr_plan_fault_sentence (plan, fr_tonight_get_input (self->tonight),
                                                      fr_tonight_get_say (self->tonight));
  const char *typed;
  gboolean changed;

  for (guint i = 0; i < FR_N_TONIGHT_AMOUNTS; i++)
    {
      FrEntryRow *row = FR_ENTRY_ROW (self->amounts[i]);
      gboolean at_fault = sentence != NULL && strcmp (plan->fault, amount_rows[i].member) == 0;

      if (!self->amount_unread[i] && (!at_fault || !fr_entry_row_is_modified (row)))
        fr_entry_row_set_problem (row, at_fault ? sentence : NULL);
    }
  /* Nobody asks how sweet nothing is. */
  gtk_widget_set_visible (self->amounts[FR_TONIGHT_REST_BRIX],
                          fr_tonight_get_amount (self->tonight, FR_TONIGHT_REST_L, &typed, &changed) > 0
                              || self->amount_unread[FR_TONIGHT_REST_BRIX]);
}

static void
update_times (FrTonightInputs *self)
{
  const FrSay *say = fr_tonight_get_say (self->tonight);

  for (guint i = 0; i < FR_N_TONIGHT_TIMES; i++)
    {
      gboolean changed;
      gint64 utc = fr_tonight_get_time (self->tonight, i, &changed);
      g_autofree char *text = fr_say_clock (say, utc);

      if (!self->time_unread[i])
        fr_entry_row_set_texts (FR_ENTRY_ROW (self->times[i]), text, text, NULL);
    }
}

static void
update_oldest (FrTonightInputs *self)
{
  const FrPlanInput *input = fr_tonight_get_input (self->tonight);
  const FrPlan *plan = fr_tonight_get_plan (self->tonight);
  const FrSay *say = fr_tonight_get_say (self->tonight);
  g_autofree char *age = NULL, *keeps = NULL;
  GtkWidget *label = g_object_get_data (G_OBJECT (self->oldest), "value");

  gtk_widget_set_visible (self->oldest, input->oldest_utc != G_MININT64);
  if (input->oldest_utc == G_MININT64)
    return;
  age = fr_say_span ((double)(fr_tonight_get_now (self->tonight) - input->oldest_utc));
  gtk_label_set_text (GTK_LABEL (label), age);
  if (plan->keep_until_utc != G_MININT64)
    {
      g_autofree char *until = fr_say_when (say, plan->keep_until_utc, fr_tonight_get_now (self->tonight));

      keeps = g_strdup_printf (_ ("Keeps until %s"), until);
    }
  adw_action_row_set_subtitle (ADW_ACTION_ROW (self->oldest), keeps != NULL ? keeps : "");
}

static void
switch_cb (GtkSwitch *toggle, GParamSpec *pspec, gpointer user_data)
{
  FrTonightInputs *self = FR_TONIGHT_INPUTS (user_data);

  if (self->updating)
    return;
  for (guint i = 0; i < self->n_cookers; i++)
    if (self->cooker_switches[i] == GTK_WIDGET (toggle))
      {
        fr_tonight_set_cooker_on (self->tonight, i, gtk_switch_get_active (toggle));
        return;
      }
}

static void
add_cooker_row (FrTonightInputs *self, guint i)
{
  GtkWidget *row = adw_action_row_new (), *toggle = gtk_switch_new ();

  gtk_widget_set_valign (toggle, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (row, "cooker-row");
  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), toggle);
  adw_action_row_set_activatable_widget (ADW_ACTION_ROW (row), toggle);
  adw_action_row_set_title_lines (ADW_ACTION_ROW (row), 2);
  adw_action_row_set_subtitle_lines (ADW_ACTION_ROW (row), 3);
  g_signal_connect (toggle, "notify::active", G_CALLBACK (switch_cb), self);
  self->cooker_rows[i] = row;
  self->cooker_switches[i] = toggle;
}

static void
update_cookers (FrTonightInputs *self)
{
  guint n = fr_tonight_get_n_cookers (self->tonight);
  Face *kit = &self->groups[GROUP_KIT];

  if (n != self->n_cookers)
    {
      for (guint i = 0; i < kit->rows->len; i++)
        lift_row (self, GROUP_KIT, kit->rows->pdata[i]);
      g_ptr_array_remove_range (kit->rows, 0, self->n_cookers);
      for (guint i = 0; i < n; i++)
        {
          add_cooker_row (self, i);
          g_ptr_array_insert (kit->rows, (gint)i, g_object_ref_sink (self->cooker_rows[i]));
        }
      self->n_cookers = n;
      for (guint i = 0; i < kit->rows->len; i++)
        place_row (self, GROUP_KIT, kit->rows->pdata[i]);
    }
  self->updating = TRUE;
  for (guint i = 0; i < n; i++)
    {
      const FrPlanKit *one = fr_tonight_get_cooker (self->tonight, i);
      g_autofree char *note = fr_kit_note (one, fr_tonight_get_say (self->tonight));

      adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self->cooker_rows[i]), one->name);
      adw_action_row_set_subtitle (ADW_ACTION_ROW (self->cooker_rows[i]), note);
      gtk_switch_set_active (GTK_SWITCH (self->cooker_switches[i]), !one->off);
      gtk_accessible_update_property (GTK_ACCESSIBLE (self->cooker_switches[i]),
                                      GTK_ACCESSIBLE_PROPERTY_LABEL, one->name, -1);
    }
  self->updating = FALSE;
}

/* One line for each folded group. */
static char *(*const summaries[N_GROUPS]) (const FrPlanInput *input, const FrSay *say)
    = { fr_sap_summary, fr_kits_summary, fr_hours_summary, fr_air_summary };

static void
update (FrTonightInputs *self)
{
  if (!fr_tonight_is_ready (self->tonight))
    return;
  update_amounts (self);
  update_faults (self);
  update_times (self);
  update_oldest (self);
  update_cookers (self);
  for (guint g = 0; g < N_GROUPS; g++)
    {
      g_autofree char *text
          = summaries[g](fr_tonight_get_input (self->tonight), fr_tonight_get_say (self->tonight)),
          *escaped = g_markup_escape_text (text, -1);

      adw_expander_row_set_subtitle (ADW_EXPANDER_ROW (self->groups[g].narrow), escaped);
    }
}

static guint
index_of (GtkWidget *const *rows, guint n, gpointer row)
{
  for (guint i = 0; i < n; i++)
    if (rows[i] == row)
      return i;
  return n;
}

static void
set_unread (FrTonightInputs *self, gboolean *unread, FrEntryRow *row, const char *sentence)
{
  gboolean was = *unread;

  *unread = sentence != NULL;
  if (was || *unread)
    fr_entry_row_set_problem (row, sentence);
  if (was != *unread)
    g_signal_emit (self, unread_signal, 0);
}

static void
take_amount (FrTonightInputs *self, FrEntryRow *row, const char *text, gboolean finished)
{
  guint i = index_of (self->amounts, FR_N_TONIGHT_AMOUNTS, row);
  FrQuantityProblem problem;
  gsize at;

  g_return_if_fail (i < FR_N_TONIGHT_AMOUNTS);
  if (fr_tonight_type_amount (self->tonight, i, text, &problem, &at))
    {
      set_unread (self, &self->amount_unread[i], row, NULL);
      if (finished)
        update_faults (self);
      return;
    }
  /* Half a number is no mistake yet; only a finished entry is told of one. */
  if (finished)
    {
      const FrSay *say = fr_tonight_get_say (self->tonight);
      g_autofree char *sentence
          = fr_entry_sentence (problem, text, at, fr_tonight_amount_kind (i), &say->units);

      fr_quantity_row_set_unread (FR_QUANTITY_ROW (row), text, &say->units, NULL);
      set_unread (self, &self->amount_unread[i], row, sentence);
    }
}

static void
amount_typed_cb (FrEntryRow *row, const char *text, gpointer user_data)
{
  FR_TONIGHT_INPUTS (user_data)->typed_in = row;
  take_amount (FR_TONIGHT_INPUTS (user_data), row, text, FALSE);
}

static void
amount_finished_cb (FrEntryRow *row, const char *text, gpointer user_data)
{
  take_amount (FR_TONIGHT_INPUTS (user_data), row, text, TRUE);
}

static void
time_finished_cb (FrEntryRow *row, const char *text, gpointer user_data)
{
  FrTonightInputs *self = FR_TONIGHT_INPUTS (user_data);
  guint i = index_of (self->times, FR_N_TONIGHT_TIMES, row);
  g_autofree char *sentence = NULL;

  g_return_if_fail (i < FR_N_TONIGHT_TIMES);
  if (fr_tonight_type_time (self->tonight, i, text, &sentence))
    {
      set_unread (self, &self->time_unread[i], row, NULL);
      update_times (self); /* "7 pm" becomes 19:00 */
    }
  else
    {
      fr_entry_row_set_texts (row, text, text, NULL);
      set_unread (self, &self->time_unread[i], row, sentence);
    }
}

static void
restored_cb (FrEntryRow *row, gpointer user_data)
{
  FrTonightInputs *self = FR_TONIGHT_INPUTS (user_data);
  guint amount = index_of (self->amounts, FR_N_TONIGHT_AMOUNTS, row);
  guint time = index_of (self->times, FR_N_TONIGHT_TIMES, row);

  if (amount < FR_N_TONIGHT_AMOUNTS)
    {
      const char *typed;
      gboolean changed;
      g_autofree char *text = g_strdup (fr_entry_row_get_text (row)), *own = NULL;
      FrQuantityProblem problem;
      gsize at;

      /* Each key was taken at once; now the book's own stands again, or what was typed before. */
      fr_tonight_type_amount (self->tonight, amount, "", &problem, &at);
      own = fr_quantity_entry_text (fr_tonight_get_amount (self->tonight, amount, &typed, &changed), NULL,
                                    fr_tonight_amount_kind (amount),
                                    &fr_tonight_get_say (self->tonight)->units);
      if (!self->amount_unread[amount] && strcmp (text, own) != 0)
        fr_tonight_type_amount (self->tonight, amount, text, &problem, &at);
      set_unread (self, &self->amount_unread[amount], row, NULL);
    }
  else if (time < FR_N_TONIGHT_TIMES)
    set_unread (self, &self->time_unread[time], row, NULL);
  update (self);
}

const char *
fr_tonight_inputs_unread (FrTonightInputs *self)
{
  for (guint i = 0; i < FR_N_TONIGHT_AMOUNTS; i++)
    if (self->amount_unread[i])
      return adw_preferences_row_get_title (ADW_PREFERENCES_ROW (self->amounts[i]));
  for (guint i = 0; i < FR_N_TONIGHT_TIMES; i++)
    if (self->time_unread[i])
      return adw_preferences_row_get_title (ADW_PREFERENCES_ROW (self->times[i]));
  return NULL;
}

void
fr_tonight_inputs_finish (FrTonightInputs *self)
{
  for (guint i = 0; i < FR_N_TONIGHT_AMOUNTS; i++)
    fr_entry_row_finish (FR_ENTRY_ROW (self->amounts[i]));
  for (guint i = 0; i < FR_N_TONIGHT_TIMES; i++)
    fr_entry_row_finish (FR_ENTRY_ROW (self->times[i]));
}

static GtkWidget *
time_row (FrTonightInputs *self, const char *title, const char *note)
{
  GtkWidget *row = fr_entry_row_new (title, note);

  gtk_widget_add_css_class (row, "quantity");
  g_signal_connect (row, "finished", G_CALLBACK (time_finished_cb), self);
  g_signal_connect (row, "restored", G_CALLBACK (restored_cb), self);
  return row;
}

static GtkWidget *
value_row (const char *title)
{
  GtkWidget *row = adw_action_row_new (), *label = gtk_label_new (NULL);

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
  gtk_widget_add_css_class (label, "row-value");
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), label);
  g_object_set_data (G_OBJECT (row), "value", label);
  gtk_widget_set_focusable (row, FALSE); /* nothing to do there */
  return row;
}

static void
fr_tonight_inputs_dispose (GObject *object)
{
  FrTonightInputs *self = FR_TONIGHT_INPUTS (object);

  adw_bin_set_child (ADW_BIN (self), NULL);
  for (guint g = 0; g < N_GROUPS; g++)
    g_clear_pointer (&self->groups[g].rows, g_ptr_array_unref);
  g_clear_object (&self->wide);
  g_clear_object (&self->narrow_list);
  g_clear_object (&self->tonight);
  G_OBJECT_CLASS (fr_tonight_inputs_parent_class)->dispose (object);
}

static void
fr_tonight_inputs_class_init (FrTonightInputsClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_tonight_inputs_dispose;
  unread_signal = g_signal_new ("unread", FR_TYPE_TONIGHT_INPUTS, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                G_TYPE_NONE, 0);
}

static void
fr_tonight_inputs_init (FrTonightInputs *self)
{
  GtkWidget *column = gtk_box_new (GTK_ORIENTATION_VERTICAL, 18);

  self->wide = g_object_ref_sink (adw_clamp_new ());
  adw_clamp_set_maximum_size (ADW_CLAMP (self->wide), COLUMN_PX);
  adw_clamp_set_tightening_threshold (ADW_CLAMP (self->wide), COLUMN_PX);
  adw_clamp_set_child (ADW_CLAMP (self->wide), column);
  self->narrow_list = g_object_ref_sink (gtk_list_box_new ());
  gtk_list_box_set_selection_mode (GTK_LIST_BOX (self->narrow_list), GTK_SELECTION_NONE);
  gtk_widget_add_css_class (self->narrow_list, "boxed-list");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->narrow_list), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Tonight’s entries"), -1);
  for (guint g = 0; g < N_GROUPS; g++)
    {
      Face *face = &self->groups[g];

      face->rows = g_ptr_array_new_with_free_func (g_object_unref);
      face->wide = adw_preferences_group_new ();
      adw_preferences_group_set_title (ADW_PREFERENCES_GROUP (face->wide), _ (group_titles[g]));
      gtk_box_append (GTK_BOX (column), face->wide);
      face->narrow = adw_expander_row_new ();
      adw_preferences_row_set_title (ADW_PREFERENCES_ROW (face->narrow), _ (group_titles[g]));
      gtk_list_box_append (GTK_LIST_BOX (self->narrow_list), face->narrow);
    }
  adw_bin_set_child (ADW_BIN (self), self->wide);
}

GtkWidget *
fr_tonight_inputs_new (FrTonight *tonight)
{
  FrTonightInputs *self = g_object_new (FR_TYPE_TONIGHT_INPUTS, NULL);

  self->tonight = g_object_ref (tonight);
  self->times[FR_TONIGHT_START] = time_row (self, _ ("Switch on"), NULL);
  self->times[FR_TONIGHT_OFF_BY] = time_row (self, _ ("Off by"), NULL);
  add_row (self, GROUP_HOURS, self->times[FR_TONIGHT_START]);
  add_row (self, GROUP_HOURS, self->times[FR_TONIGHT_OFF_BY]);
  for (guint i = 0; i < FR_N_TONIGHT_AMOUNTS; i++)
    {
      GtkWidget *row = fr_quantity_row_new (_ (amount_rows[i].title),
                                            amount_rows[i].note != NULL ? _ (amount_rows[i].note) : NULL,
                                            fr_tonight_amount_kind (i));

      self->amounts[i] = row;
      g_signal_connect (row, "typed", G_CALLBACK (amount_typed_cb), self);
      g_signal_connect (row, "finished", G_CALLBACK (amount_finished_cb), self);
      g_signal_connect (row, "restored", G_CALLBACK (restored_cb), self);
      add_row (self, amount_rows[i].group, row);
    }
  self->oldest = value_row (_ ("Oldest"));
  add_row (self, GROUP_SAP, self->oldest);
  g_signal_connect_object (tonight, "changed", G_CALLBACK (update), self, G_CONNECT_SWAPPED);
  update (self);
  return GTK_WIDGET (self);
}
