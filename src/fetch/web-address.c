/* Addresses are compared by scheme, host and port (an origin of RFC 6454); what leaves it is never followed,
 * so that a service, or somebody between, cannot send the household's place elsewhere. */
#include "fetch/web-address.h"

#include <gio/gio.h>
#include <string.h>

/* Of names and of addresses in figures (RFC 3986, 3.2.2, without those nobody uses in a host). */
#define HOST_LETTERS G_CSET_A_2_Z G_CSET_a_2_z G_CSET_DIGITS "-._:%"
#define FLAGS (G_URI_FLAGS_ENCODED | G_URI_FLAGS_SCHEME_NORMALIZE)

static gboolean
is_loopback (const char *host)
{
  g_autoptr (GInetAddress) address = g_inet_address_new_from_string (host);

  return address != NULL ? g_inet_address_get_is_loopback (address)
                         : g_ascii_strcasecmp (host, "localhost") == 0;
}

static gboolean
may_be_asked (GUri *uri)
{
  const char *scheme = g_uri_get_scheme (uri), *host = g_uri_get_host (uri);

  if (host == NULL || *host == '\0' || strspn (host, HOST_LETTERS) != strlen (host)
      || g_uri_get_userinfo (uri) != NULL)
    return FALSE;
  return strcmp (scheme, "https") == 0 || (strcmp (scheme, "http") == 0 && is_loopback (host));
}

GUri *
fr_web_address_base (const char *text)
{
  g_autoptr (GUri) uri = NULL;
  g_autofree char *trimmed = text != NULL ? g_strstrip (g_strdup (text)) : NULL;

  uri = trimmed != NULL ? g_uri_parse (trimmed, FLAGS, NULL) : NULL;
  if (uri == NULL || !may_be_asked (uri) || g_uri_get_query (uri) != NULL || g_uri_get_fragment (uri) != NULL)
    return NULL;
  return g_steal_pointer (&uri);
}

char *
fr_web_address_join (GUri *base, const char *path)
{
  g_autofree char *text = g_uri_to_string (base);
  gsize length = strlen (text);

  while (length > 0 && text[length - 1] == '/')
    text[--length] = '\0';
  return g_strconcat (text, path, NULL);
}

char *
fr_web_address_follow (const char *from, const char *link)
{
  g_autoptr (GUri) old = g_uri_parse (from, FLAGS, NULL);
  g_autoptr (GUri) new = old != NULL ? g_uri_parse_relative (old, link, FLAGS, NULL) : NULL;

  if (new == NULL || !may_be_asked (new) || strcmp (g_uri_get_scheme (new), g_uri_get_scheme (old)) != 0
      || g_ascii_strcasecmp (g_uri_get_host (new), g_uri_get_host (old)) != 0
      || g_uri_get_port (new) != g_uri_get_port (old))
    return NULL;
  return g_uri_to_string (new);
}
