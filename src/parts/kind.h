/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* parts: one file for each kind of part: how it works, fails and is drawn.  A kind sees its own
 * settings, states, terminals and ports, and the place it is in.  Parts act on one another through
 * wires, pipes, leads, shafts and air alone. */

#include "base/pen.h"
#include "base/units.h"
#include "parts/means.h"
#include "parts/place.h"
#include "physics/circuit.h"
#include "physics/gas.h"

G_BEGIN_DECLS

typedef struct _HobKind HobKind;
typedef struct _HobPartContext HobPartContext;
typedef struct _HobPartView HobPartView;

typedef enum { HOB_SHEET_WIRING, HOB_SHEET_GAS, HOB_SHEET_CUTAWAY, HOB_N_SHEETS } HobSheet;

/* ---- The tables of a kind ---- */

/* How a value is said to a person; see parts/say.h. */
typedef enum
{
  HOB_SAY_AMOUNT,  /* with its unit */
  HOB_SAY_SHARE,   /* 0…1, in percent */
  HOB_SAY_PERCENT, /* it is in percent */
  HOB_SAY_GLOW,    /* K, as the color of what glows */
  HOB_SAY_HOLE,    /* m², as the width of a round hole */
  HOB_SAY_ABOVE,   /* with its unit and "above", or "below" if it is negative */
  HOB_SAY_AIR,     /* kg/s of air, as its volume in a room */
  HOB_SAY_FEET,    /* m, in feet however short */
  HOB_SAY_GAUGE,   /* m, as an American wire gauge where it is one */
} HobSay;

/* Which conductor of the supply a terminal belongs to. */
typedef enum
{
  HOB_CONDUCTOR_NONE,
  HOB_CONDUCTOR_LINE,
  HOB_CONDUCTOR_NEUTRAL,
  HOB_CONDUCTOR_GROUND,
} HobConductor;

/* An electric terminal.  x, y: where it is on the wiring symbol, px from the symbol's center,
 * multiples of 20. */
typedef struct
{
  const char *name;
  const char *mark;  /* NC_ ("terminal", …) as printed beside it; NULL: its name from the dash on */
  const char *words; /* N_() */
  gboolean required; /* a wire must reach it */
  double x, y;
  gboolean high_voltage; /* takes a <lead>, never a wire; it is not a node of the circuit */
  gboolean inner;        /* inside: no wire comes to it, though a meter can */
  int mate;              /* HOB_MATE (terminal): its other half, at which wires end; 0: itself */
  HobConductor conductor;
} HobTerminalDef;

/* A blade is the part's own, and the slot that it enters belongs to what the wires come from: each
 * is a node, and an element of the part, the contact, joins them. */
#define HOB_MATE(terminal) ((terminal) + 1)

/* Where the wires to @terminal of @terminals end. */
static inline int
hob_terminal_landing (const HobTerminalDef *terminals, int terminal)
{
  return terminals[terminal].mate > 0 ? terminals[terminal].mate - 1 : terminal;
}

/* Two halves of one contact, such as a blade and its slot: pulled apart, they are not joined. */
static inline gboolean
hob_terminals_are_mates (const HobTerminalDef *terminals, int a, int b)
{
  return hob_terminal_landing (terminals, a) == b || hob_terminal_landing (terminals, b) == a;
}

typedef enum { HOB_WAY_ANY, HOB_WAY_IN, HOB_WAY_OUT } HobWay;

/* A gas port. x, y on the gas symbol. */
typedef struct
{
  const char *name;
  const char *words;
  gboolean required;
  HobWay way;
  double x, y;
} HobPortDef;

/* What a setting says about the house rather than the appliance. */
typedef enum
{
  HOB_SETTING_APPLIANCE,
  HOB_SETTING_HOUSE,   /* a condition of the house: a normal appliance in it would have it too */
  HOB_SETTING_NOMINAL, /* one whose nominal value is `normal`, whatever the file says */
  HOB_SETTING_FUEL,    /* what flows, an index into hob_fuels[]: nominally what the plate says */
} HobSettingOf;

/* A setting: what the file may set.  Only faults change a *condition*; files and --setting refuse
 * it.  What is left out: a plain number, normally 0. */
