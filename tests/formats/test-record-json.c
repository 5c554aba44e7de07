/* Records and books through JSON: what is written reads back as the same record to the last bit, and each
 * mistake in a file is answered with the place, the key and what is allowed. The outside reader is
 * json-glib's own parser. */
#include "formats/book-json.h"
#include "sample-records.h"

#include <math.h>
#include <string.h>

static JsonNode *
parse (const char *text)
{
  g_autoptr (GError) error = NULL;
  JsonNode *node = fr_json_parse (text, strlen (text), &error);
  g_assert_no_error (error);
  return node;
}

static void
test_round_trip (gconstpointer data)
{
  FrKindId kind = GPOINTER_TO_INT (data);
  static const gint64 ids[] = { 1, 2, 999999 };
  for (guint i = 0; i < G_N_ELEMENTS (ids); i++)
    {
      g_autoptr (FrRecord) record = i % 2 == 0 ? sample_full (kind, ids[i]) : sample_sparse (kind, ids[i]);
      g_autoptr (GError) error = NULL;
      g_autoptr (JsonNode) node = fr_record_to_json (record);
      g_autoptr (FrRecord) back = fr_record_from_json (kind, node, &error);
      g_assert_no_error (error);
      g_assert_true (fr_record_equal (record, back));
    }
}

/* Every field, given alone to json-glib's parser, has the value of the record. */
static void
test_values (gconstpointer data)
{
  g_autoptr (FrRecord) record = sample_full (GPOINTER_TO_INT (data), 3);
  g_autoptr (GPtrArray) records = g_ptr_array_new ();
  g_ptr_array_add (records, record);
  g_autofree char *text = fr_book_to_json (records);
  g_autoptr (JsonParser) parser = json_parser_new_immutable ();
  g_assert_true (json_parser_load_from_data (parser, text, -1, NULL));
  JsonArray *list = json_object_get_array_member (json_node_get_object (json_parser_get_root (parser)),
                                                  record->kind->name);
  g_assert_cmpuint (json_array_get_length (list), ==, 1);
  JsonObject *object = json_array_get_object_element (list, 0);

  g_assert_cmpint (json_object_get_int_member (object, "id"), ==, 3);
  g_assert_cmpstr (json_object_get_string_member (object, "uid"), ==, record->uid);
  for (guint i = 0; i < record->kind->n_fields; i++)
    {
      const FrField *field = &record->kind->fields[i];
      g_autofree char *typed = g_strconcat (field->name, "_typed", NULL);
      switch (field->type)
        {
        case FR_FIELD_AMOUNT:
          g_assert_cmpfloat (json_object_get_double_member (object, field->name), ==,
                             fr_record_amount (record, field)->value);
          g_assert_cmpstr (json_object_get_string_member_with_default (object, typed, NULL), ==,
                           fr_record_amount (record, field)->typed);
          break;
        case FR_FIELD_BOOL:
          g_assert_cmpint (json_object_get_boolean_member (object, field->name), ==,
                           fr_record_int (record, field));
          break;
        case FR_FIELD_TIME:
        case FR_FIELD_REF:
          g_assert_cmpint (json_object_get_int_member (object, field->name), ==,
                           fr_record_int (record, field));
          break;
        default:
          g_assert_cmpstr (json_object_get_string_member (object, field->name), ==,
                           fr_record_text (record, field));
        }
    }
}

static void
test_unknown_is_null (void)
{
  g_autoptr (FrRecord) record = sample_sparse (FR_KIND_GATHERING, 1);
  g_autoptr (JsonNode) node = fr_record_to_json (record);
  JsonObject *object = json_node_get_object (node);
  g_assert_true (json_object_get_null_member (object, "sample_c"));
  g_assert_true (json_object_get_null_member (object, "note"));
  g_assert_false (json_object_has_member (object, "sample_c_typed"));
}

/* 22:00 UTC on 2025-03-08 is 1741471200 by `date -u -d @1741471200`. */
static void
test_instants (void)
{
  static const struct
  {
    const char *text;
    gint64 utc_s; /* G_MININT64: refused */
  } cases[] = { { "1741471200", 1741471200 },
                { "\"2025-03-08T22:00:00Z\"", 1741471200 },
                { "\"2025-03-08T17:00:00-05:00\"", 1741471200 },
                { "\"2025-03-08T22:00:00\"", G_MININT64 },
                { "\"yesterday\"", G_MININT64 },
                { "1741471200.5", G_MININT64 },
                { "true", G_MININT64 },
                { "null", G_MININT64 } };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text
          = g_strdup_printf ("{\"gathered_utc\": %s, \"volume_l\": 10, \"reading_brix\": 2}", cases[i].text);
      g_autoptr (JsonNode) node = parse (text);
      g_autoptr (GError) error = NULL;
      g_autoptr (FrRecord) record = fr_record_from_json (FR_KIND_GATHERING, node, &error);
      g_test_message ("%s: %s", cases[i].text, error != NULL ? error->message : "read");
      if (cases[i].utc_s == G_MININT64)
        {
          g_assert_error (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG);
          g_assert_true (g_str_has_prefix (error->message, "gathered_utc "));
          g_assert_null (record);
        }
      else
        g_assert_cmpint (fr_record_int (record, fr_kind_field (record->kind, "gathered_utc")), ==,
                         cases[i].utc_s);
    }
}

