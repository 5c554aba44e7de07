/* A row a column. Once something was chosen by hand, all rows count as they stand, so that what is shown is what is read. */
#include "ui/weather-columns.h"

#include <glib/gi18n-lib.h>

#include "ui/choice-rows.h"
#include "ui/entry-row.h"

/* A use and the unit it is in, as one choice. */
static const struct
{
  FrWeatherColumn use;
  FrWeatherUnit unit;
  const char *label;
} takings[] = {
  { FR_WEATHER_COLUMN_NONE, FR_WEATHER_UNIT_UNTOLD, N_ ("Not read") },
  { FR_WEATHER_COLUMN_DATE, FR_WEATHER_UNIT_UNTOLD, N_ ("Day") },
  { FR_WEATHER_COLUMN_CLOCK, FR_WEATHER_UNIT_UNTOLD, N_ ("Time of day") },
  { FR_WEATHER_COLUMN_LOW, FR_WEATHER_UNIT_C, N_ ("Low, °C") },
  { FR_WEATHER_COLUMN_LOW, FR_WEATHER_UNIT_F, N_ ("Low, °F") },
  { FR_WEATHER_COLUMN_HIGH, FR_WEATHER_UNIT_C, N_ ("High, °C") },
  { FR_WEATHER_COLUMN_HIGH, FR_WEATHER_UNIT_F, N_ ("High, °F") },
  { FR_WEATHER_COLUMN_TEMP, FR_WEATHER_UNIT_C, N_ ("Temperature, °C") },
  { FR_WEATHER_COLUMN_TEMP, FR_WEATHER_UNIT_F, N_ ("Temperature, °F") },
  { FR_WEATHER_COLUMN_RAIN, FR_WEATHER_UNIT_MM, N_ ("Rain, mm") },
  { FR_WEATHER_COLUMN_RAIN, FR_WEATHER_UNIT_CM, N_ ("Rain, cm") },
  { FR_WEATHER_COLUMN_RAIN, FR_WEATHER_UNIT_IN, N_ ("Rain, in") },
  { FR_WEATHER_COLUMN_SNOW, FR_WEATHER_UNIT_CM, N_ ("Snow lying, cm") },
  { FR_WEATHER_COLUMN_SNOW, FR_WEATHER_UNIT_MM, N_ ("Snow lying, mm") },
  { FR_WEATHER_COLUMN_SNOW, FR_WEATHER_UNIT_M, N_ ("Snow lying, m") },
  { FR_WEATHER_COLUMN_SNOW, FR_WEATHER_UNIT_IN, N_ ("Snow lying, in") },
  { FR_WEATHER_COLUMN_SUN, FR_WEATHER_UNIT_MJ_PER_M2, N_ ("Sun, MJ/m²") },
  { FR_WEATHER_COLUMN_SUN, FR_WEATHER_UNIT_KWH_PER_M2, N_ ("Sun, kWh/m²") },
};

struct _FrWeatherColumnsGroup
{
  AdwBin parent_instance;
  GtkWidget *group;
  GPtrArray *rows; /* the combo row of each column */
  GPtrArray *names;
  GPtrArray *examples;
  GtkWidget *where;
  GtkWidget *where_value;
  gboolean is_chosen;
  gboolean is_filling;
};

G_DEFINE_FINAL_TYPE (FrWeatherColumnsGroup, fr_weather_columns_group, ADW_TYPE_BIN)

static guint changed_signal;

static guint
taking_of (const FrWeatherFound *found)
{
  guint first = 0;

  if (found->is_mark)
    return 0;
  for (guint i = 0; i < G_N_ELEMENTS (takings); i++)
    if (takings[i].use == found->use)
      {
        if (takings[i].unit == found->unit)
          return i;
        if (first == 0)
          first = i;
      }
  return first;
}

static guint
selected (FrWeatherColumnsGroup *self, guint column)
{
  return adw_combo_row_get_selected (ADW_COMBO_ROW (self->rows->pdata[column]));
}

/* A use has one column: who had it before gives way. */
static void
give_way (FrWeatherColumnsGroup *self, GtkWidget *row)
{
  FrWeatherColumn use = takings[adw_combo_row_get_selected (ADW_COMBO_ROW (row))].use;

  for (guint i = 0; i < self->rows->len; i++)
    if (self->rows->pdata[i] != row && use != FR_WEATHER_COLUMN_NONE && takings[selected (self, i)].use == use)
      adw_combo_row_set_selected (ADW_COMBO_ROW (self->rows->pdata[i]), 0);
}

