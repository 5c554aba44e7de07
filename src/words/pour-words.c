/* What to do, in one sentence: what to pour where, and when to start; or, for a night that was kept, what was
 * poured. */
#include "words/plan-words-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

static char *
bold_amount (const FrSay *say, double value, FrQuantityKind kind)
{
  return fr_say_bold (fr_say_amount (say, value, kind, -1));
}

/* "Pour 2.5 L into the pan and 22.5 L into the bucket." */
char *
fr_pour_sentence (const FrSay *say, const FrPlanShare *share, const FrPlanKit *kit)
{
  g_autofree char *pan = bold_amount (say, share->pan_l, FR_QUANTITY_VOLUME);
  g_autofree char *bucket = bold_amount (say, share->bucket_l, FR_QUANTITY_VOLUME);

  if (share->bucket_l > 0 && share->pan_l > 0)
    return g_strdup_printf (_ ("Pour %s into the pan and %s into the bucket."), pan, bucket);
  if (share->bucket_l > 0)
    return g_strdup_printf (_ ("Pour %s into the bucket; the pan holds enough from last night."), bucket);
  if (!(share->pan_l > 0))
    return g_strdup (_ ("Boil what is in the pan from last night."));
  return g_strdup_printf (_ ("Pour %s into the pan; the bucket stays empty."), pan);
}

/* A kept night speaks of what was poured, and once it has begun of when to look. */
static char *
kept_sentence (const FrPlan *plan, const FrPlanInput *input, const FrSay *say)
{
  g_autofree char *start = fr_say_bold (fr_say_clock (say, input->start_utc)), *pan = NULL, *bucket = NULL,
                  *look = NULL;
  double pan_l = 0, bucket_l = 0;

  for (guint i = 0; i < plan->n_shares; i++)
    if (plan->shares[i].used)
      {
        pan_l += plan->shares[i].pan_l;
        bucket_l += plan->shares[i].bucket_l;
      }
  pan = bold_amount (say, pan_l, FR_QUANTITY_VOLUME);
  bucket = bold_amount (say, bucket_l, FR_QUANTITY_VOLUME);
  if (input->now_utc < input->start_utc)
    return g_strdup_printf (_ ("Kept: %s in the pan, %s in the bucket. Start at %s."), pan, bucket, start);
  for (guint i = 0; i < plan->n_cautions; i++)
    if (plan->cautions[i].code == FR_CAUTION_ATTEND)
      look = fr_say_bold (fr_say_clock (say, MAX ((gint64)plan->cautions[i].a, input->now_utc)));
  if (look == NULL)
    return g_strdup_printf (_ ("Kept: %s in the pan, %s in the bucket since %s."), pan, bucket, start);
  return g_strdup_printf (_ ("Kept: %s in the pan, %s in the bucket since %s. Look next at %s."), pan, bucket,
                          start, look);
}

char *
fr_plan_sentence (const FrPlan *plan, const FrPlanInput *input, const FrSay *say)
{
  g_autofree char *clock = fr_say_bold (fr_say_clock (say, input->start_utc));
  const FrPlanShare *only = NULL;
  guint n_used = 0;

  for (guint i = 0; i < plan->n_shares; i++)
    if (plan->shares[i].used)
      {
        n_used++;
        only = &plan->shares[i];
      }
  if (input->kept)
    return kept_sentence (plan, input, say);
  if (n_used == 1)
    {
      g_autofree char *what = fr_pour_sentence (say, only, &input->kits[only->kit]);

      /* Translators: first a sentence on what to pour, then a clock time */
      return g_strdup_printf (_ ("%s Start at %s."), what, clock);
    }
  {
    g_autofree char *used = bold_amount (say, plan->used_l, FR_QUANTITY_VOLUME);
    GString *text = g_string_new (NULL);

    g_string_append_printf (text, _ ("Share %s among %u cookers and start at %s:"), used, n_used, clock);
    for (guint i = 0, nth = 0; i < plan->n_shares; i++)
      {
        const FrPlanShare *share = &plan->shares[i];
        g_autofree char *name = NULL, *pan = NULL, *bucket = NULL;

        if (!share->used)
          continue;
        name = g_markup_escape_text (input->kits[share->kit].name, -1);
        pan = bold_amount (say, share->pan_l, FR_QUANTITY_VOLUME);
        bucket = bold_amount (say, share->bucket_l, FR_QUANTITY_VOLUME);
        /* Translators: pan litres, bucket litres, the cooker's name */
        g_string_append_printf (text, _ (" %s in the pan and %s in the bucket of the %s"), pan, bucket, name);
        nth++;
        g_string_append (text, nth == n_used ? _ (".") : nth == n_used - 1 ? _ (", and") : _ (","));
      }
    return g_string_free (text, FALSE);
  }
}
