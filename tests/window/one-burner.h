/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* A range of one burner, all of whose faults are soon tried. */

#include <glib.h>

static const char one_burner_text[]
    = "<range format='1' id='one' name='One burner' plate='natural-gas'>"
      "<part id='house' kind='house'><at sheet='wiring' x='160' y='200'/>"
      "<at sheet='gas' x='160' y='200'/></part>"
      "<part id='knob' kind='knob' label='Knob'/>"
      "<part id='switch' kind='spark-switch' label='Switch' moved-by='knob'>"
      "<at sheet='wiring' x='400' y='120'/></part>"
      "<part id='module' kind='spark-module' label='Spark module'>"
      "<at sheet='wiring' x='640' y='240'/></part>"
      "<part id='valve' kind='valve-top' label='Valve' moved-by='knob'>"
      "<at sheet='gas' x='400' y='200'/></part>"
      "<part id='burner' kind='burner-top' label='Burner'><at sheet='gas' x='640' y='200'/></part>"
      "<part id='electrode' kind='electrode' label='Electrode' in='burner'>"
      "<at sheet='wiring' x='880' y='120'/></part>"
      "<part id='chassis' kind='chassis' label='Chassis'>"
      "<at sheet='wiring' x='640' y='480'/></part>"
      "<wire id='w1' from='house.line' to='switch.a' colour='BK' gauge='18 AWG' length='1 m'/>"
      "<wire id='w2' from='switch.b' to='module.in' colour='OG' gauge='18 AWG' length='1 m'/>"
      "<wire id='w3' from='module.neutral' to='house.neutral' colour='WH' gauge='18 AWG' "
      "length='1 m'/>"
      "<wire id='w4' from='house.pipe' to='chassis.body' colour='GN' gauge='18 AWG' length='1 m'/>"
      "<wire id='w5' from='module.ground' to='chassis.body' colour='GN' gauge='18 AWG' "
      "length='1 m'/>"
      "<lead id='l1' from='module.out-lf' to='electrode.lead' length='0.7 m'/>"
      "<pipe id='p1' from='house.gas' to='valve.in' bore='9.5 mm' length='0.5 m'/>"
      "<pipe id='p2' from='valve.out' to='burner.in' bore='6.4 mm' length='0.5 m'/>"
      "</range>";

/* Its file, in the folder for what is temporary. (transfer full) */
static inline char *
one_burner_file (void)
{
  char *file = g_strdup_printf ("%s/one-burner-%u.xml", g_get_tmp_dir (), g_random_int ());

  g_assert_true (g_file_set_contents (file, one_burner_text, -1, NULL));
  return file;
}