typedef struct
{
  const char *name;
  const char *words; /* N_() one sentence; of a condition for developers alone, not marked */
  HobDimension dim;
  double normal, low, high; /* SI; +INFINITY is allowed for "open" */
  const char *const *choices; /* HOB_DIM_CHOICE: NULL-ended names; the value is the index */
  gboolean condition;
  HobSettingOf of;
  HobSay say; /* SHARE, FEET or GAUGE, where the amount alone would not be the trade's way */
  double visible; /* how far off its sound value it must be for somebody who looks at the part
                     closely to notice; 0: it can't be seen */
  const char *titled; /* N_() around its amount in a title block, "%s humidity"; NULL: its amount
                         alone */
  gboolean feeds;     /* Pa that the burners of the range are made for */
} HobSettingDef;

/* Its value in a nominal house on a range made for @plate, where the file says @filed. */
static inline double
hob_setting_nominal (const HobSettingDef *setting, HobFuelName plate, double filed)
{
  return setting->of == HOB_SETTING_FUEL      ? (double) plate
         : setting->of == HOB_SETTING_NOMINAL ? setting->normal
                                              : filed;
}

/* A continuous state, integrated: slower than about a second. */
typedef struct
{
  const char *name;
  const char *words; /* for developers, not marked */
  HobDimension dim;
  double tolerance; /* absolute, in its unit */
  gboolean amount;  /* of something: there is never less than none */
  gboolean stores;  /* heat of the oven itself: what a normal range is compared with must be as
                       hot */
} HobStateDef;

/* A discrete state; only `flip` changes it. `words` has a phrase for each value 0, 1, …
 * ("contact opens", "contact closes") and ends in NULL. A timer or a counter has no words: its
 * changes are not events. */
typedef struct
{
  const char *name;
  const char *const *words;
  gboolean regulates; /* a contact that keeps what `stores` at its temperature */
  gboolean display;   /* its words are what a display shows */
  int yields[3]; /* 1 + quantities that say how well it does so while its value is 1, the first
                    by its unit alone; ends in 0 */
} HobModeDef;

/* What a position is for, where others must know it. */
typedef enum
{
  HOB_POSITION_PLAIN,
  HOB_POSITION_OFF,
  HOB_POSITION_LIGHT, /* lights a surface burner */
  HOB_POSITION_FULL,  /* … and lets it burn at its highest */
  HOB_POSITION_LOW,
  HOB_POSITION_HOLD,  /* calls for heat up to the set temperature */
  HOB_POSITION_BROIL, /* calls for heat whatever the temperature: the dial is at its end */
} HobPositionRole;

typedef struct
{
  const char *name;
  const char *words; /* N_() as printed on the front */
  double value;
  HobPositionRole role;
} HobPosition;

/* How a control is made and worked. */
typedef enum
{
  HOB_CONTROL_SWITCH,   /* another appliance's, on or off */
  HOB_CONTROL_KNOB,     /* on the stem of a burner valve */
  HOB_CONTROL_SELECTOR, /* a knob that clicks from position to position */
  HOB_CONTROL_DIAL,     /* a knob with a temperature scale */
  HOB_CONTROL_KEYS,     /* a key for each position, beside a display */
  HOB_CONTROL_SET,      /* a set temperature, keyed in */
  HOB_CONTROL_KEY,      /* one key, on and off */
  HOB_CONTROL_BUTTON,   /* a reset button */
  HOB_CONTROL_BREAKER,
  HOB_CONTROL_PLUG,
  HOB_CONTROL_VALVE, /* a gas valve's handle */
  HOB_CONTROL_DOOR,
  HOB_CONTROL_LATCH,
  HOB_CONTROL_PERSON,
  HOB_CONTROL_MATCH,
  HOB_CONTROL_LEADS,  /* leads that a hand moves from one terminal to the next */
} HobControlRole;

/* Where it is found. */
typedef enum { HOB_FRONT_NONE, HOB_FRONT_BURNERS, HOB_FRONT_OVEN, HOB_FRONT_DOOR } HobFrontPlace;

