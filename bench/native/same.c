/* The same algorithm as src/forecast/advance.ts and src/science/acidification-step.ts, step by step along the tape. */
#include "equations.h"

static double lose_whey(const Constants *c, const Record *r, State *s, double minutes, double t) {
  double left = c->whey_end - s->whey_fraction;
  if (left > 0)
    s->whey_fraction = c->whey_end - left * exp(-syneresis_per_min(c, r, t, s->acid[CURD_PH]) * minutes);
  double serum = serum_share(c, most(s->whey_fraction, 1e-3));
  double expelled = s->curd_serum - serum;
  if (expelled <= 0) return 0;
  double *y = s->acid, share = expelled / s->curd_serum;
  if (r->phase != DRAINED) {
    double strong = y[WHEY_STRENGTH] * s->whey, sum = strong + y[CURD_STRENGTH] * expelled;
    double mixed = y[WHEY_LACTATE] + share * y[CURD_LACTATE];
    if (fabs(y[CURD_PH] - y[WHEY_PH]) < 1e-6 || s->whey <= 1e-9) {
      y[WHEY_PH] = y[CURD_PH];
    } else {
      Place w = place_of(y[WHEY_PH]), p = place_of(y[CURD_PH]);
      double protons = strong * at(w, SERUM_PROTONS) + y[WHEY_LACTATE] * at(w, PROTONATED) +
                       y[CURD_STRENGTH] * expelled * at(p, SERUM_PROTONS) + share * y[CURD_LACTATE] * at(p, PROTONATED);
      double guess = (y[WHEY_PH] * strong + y[CURD_PH] * y[CURD_STRENGTH] * expelled) / sum;
      Place g = place_of(guess);
      double held = sum * at(g, SERUM_PROTONS) + mixed * at(g, PROTONATED);
      y[WHEY_PH] = guess - (protons - held) / most(sum * at(g, SERUM) + mixed * at(g, LACTIC), 1e-9);
    }
    y[WHEY_LACTOSE] += share * y[CURD_LACTOSE];
    y[WHEY_LACTATE] = mixed;
    y[WHEY_STRENGTH] = sum / (s->whey + expelled);
    s->whey += expelled;
  }
  y[CURD_LACTOSE] *= 1 - share;
  y[CURD_LACTATE] *= 1 - share;
  s->curd_serum = serum;
  return expelled;
}

static void sour(const Constants *c, const Record *r, State *s, double start_c, double middle_c, double end_c) {
  double *y = s->acid, k1[ACID], k2[ACID], k3[ACID], k4[ACID], trial[ACID];
  int phase = (int)r->phase, n = phase == CURD_IN_WHEY && s->whey > 1e-9 ? LN_Q : CURD_STRENGTH;
  double width = r->minutes / 60, half = width / 2;
  double exchange = phase == CURD_IN_WHEY ? exchange_per_hour(c, s->whey_fraction) : 0;
  double g1 = temperature_factor(c, start_c), g2 = temperature_factor(c, middle_c), g4 = temperature_factor(c, end_c);
  double waking = c->growth_rate * width / 24, then = y[LN_Q] + 4 * waking * (g1 + 4 * g2 + g4);
  double midway = g2 * awake(y[LN_Q] + waking * (5 * g1 + 8 * g2 - g4));
  trial[CURD_STRENGTH] = y[CURD_STRENGTH];
  static double last_ln_q = NAN, last_awake;
  double awake_then = awake(then), awake_now = y[LN_Q] == last_ln_q ? last_awake : awake(y[LN_Q]);
  souring(c, y, k1, phase, s->curd_serum, s->whey, exchange, g1 * awake_now);
  for (int i = 0; i < n; i++) trial[i] = y[i] + half * k1[i];
  souring(c, trial, k2, phase, s->curd_serum, s->whey, exchange, midway);
  for (int i = 0; i < n; i++) trial[i] = y[i] + half * k2[i];
  souring(c, trial, k3, phase, s->curd_serum, s->whey, exchange, midway);
  for (int i = 0; i < n; i++) trial[i] = y[i] + width * k3[i];
  souring(c, trial, k4, phase, s->curd_serum, s->whey, exchange, g4 * awake_then);
  for (int i = 0; i < n; i++) y[i] += width / 6 * (k1[i] + 2 * (k2[i] + k3[i]) + k4[i]);
  y[LN_Q] = last_ln_q = then;
  last_awake = awake_then;
}

static double nearly_one(double x) { return 1 + x * (1 + x * (0.5 + x / 6)); }

static double advance(const Constants *c, const Record *r, State *s) {
  double start = s->temperature, half = -0.06 * r->minutes / (2 * r->heat_capacity);
  double first = c->loss_factor * loss_at(r, start), towards = c->room_c + r->heater / first, guess = exp(half * first);
  double loss = c->loss_factor * loss_at(r, towards + (start - towards) * guess), more = half * (loss - first);
  towards = c->room_c + r->heater / loss;
  double left = guess * nearly_one(more), middle = towards + (start - towards) * left;
  s->temperature = towards + (start - towards) * left * left;
  if (r->heater <= 0) {
    double at_middle = c->loss_factor * loss_at(r, middle) - first, at_end = c->loss_factor * loss_at(r, s->temperature) - first;
    s->temperature = c->room_c + (start - c->room_c) * guess * guess * nearly_one(half / 3 * (4 * at_middle + at_end));
    middle = c->room_c + (start - c->room_c) * guess * nearly_one(half / 12 * (8 * at_middle - at_end));
  }
  if (r->is_cut != 0) lose_whey(c, r, s, r->minutes / 2, middle);
  double start_ph = s->acid[CURD_PH];
  if (r->has_culture != 0) sour(c, r, s, start, middle, s->temperature);
  if (r->is_cut != 0) lose_whey(c, r, s, r->minutes / 2, middle);
  if (r->has_rennet != 0 && s->clot < 1)
    s->clot += r->minutes * clotting_per_min(c, middle, (start_ph + s->acid[CURD_PH]) / 2);
  return r->minutes * staph_per_min(middle, s->acid[CURD_PH]);
}

int main(int argc, char **argv) {
  read_tape(argv[1]);
  int rounds = argc > 2 ? atoi(argv[2]) : 20;
  double best = INFINITY, worst_ph = 0, worst_c = 0, sum = 0;
  for (int round = 0; round < rounds; round++) {
    double started = now_ms();
    for (int i = 0; i < members; i++) {
      const Member *m = member + i;
      State state = {0};
      for (int k = 0; k < m->records; k++) {
        take_changed(&state, m->record + k);
        sum += advance(&m->constants, m->record + k, &state);
      }
      worst_ph = most(worst_ph, fabs(state.acid[CURD_PH] - m->end_ph));
      worst_c = most(worst_c, fabs(state.temperature - m->end_temperature));
    }
    best = least(best, now_ms() - started);
  }
  printf("{\"msPerMember\": %.6f, \"worstPH\": %.6f, \"worstC\": %.6f, \"sum\": %.3f}\n", best / members, worst_ph, worst_c, sum);
  return 0;
}