#define POT "\"id\": 1, \"name\": \"Pot\", \"diameter_m\": 0.3, \"height_m\": 0.2, \"hold_l\": 5"
#define PLATE "\"name\": \"Plate\", \"power_w\": 1800, \"heat_ratio\": 0.8"

/* What the file holds, where the sentence must begin, and what it must say. */
static const struct
{
  const char *name;
  const char *text;
  const char *begins;
  const char *says;
} mistakes[] = {
  { "not-an-object", "[]", "the input ", "object" },
  { "unknown-kind", "{\"vessels\": []}", "vessels ", "vessel" },
  { "not-a-list", "{\"vessel\": {}}", "vessel ", "list" },
  { "not-a-record", "{\"vessel\": [{" POT "}, 3]}", "vessel[1] ", "object" },
  { "unknown-key", "{\"vessel\": [{" POT ", \"cutof_l\": 1}]}", "vessel[0].cutof_l ", "cutoff_l" },
  { "too-large", "{\"vessel\": [{" POT ", \"length_m\": 6}]}", "vessel[0].length_m ", "from 0.01 to 5" },
  { "text-for-number", "{\"vessel\": [{" POT ", \"length_m\": \"6\"}]}", "vessel[0].length_m ",
    "from 0.01 to 5" },
  { "number-for-text", "{\"vessel\": [{" POT ", \"rows\": 6}]}", "vessel[0].rows ", "text" },
  { "no-bool", "{\"vessel\": [{" POT ", \"solder\": 1}]}", "vessel[0].solder ", "true or false" },
  { "no-code", "{\"vessel\": [{" POT ", \"shape\": \"cube\"}]}", "vessel[0].shape ",
    "cylinder, cone, cap, box, table" },
  { "missing", "{\"vessel\": [{\"id\": 1, \"name\": \"Pot\"}]}", "vessel[0].hold_l ", "from 0.05 to 10000" },
  { "missing-for-shape", "{\"vessel\": [{" POT ", \"shape\": \"cone\"}]}", "vessel[0].top_diameter_m ",
    "from 0.01 to 5" },
  { "conflict", "{\"vessel\": [{" POT ", \"cutoff_l\": 5}]}", "vessel[0].cutoff_l ", "hold_l" },
  { "bad-rows", "{\"vessel\": [{" POT ", \"shape\": \"table\", \"rows\": \"0 0\\n1 a\"}]}", "vessel[0].rows ",
    "line 2" },
  { "no-id", "{\"vessel\": [{\"name\": \"Pot\", \"diameter_m\": 0.3, \"height_m\": 0.2, \"hold_l\": 5}]}",
    "vessel[0].id ", "whole number" },
  { "id-zero", "{\"vessel\": [{\"id\": 0}]}", "vessel[0].id ", "from 1" },
  { "id-broken", "{\"vessel\": [{\"id\": 1.5}]}", "vessel[0].id ", "whole number" },
  { "id-twice", "{\"vessel\": [{" POT "}, {" POT "}]}", "vessel[1].id ", "its own" },
  { "uid-short", "{\"vessel\": [{" POT ", \"uid\": \"12\"}]}", "vessel[0].uid ", "32 digits" },
  { "uid-twice",
    "{\"vessel\": [{" POT
    ", \"uid\": \"00000000000000000000000000000001\"}], \"circuit\": [{\"id\": 1, \"name\": \"x\","
    " \"breaker_a\": 15, \"volts_v\": 120, \"uid\": \"00000000000000000000000000000001\"}]}",
    "vessel[0].uid ", "its own" },
  { "nowhere",
    "{\"vessel\": [{" POT "}], \"cooker\": [{\"id\": 1, \"vessel\": 1, " PLATE
    "}, {\"id\": 2, \"vessel\": 7, " PLATE "}]}",
    "cooker[1].vessel ", "id of a vessel" },
  { "no-reference", "{\"cooker\": [{\"id\": 1, " PLATE "}]}", "cooker[0].vessel ", "missing" },
  { "two-households", "{\"household\": [{}, {}]}", "household ", "1" },
  { "bad-currency",
    "{\"household\": [{\"id\": 1, \"name\": \"H\", \"zone\": \"UTC\", \"currency\": \"dollar\"}]}",
    "household[0].currency ", "3 characters" },
  { "small-currency",
    "{\"household\": [{\"id\": 1, \"name\": \"H\", \"zone\": \"UTC\", \"currency\": \"cad\"}]}",
    "household[0].currency ", "three capital letters" },
  { "bad-date",
    "{\"vessel\": [{" POT "}], \"cooker\": [{\"id\": 1, \"vessel\": 1, " PLATE
    "}], \"night\": [{\"id\": 1, \"cooker\": 1,"
    " \"evening\": \"2025-02-30\", \"start_utc\": 1, \"pan_l\": 1}]}",
    "night[0].evening ", "2025-03-08" },
  { "bad-tariff",
    "{\"tariff\": [{\"id\": 1, \"name\": \"T\", \"periods\": \"01-01 12-31 all 00:00 24:00 x\"}]}",
    "tariff[0].periods ", "line 1" },
};

