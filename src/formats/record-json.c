/* Driven by the description of the kind, so that a new kind needs no code here. What is read is checked as a
 * whole before it is handed out: nobody gets a record that the book would refuse. */
#include "formats/record-json.h"

#include <math.h>
#include <string.h>

/* More than a household ever counts to, and short enough for a sentence. */
#define ID_MAX 999999

void
fr_record_write_json (FrOutput *output, const char *key, const FrRecord *record)
{
  fr_output_object (output, key);
  fr_output_number (output, "id", (double)record->id);
  if (record->uid[0] != '\0')
    fr_output_string (output, "uid", record->uid);
  fr_output_boolean (output, "archived", record->archived);
  for (guint i = 0; i < record->kind->n_fields; i++)
    {
      const FrField *field = &record->kind->fields[i];
      switch (field->type)
        {
        case FR_FIELD_TEXT:
        case FR_FIELD_CODE:
        case FR_FIELD_DATE:
          if (fr_record_text (record, field) != NULL)
            fr_output_string (output, field->name, fr_record_text (record, field));
          else
            fr_output_null (output, field->name);
          break;
        case FR_FIELD_AMOUNT:
          {
            const FrAmount *amount = fr_record_amount ((FrRecord *)record, field);
            g_autofree char *typed = g_strconcat (field->name, "_typed", NULL);
            fr_output_number (output, field->name, amount->value);
            if (amount->typed != NULL)
              fr_output_string (output, typed, amount->typed);
            break;
          }
        case FR_FIELD_BOOL:
          fr_output_boolean (output, field->name, fr_record_int (record, field) != 0);
          break;
        case FR_FIELD_TIME:
        case FR_FIELD_REF:
          if (fr_record_int (record, field) == (field->type == FR_FIELD_TIME ? G_MININT64 : 0))
            fr_output_null (output, field->name);
          else
            fr_output_number (output, field->name, (double)fr_record_int (record, field));
          break;
        }
    }
  fr_output_end_object (output);
}

JsonNode *
fr_record_to_json (const FrRecord *record)
{
  g_return_val_if_fail (record != NULL, NULL);

  FrOutput output;
  fr_output_init (&output);
  fr_record_write_json (&output, NULL, record);
  g_autofree char *text = fr_output_finish (&output);
  g_autoptr (GError) error = NULL;
  JsonNode *node = fr_json_parse (text, strlen (text), &error);
  /* What a record holds may be no text at all; then it has no JSON. */
  if (node == NULL)
    g_critical ("%s", error->message);
  return node;
}

/* Every key a kind may have; the strings of the second array are owned by it. */
static void
collect_keys (const FrKind *kind, GPtrArray *keys, GPtrArray *owned)
{
  g_ptr_array_add (keys, (char *)"id");
  g_ptr_array_add (keys, (char *)"uid");
  g_ptr_array_add (keys, (char *)"archived");
  for (guint i = 0; i < kind->n_fields; i++)
    {
      g_ptr_array_add (keys, (char *)kind->fields[i].name);
      if (kind->fields[i].type == FR_FIELD_AMOUNT)
        {
          char *typed = g_strconcat (kind->fields[i].name, "_typed", NULL);
          g_ptr_array_add (owned, typed);
          g_ptr_array_add (keys, typed);
        }
    }
  g_ptr_array_add (keys, NULL);
}

static gboolean
holds_type (const FrInput *input, const char *key, GType type)
{
  JsonNode *node = json_object_get_member (input->object, key);
  return JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == type;
}

static gboolean
read_bool (const FrInput *input, const char *key)
{
  if (!fr_input_has (input, key))
    return FALSE;
  if (!holds_type (input, key, G_TYPE_BOOLEAN))
    return fr_input_fail (input, key, "must be true or false");
  return json_node_get_boolean (json_object_get_member (input->object, key));
}

/* A whole number; @unknown when absent or wrong. */
static gint64
read_whole (const FrInput *input, const char *key, FrInputNeed need, double min, double max, gint64 unknown)
{
  double value = fr_input_number (input, key, need, min, max);
  if (isnan (value))
    return unknown;
  if (value == floor (value))
    return (gint64)value;
  g_autofree char *is = fr_input_number_text (value);
  fr_input_fail (input, key, "is %s; it must be a whole number", is);
  return unknown;
}

static gint64
read_time (const FrInput *input, const FrField *field)
{
  FrInputNeed need = field->required ? FR_INPUT_REQUIRED : FR_INPUT_OPTIONAL;

  if (!fr_input_has (input, field->name) || !holds_type (input, field->name, G_TYPE_STRING))
    return read_whole (input, field->name, need, field->min, field->max, G_MININT64);
  const char *text = fr_input_string (input, field->name, need, "an instant");
  /* Without a zone in the text this gives NULL: a time of nowhere is no instant. */
  g_autoptr (GDateTime) time = text != NULL ? g_date_time_new_from_iso8601 (text, NULL) : NULL;
  if (time != NULL)
    return g_date_time_to_unix (time);
  fr_input_fail (input, field->name,
                 "must be whole seconds since 1970 in UTC, or text such as 2025-03-08T22:00:00Z");
  return G_MININT64;
}

