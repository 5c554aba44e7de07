/* Boil and charge from JSON and back. The ranges of a boil's members are written once, in fr_boil_check; here
 * its faults are told by their keys, in the key's unit. A hole's opening is its area times 0.62, the
 * discharge of a sharp-edged one (common handbook figure 0.60 to 0.62). */
#include "formats/boil-json.h"

#include "formats/json-input.h"
#include "formats/json-output.h"
#include "formats/place-json.h"

#include <math.h>
#include <string.h>

#define HOLE_DISCHARGE_RATIO 0.62
#define LITRES_PER_S_PER_ML_PER_MIN (1e-3 / 60)

static const char *const root_keys[] = { FR_PLACE_KEYS,   "air_c", "vessel", "cooker", "start", "feed",
                                         "hold_volume_l", "stop",  "watch",  "trip_s", NULL };
static const char *const cooker_keys[] = { "power_w", "heat_ratio", "wall_w_per_k", "reflux_ratio", NULL };
static const char *const start_keys[] = { "volume_l", "brix", "temp_c", NULL };
static const char *const feed_keys[] = { "volume_l",
                                         "brix",
                                         "temp_c",
                                         "capacity_l",
                                         "kind",
                                         "stream_ml_per_min",
                                         "hole_diameter_m",
                                         "head_m",
                                         "bucket_diameter_m",
                                         NULL };
static const char *const stop_keys[] = { "cutoff_volume_l", "after_s", "brix", NULL };
static const char *const watch_keys[] = { "foam_l", "min_l", NULL };

typedef enum
{
  SCALE_SAME,
  SCALE_STREAM, /* ml/min */
  SCALE_ROUND,  /* diameter of an area */
  SCALE_HOLE    /* diameter of an opening */
} Scale;

/* Which key gives which member of FrBoil. */
static const struct
{
  const char *member;
  const char *object; /* NULL: the whole */
  const char *key;
  gsize offset;
  Scale scale;
} sources[] = {
  { "air_c", NULL, "air_c", G_STRUCT_OFFSET (FrBoil, air_c) },
  { "power_w", "cooker", "power_w", G_STRUCT_OFFSET (FrBoil, power_w) },
  { "heat_ratio", "cooker", "heat_ratio", G_STRUCT_OFFSET (FrBoil, heat_ratio) },
  { "wall_w_per_k", "cooker", "wall_w_per_k", G_STRUCT_OFFSET (FrBoil, wall_w_per_k) },
  { "reflux_ratio", "cooker", "reflux_ratio", G_STRUCT_OFFSET (FrBoil, reflux_ratio) },
  { "start_l", "start", "volume_l", G_STRUCT_OFFSET (FrBoil, start_l) },
  { "start_brix", "start", "brix", G_STRUCT_OFFSET (FrBoil, start_brix) },
  { "start_c", "start", "temp_c", G_STRUCT_OFFSET (FrBoil, start_c) },
  { "feed_l", "feed", "volume_l", G_STRUCT_OFFSET (FrBoil, feed_l) },
  { "feed_brix", "feed", "brix", G_STRUCT_OFFSET (FrBoil, feed_brix) },
  { "feed_c", "feed", "temp_c", G_STRUCT_OFFSET (FrBoil, feed_c) },
  { "hold_l", NULL, "hold_volume_l", G_STRUCT_OFFSET (FrBoil, hold_l) },
  { "stream_l_per_s", "feed", "stream_ml_per_min", G_STRUCT_OFFSET (FrBoil, stream_l_per_s), SCALE_STREAM },
  { "hole_m2", "feed", "hole_diameter_m", G_STRUCT_OFFSET (FrBoil, hole_m2), SCALE_HOLE },
  { "head_m", "feed", "head_m", G_STRUCT_OFFSET (FrBoil, head_m) },
  { "bucket_m2", "feed", "bucket_diameter_m", G_STRUCT_OFFSET (FrBoil, bucket_m2), SCALE_ROUND },
  { "cutoff_l", "stop", "cutoff_volume_l", G_STRUCT_OFFSET (FrBoil, cutoff_l) },
  { "after_s", "stop", "after_s", G_STRUCT_OFFSET (FrBoil, after_s) },
  { "stop_brix", "stop", "brix", G_STRUCT_OFFSET (FrBoil, stop_brix) },
  { "trip_s", NULL, "trip_s", G_STRUCT_OFFSET (FrBoil, trip_s) },
  { "foam_l", "watch", "foam_l", G_STRUCT_OFFSET (FrBoil, foam_l) },
  { "min_l", "watch", "min_l", G_STRUCT_OFFSET (FrBoil, min_l) },
};