/* How a procedure works a control when it tries the range out. */
typedef enum
{
  HOB_EXERCISE_NONE,
  HOB_EXERCISE_LIGHT, /* at its LIGHT position, then FULL, then OFF → light-ID */
  HOB_EXERCISE_CALL,   /* each position but the first → POSITION-350 or POSITION */
  HOB_EXERCISE_EXCHANGE, /* at its other position, then each of LIGHT → light-ID-exchanged; it is a
                            test, and no part of trying the range out */
  HOB_EXERCISE_UNPLUG, /* the long rest: all-off-8h-unplugged */
  HOB_EXERCISE_TRY     /* each other position for a minute, then back → ID-POSITION */
} HobExercise;

/* What a place is to the parts in it.  A ledger only balances where the heat and the gas of what is
 * in a place are asked for there. */
typedef enum
{
  HOB_ROOM_KITCHEN = 1 << 0,
  HOB_ROOM_OVEN = 1 << 1,
  HOB_ROOM_OVEN_BURNER = 1 << 2,
  HOB_ROOM_SURFACE_BURNER = 1 << 3,
} HobRooms;

/* What a hand can set.  It is called PART.NAME, or just PART (knob-lf) if its name is "". */
typedef struct
{
  const char *name;
  const char *words;
  HobDimension dim; /* CHOICE: positions only; NUMBER: percent of travel, with marks; else SI */
  const HobPosition *positions; /* ends in a NULL name; may be NULL for a dial */
  double low, high, start;
  HobExercise exercise;
  HobControlRole role;
  HobFrontPlace front; /* NONE: around the range, not on its front */
  HobRooms at;         /* besides its positions, it can be at any part that is such a room: its
                          value is then HOB_AT (part), its name the part's id */
} HobControlDef;

#define HOB_AT(part) ((double) (part) + 1)

/* Positions that many controls have, with values 0 and 1. */
extern const HobPosition hob_off_on[], hob_closed_open[];

/* Index of the first position with @role; −1 if it has none. */
int hob_control_position (const HobControlDef *control, HobPositionRole role);

/* A branch of the circuit inside the part, between two of its terminals (index; −1: ground).  b may
 * be HOB_BODY: the metal that the part is fixed to, the chassis nearest to its terminal a. */
#define HOB_BODY (-2)

typedef struct
{
  const char *name;
  int a, b;
  gboolean varies; /* its admittance follows a state from moment to moment, in a normal range too */
} HobElementDef;

/* A duct inside the part between two of its ports (−1: the room's air). */
typedef struct
{
  const char *name;
  int a, b;
} HobDuctDef;

typedef enum { HOB_EFFECT_SET, HOB_EFFECT_MULTIPLY, HOB_EFFECT_ADD } HobEffectHow;

/* A fault changes settings and nothing else.  Its value at severity s,
 *
 *   at0 + (at1 − at0)·s,   or geometric   at0·(at1/at0)^s,
 *
 * is set, multiplied or added.  What is left out: set, from 0, linear. */
typedef struct
{
  int setting;
  HobEffectHow how;
  double at0, at1;
  gboolean geometric;
} HobEffect;

/* A fault.  What is left out: all or nothing, typically 1, on every range, without hazards of its
 * own. */
typedef struct
{
  const char *id;
  const char *words;          /* N_() "heater open" */
  const char *severity_words; /* N_() "%s too hot", around the amount; NULL: all or nothing */
  HobSay say;                 /* how that amount is said: in the setting's unit, plain numbers and
                                 factors in %, or HOLE */
  double typical;             /* severity when none is given; hob_fault_typical () */
  double prior;               /* relative weight: an assumption of this project … */
  const char *basis;          /* … and what it rests on, where there is something; NULL */
  const char *proof;          /* N_() "How to confirm" */
  guint confirm;              /* HOB_MEANS bits: by what that is done */
  HobHazards hazards;         /* its own; those of the means are derived: hob_fault_hazards () */
  int needs;                  /* HOB_NEEDS (terminal): only where that is connected; 0: always */
  int plate;                  /* HOB_PLATE (fuel): only on a range made for it; 0: on any */
  const HobEffect *effects;   /* HOB_EFFECTS (…) */
  int n_effects;
} HobFaultDef;

