/* Writes src/domain/maths/sap-members.c anew from the measured seasons: fit-members > src/domain/maths/sap-members.c */
#include "formats/measured-seasons.h"

#include <stdio.h>

int
main (void)
{
  g_autoptr (FrSapFit) fit = fr_measured_fit (-1);

  printf ("/* What may hold of a bush: members fitted by sap-fit.c on the two measured seasons of data/sap, each of the same\n"
          " * weight. Written by tests/long/fit-members; evidence %.2f, %u draws carry the weight. */\n"
          "#include \"domain/maths/sap-learn.h\"\n\n"
          "static const FrSapMember members[] = {\n"
          "  /* lag_h, thaw_c, rest_k, charge_h, drain_per_k_h, cap_k, ice_k_h, age_days, end_k_days; gain_l, scatter_ratio, weight */\n",
          fit->log_probability, fit->n_effective);
  for (guint i = 0; i < fit->members.n; i++)
    {
      const FrSapMember *one = &fit->members.members[i];
      const FrSapShape *shape = &one->shape;

      printf ("  { { %.4g, %.4g, %.4g, %.4g, %.4g, %.4g, %.4g, %.4g, %.4g }, %.4g, %.4g, 1.0 / %u },\n", shape->lag_h,
              shape->thaw_c, shape->rest_k, shape->charge_h, shape->drain_per_k_h, shape->cap_k, shape->ice_k_h, shape->age_days,
              shape->end_k_days, one->gain_l, one->scatter_ratio, fit->members.n);
    }
  printf ("};\n\n"
          "const FrSapMembers *\nfr_sap_members (void)\n{\n"
          "  static const FrSapMembers all = { G_N_ELEMENTS (members), members, %.4g };\n\n"
          "  return &all;\n}\n",
          fit->members.gain_spread_ratio);
  return 0;
}