/* Members by their place within FrBoil. */
static double *
member (FrBoil *boil, guint i)
{
  return (double *)(gpointer)((char *)boil + sources[i].offset);
}

static double
to_member (double value, Scale scale)
{
  switch (scale)
    {
    case SCALE_STREAM:
      return value * LITRES_PER_S_PER_ML_PER_MIN;
    case SCALE_ROUND:
      return G_PI / 4 * value * fabs (value); /* a negative diameter stays out of range */
    case SCALE_HOLE:
      return HOLE_DISCHARGE_RATIO * G_PI / 4 * value * fabs (value);
    default:
      return value;
    }
}

static double
to_key (double value, Scale scale)
{
  switch (scale)
    {
    case SCALE_STREAM:
      return value / LITRES_PER_S_PER_ML_PER_MIN;
    case SCALE_ROUND:
      return copysign (sqrt (fabs (value) * 4 / G_PI), value);
    case SCALE_HOLE:
      return copysign (sqrt (fabs (value) / HOLE_DISCHARGE_RATIO * 4 / G_PI), value);
    default:
      return value;
    }
}

typedef struct
{
  FrInput root, cooker, start, feed, stop, watch;
} Inputs;

static const FrInput *
input_of (const Inputs *in, const char *object)
{
  if (object == NULL)
    return &in->root;
  switch (object[0])
    {
    case 'c':
      return &in->cooker;
    case 'f':
      return &in->feed;
    case 'w':
      return &in->watch;
    default:
      return object[2] == 'a' ? &in->start : &in->stop;
    }
}

/* Tells a fault of the check by its key; one that has no value is a missing key. */
static gboolean
check (const Inputs *in, const FrBoil *boil)
{
  FrBoilFault fault;

  if (*in->root.error != NULL)
    return FALSE;
  if (fr_boil_check (boil, &fault))
    return TRUE;
  for (guint i = 0; i < G_N_ELEMENTS (sources); i++)
    if (strcmp (sources[i].member, fault.name) == 0)
      return fr_input_fail_range (input_of (in, sources[i].object), sources[i].key,
                                  to_key (fault.value, sources[i].scale),
                                  to_key (fault.min, sources[i].scale), to_key (fault.max, sources[i].scale));
  return fr_input_fail (&in->root, fault.name, "is out of range");
}

/* Volumes in the pan against what it holds. */
static gboolean
check_room (const Inputs *in, const FrBoil *boil)
{
  const struct
  {
    const FrInput *input;
    const char *key;
    double litres_l;
  } volumes[] = {
    { &in->start, "volume_l", boil->start_l },
    { &in->root, "hold_volume_l", boil->hold_l },
    { &in->stop, "cutoff_volume_l", boil->cutoff_l },
    { &in->watch, "foam_l", boil->foam_l },
    { &in->watch, "min_l", boil->min_l },
  };

  for (guint i = 0; i < G_N_ELEMENTS (volumes); i++)
    if (volumes[i].litres_l > boil->rim_l)
      {
        g_autofree char *litres = fr_input_number_text (volumes[i].litres_l),
                        *holds = fr_input_number_text (boil->rim_l);

        return fr_input_fail (volumes[i].input, volumes[i].key,
                              "is %s; the vessel holds %s L to the rim, so it must be from 0 to %s", litres,
                              holds, holds);
      }
  return TRUE;
}

static void
read_feed_kind (const Inputs *in, FrBoil *boil)
{
  static const char kinds[] = "a kind of feed: level, stream or hole";
  const struct
  {
    FrFeedKind kind;
    const char *key;
  } belongs[] = { { FR_FEED_STREAM, "stream_ml_per_min" },
                  { FR_FEED_HOLE, "hole_diameter_m" },
                  { FR_FEED_HOLE, "head_m" },
                  { FR_FEED_HOLE, "bucket_diameter_m" } };
  const char *kind = fr_input_string (&in->feed, "kind", FR_INPUT_OPTIONAL, kinds);

  boil->feed_kind = FR_FEED_LEVEL;
  if (kind != NULL && !fr_feed_from_code (kind, &boil->feed_kind))
    {
      g_autofree char *quoted = fr_json_quote (kind);

      fr_input_fail (&in->feed, "kind", "is “%s”; it must be %s", quoted, kinds);
    }
  for (guint i = 0; i < G_N_ELEMENTS (belongs); i++)
    if (belongs[i].kind != boil->feed_kind && fr_input_has (&in->feed, belongs[i].key))
      fr_input_fail (&in->feed, belongs[i].key, "is only for a feed of kind %s, and this one is of kind %s",
                     fr_feed_code (belongs[i].kind), fr_feed_code (boil->feed_kind));
}