static void
chosen_cb (FrWeatherColumnsGroup *self, GParamSpec *pspec, GtkWidget *row)
{
  if (self->is_filling)
    return;
  self->is_filling = TRUE;
  give_way (self, row);
  self->is_filling = FALSE;
  self->is_chosen = TRUE;
  g_signal_emit (self, changed_signal, 0);
}

/* The value offered first is the first one that stands there. */
static void
where_cb (FrWeatherColumnsGroup *self)
{
  guint column = adw_combo_row_get_selected (ADW_COMBO_ROW (self->where));

  if (self->is_filling)
    return;
  gtk_widget_set_visible (self->where_value, column > 0);
  if (column > 0)
    fr_entry_row_set_texts (FR_ENTRY_ROW (self->where_value), self->examples->pdata[column - 1], self->examples->pdata[column - 1], NULL);
  g_signal_emit (self, changed_signal, 0);
}

static void
where_value_cb (FrWeatherColumnsGroup *self, const char *text)
{
  fr_entry_row_set_texts (FR_ENTRY_ROW (self->where_value), text, text, NULL);
  g_signal_emit (self, changed_signal, 0);
}

/* --- making --- */

static gboolean
is_same_table (FrWeatherColumnsGroup *self, const GPtrArray *columns)
{
  if (self->rows->len != columns->len)
    return FALSE;
  for (guint i = 0; i < columns->len; i++)
    if (g_strcmp0 (self->names->pdata[i], ((const FrWeatherFound *)columns->pdata[i])->name) != 0)
      return FALSE;
  return TRUE;
}

static char *
title_of (const FrWeatherFound *found, guint index)
{
  /* Translators: a column without a name, by its place in the table */
  return *found->name != '\0' ? g_strdup (found->name) : g_strdup_printf (_ ("Column %u"), index + 1);
}

static GtkWidget *
plain_choice (const char *title, const char *const *words)
{
  GtkWidget *row = fr_choice_row_new (title, words, 0);

  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE); /* names are the file's */
  return row;
}

static void
make_where (FrWeatherColumnsGroup *self)
{
  g_autoptr (GPtrArray) words = g_ptr_array_new ();

  g_ptr_array_add (words, (gpointer)_ ("All rows"));
  for (guint i = 0; i < self->rows->len; i++)
    g_ptr_array_add (words, (gpointer)adw_preferences_row_get_title (ADW_PREFERENCES_ROW (self->rows->pdata[i])));
  g_ptr_array_add (words, NULL);
  self->where = plain_choice (_ ("Rows are chosen by"), (const char *const *)words->pdata);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (self->where), _ ("For a table of several places"));
  self->where_value = fr_entry_row_new (_ ("What stands there"), _ ("Rows with anything else are left out"));
  fr_entry_row_set_width (FR_ENTRY_ROW (self->where_value), 16);
  gtk_widget_set_visible (self->where_value, FALSE);
  g_signal_connect_object (self->where, "notify::selected", G_CALLBACK (where_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->where_value, "finished", G_CALLBACK (where_value_cb), self, G_CONNECT_SWAPPED);
  adw_expander_row_add_row (ADW_EXPANDER_ROW (self->group), self->where);
  adw_expander_row_add_row (ADW_EXPANDER_ROW (self->group), self->where_value);
}

static void
make_rows (FrWeatherColumnsGroup *self, const GPtrArray *columns)
{
  GtkWidget *list = adw_preferences_group_new ();
  const char *words[G_N_ELEMENTS (takings) + 1] = { NULL };

  for (guint i = 0; i < G_N_ELEMENTS (takings); i++)
    words[i] = _ (takings[i].label);
  g_ptr_array_set_size (self->rows, 0);
  g_ptr_array_set_size (self->names, 0);
  g_ptr_array_set_size (self->examples, 0);
  self->group = adw_expander_row_new ();
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self->group), _ ("Columns of the Table"));
  for (guint i = 0; i < columns->len; i++)
    {
      const FrWeatherFound *found = columns->pdata[i];
      g_autofree char *title = title_of (found, i);
      GtkWidget *row = plain_choice (title, words);

      g_ptr_array_add (self->rows, row);
      g_ptr_array_add (self->names, g_strdup (found->name));
      g_ptr_array_add (self->examples, g_strdup (found->example));
      adw_expander_row_add_row (ADW_EXPANDER_ROW (self->group), row);
    }
  make_where (self);
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (list), self->group);
  adw_bin_set_child (ADW_BIN (self), list);
  for (guint i = 0; i < self->rows->len; i++)
    g_signal_connect_object (self->rows->pdata[i], "notify::selected", G_CALLBACK (chosen_cb), self, G_CONNECT_SWAPPED);
}