#define HOB_NEEDS(terminal) ((terminal) + 1)
#define HOB_PLATE(fuel) ((int)(fuel) + 1)
#define HOB_EFFECTS(...)                                                                           \
  .effects = (const HobEffect[]){ __VA_ARGS__ },                                                   \
  .n_effects = sizeof ((const HobEffect[]){ __VA_ARGS__ }) / sizeof (HobEffect)

static inline double
hob_fault_typical (const HobFaultDef *fault)
{
  return fault->typical > 0 ? fault->typical : 1;
}

/* How a person gets to know a quantity; NONE: it takes another instrument, or it is hidden. */
typedef enum
{
  HOB_SENSE_NONE,
  HOB_SENSE_EYE,
  HOB_SENSE_EAR,
  HOB_SENSE_NOSE,
  HOB_SENSE_HAND,
  HOB_SENSE_THERMOMETER,
} HobSense;

/* What a quantity that is 0 or 1 is said to be. */
extern const char *const hob_no_yes[];
extern const char *const hob_bursts[]; /* how hard gas lights, by HobBurst */

/* What a guard or a quantity looks at besides time, settings, controls, modes, states and what its
 * place is given (not what is put into it).  While the moment is looked for at which a guard is
 * due, or a quantity passes a bound, nothing else is computed. */
typedef enum
{
  HOB_READS_ALL,
  HOB_READS_NOTHING = 1 << 0,
  HOB_READS_CIRCUIT = 1 << 1, /* volts and amps */
  HOB_READS_GAS = 1 << 2,     /* pressures and flows */
  HOB_READS_STATES_WITHIN = 1 << 3, /* what parts in its place put there by their states alone */
  HOB_READS_LEADS = 1 << 4,   /* volts and amps, and what is offered to spark leads by them */
} HobReads;

/* What can be asked of a part. */
typedef struct
{
  const char *name;
  const char *words;
  const char *remark; /* N_() what else must be known where it is listed; NULL: nothing */
  const char *says;   /* N_() a sentence around its figure: "The oven is at %s."; NULL: none */
  HobDimension dim;
  HobSay say;
  const char *const *values; /* N_() of 0, 1, …, NULL-ended; NULL: a figure */
  HobSense sense;
  gboolean out_of_reach; /* a temperature that nobody takes: it glows, or it is shut in */
  int trace; /* rank on a chart that nobody has chosen, from 1 to HOB_LAST_TRACE; 0: not there */
  gboolean counts; /* how many so far: its rate is what can be compared, not the number itself */
  gboolean mark;   /* left by heat: it stays, and moves nothing */
  gboolean brief;  /* shows something that has just happened, and only for a while */
  gboolean averages; /* what whole cycles come to */
  double least;    /* below it two values are alike, SI; 0: as all of its dimension, run/differ.h */
  double never;    /* from this value on, it hasn't happened so far; 0: there is none */
  HobReads reads;
} HobQuantityDef;

#define HOB_LAST_TRACE 4

/* What moves what inside a part: one of its quantities moves another one, or a mode.  Pictures and
 * reasons take their sentences and their figures from here. */
typedef struct
{
  int from;          /* quantity */
  int to;            /* quantity, or HOB_LINK_MODE (mode) */
  double value;      /* that the mode takes */
  const char *words; /* N_() a sentence around the figure of `from`: "The current through the "
                                                                     "receptacle is %s." */
  const char *at;    /* N_() around the figure of the limit: "opens at %s"; NULL: there is none */
  double (*limit) (const HobPartContext *c); /* in the unit of `from` */
} HobLinkDef;

#define HOB_LINK_MODE(mode) (-1 - (mode))

/* ---- What parts put into their surroundings: places (place.h), ledgers, leads ---- */

/* Conservation: integrated along with the states; a test asks that they balance. */
typedef enum
{
  HOB_LEDGER_HEAT_IN,      /* W into modeled bodies, from fuel and current */
  HOB_LEDGER_HEAT_OUT,     /* W from modeled bodies (or never caught by them) to the room */
  HOB_LEDGER_GAS_IN,       /* kg/s out of orifices */
  HOB_LEDGER_GAS_BURNT,    /* kg/s */
  HOB_LEDGER_GAS_ESCAPED,  /* kg/s unburned to the room */
  HOB_LEDGER_OXYGEN,       /* mol/s of oxygen atoms into modeled air, less those out of it */
  HOB_LEDGER_PRODUCTS_OUT, /* mol/s of burnt fuel whose products leave modeled air */
  HOB_N_LEDGER
} HobLedgerEntry;

