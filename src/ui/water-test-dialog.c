/* The test: bring plain water to a rolling boil, note weight, level or what is fed, and note it again some
 * minutes later. What was read is shown with what it means; keeping writes the cooker's new heat ratio in one
 * step. */
#include "ui/water-test-dialog.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "domain/maths/water.h"
#include "ui/dialog-frame.h"
#include "ui/quantity-row.h"
#include "words/say.h"

/* What a kitchen can read. */
#define SCALE_SD_KG 0.005
#define RULER_SD_M 0.0007
#define JUG_SD_L 0.02

enum
{
  ROW_VALUE_KG,
  ROW_VALUE_M,
  ROW_VALUE_L,
  ROW_FROM_DEPTH,
  ROW_SPAN,
  ROW_POWER,
  ROW_AIR,
  ROW_FEED_C,
  N_ROWS
};

struct _FrWaterTestDialog
{
  AdwWindow parent_instance;
  FrBook *book;
  FrRecord *cooker;
  FrPlanKit kit;
  FrBoilTable table;
  GtkWidget *way;
  GtkWidget *rows[N_ROWS];
  double values[N_ROWS];
  GtkWidget *result;
  GtkWidget *keep_button;
  FrSeenRatio ratio;
  void (*keep) (const FrChange *change, gpointer data);
  gpointer data;
};

G_DEFINE_FINAL_TYPE (FrWaterTestDialog, fr_water_test_dialog, ADW_TYPE_WINDOW)

static const struct
{
  const char *title;
  const char *note;
  FrQuantityKind kind;
  int way; /* shown for this way of measuring only, −1 always */
} row_kinds[N_ROWS] = {
  { N_ ("Weight lost"), N_ ("Pan and water before, less after"), FR_QUANTITY_MASS, FR_SEEN_WEIGHT_LOST },
  { N_ ("Level fell by"), NULL, FR_QUANTITY_LENGTH, FR_SEEN_LEVEL_DROP },
  { N_ ("Water fed"), N_ ("To hold the level"), FR_QUANTITY_VOLUME, FR_SEEN_VOLUME_FED },
  { N_ ("Depth at first"), N_ ("Needed for pans that are not straight"), FR_QUANTITY_LENGTH,
    FR_SEEN_LEVEL_DROP },
  { N_ ("Boiling for"), N_ ("Ten minutes or more, at a rolling boil"), FR_QUANTITY_SPAN, -1 },
  { N_ ("Power"), N_ ("By a meter, or as the plate says"), FR_QUANTITY_POWER, -1 },
  { N_ ("Air at the pan"), NULL, FR_QUANTITY_TEMPERATURE, -1 },
  { N_ ("Fed water’s temperature"), NULL, FR_QUANTITY_TEMPERATURE, FR_SEEN_VOLUME_FED },
};

static FrSeenKind
way_of (FrWaterTestDialog *self)
{
  static const FrSeenKind ways[] = { FR_SEEN_WEIGHT_LOST, FR_SEEN_LEVEL_DROP, FR_SEEN_VOLUME_FED };

  return ways[MIN (adw_combo_row_get_selected (ADW_COMBO_ROW (self->way)), G_N_ELEMENTS (ways) - 1)];
}