static void
show_found (GtkWidget *row, const FrWeatherFound *found)
{
  g_autofree char *note = found->is_mark ? g_strdup (_ ("The source’s marks, read with their values"))
                          : found->example != NULL && *found->example != '\0'
                              /* Translators: what stands in the first row of a table's column */
                              ? g_strdup_printf (_ ("Such as “%s”"), found->example)
                              : g_strdup (_ ("Empty"));

  adw_action_row_set_subtitle (ADW_ACTION_ROW (row), note);
  adw_combo_row_set_selected (ADW_COMBO_ROW (row), taking_of (found));
}

/* What is read, in the folded row. */
static char *
taken_text (FrWeatherColumnsGroup *self)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < self->rows->len; i++)
    if (selected (self, i) > 0)
      g_string_append_printf (text, "%s%s = %s", text->len > 0 ? " · " : "",
                              adw_preferences_row_get_title (ADW_PREFERENCES_ROW (self->rows->pdata[i])),
                              _ (takings[selected (self, i)].label));
  return g_string_free (text, FALSE);
}

void
fr_weather_columns_group_show (FrWeatherColumnsGroup *self, const GPtrArray *columns, gboolean open)
{
  g_autofree char *taken = NULL;

  gtk_widget_set_visible (GTK_WIDGET (self), columns != NULL && columns->len > 0);
  if (columns == NULL || columns->len == 0)
    return;
  self->is_filling = TRUE;
  if (!is_same_table (self, columns))
    make_rows (self, columns);
  for (guint i = 0; i < columns->len; i++)
    show_found (self->rows->pdata[i], columns->pdata[i]);
  self->is_filling = FALSE;
  taken = taken_text (self);
  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (self->group), FALSE);
  adw_expander_row_set_subtitle (ADW_EXPANDER_ROW (self->group), taken);
  if (open)
    adw_expander_row_set_expanded (ADW_EXPANDER_ROW (self->group), TRUE);
}

void
fr_weather_columns_group_get (FrWeatherColumnsGroup *self, FrWeatherColumns *choice_out)
{
  guint where = self->where != NULL ? adw_combo_row_get_selected (ADW_COMBO_ROW (self->where)) : 0;

  *choice_out = (FrWeatherColumns){ 0 };
  if (where > 0)
    {
      choice_out->where_column = g_strdup_printf ("#%u", where);
      choice_out->where_value = g_strdup (fr_entry_row_get_text (FR_ENTRY_ROW (self->where_value)));
    }
  if (!self->is_chosen)
    return;
  for (guint i = 0; i < self->rows->len; i++)
    {
      guint taking = selected (self, i);

      if (taking == 0)
        continue;
      choice_out->names[takings[taking].use] = g_strdup_printf ("#%u", i + 1);
      choice_out->units[takings[taking].use] = takings[taking].unit;
    }
  for (guint use = FR_WEATHER_COLUMN_DATE; use < FR_N_WEATHER_COLUMNS; use++)
    if (choice_out->names[use] == NULL)
      choice_out->names[use] = g_strdup ("-");
}

static void
fr_weather_columns_group_dispose (GObject *object)
{
  FrWeatherColumnsGroup *self = FR_WEATHER_COLUMNS_GROUP (object);

  self->is_filling = TRUE;
  adw_bin_set_child (ADW_BIN (self), NULL);
  self->where = self->where_value = NULL;
  g_clear_pointer (&self->rows, g_ptr_array_unref);
  g_clear_pointer (&self->names, g_ptr_array_unref);
  g_clear_pointer (&self->examples, g_ptr_array_unref);
  G_OBJECT_CLASS (fr_weather_columns_group_parent_class)->dispose (object);
}

static void
fr_weather_columns_group_class_init (FrWeatherColumnsGroupClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_weather_columns_group_dispose;
  changed_signal = g_signal_new ("changed", FR_TYPE_WEATHER_COLUMNS_GROUP, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
fr_weather_columns_group_init (FrWeatherColumnsGroup *self)
{
  self->rows = g_ptr_array_new ();
  self->names = g_ptr_array_new_with_free_func (g_free);
  self->examples = g_ptr_array_new_with_free_func (g_free);
}

GtkWidget *
fr_weather_columns_group_new (void)
{
  return g_object_new (FR_TYPE_WEATHER_COLUMNS_GROUP, NULL);
}
