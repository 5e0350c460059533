/* The same equations by SUNDIALS CVODE as it is usually used: variable-order BDF (or Adams), Newton with a dense matrix and
 * the library's own difference quotients, a new start wherever somebody changes the vat. */
#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <string.h>
#include <sundials/sundials_context.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>
#include "equations.h"

enum { TEMPERATURE = ACID, WHEY_FRACTION, CLOT, STAPH, SIZE };
typedef struct {
  const Constants *c;
  const Record *r;
  double whey_base, serum_base; /* free whey and curd's serum where the stretch began */
  long calls;
} Stretch;

static double serum_of(const Stretch *s, double whey_fraction) {
  return s->r->is_cut != 0 ? least(serum_share(s->c, most(whey_fraction, 1e-3)), s->serum_base) : 1;
}

/* Rates per minute. */
static int rates(realtype t, N_Vector v, N_Vector dv, void *user) {
  (void)t;
  Stretch *s = user;
  const Constants *c = s->c;
  const Record *r = s->r;
  const double *y = NV_DATA_S(v);
  double *d = NV_DATA_S(dv);
  memset(d, 0, SIZE * sizeof(double));
  s->calls++;
  double temperature = y[TEMPERATURE], w = y[WHEY_FRACTION];
  int phase = (int)r->phase;
  double curd_l = serum_of(s, w), whey_l = phase == CURD_IN_WHEY ? s->whey_base + s->serum_base - curd_l : 0;
  d[TEMPERATURE] = (r->heater - c->loss_factor * loss_at(r, temperature) * (temperature - c->room_c)) * 0.06 / r->heat_capacity;
  if (r->has_culture != 0) {
    double warm = temperature_factor(c, temperature);
    double exchange = phase == CURD_IN_WHEY ? exchange_per_hour(c, w) : 0;
    souring(c, y, d, phase, curd_l, whey_l, exchange, warm * awake(y[LN_Q]));
    d[LN_Q] = c->growth_rate * warm;
    for (int i = 0; i < ACID; i++) d[i] /= 60;
  }
  if (r->is_cut != 0 && c->whey_end > w) {
    d[WHEY_FRACTION] = syneresis_per_min(c, r, temperature, y[CURD_PH]) * (c->whey_end - w);
    /* Serum leaves the curd at the curd's own strength and pH. */
    double per_w = c->water_in_serum * (100 - (w < 0.5 ? 2 * c->loss_kg : 0)) / (c->milk_water_kg - bound_kg(c));
    double out = w < 1e-3 || curd_l <= 0.01 ? 0 : per_w * d[WHEY_FRACTION];
    double lactose = out / curd_l * y[CURD_LACTOSE], lactate = out / curd_l * y[CURD_LACTATE];
    d[CURD_LACTOSE] -= lactose;
    d[CURD_LACTATE] -= lactate;
    if (phase == CURD_IN_WHEY && whey_l > 1e-9) {
      Place p = place_of(y[CURD_PH]), q = place_of(y[WHEY_PH]);
      double capacity = whey_l * y[WHEY_STRENGTH] * at(q, SERUM) + y[WHEY_LACTATE] * at(q, LACTIC);
      d[WHEY_PH] -= (out * y[CURD_STRENGTH] * (at(p, SERUM_PROTONS) - at(q, SERUM_PROTONS)) +
                     lactate * (at(p, PROTONATED) - at(q, PROTONATED))) / most(capacity, 1e-9);
      d[WHEY_LACTOSE] += lactose;
      d[WHEY_LACTATE] += lactate;
      d[WHEY_STRENGTH] += out * (y[CURD_STRENGTH] - y[WHEY_STRENGTH]) / whey_l;
    }
  }
  if (r->has_rennet != 0) d[CLOT] = clotting_per_min(c, temperature, y[CURD_PH]);
  d[STAPH] = staph_per_min(temperature, y[CURD_PH]);
  return 0;
}

/* True where a step goes on from the one before it with nothing changed. */
static int goes_on(const Record *now, const Record *before) {
  return now->changed == 0 && memcmp(&now->stirring, &before->stirring, 10 * sizeof(double)) == 0;
}

static void check(int flag, const char *what) {
  if (flag < 0) { fprintf(stderr, "%s: %d\n", what, flag); exit(1); }
}

