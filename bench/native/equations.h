/* The equations of the vat, as src/science has them: see there for what they mean and where they come from. */
#ifndef EQUATIONS_H
#define EQUATIONS_H
#include <math.h>
#include "tape.h"

static inline double most(double a, double b) { return a > b ? a : b; }
static inline double least(double a, double b) { return a < b ? a : b; }

/* Where a pH stands in the buffer table. */
typedef struct { const double *row; double part; } Place;
static inline Place place_of(double ph) {
  double position = (ph - 3.5) * 200;
  position = least(most(position, 0), last_row - 1e-9);
  int row = (int)position;
  return (Place){table + row * stride, position - row};
}
enum { CASEIN, SERUM, COLLOIDAL, LACTIC, PROTONATED, SERUM_PROTONS };
static inline double at(Place p, int column) {
  return p.row[column] + p.part * (p.row[column + stride] - p.row[column]);
}

static inline double temperature_factor(const Constants *c, double t) {
  if (t <= c->temperature_min || t >= c->temperature_max) return 0;
  double span = c->temperature_opt - c->temperature_min, above = t - c->temperature_min;
  return (t - c->temperature_max) * above * above /
         (span * (span * (t - c->temperature_opt) -
                  (c->temperature_opt - c->temperature_max) * (c->temperature_opt + c->temperature_min - 2 * t)));
}
static inline double ph_factor(double ph, double low, double best) {
  if (ph <= low || ph >= 8.5) return 0;
  double product = (ph - low) * (ph - 8.5);
  return product / (product - (ph - best) * (ph - best));
}
static inline double awake(double ln_q) { return ln_q > 30 ? 1 : 1 / (1 + exp(-ln_q)); }

/* Rates per hour of the first places of the acid state; only curd's own where no whey stands about it. */
static inline void souring(const Constants *c, const double *y, double *d, int phase, double curd_l, double whey_l,
                           double exchange, double vigour) {
  int drained = phase == DRAINED;
  double lactose = most(y[CURD_LACTOSE], 0), lactate = most(y[CURD_LACTATE], 0);
  curd_l = most(curd_l, 1e-6);
  Place p = place_of(y[CURD_PH]);
  double protonated = at(p, PROTONATED);
  double lactose_in = lactose / curd_l, lactate_in = lactate / curd_l;
  double fed = lactose_in / (2 + lactose_in);
  double unpoisoned = most(0, 1 - lactate_in * protonated / 40);
  double room = most(0, 1 - y[CELLS] / c->cells_max);
  double growth_ph = ph_factor(y[CURD_PH], c->growth_ph_min, c->growth_ph_opt);
  double acid_ph = ph_factor(y[CURD_PH], c->acid_ph_stop, c->acid_ph_opt);
  double common = vigour * unpoisoned * fed * y[CELLS];
  double made = (drained ? c->curd_rate_factor : 1) * c->acid_rate * common *
                ((1 - c->growth_free) * growth_ph * room + c->growth_free * acid_ph);
  double lactose_out = 0, lactate_out = 0, protons_in = 0;
  if (phase == CURD_IN_WHEY && whey_l > 1e-9) {
    Place w = place_of(y[WHEY_PH]);
    double whey_lactate = most(y[WHEY_LACTATE], 0), whey_lactose = most(y[WHEY_LACTOSE], 0);
    double flow = least(exchange * curd_l, 13 * curd_l * whey_l / (curd_l + whey_l));
    lactate_out = flow * (lactate_in - whey_lactate / whey_l);
    lactose_out = flow * (lactose_in - whey_lactose / whey_l);
    double strength_out = flow * (y[CURD_STRENGTH] - y[WHEY_STRENGTH]);
    double protons_out = flow * (y[CURD_STRENGTH] * at(p, SERUM_PROTONS) - y[WHEY_STRENGTH] * at(w, SERUM_PROTONS) -
                                 (y[CURD_STRENGTH] - y[WHEY_STRENGTH]) * c->serum_protons_at_start);
    protons_in = -protons_out;
    double growth = vigour * ph_factor(y[WHEY_PH], c->growth_ph_min, c->growth_ph_opt);
    double made_in_whey = c->acid_rate * y[WHEY_CELLS] * growth;
    double capacity = c->buffer_factor * (whey_l * y[WHEY_STRENGTH] * at(w, SERUM) + whey_lactate * at(w, LACTIC));
    d[CURD_STRENGTH] = -strength_out / curd_l;
    d[WHEY_PH] = -(made_in_whey + protons_out) / most(capacity, 1e-6);
    d[WHEY_LACTOSE] = lactose_out - made_in_whey / c->lactate_per_lactose;
    d[WHEY_LACTATE] = made_in_whey + lactate_out;
    d[WHEY_STRENGTH] = strength_out / whey_l;
    d[WHEY_CELLS] = c->growth_rate * growth * y[WHEY_CELLS];
  }
  double capacity = c->buffer_factor * (at(p, CASEIN) + curd_l * y[CURD_STRENGTH] * at(p, SERUM) +
                                        lactate * at(p, LACTIC) + (drained ? c->drained_dissolved : 1) * at(p, COLLOIDAL));
  d[CELLS] = c->growth_rate * common * growth_ph * room;
  d[CURD_PH] = -(made * (1 - protonated) + protons_in) / capacity;
  d[CURD_LACTOSE] = -made / c->lactate_per_lactose - lactose_out;
  d[CURD_LACTATE] = made - lactate_out;
}

