/* GLib keeps its names (quarks) in an array of 2,048, and leaves that behind on purpose when a program has more: readers take
 * no lock (gquark.c says so). A window with all its pages has more, and the leak sanitizer would count the array. Before
 * main its only holder is a variable of GLib's own; whatever block of just that size GLib's variables point to then is
 * not to be counted. Without the sanitizer this file is empty. */
#ifdef __SANITIZE_ADDRESS__

#include <link.h>
#include <string.h>

/* Of the sanitizer's runtime, whose headers do not all come with the compiler. */
int __sanitizer_get_ownership (const volatile void *p);
size_t __sanitizer_get_allocated_size (const volatile void *p);
void __lsan_ignore_object (const void *p);

#define NAMES_SIZE (2048 * sizeof (char *))

static int
look (struct dl_phdr_info *info, size_t size, void *data)
{
  (void)size;
  (void)data;
  if (strstr (info->dlpi_name, "libglib-2.0.so") == NULL)
    return 0;
  for (int i = 0; i < info->dlpi_phnum; i++)
    {
      const ElfW (Phdr) *part = &info->dlpi_phdr[i];
      void **from = (void **)(info->dlpi_addr + part->p_vaddr);

      if (part->p_type != PT_LOAD || (part->p_flags & PF_W) == 0)
        continue;
      for (void **at = from; at < from + part->p_memsz / sizeof *at; at++)
        if (__sanitizer_get_ownership (*at) && __sanitizer_get_allocated_size (*at) == NAMES_SIZE)
          __lsan_ignore_object (*at);
    }
  return 1;
}

__attribute__ ((constructor)) static void
spare_names (void)
{
  dl_iterate_phdr (look, NULL);
}

#endif

typedef int fr_glib_names; /* no file may be empty */