/* One high-voltage lead.  In `give` the electrode writes what its easiest gap needs, in `offer` the
 * module writes what it delivers, and in `rates` the electrode uses it. */
typedef struct
{
  double breakdown; /* V peak, of the electrode's easiest gap; +INFINITY: open */
  double at_cap;    /* chance that a pulse jumps at the burner cap, not through a crack */
  double flame;     /* ohm from the tip through the flame to the burner; +INFINITY: no flame */
  double volts;     /* V peak offered, open circuit; 0: none */
  gboolean whole;   /* the winding's own current follows; else only the lead's charge jumps, too
                       faint to see by day */
  double energy;    /* J into that gap if it breaks down */
  double rate;      /* pulses/s */
  double phase;     /* turns */
  double miss;      /* chance that a pulse fails */
  int key;          /* module's part index + 1 */
} HobLead;

/* The house, seen by every part. */
typedef struct
{
  double temperature;   /* K, kitchen without cooking */
  double humidity;      /* 0…1, the same */
  double pressure;      /* Pa absolute (altitude) */
  const HobFuel *fuel;  /* what flows, with its density at that altitude */
  HobFuel thinned;      /* that fuel at altitude; `fuel` may point to it */
  double minerals;      /* 0…1, how much of a humidifier's hard water colors a flame */
  double vapor;         /* Pa of water in the kitchen's air, as humidity */
  const HobFuel *plate; /* what the data plate says, at sea level */
  double manifold;      /* Pa at which the file feeds the burners; 0: nothing feeds them */
} HobHouse;

/* All a kind sees, for one part at one moment.  Indices are those of its own tables. */
struct _HobPartContext
{
  const double *t;        /* s */
  guint64 seed;
  int index;              /* part's place in the file: the `part` of hob_hash_… */
  const HobHouse *house;
  const double *set;      /* settings as they are now (file, overrides, faults) */
  const double *filed;    /* settings as the file has them: what is normal for this range */
  const double *ctl;      /* controls */
  double moved;           /* `turn` of the part named by moved-by; 0 without one */
  const double *y;        /* states */
  double *dy;             /* their rates (written in `rates`, read in `guard` and `flip`) */
  double *mode;           /* discrete states (written only in `flip`, `start`) */
  HobComplex *g;          /* per element: admittance S (written in `conduct`; 0 before) */
  HobComplex *emf;        /* per element: V rise from a to b (written in `conduct`; 0 before) */
  const HobComplex *v;    /* per terminal, V to earth; after the circuit is solved */
  const HobComplex *i;    /* per element, A from a to b */
  HobDuct *duct;          /* per duct (written in `flow`; ABSENT before) */
  const double *p;        /* per port, Pa gauge; after the gas is solved */
  const double *q;        /* per duct, kg/s from a to b */
  HobLead *const *lead;   /* per terminal; NULL where no lead is fixed */
  double *place;          /* own place, HOB_N_PLACE slots; NULL if the kind has none */
  double *within;         /* the place it is in (the house's if none was named) */
  double *ledger;         /* HOB_N_LEDGER rates to add to (only in `rates`) */
  /* Thévenin source that element k sees, itself removed (after the circuit is solved). */
  void (*source) (const HobPartContext *c, int element, HobComplex *volts, double *ohms);
  /* Ohms between terminals a and b for direct current: sources are shorts, strays carry none.
   * Without any path it is some 1e11. */
  double (*dc_ohms) (const HobPartContext *c, int a, int b);
  gpointer engine;        /* private to the run */
};

/* ---- The table of a kind ---- */

typedef enum
{
  HOB_KIND_PLACE = 1 << 0,       /* owns a place */
  HOB_KIND_SUPPLY_LINE = 1 << 1, /* a range needs one */
  HOB_KIND_SUPPLY_GAS = 1 << 2,
  HOB_KIND_CHASSIS = 1 << 3,     /* its terminal 0 is the body that strays couple to */
  HOB_KIND_BURNER = 1 << 4,      /* `asked` is traced for it */
  HOB_KIND_IGNITER = 1 << 5,     /* traced from control to burner */
  HOB_KIND_HOUSE = 1 << 6,       /* fills HobHouse; the outermost place */
  HOB_KIND_ONE_BODY = 1 << 7,    /* parts of this kind share one body */
  HOB_KIND_LIVES = 1 << 8,       /* nobody puts an instrument to it */
} HobKindFlags;