static gboolean
check_charge (const Inputs *in, FrBoilInput *input)
{
  FrBoil boil = input->boil;
  double most_l = boil.feed_kind == FR_FEED_LEVEL ? MIN (boil.hold_l, boil.rim_l) : boil.rim_l;

  /* A charge of nothing is tried too; only a level-holding feed may fill a pan that stands empty. */
  boil.feed_l = boil.feed_kind == FR_FEED_LEVEL ? FR_DRY_LIMIT_L : 0;
  if (!check (in, &boil))
    return FALSE;
  if (!(boil.cutoff_l >= FR_DRY_LIMIT_L))
    return fr_input_fail_range (&in->stop, "cutoff_volume_l", boil.cutoff_l, FR_DRY_LIMIT_L, most_l);
  if (boil.feed_kind == FR_FEED_LEVEL && !(boil.cutoff_l < boil.hold_l))
    {
      g_autofree char *cutoff = fr_input_number_text (boil.cutoff_l),
                      *hold = fr_input_number_text (boil.hold_l);

      return fr_input_fail (&in->stop, "cutoff_volume_l",
                            "is %s; it must be under hold_volume_l, which is %s", cutoff, hold);
    }
  if (isnan (boil.after_s) && isnan (input->capacity_l) && boil.feed_brix == 0)
    return fr_input_fail (
        &in->stop, "after_s",
        "is missing, and a feed without sugar has no other limit; give it or feed.capacity_l");
  return TRUE;
}

gboolean
fr_boil_input_read (JsonNode *root, FrBoilInputKind kind, FrBoilInput *input_out, GError **error)
{
  FrBoil *boil = &input_out->boil;
  GError *first = NULL;
  Inputs in = { 0 };

  memset (input_out, 0, sizeof *input_out);
  boil->table = &input_out->table;
  input_out->capacity_l = boil->rim_l = NAN;
  if (fr_input_root (root, root_keys, &first, &in.root))
    {
      fr_input_object (&in.root, "cooker", FR_INPUT_REQUIRED, cooker_keys, &in.cooker);
      fr_input_object (&in.root, "start", FR_INPUT_REQUIRED, start_keys, &in.start);
      fr_input_object (&in.root, "feed", FR_INPUT_REQUIRED, feed_keys, &in.feed);
      fr_input_object (&in.root, "stop", kind == FR_BOIL_INPUT_CHARGE ? FR_INPUT_REQUIRED : FR_INPUT_OPTIONAL,
                       stop_keys, &in.stop);
      fr_input_object (&in.root, "watch", FR_INPUT_OPTIONAL, watch_keys, &in.watch);
    }
  if (first == NULL)
    {
      for (guint i = 0; i < G_N_ELEMENTS (sources); i++)
        *member (boil, i) = to_member (
            fr_input_any_number (input_of (&in, sources[i].object), sources[i].key), sources[i].scale);
      if (!fr_input_has (&in.cooker, "reflux_ratio"))
        boil->reflux_ratio = 0; /* an open pan */
      input_out->capacity_l = fr_input_number (&in.feed, "capacity_l", FR_INPUT_OPTIONAL, 0, 100000);
      read_feed_kind (&in, boil);
      if (fr_input_vessel (&in.root, FR_INPUT_REQUIRED, &input_out->vessel)
          && fr_input_place (&in.root, boil->air_c, &input_out->table))
        {
          FrBoil with_feed;

          boil->rim_l = fr_vessel_capacity_l (&input_out->vessel);
          if (kind == FR_BOIL_INPUT_CHARGE && !fr_input_has (&in.feed, "volume_l"))
            boil->feed_l = 0;
          /* Hold is checked as if sap flowed: a charge looks for how much, and a level that is given must
           * make sense. */
          with_feed = *boil;
          if (kind == FR_BOIL_INPUT_CHARGE || (boil->feed_l == 0 && !isnan (boil->hold_l)))
            with_feed.feed_l = 1;
          if (boil->feed_kind != FR_FEED_LEVEL)
            fr_input_number (&in.root, "hold_volume_l", FR_INPUT_OPTIONAL, FR_DRY_LIMIT_L, 100000);
          if (check (&in, &with_feed) && check (&in, boil))
            check_room (&in, boil);
          if (first == NULL && kind == FR_BOIL_INPUT_CHARGE)
            check_charge (&in, input_out);
        }
    }
  if (first != NULL)
    {
      g_propagate_error (error, first);
      return FALSE;
    }
  return TRUE;
}