static void
read_text (const FrInput *input, const FrField *field, FrRecord *record)
{
  FrInputNeed need = field->required ? FR_INPUT_REQUIRED : FR_INPUT_OPTIONAL;

  if (field->type == FR_FIELD_CODE)
    {
      g_autofree char *all = g_strjoinv (", ", (char **)field->codes);
      g_autofree char *what = g_strconcat ("one of ", all, NULL);
      /* Left out it is the first, as in a new record. */
      const char *code = fr_input_string (input, field->name, FR_INPUT_OPTIONAL, what);
      g_autofree char *quoted = code != NULL ? fr_json_quote (code) : NULL;
      if (code != NULL && g_strv_contains (field->codes, code))
        fr_record_set_text (record, field, code);
      else if (code != NULL)
        fr_input_fail (input, field->name, "is “%s”; it must be %s", quoted, what);
      return;
    }
  const char *what = field->type == FR_FIELD_DATE ? "a date such as 2025-03-08" : "text";
  fr_record_set_text (record, field, fr_input_string (input, field->name, need, what));
}

static void
read_field (const FrInput *input, const FrField *field, FrRecord *record)
{
  FrInputNeed need = field->required ? FR_INPUT_REQUIRED : FR_INPUT_OPTIONAL;

  switch (field->type)
    {
    case FR_FIELD_TEXT:
    case FR_FIELD_CODE:
    case FR_FIELD_DATE:
      read_text (input, field, record);
      break;
    case FR_FIELD_AMOUNT:
      {
        g_autofree char *typed = g_strconcat (field->name, "_typed", NULL);
        double value = fr_input_number (input, field->name, need, field->min, field->max);
        fr_record_set_amount (record, field, value,
                              fr_input_string (input, typed, FR_INPUT_OPTIONAL, "the text as typed"));
        break;
      }
    case FR_FIELD_BOOL:
      fr_record_set_int (record, field, read_bool (input, field->name));
      break;
    case FR_FIELD_TIME:
      fr_record_set_int (record, field, read_time (input, field));
      break;
    case FR_FIELD_REF:
      fr_record_set_int (record, field, read_whole (input, field->name, need, 1, ID_MAX, 0));
      break;
    }
}

/* What only the whole record shows, as a sentence. */
static void
fail_problem (const FrInput *input, const FrProblem *problem)
{
  const FrField *field = problem->field;

  switch (problem->code)
    {
    case FR_PROBLEM_MISSING:
      if (field->type == FR_FIELD_AMOUNT)
        fr_input_fail_range (input, field->name, NAN, field->min, field->max);
      else
        fr_input_fail (input, field->name, "is missing");
      break;
    case FR_PROBLEM_BAD_DATE:
      fr_input_fail (input, field->name, "is no date; it must be like 2025-03-08");
      break;
    case FR_PROBLEM_BAD_TEXT:
      if (strcmp (field->name, "currency") == 0)
        fr_input_fail (input, field->name, "is no currency; it must be three capital letters such as CAD");
      else
        fr_input_fail (input, field->name, "cannot be read in line %u", problem->line);
      break;
    case FR_PROBLEM_TOO_LONG:
      fr_input_fail (input, field->name, "is too long; it may have %.0f characters", problem->limit);
      break;
    case FR_PROBLEM_NOT_WHOLE:
      fr_input_fail (input, field->name, "is not a whole number");
      break;
    case FR_PROBLEM_CONFLICT:
      fr_input_fail (input, field->name, "contradicts %s; change one of them", problem->other->name);
      break;
    case FR_PROBLEM_NOT_FINITE:
    case FR_PROBLEM_BELOW:
    case FR_PROBLEM_ABOVE:
    case FR_PROBLEM_NOT_A_CODE:
      fr_input_fail (input, field->name, "is not allowed");
      break;
    }
}

static void
read_uid (const FrInput *input, FrRecord *record)
{
  const char *uid = fr_input_string (input, "uid", FR_INPUT_OPTIONAL, "32 digits 0 to 9 and a to f");

  if (uid == NULL)
    return;
  if (strlen (uid) != 32 || strspn (uid, "0123456789abcdef") != 32)
    fr_input_fail (input, "uid", "must be 32 digits 0 to 9 and a to f");
  else
    memcpy (record->uid, uid, sizeof record->uid);
}

FrRecord *
fr_record_read_json (const FrInput *input, FrKindId kind_id)
{
  const FrKind *kind = fr_kind (kind_id);
  g_return_val_if_fail (kind != NULL && input->object != NULL, NULL);

  g_autoptr (GPtrArray) keys = g_ptr_array_new ();
  g_autoptr (GPtrArray) owned = g_ptr_array_new_with_free_func (g_free);
  collect_keys (kind, keys, owned);
  if (!fr_input_check_keys (input, (const char *const *)keys->pdata))
    return NULL;

  g_autoptr (FrRecord) record = fr_record_new (kind_id);
  record->id = read_whole (input, "id", FR_INPUT_OPTIONAL, 1, ID_MAX, 0);
  record->archived = read_bool (input, "archived");
  read_uid (input, record);
  for (guint i = 0; i < kind->n_fields && *input->error == NULL; i++)
    read_field (input, &kind->fields[i], record);
  if (*input->error != NULL)
    return NULL;

  g_autoptr (GArray) problems = fr_record_check (record);
  if (problems->len == 0)
    return g_steal_pointer (&record);
  fail_problem (input, &g_array_index (problems, FrProblem, 0));
  return NULL;
}

FrRecord *
fr_record_from_json (FrKindId kind, JsonNode *node, GError **error)
{
  g_return_val_if_fail (node != NULL, NULL);

  g_autoptr (GError) first = NULL;
  FrInput input = { NULL, "", &first };
  FrRecord *record = NULL;
  if (JSON_NODE_HOLDS_OBJECT (node))
    {
      input.object = json_node_get_object (node);
      record = fr_record_read_json (&input, kind);
    }
  else
    fr_input_fail (&input, "", "must be an object in { }");
  if (first != NULL)
    g_propagate_error (error, g_steal_pointer (&first));
  return record;
}
