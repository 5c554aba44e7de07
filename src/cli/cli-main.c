/* frostrun-cli: the same answers as the window's, for scripts and for people at a terminal. Exit code 0
 * answered, 1 the input is wrong, 2 something else failed. */
#include "cli/cli-commands.h"
#include "cli/cli-print.h"
#include "formats/json-input.h"

#include <locale.h>
#include <stdio.h>
#include <string.h>

static void
append_help (GString *out)
{
  guint width = 0;

  g_string_append (out,
                   "Usage: frostrun-cli COMMAND [OPTION…] [IN.json]\n\n"
                   "Plans the boiling of maple sap: times, litres, thickness and cost. SI units and °C.\n\n"
                   "Commands:\n");
  for (guint i = 0; i < fr_n_commands; i++)
    width = MAX (width, strlen (fr_commands[i].name));
  for (guint i = 0; i < fr_n_commands; i++)
    g_string_append_printf (out, "  %-*s  %s\n", (int)width, fr_commands[i].name, fr_commands[i].summary);
  g_string_append (out, "\nOptions:\n"
                        "  --json     Answer in JSON, for programs\n"
                        "  --help     This text, or that of a command: frostrun-cli boil --help\n"
                        "  --version  The version\n\n"
                        "IN.json may be - for standard input.\n"
                        "Exit code: 0 answered, 1 the input is wrong, 2 something else failed.\n\n"
                        "Example:\n");
  g_string_append_printf (out, "  %s\n", fr_commands[0].example);
}

static void
append_command_help (const FrCommand *command, GString *out)
{
  g_auto (GStrv) example = g_strsplit (command->example, "\n", -1);

  g_string_append_printf (out, "Usage: frostrun-cli %s %s [--json]\n\n%s\n\nOptions:\n", command->name,
                          command->arguments, command->description);
  for (const GOptionEntry *entry = command->entries; entry != NULL && entry->long_name != NULL; entry++)
    {
      g_autofree char *option
          = g_strdup_printf ("%s--%s%s%s", entry->short_name == 'o' ? "-o, " : "", entry->long_name,
                             entry->arg_description != NULL ? " " : "",
                             entry->arg_description != NULL ? entry->arg_description : "");

      g_string_append_printf (out, "  %-20s  %s\n", option, entry->description);
    }
  g_string_append_printf (out, "  %-20s  %s\n  %-20s  %s\n\nExample:\n", "--json",
                          "Answer in JSON, for programs", "--help", "This text");
  for (guint i = 0; example[i] != NULL; i++)
    g_string_append_printf (out, "  %s\n", example[i]);
}

/* Writes @answer; the exit code. */
static int
finish (const GString *answer)
{
  return fr_print_answer (answer) ? FR_EXIT_ANSWERED : FR_EXIT_FAILED;
}

static int
run_command (const FrCommand *command, int argc, char **argv)
{
  FrCommandOptions options = { FALSE };
  gboolean help = FALSE;
  const GOptionEntry shared[] = { { "json", 0, 0, G_OPTION_ARG_NONE, &options.json, NULL, NULL },
                                  { "help", 'h', 0, G_OPTION_ARG_NONE, &help, NULL, NULL },
                                  { NULL } };
  g_autoptr (GOptionContext) context = g_option_context_new (NULL);
  g_autoptr (GString) answer = g_string_new (NULL);
  g_autoptr (GError) error = NULL;
  int wanted = 1;
  const char *file;

  g_option_context_set_help_enabled (context, FALSE);
  g_option_context_add_main_entries (context, shared, NULL);
  if (command->entries != NULL)
    g_option_context_add_main_entries (context, command->entries, NULL);
  if (!g_option_context_parse (context, &argc, &argv, &error))
    {
      fr_print_complaint ("%s; see frostrun-cli %s --help", error->message, command->name);
      return FR_EXIT_WRONG_INPUT;
    }
  if (help)
    {
      append_command_help (command, answer);
      return finish (answer);
    }
  if (argc > 1 && strcmp (argv[1], "--") == 0)
    {
      argv++;
      argc--;
    }
  if (command->takes_file && (command->book == NULL || *command->book == NULL))
    wanted = 2;
  if (argc < wanted)
    {
      fr_print_complaint ("%s needs a file, %s; see frostrun-cli %s --help", command->name,
                          command->book != NULL ? "- for standard input, or --book" : "or - for standard input",
                          command->name);
      return FR_EXIT_WRONG_INPUT;
    }
  if (argc > wanted)
    {
      g_autofree char *quoted = fr_json_quote (argv[wanted]);

      fr_print_complaint ("%s does not take “%s”; see frostrun-cli %s --help", command->name, quoted,
                          command->name);
      return FR_EXIT_WRONG_INPUT;
    }
  file = wanted == 2 ? argv[1] : NULL;
  if (!command->run (&options, file, answer, &error))
    {
      gboolean wrong = g_error_matches (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG);

      if (file != NULL)
        fr_print_complaint ("%s: %s", strcmp (file, "-") == 0 ? "standard input" : file, error->message);
      else
        fr_print_complaint ("%s", error->message);
      return wrong ? FR_EXIT_WRONG_INPUT : FR_EXIT_FAILED;
    }
  return finish (answer);
}

int
main (int argc, char **argv)
{
  g_autoptr (GString) answer = g_string_new (NULL);
  g_autoptr (GPtrArray) names = g_ptr_array_new ();
  g_autofree char *quoted = NULL;
  const char *nearest;

  setlocale (LC_ALL, "");
  setlocale (LC_NUMERIC, "C");

  if (argc < 2)
    {
      append_help (answer);
      fputs (answer->str, stderr);
      return FR_EXIT_WRONG_INPUT;
    }
  if (strcmp (argv[1], "--help") == 0 || strcmp (argv[1], "-h") == 0)
    {
      append_help (answer);
      return finish (answer);
    }
  if (strcmp (argv[1], "--version") == 0)
    {
      g_string_append (answer, "frostrun-cli " FR_VERSION "\n");
      return finish (answer);
    }
  for (guint i = 0; i < fr_n_commands; i++)
    {
      if (strcmp (argv[1], fr_commands[i].name) == 0)
        return run_command (&fr_commands[i], argc - 1, argv + 1);
      g_ptr_array_add (names, (gpointer)fr_commands[i].name);
    }
  g_ptr_array_add (names, NULL);
  quoted = fr_json_quote (argv[1]);
  nearest = fr_input_nearest (argv[1], (const char *const *)names->pdata);
  if (nearest != NULL)
    fr_print_complaint ("“%s” is no command; did you mean %s?", quoted, nearest);
  else
    fr_print_complaint ("“%s” is no command; see frostrun-cli --help", quoted);
  return FR_EXIT_WRONG_INPUT;
}