static gboolean
answered (FrBoilStatus status, GError **error)
{
  if (status == FR_BOIL_OK)
    return TRUE;
  if (status == FR_BOIL_BAD_INPUT)
    g_set_error (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG,
                 "these values do not go together: no boil can start so");
  else
    g_set_error (error, FR_INPUT_ERROR, FR_INPUT_ERROR_FAILED, "this boil cannot be followed to its end");
  return FALSE;
}

gboolean
fr_boil_input_run (const FrBoilInput *input, FrBoilRun *run_out, GError **error)
{
  return answered (fr_boil_run (&input->boil, FALSE, run_out), error);
}

gboolean
fr_boil_input_charge (const FrBoilInput *input, FrCharge *charge_out, GError **error)
{
  FrBoilStatus status = fr_charge (&input->boil, input->capacity_l, FALSE, charge_out);

  if (status != FR_BOIL_BAD_INPUT)
    return answered (status, error);
  /* Everything else about the input has been checked on reading. */
  g_set_error (
      error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG,
      "no limit stops this charge short of 100000 L; give feed.capacity_l, or look at stop and feed again");
  return FALSE;
}

static void
write_run (FrOutput *out, const char *key, const FrBoilRun *run)
{
  fr_output_object (out, key);
  fr_output_string (out, "ended_by", fr_end_code (run->ended_by));
  fr_output_number (out, "time_s", run->time_s);
  fr_output_number (out, "boils_s", run->boils_s);
  fr_output_number (out, "feed_dry_s", run->feed_dry_s);
  fr_output_number (out, "rim_s", run->rim_s);
  fr_output_number (out, "foam_s", run->foam_s);
  fr_output_number (out, "min_s", run->min_s);
  fr_output_number (out, "max_volume_l", run->max_volume_l);
  fr_output_number (out, "evaporated_kg", run->evaporated_kg);
  fr_output_number (out, "fed_kg", run->fed_kg);
  fr_output_number (out, "left_kg", run->left_kg);
  fr_output_number (out, "left_l", run->left_l);
  fr_output_number (out, "left_20c_l", run->left_20c_l);
  fr_output_number (out, "left_brix", run->left_brix);
  fr_output_number (out, "left_temp_c", run->left_temp_c);
  fr_output_number (out, "boil_c", run->boil_c);
  fr_output_number (out, "energy_kwh", run->energy_kwh);
  fr_output_number (out, "sugar_in_kg", run->sugar_in_kg);
  fr_output_number (out, "sugar_out_kg", run->sugar_out_kg);
  fr_output_boolean (out, "extrapolated", run->extrapolated);
  fr_output_end_object (out);
}

char *
fr_boil_run_to_json (const FrBoilRun *run)
{
  FrOutput out;

  fr_output_init (&out);
  write_run (&out, NULL, run);
  return fr_output_finish (&out);
}

char *
fr_charge_to_json (const FrCharge *charge)
{
  FrOutput out;

  fr_output_init (&out);
  fr_output_object (&out, NULL);
  fr_output_number (&out, "feed_l", charge->feed_l);
  fr_output_string (&out, "limited_by", fr_limit_code (charge->limited_by));
  if (charge->next == FR_LIMIT_NONE)
    fr_output_null (&out, "next");
  else
    {
      fr_output_object (&out, "next");
      fr_output_string (&out, "limit", fr_limit_code (charge->next));
      fr_output_number (&out, "litres", charge->next_l);
      fr_output_end_object (&out);
    }
  fr_output_boolean (&out, "feasible", charge->feasible);
  write_run (&out, "run", &charge->run);
  fr_output_end_object (&out);
  return fr_output_finish (&out);
}