static void
compute (FrWaterTestDialog *self)
{
  const FrUnits *units = fr_book_get_units (self->book);
  FrSeen seen = { .kind = way_of (self),
                  .span_s = self->values[ROW_SPAN],
                  .power_w = self->values[ROW_POWER],
                  .air_c = self->values[ROW_AIR],
                  .feed_c = self->values[ROW_FEED_C],
                  .from_depth_m = self->values[ROW_FROM_DEPTH] };
  FrCalibrateStatus status;
  g_autofree char *text = NULL;

  for (guint i = 0; i < N_ROWS; i++)
    gtk_widget_set_visible (self->rows[i], row_kinds[i].way < 0 || row_kinds[i].way == (int)seen.kind);
  switch (seen.kind)
    {
    case FR_SEEN_WEIGHT_LOST:
      seen.value = self->values[ROW_VALUE_KG];
      seen.sd = SCALE_SD_KG * G_SQRT2;
      break;
    case FR_SEEN_LEVEL_DROP:
      seen.value = self->values[ROW_VALUE_M];
      seen.sd = RULER_SD_M * G_SQRT2;
      break;
    default:
      seen.value = self->values[ROW_VALUE_L];
      seen.sd = JUG_SD_L;
    }
  status = fr_calibrate_one (&self->table, &self->kit.vessel, self->kit.wall_w_per_k, &seen, &self->ratio);
  gtk_widget_set_sensitive (self->keep_button, status == FR_CALIBRATE_OK && self->ratio.heat_ratio > 0.05);
  if (isnan (seen.value) || isnan (seen.span_s))
    text = g_strdup (_ ("The result appears here."));
  else if (status == FR_CALIBRATE_TOO_MUCH_HEAT)
    text = g_strdup (_ ("That is more steam than this power can make. Look at the power, the minutes and the "
                        "reading again."));
  else if (status != FR_CALIBRATE_OK || !(self->ratio.heat_ratio > 0.05))
    text = seen.kind == FR_SEEN_LEVEL_DROP && isnan (seen.from_depth_m)
               ? g_strdup (_ ("This pan is not straight, so the depth at first is needed."))
               : g_strdup (_ ("These readings do not go together. A boil of one minute or more, a reading "
                              "over nothing, and the air "
                              "between −60 and 60 °C are needed."));
  else
    {
      FrSay say = { .units = *units };
      g_autofree char *ratio = fr_say_number (&say, 100 * self->ratio.heat_ratio, 1);
      g_autofree char *half = fr_say_number (&say, 100 * 1.645 * self->ratio.heat_ratio_sd, 1);
      g_autofree char *was = fr_say_number (&say, 100 * ((FrCooker *)self->cooker)->heat_ratio.value, 1);

      text = g_strdup_printf (
          _ ("%s ± %s %% of the power reaches the water, nine times in ten. Until now %s %% was assumed."),
          ratio, half, was);
    }
  gtk_label_set_text (GTK_LABEL (self->result), text);
}

/* A test takes minutes, so a bare number means them here. */
static char *
in_minutes (const char *text)
{
  g_autofree char *bare = g_strstrip (g_strdup (text));

  if (bare[0] == '\0' || bare[strspn (bare, "0123456789.,")] != '\0')
    return g_strdup (text);
  return g_strdup_printf ("%s min", bare);
}

static void
show_value (FrWaterTestDialog *self, guint i, const char *typed)
{
  fr_quantity_row_set (FR_QUANTITY_ROW (self->rows[i]), self->values[i], typed,
                       fr_book_get_units (self->book),
                       row_kinds[i].kind == FR_QUANTITY_SPAN && isnan (self->values[i]) ? "min" : NULL);
}

static void
take (FrQuantityRow *row, const char *written, gboolean finished, gpointer user_data)
{
  FrWaterTestDialog *self = FR_WATER_TEST_DIALOG (user_data);
  gboolean is_span = fr_quantity_row_get_kind (row) == FR_QUANTITY_SPAN;
  g_autofree char *text = is_span ? in_minutes (written) : g_strdup (written);

  for (guint i = 0; i < N_ROWS; i++)
    {
      double value;

      if (self->rows[i] != GTK_WIDGET (row))
        continue;
      if (fr_quantity_row_read (row, text, finished, fr_book_get_units (self->book), &value))
        {
          self->values[i] = value;
          if (finished)
            show_value (self, i, text);
        }
      else if (finished)
        self->values[i] = NAN;
    }
  compute (self);
}

static void
keep_cb (FrWaterTestDialog *self)
{
  g_autoptr (FrChange) change = NULL;
  g_autoptr (FrRecord) after = fr_record_copy (self->cooker);
  FrCooker *cooker = (FrCooker *)after;

  change = fr_change_new ("water-test", cooker->name);
  fr_amount_set (&cooker->heat_ratio, MIN (self->ratio.heat_ratio, 1), NULL);
  fr_amount_set (&cooker->heat_ratio_sd, self->ratio.heat_ratio_sd, NULL);
  fr_change_add (change, self->cooker, after);
  self->keep (change, self->data);
  gtk_window_close (GTK_WINDOW (self));
}

