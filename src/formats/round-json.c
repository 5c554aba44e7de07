/* A gathering round from JSON. Orders are answered in names, so every stop needs one of its own. */
#include "formats/round-json.h"

#include "formats/json-input.h"
#include "formats/json-output.h"

#include <math.h>

#define PLACE_MAX_M (FR_ROUND_AWAY_MAX_M / 2) /* then no two places are too far apart */
#define PAIL_MIN_L 0.01
#define PAIL_MAX_L 1e6

static const char *const root_keys[] = { "start", "pail_l", "stops", NULL };
static const char *const stop_keys[] = { "name", "x", "y", "litres", NULL };

void
fr_round_input_free (FrRoundInput *input)
{
  if (input == NULL)
    return;
  g_free (input->stops);
  g_strfreev (input->names);
  g_free (input);
}

static void
read_start (const FrInput *in, FrRoundInput *input)
{
  JsonArray *start = fr_input_array (in, "start", FR_INPUT_OPTIONAL, 2, 2);

  if (start == NULL)
    {
      fr_input_fail (in, "start", "is missing; give a pair [x, y] in metres");
      return;
    }
  input->start_x_m = fr_input_array_number (in, start, 0, "start[0]", -PLACE_MAX_M, PLACE_MAX_M);
  input->start_y_m = fr_input_array_number (in, start, 1, "start[1]", -PLACE_MAX_M, PLACE_MAX_M);
}

static void
read_name (const FrInput *stop, guint index, GHashTable *known, FrRoundInput *input)
{
  const char *name = fr_input_string (stop, "name", FR_INPUT_REQUIRED, "the stop's name");
  gpointer other;

  if (name == NULL)
    return;
  if (name[0] == '\0')
    fr_input_fail (stop, "name", "is empty; each stop needs a name");
  else if (g_hash_table_lookup_extended (known, name, NULL, &other))
    {
      g_autofree char *quoted = fr_json_quote (name);

      fr_input_fail (stop, "name", "is “%s”, like that of stops[%u]; each stop needs a name of its own",
                     quoted, GPOINTER_TO_UINT (other));
    }
  else
    {
      input->names[index] = g_strdup (name);
      g_hash_table_insert (known, input->names[index], GUINT_TO_POINTER (index));
    }
}

static void
read_stops (const FrInput *in, FrRoundInput *input)
{
  JsonArray *list = fr_input_array (in, "stops", FR_INPUT_REQUIRED, 0, FR_ROUND_STOPS_MAX);
  g_autoptr (GHashTable) known = g_hash_table_new (g_str_hash, g_str_equal);
  guint n;

  if (list == NULL)
    return;
  n = json_array_get_length (list);
  input->stops = g_new0 (FrRoundStop, n + 1);
  input->names = g_new0 (char *, n + 1);
  for (guint i = 0; i < n && *in->error == NULL; i++)
    {
      FrRoundStop *stop = &input->stops[i];
      FrInput one;

      if (!fr_input_element (in, "stops", list, i, stop_keys, &one))
        return;
      read_name (&one, i, known, input);
      stop->x_m = fr_input_number (&one, "x", FR_INPUT_REQUIRED, -PLACE_MAX_M, PLACE_MAX_M);
      stop->y_m = fr_input_number (&one, "y", FR_INPUT_REQUIRED, -PLACE_MAX_M, PLACE_MAX_M);
      stop->litres_l = fr_input_number (&one, "litres", FR_INPUT_REQUIRED, 0, FR_ROUND_LITRES_MAX_L);
    }
  input->n_stops = n;
}

FrRoundInput *
fr_round_input_read (JsonNode *root, GError **error)
{
  g_autoptr (FrRoundInput) input = g_new0 (FrRoundInput, 1);
  GError *first = NULL;
  FrInput in;

  if (fr_input_root (root, root_keys, &first, &in))
    {
      read_start (&in, input);
      input->pail_l = fr_input_number (&in, "pail_l", FR_INPUT_OPTIONAL, PAIL_MIN_L, PAIL_MAX_L);
      read_stops (&in, input);
    }
  if (first != NULL)
    {
      g_propagate_error (error, first);
      return NULL;
    }
  return g_steal_pointer (&input);
}

FrRound *
fr_round_input_run (const FrRoundInput *input, GError **error)
{
  FrRoundCode code;
  guint stop;
  FrRound *round = fr_round_new (input->start_x_m, input->start_y_m, input->pail_l, input->stops,
                                 input->n_stops, &code, &stop);
  GError *first = NULL;
  FrInput whole = { NULL, "", &first };
  char path[32];

  if (round != NULL)
    return round;
  g_snprintf (path, sizeof path, "stops[%u].litres", stop);
  if (code == FR_ROUND_TOO_MANY_TRIPS)
    fr_input_fail (&whole, path,
                   "would, with those before, take more than %d full pails; pail_l is too small",
                   FR_ROUND_TRIPS_MAX);
  else
    fr_input_fail (&whole, "stops", "cannot be used");
  g_propagate_error (error, first);
  return NULL;
}

char *
fr_round_to_json (const FrRoundInput *input, const FrRound *round)
{
  FrOutput out;

  fr_output_init (&out);
  fr_output_object (&out, NULL);
  fr_output_array (&out, "trips");
  for (guint i = 0; i < round->n_trips; i++)
    {
      const FrRoundTrip *trip = &round->trips[i];

      fr_output_object (&out, NULL);
      fr_output_array (&out, "order");
      for (guint j = 0; j < trip->n_stops; j++)
        fr_output_string (&out, NULL, input->names[trip->order[j]]);
      fr_output_end_array (&out);
      fr_output_number (&out, "walk_m", trip->walk_m);
      fr_output_number (&out, "litres", trip->litres_l);
      fr_output_number (&out, "litre_metres", trip->carry_l_m);
      fr_output_boolean (&out, "alone", trip->alone);
      fr_output_end_object (&out);
    }
  fr_output_end_array (&out);
  fr_output_number (&out, "walk_m", round->walk_m);
  fr_output_number (&out, "bound_m", round->bound_m);
  fr_output_number (&out, "gap_ratio", round->gap_ratio);
  fr_output_boolean (&out, "exact", round->is_exact);
  fr_output_number (&out, "litre_metres", round->carry_l_m);
  fr_output_end_object (&out);
  return fr_output_finish (&out);
}