static void
test_mistake (gconstpointer data)
{
  guint i = GPOINTER_TO_UINT (data);
  g_autoptr (JsonNode) node = parse (mistakes[i].text);
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) records = fr_book_from_json (node, &error);

  g_assert_null (records);
  g_assert_error (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG);
  g_test_message ("%s", error->message);
  g_assert_true (g_str_has_prefix (error->message, mistakes[i].begins));
  g_assert_nonnull (strstr (error->message, mistakes[i].says));
}

static void
test_book (void)
{
  g_autoptr (FrChange) change = sample_book (3);
  g_autoptr (GPtrArray) records = g_ptr_array_new ();
  for (guint i = 0; i < change->steps->len; i++)
    g_ptr_array_add (records, ((FrStep *)g_ptr_array_index (change->steps, i))->after);
  g_autofree char *text = fr_book_to_json (records);
  g_autoptr (JsonNode) node = parse (text);
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) back = fr_book_from_json (node, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (back->len, ==, records->len);
  for (guint i = 0; i < back->len; i++)
    g_assert_true (fr_record_equal (g_ptr_array_index (back, i), g_ptr_array_index (records, i)));
}

static void
test_small_book (void)
{
  static const char *const text
      = "{\"cooker\": [{\"id\": 1, \"vessel\": 1, " PLATE "}], \"vessel\": [{" POT "}]}";
  g_autoptr (JsonNode) node = parse (text);
  g_autoptr (JsonNode) nothing = parse ("{}");
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) records = fr_book_from_json (node, &error);
  g_assert_no_error (error);
  /* The vessel stands before the cooker that refers to it; left out are unknown, no, the first choice, no
   * identity yet. */
  g_assert_cmpuint (records->len, ==, 2);
  const FrRecord *vessel = g_ptr_array_index (records, 0);
  g_assert_cmpstr (fr_record_label (vessel), ==, "Pot");
  g_assert_cmpstr (vessel->uid, ==, "");
  g_assert_cmpstr (fr_record_text (vessel, fr_kind_field (vessel->kind, "shape")), ==, "cylinder");
  g_assert_true (
      isnan (fr_record_amount ((FrRecord *)vessel, fr_kind_field (vessel->kind, "cutoff_l"))->value));
  g_assert_false (vessel->archived);
  g_autoptr (GPtrArray) none = fr_book_from_json (nothing, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (none->len, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (int kind = 0; kind < FR_N_KINDS; kind++)
    {
      g_autofree char *round_trip = g_strdup_printf ("/record-json/round-trip/%s", fr_kind (kind)->name);
      g_autofree char *values = g_strdup_printf ("/record-json/values/%s", fr_kind (kind)->name);
      g_test_add_data_func (round_trip, GINT_TO_POINTER (kind), test_round_trip);
      g_test_add_data_func (values, GINT_TO_POINTER (kind), test_values);
    }
  g_test_add_func ("/record-json/unknown-is-null", test_unknown_is_null);
  g_test_add_func ("/record-json/instants", test_instants);
  for (guint i = 0; i < G_N_ELEMENTS (mistakes); i++)
    {
      g_autofree char *path = g_strconcat ("/book-json/mistake/", mistakes[i].name, NULL);
      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_mistake);
    }
  g_test_add_func ("/book-json/round-trip", test_book);
  g_test_add_func ("/book-json/small-book", test_small_book);
  return g_test_run ();
}