static void
fr_water_test_dialog_finalize (GObject *object)
{
  FrWaterTestDialog *self = FR_WATER_TEST_DIALOG (object);

  g_clear_pointer (&self->cooker, fr_record_free);
  g_clear_object (&self->book);
  G_OBJECT_CLASS (fr_water_test_dialog_parent_class)->finalize (object);
}

static void
fr_water_test_dialog_class_init (FrWaterTestDialogClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = fr_water_test_dialog_finalize;
  fr_dialog_frame_class_init (GTK_WIDGET_CLASS (klass));
}

static GtkWidget *
wrapped (const char *text, const char *css_class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  if (css_class != NULL)
    gtk_widget_add_css_class (label, css_class);
  return label;
}

static void
fr_water_test_dialog_init (FrWaterTestDialog *self)
{
  GtkBox *inner;
  GtkWidget *group = adw_preferences_group_new ();
  g_autoptr (GtkStringList) ways = gtk_string_list_new (
      (const char *const[]){ _ ("By weight"), _ ("By level"), _ ("By what is fed"), NULL });

  self->keep_button = fr_dialog_frame_build (ADW_WINDOW (self), _ ("Water Test"), 520, 570,
                                             G_CALLBACK (keep_cb), self, &inner);
  self->way = adw_combo_row_new ();
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self->way), _ ("Measured"));
  adw_combo_row_set_model (ADW_COMBO_ROW (self->way), G_LIST_MODEL (ways));
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), self->way);
  for (guint i = 0; i < N_ROWS; i++)
    {
      self->values[i] = NAN;
      self->rows[i]
          = fr_quantity_row_new (_ (row_kinds[i].title),
                                 row_kinds[i].note != NULL ? _ (row_kinds[i].note) : NULL, row_kinds[i].kind);
      fr_quantity_row_on_text (FR_QUANTITY_ROW (self->rows[i]), take, self);
      adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), self->rows[i]);
    }
  self->result = wrapped (NULL, "strong");
  gtk_box_append (inner,
                  wrapped (_ ("Boil plain water as the sap will boil: same pan, same level, same place. When "
                              "it rolls, note the "
                              "weight, the level or what you feed, and again ten minutes later."),
                           NULL));
  gtk_box_append (inner, group);
  gtk_box_append (inner, self->result);
  gtk_box_append (
      inner,
      wrapped (
          _ ("Stay with it; steam and boiling water scald. Weigh on a scale that bears the heat, or let it "
             "cool with a lid on."),
          "note"));
}

GtkWidget *
fr_water_test_dialog_new (GtkWindow *parent, FrBook *book, const FrCooker *cooker,
                          void (*keep) (const FrChange *change, gpointer data), gpointer data)
{
  const FrHousehold *household = fr_book_get_household (book);
  double altitude_m
      = household != NULL && !isnan (household->altitude_m.value) ? household->altitude_m.value : 0;
  FrWaterTestDialog *self;
  FrBoilTable table;
  FrPlanKit kit;

  if (!fr_book_kit (book, cooker, &kit)
      || !fr_boil_table_init (&table, fr_pressure_from_altitude_pa (altitude_m)))
    return NULL;
  self = g_object_new (FR_TYPE_WATER_TEST_DIALOG, "transient-for", parent, NULL);
  self->book = g_object_ref (book);
  self->cooker = fr_record_copy (&cooker->record);
  self->kit = kit;
  self->table = table;
  self->keep = keep;
  self->data = data;
  self->values[ROW_POWER] = cooker->power_w.value;
  self->values[ROW_AIR] = 15;
  self->values[ROW_FEED_C] = 10;
  for (guint i = 0; i < N_ROWS; i++)
    show_value (self, i, i == ROW_POWER ? cooker->power_w.typed : NULL);
  g_signal_connect_object (self->way, "notify::selected", G_CALLBACK (compute), self, G_CONNECT_SWAPPED);
  compute (self);
  fr_entry_row_grab (FR_ENTRY_ROW (self->rows[0]));
  return GTK_WIDGET (self);
}