static inline double exchange_per_hour(const Constants *c, double whey_fraction) {
  double edge = c->cube_mm * cbrt(1 - whey_fraction) / 1000;
  return 3 * M_PI * M_PI * 4.5e-10 * 3600 / (edge * edge);
}
static inline double loss_at(const Record *r, double t) {
  double d = (t < 25 ? 25 : t) - 37, value = r->loss_a + d * (r->loss_b + d * r->loss_c);
  return most(value, 0.3 * r->loss_a);
}
static inline double syneresis_per_min(const Constants *c, const Record *r, double t, double ph) {
  double kelvin = least(t + 273.15, 323.15);
  return c->whey_rate_factor * 0.03 * r->stirring * (10 / c->cube_mm) *
         exp((-100000 / 8.314) * (1 / kelvin - 1 / 305.15) + 1.2 * (6.5 - ph));
}
static inline double bound_kg(const Constants *c) { return 0.4 * c->milk_casein_kg; }
/* Solvent water of the curd as a share of all the milk's. */
static inline double serum_share(const Constants *c, double w) {
  double lost = w >= 0.5 ? 1 : w / 0.5;
  double water = c->water_in_serum * (c->serum_kg - (100 * w - c->loss_kg * lost));
  return most((water - bound_kg(c)) / (c->milk_water_kg - bound_kg(c)), 0.01);
}
static inline double ramp(double ph, double none, double full) {
  return ph <= none ? 0 : ph >= full ? 1 : (ph - none) / (full - none);
}
static inline double rennet_activity(double t) {
  if (t <= 13 || t >= 52.25) return 0;
  double above = t - 13, span = 39.75 - 13;
  return (t - 52.25) * above * above / (span * (span * (t - 39.75) - (39.75 - 52.25) * (39.75 + 13 - 2 * t)));
}
static inline double clotting_per_min(const Constants *c, double t, double ph) {
  double calcium = 1 + ramp(ph, 5.8, 6.6) * c->added_calcium / (1.03 * 2.4);
  double heat = 1 + (c->heat_slowing - 1) * ramp(ph, 5.8, 6.5);
  return c->rennet_dose / 50 * (rennet_activity(t) / rennet_activity(31)) * calcium * exp(-2.5 * (ph - 6.6)) /
         (15 * c->maker_factor * c->species_factor * heat);
}
static inline double staph_per_min(double t, double ph) {
  if (ph <= 5.3 || !(t > 7)) return 0;
  double rate = 0;
  if (t <= 34) {
    rate = 0.0442 * (t - 5.407);
    rate *= rate;
  } else if (t < 46.7) {
    double above = t - 7.7, span = 40.6 - 7.7;
    rate = 1.97 * (t - 46.7) * above * above / (span * (span * (t - 40.6) - (40.6 - 46.7) * (40.6 + 7.7 - 2 * t)));
  }
  return rate / (60 * M_LN10);
}
#endif
