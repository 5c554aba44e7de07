/* A POSIX lock belongs to the program, and goes as soon as any part of the program closes the file it lies
 * on: a file chooser that looks into the files of a folder to tell their kind is enough. SQLite then has no
 * lock left while it believes in it, and the next program that closes the book takes the write-ahead log away
 * with all that is written to it afterwards. Linux has locks that belong to the opened file instead
 * (fcntl(2), "open file description locks"); both kinds see each other. SQLite's system calls can be replaced
 * one by one, so here its fcntl asks for those. Where the system does not know them it gets what it asked
 * for.
 *
 * Two connections of one program to one book share one set of locks inside SQLite and may find each other
 * busy where they would not before; no program of this house opens a book twice. */
#include "store/own-locks.h"

#include <errno.h>
#include <fcntl.h>
#include <glib.h>
#include <sqlite3.h>
#include <stdarg.h>

static int
own_command (int command)
{
  switch (command)
    {
    case F_GETLK:
      return F_OFD_GETLK;
    case F_SETLK:
      return F_OFD_SETLK;
    case F_SETLKW:
      return F_OFD_SETLKW;
    default:
      return -1;
    }
}

static int
own_fcntl (int fd, int command, ...)
{
  va_list rest;
  int own = own_command (command), result;

  va_start (rest, command);
  if (own != -1)
    {
      struct flock *lock = va_arg (rest, struct flock *);

      lock->l_pid = 0; /* asked for by this kind of lock */
      result = fcntl (fd, own, lock);
      if (result == -1 && errno == EINVAL)
        result = fcntl (fd, command, lock);
    }
  else
    result = fcntl (fd, command, va_arg (rest, int));
  va_end (rest);
  return result;
}

void
fr_own_locks_begin (void)
{
  static gsize begun = 0;
  sqlite3_vfs *vfs;

  if (!g_once_init_enter (&begun))
    return;
  sqlite3_initialize ();
  vfs = sqlite3_vfs_find (NULL);
  if (vfs != NULL && vfs->iVersion >= 3 && vfs->xSetSystemCall != NULL)
    vfs->xSetSystemCall (vfs, "fcntl", (sqlite3_syscall_ptr)own_fcntl);
  g_once_init_leave (&begun, 1);
}
