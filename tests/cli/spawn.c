/* Spawning and looking into what comes back; answers are read with json-glib's own parser, which shares
 * nothing with the program's writer. */
#include "spawn.h"

#include <gio/gio.h>
#include <math.h>
#include <string.h>

static JsonParser *parser;

static char *
to_text (GBytes *bytes)
{
  gsize length = 0;
  const char *data = bytes != NULL ? g_bytes_get_data (bytes, &length) : NULL;

  return length > 0 ? g_strndup (data, length) : g_strdup ("");
}

Answer
cli_run (const char *arguments, const char *input, gssize length)
{
  g_autofree char *line = g_strdup_printf ("%s %s", g_getenv ("FROSTRUN_CLI"), arguments);
  g_auto (GStrv) argv = g_strsplit (line, " ", -1);
  g_autoptr (GError) error = NULL;
  g_autoptr (GSubprocess) child = NULL;
  g_autoptr (GBytes) in = g_bytes_new (input, input == NULL ? 0
                                              : length < 0  ? strlen (input)
                                                            : (gsize)length);
  g_autoptr (GBytes) out = NULL, err = NULL;
  Answer answer = { 0 };

  child = g_subprocess_newv ((const char *const *)argv,
                             G_SUBPROCESS_FLAGS_STDIN_PIPE | G_SUBPROCESS_FLAGS_STDOUT_PIPE
                                 | G_SUBPROCESS_FLAGS_STDERR_PIPE,
                             &error);
  g_assert_no_error (error);
  /* A child that refuses early may leave the pipe before it has taken everything. */
  if (!g_subprocess_communicate (child, in, NULL, &out, &err, &error))
    g_assert_true (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_BROKEN_PIPE));
  g_assert_true (g_subprocess_wait (child, NULL, NULL));
  g_assert_true (g_subprocess_get_if_exited (child));
  answer.code = g_subprocess_get_exit_status (child);
  answer.out = to_text (out);
  answer.err = to_text (err);
  return answer;
}

Answer
run (const char *format, const char *input, ...)
{
  g_autofree char *arguments = NULL;
  va_list args;

  va_start (args, input);
  arguments = g_strdup_vprintf (format, args);
  va_end (args);
  return cli_run (g_strchomp (arguments), input, -1);
}

void
answer_clear (Answer *answer)
{
  g_clear_pointer (&answer->out, g_free);
  g_clear_pointer (&answer->err, g_free);
}

JsonNode *
answer_root (const Answer *answer)
{
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (answer->code, ==, 0);
  if (parser == NULL)
    parser = json_parser_new ();
  json_parser_load_from_data (parser, answer->out, -1, &error);
  g_assert_no_error (error);
  return json_parser_get_root (parser);
}

static JsonNode *
look_up (const Answer *answer, const char *path)
{
  g_auto (GStrv) parts = g_strsplit (path, "/", -1);
  JsonNode *node = answer_root (answer);

  for (guint i = 0; parts[i] != NULL; i++)
    {
      if (JSON_NODE_HOLDS_ARRAY (node))
        node = json_array_get_element (json_node_get_array (node),
                                       (guint)g_ascii_strtoull (parts[i], NULL, 10));
      else
        node = json_object_get_member (json_node_get_object (node), parts[i]);
      if (node == NULL)
        g_error ("no %s in %s", path, answer->out);
    }
  return node;
}

double
answer_number (const Answer *answer, const char *path)
{
  JsonNode *node = look_up (answer, path);

  if (JSON_NODE_HOLDS_NULL (node))
    return NAN;
  g_assert_true (JSON_NODE_HOLDS_VALUE (node));
  return json_node_get_double (node);
}

const char *
answer_string (const Answer *answer, const char *path)
{
  return json_node_get_string (look_up (answer, path));
}

void
has_keys (JsonObject *object, const char *const *keys)
{
  guint n = 0;

  for (; keys[n] != NULL; n++)
    if (!json_object_has_member (object, keys[n]))
      g_error ("no %s", keys[n]);
  g_assert_cmpuint (json_object_get_size (object), ==, n);
}

char *
kept_text (const char *name)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "cli", "kept", name, NULL);
  g_autoptr (GError) error = NULL;
  char *text;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  return text;
}

char *
with (const char *text, const char *from, const char *to)
{
  const char *at = strstr (text, from);

  if (at == NULL)
    g_error ("no %s in the kept text", from);
  return g_strdup_printf ("%.*s%s%s", (int)(at - text), text, to, at + strlen (from));
}
