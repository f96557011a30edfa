/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* sheet: pictures.  HobScene holds all that a picture needs, as plain arrays of copies; scene.c is
 * the only file here that reads runs for a sheet. */

#include "run/run.h"

G_BEGIN_DECLS

typedef struct
{
  double volts;   /* V rms to earth at `from` */
  double current; /* A rms */
  int flow;       /* +1: real power goes from → to, −1 the other way, 0 none */
  gboolean live;  /* over 50 V to earth */
  gboolean differs; /* its current does */
  double should_be; /* A */
  gboolean volts_differ;
  double volts_should_be;
} HobWireScene;

typedef struct
{
  double pressure; /* Pa, at `from` */
  double arrives;  /* Pa, at `to` */
  double flow;     /* kg/s from → to */
  double power;    /* W of heat that this flow carries */
  gboolean differs;
  double should_be; /* W */
  gboolean pressure_differs;
  double pressure_should_be; /* Pa */
} HobPipeScene;

typedef struct
{
  gboolean sparking;
  double rate;    /* 1/s */
  double fresh;   /* 0…1: 1 the moment of a pulse, 0 after 80 ms */
  gboolean at_cap; /* this one, or in a steady sign most of them */
} HobLeadScene;

typedef struct
{
  HobPartView view;   /* per part, arrays owned by the scene */
  double figure;      /* value of the kind's figure quantity; NaN: none */
  gboolean differs;
  double should_be;
  int noted;          /* quantity that says how it differs where its figure doesn't; −1: none */
  double note_should_be;
  gboolean opening_differs; /* of a valve, how far it is open */
  double opening_should_be;
  gboolean culprit;   /* it misbehaves by itself, and that shows somewhere */
  int blamed;         /* branch inside it (ducts count on after them) that does so; −1: all of it */
  double unlit;       /* W of gas that it lets into the air without a flame */
  double gathered;    /* J of unlit gas in it */
  int fault;          /* index of the first fault present, −1: none */
  double severity;
} HobPartScene;

typedef struct _HobScene
{
  const HobRange *range; /* borrowed */
  double t;
  gboolean gas_sinks;    /* heavier than air */
  guint64 seed;          /* of chance: which spark fires */
  HobPartScene *parts;
  HobWireScene *wires;
  HobPipeScene *pipes;
  HobLeadScene *leads;
  gboolean eyes_only;    /* nothing that senses could not get is in here */
  double speed;          /* simulated s per wall s; above 4 sparks become a steady sign */
  double clock;          /* wall s for motion; constant while still */
  gboolean still;
  gboolean covered;      /* without tags */
  int chosen_part;       /* −1 */
  int chosen_wire;       /* −1 */
} HobScene;

/* A range at rest, its controls as at load. (transfer full) */
HobScene *hob_scene_new (const HobRange *range);
void hob_scene_free (HobScene *scene);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobScene, hob_scene_free)

/* A part as the paper shows it: cold, at rest.  @numbers holds hob_part_view_numbers doubles. */
void hob_part_view_still (HobPartView *view, const HobRange *range, int part, HobSheet sheet,
                          double *numbers);
gsize hob_part_view_numbers (const HobKind *kind);

/* Fills scenes of one range from its runs. */
typedef struct _HobSceneReader HobSceneReader;

HobSceneReader *hob_scene_reader_new (const HobPlan *plan); /* (transfer full) */
void hob_scene_reader_free (HobSceneReader *reader);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobSceneReader, hob_scene_reader_free)

/* From @run at t and, unless NULL, from what should be there at the same t (run/step-twin.h).  What
 * is set in @scene before (still, speed, eyes_only) decides what it gets. */
void hob_scene_read (HobSceneReader *reader, HobScene *scene, HobRun *run, HobRun *should_be,
                     double t);

G_END_DECLS
