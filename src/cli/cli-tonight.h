/* The tonight command, for the table of commands. */
#pragma once

#include "cli/cli-commands.h"

G_BEGIN_DECLS

extern const GOptionEntry fr_tonight_entries[];

gboolean fr_tonight_run (const FrCommandOptions *options, const char *file, GString *answer, GError **error);

G_END_DECLS