typedef struct
{
  double w, h; /* px, multiples of 40; 0: not drawn on this sheet */
} HobSymbolSize;

struct _HobKind
{
  const char *name;  /* "igniter-flat" */
  const char *label; /* N_() "flat igniter" */
  const char *about; /* N_() one or two sentences on how it works */
  guint flags;
  HobRooms room;     /* that it is for the parts in it; 0: nothing can be in it */
  HobRooms may_be_in; /* 0: the kitchen or an oven */
  HobHazards hazards; /* of all work on the part, shown with any of its faults and tests */
  guint means;        /* HOB_MEANS bits: how it is tested, where that is not the usual way */

  const HobTerminalDef *terminals;
  const HobPortDef *ports;
  const HobSettingDef *settings;
  const HobStateDef *states;
  const HobModeDef *modes;
  const HobControlDef *controls;
  const HobElementDef *elements;
  const HobDuctDef *ducts;
  const HobFaultDef *faults;
  const HobQuantityDef *quantities;
  const HobLinkDef *links;
  int n_links;
  int n_terminals, n_ports, n_settings, n_states, n_modes, n_controls, n_elements, n_ducts;
  int n_faults, n_quantities;
  int n_guards;
  const guint8 *guard_reads; /* of each guard, HobReads; NULL: all */

  HobSymbolSize symbol[HOB_N_SHEETS];
  int figure; /* quantity shown below the symbol; −1: none.  Set it. */
  int opening; /* 1 + the quantity that says how far it lets gas through, 0 to 1; 0: none */

  /* Fill HobHouse (HOUSE kinds only). */
  void (*house) (const HobPartContext *c, HobHouse *house);
  /* States and modes at t = 0; both are 0 if NULL.  Writes through c->mode and @y. */
  void (*start) (const HobPartContext *c, double *y);
  /* What parts moved by it see as `moved` (stem travel 0…100, temperature of a bulb K, door 0/1):
   * from controls, settings, states, modes. */
  double (*turn) (const HobPartContext *c);
  /* In this order at every evaluation: */
  void (*give) (const HobPartContext *c);    /* own place (outer places first); lead->breakdown */
  void (*conduct) (const HobPartContext *c); /* c->g, c->emf */
  void (*flow) (const HobPartContext *c);    /* c->duct */
  void (*offer) (const HobPartContext *c);   /* after both solves: leads */
  void (*rates) (const HobPartContext *c);   /* c->dy, c->within, c->ledger (inner places first) */
  /* > 0: mode change k is due.  After `flip` it is ≤ 0 (hysteresis or a dwell time). */
  double (*guard) (const HobPartContext *c, int k);
  /* Makes that change: writes c->mode, may reset @y (states). */
  void (*flip) (const HobPartContext *c, int k, double *y);
  /* Puts what a hand turns to where its control is, past nothing that lies between.  NULL: it is
   * always there. */
  void (*jump) (const HobPartContext *c);
  /* Value of a quantity after a full evaluation. */
  double (*observe) (const HobPartContext *c, int quantity);
  /* Ohms of an element that conducts, to an ohmmeter: its milliampere turns no motor and heats no
   * filament, and its half volt passes no rectifier.  NULL: as at work, of a coil its wire's. */
  double (*at_rest) (const HobPartContext *c, int element);
  /* J of heat, kg of unburned gas stored in its states (conservation); NULL: none. */
  double (*stored_heat) (const HobPartContext *c);
  double (*stored_gas) (const HobPartContext *c);
  /* mol of oxygen atoms, free and in products, and of burnt fuel whose products are still in its
   * air; NULL: none. */
  void (*stored_air) (const HobPartContext *c, double *oxygen, double *burnt);
  /* Do its controls call for the burner behind this terminal or port now, whatever its settings? */
  gboolean (*asks) (const HobPartContext *c, int terminal);
  /* Is its flame behind the oven bottom?  NULL: it never is. */
  gboolean (*covered) (const double *set);

