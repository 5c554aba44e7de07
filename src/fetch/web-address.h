/* Which addresses may be asked: https, and http on this computer alone. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* @text as the household wrote it, or NULL when it is no base address that may be asked: it needs a scheme
 * and a host, may have a path, and has no name and password, no query and no fragment. http is for the
 * loopback addresses, which no other computer hears. */
GUri *
fr_web_address_base (const char *text);

/* Path and query behind a base address, as text. */
char *
fr_web_address_join (GUri *base, const char *path);

/* @link, which may be relative, seen from @from: the whole address when it stays on the same scheme, host and
 * port; NULL when not. */
char *
fr_web_address_follow (const char *from, const char *link);

G_END_DECLS