int main(int argc, char **argv) {
  read_tape(argv[1]);
  double tolerance = atof(argv[2]);
  int method = argc > 3 && strcmp(argv[3], "adams") == 0 ? CV_ADAMS : CV_BDF;
  int count = argc > 4 ? atoi(argv[4]) : members;
  if (count > members) count = members;
  SUNContext context;
  check(SUNContext_Create(NULL, &context), "context");
  N_Vector y = N_VNew_Serial(SIZE, context), absolute = N_VNew_Serial(SIZE, context);
  /* What counts as nothing: a share of what each quantity usually is. */
  const double usual[SIZE] = {1e10, 1, 50, 10, 1, 1, 50, 10, 1, 1e9, 1, 10, 0.5, 1, 1};
  for (int i = 0; i < SIZE; i++) NV_Ith_S(absolute, i) = tolerance * usual[i];
  Stretch stretch = {0};
  void *cvode = CVodeCreate(method, context);
  check(CVodeInit(cvode, rates, 0, y), "init");
  check(CVodeSVtolerances(cvode, tolerance, absolute), "tolerances");
  check(CVodeSetUserData(cvode, &stretch), "user data");
  SUNMatrix matrix = SUNDenseMatrix(SIZE, SIZE, context);
  SUNLinearSolver solver = SUNLinSol_Dense(y, matrix, context);
  check(CVodeSetLinearSolver(cvode, solver, matrix), "solver");
  check(CVodeSetMaxNumSteps(cvode, 100000), "steps");
  double worst_ph = 0, worst_c = 0, best = INFINITY;
  int rounds = argc > 5 ? atoi(argv[5]) : 3;
  for (int round = 0; round < rounds; round++) {
    double started = now_ms();
    for (int i = 0; i < count; i++) {
      const Member *m = member + i;
      State state = {0};
      double clot = 0, staph = 0;
      for (int k = 0; k < m->records;) {
        const Record *r = m->record + k;
        double minutes = 0;
        do minutes += m->record[k++].minutes;
        while (k < m->records && goes_on(m->record + k, m->record + k - 1));
        take_changed(&state, r);
        /* A film of whey right after cutting, so that curd and whey are two phases at once. */
        if (r->is_cut != 0 && state.whey_fraction < 1e-3) {
          double *a = state.acid, serum = serum_share(&m->constants, 1e-3), share = (state.curd_serum - serum) / state.curd_serum;
          a[WHEY_LACTOSE] = share * a[CURD_LACTOSE], a[WHEY_LACTATE] = share * a[CURD_LACTATE];
          a[CURD_LACTOSE] *= 1 - share, a[CURD_LACTATE] *= 1 - share;
          state.whey += state.curd_serum - serum, state.curd_serum = serum, state.whey_fraction = 1e-3;
        }
        memcpy(NV_DATA_S(y), state.acid, sizeof state.acid);
        NV_Ith_S(y, TEMPERATURE) = state.temperature;
        NV_Ith_S(y, WHEY_FRACTION) = state.whey_fraction;
        NV_Ith_S(y, CLOT) = clot;
        NV_Ith_S(y, STAPH) = staph;
        stretch.c = &m->constants, stretch.r = r, stretch.whey_base = state.whey, stretch.serum_base = state.curd_serum;
        check(CVodeReInit(cvode, 0, y), "start");
        check(CVodeSetStopTime(cvode, minutes), "stop");
        realtype reached;
        check(CVode(cvode, minutes, y, &reached, CV_NORMAL), "run");
        memcpy(state.acid, NV_DATA_S(y), sizeof state.acid);
        state.temperature = NV_Ith_S(y, TEMPERATURE);
        state.whey_fraction = NV_Ith_S(y, WHEY_FRACTION);
        clot = NV_Ith_S(y, CLOT), staph = NV_Ith_S(y, STAPH);
        double serum = serum_of(&stretch, state.whey_fraction);
        if (r->phase == CURD_IN_WHEY) state.whey += state.curd_serum - serum;
        state.curd_serum = serum;
      }
      worst_ph = most(worst_ph, fabs(state.acid[CURD_PH] - m->end_ph));
      worst_c = most(worst_c, fabs(state.temperature - m->end_temperature));
    }
    best = least(best, now_ms() - started);
  }
  printf("{\"msPerMember\": %.6f, \"worstPH\": %.6f, \"worstC\": %.6f, \"ratesPerMember\": %.1f}\n", best / count, worst_ph,
         worst_c, (double)stretch.calls / count / rounds);
  return 0;
}