  void (*draw) (HobPen *pen, const HobPartView *view);
};

/* Table shorthand: .settings = x, .n_settings = … */
#define HOB_TABLE(member, array) .member = array, .n_##member = G_N_ELEMENTS (array)

/* ---- Drawing ---- */

/* The outline, which stays; what moves or changes. */
typedef enum { HOB_LAYER_PAPER, HOB_LAYER_STATE } HobLayer;

/* A part as it is drawn: copies, nothing of the run.  The origin is the symbol's center. */
struct _HobPartView
{
  const HobKind *kind;
  HobSheet sheet;
  HobLayer layer;
  const double *set, *ctl, *y, *mode, *quantity; /* by the kind's indices */
  const HobComplex *v, *i;
  const double *p, *q;
  double moved;
  double air;      /* K around it */
  double clock;    /* s of wall time, for motion; constant when still */
  gboolean still;  /* paused, on paper, or motion turned off */
  double spark;    /* how fresh the last spark is: 1 now, 0 none; below 0 it missed the cap */
};

/* ---- The list of kinds (generated from parts/meson.build); names of earlier versions are found
 * too, see parts/renamed.h ---- */

extern const HobKind *const hob_kinds[]; /* NULL-ended, sorted by name */

const HobKind *hob_kind_find (const char *name); /* NULL if unknown */
int hob_kind_terminal (const HobKind *kind, const char *name); /* −1 if it has none */
int hob_kind_port (const HobKind *kind, const char *name);
int hob_kind_setting (const HobKind *kind, const char *name);
int hob_kind_control (const HobKind *kind, const char *name);
int hob_kind_fault (const HobKind *kind, const char *id);
int hob_kind_quantity (const HobKind *kind, const char *name);
int hob_kind_mode (const HobKind *kind, const char *name);
/* What makes @mode become @value; NULL: its kind does not say. */
const HobLinkDef *hob_kind_link_to_mode (const HobKind *kind, int mode, double value);
const char **hob_kind_names (void); /* for near misses; (transfer container) */

/* The hazards to show wherever @fault of @kind is described: its own, the part's, and those of the
 * means that confirm it. */
HobHazards hob_fault_hazards (const HobKind *kind, const HobFaultDef *fault);

/* Position's value by name or by number and unit; HOB_ERROR_VALUE. */
gboolean hob_control_parse (const HobControlDef *control, const char *text, double *value,
                            GError **error);
/* "bake", "62%", "350 degF" (transfer full) */
char *hob_control_text (const HobControlDef *control, double value);
gboolean hob_setting_parse (const HobSettingDef *setting, const char *text, double *value,
                            GError **error);

/* Has it one way through, from its first terminal to its second? */
gboolean hob_kind_is_two_terminal (const HobKind *kind);

/* Small helpers for every kind. */
static inline HobComplex
hob_siemens (double ohms)
{
  return (HobComplex){ ohms < G_MAXDOUBLE ? 1.0 / ohms : 0.0, 0.0 };
}
static inline double
hob_volts_across (const HobPartContext *c, int a, int b)
{
  return hob_complex_abs ((HobComplex){ c->v[a].re - c->v[b].re, c->v[a].im - c->v[b].im });
}
/* V², where only a comparison is wanted. */
static inline double
hob_square_volts_across (const HobPartContext *c, int a, int b)
{
  return hob_complex_abs2 ((HobComplex){ c->v[a].re - c->v[b].re, c->v[a].im - c->v[b].im });
}
/* The deviation of this unit, normally distributed within two standard deviations; 0 for seed 0,
 * the typical unit. */
double hob_specimen_normal (const HobPartContext *c, guint64 count);
/* The factor exp (@scatter·deviation); 1 for the typical unit. */
double hob_specimen_factor (const HobPartContext *c, double scatter, guint64 count);
/* Mode @k changes over. */
static inline void
hob_mode_toggle (const HobPartContext *c, int k)
{
  c->mode[k] = c->mode[k] > 0 ? 0 : 1;
}
#define HOB_CONTACT_OHMS 0.005 /* a closed contact */
#define HOB_DEGF(f) (((f) + 459.67) / 1.8) /* K */

G_END_DECLS
