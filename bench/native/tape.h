/* The tape that bench/tape.ts writes: constants of every member, its steps, and where it truly ends. */
#ifndef TAPE_H
#define TAPE_H
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { CELLS, CURD_PH, CURD_LACTOSE, CURD_LACTATE, CURD_STRENGTH, WHEY_PH, WHEY_LACTOSE, WHEY_LACTATE, WHEY_STRENGTH,
       WHEY_CELLS, LN_Q, ACID };
enum { MILK, CURD_IN_WHEY, DRAINED };

typedef struct {
  double temperature_min, temperature_opt, temperature_max, growth_ph_min, growth_ph_opt, acid_ph_stop, acid_ph_opt,
      growth_rate, acid_rate, cells_max, growth_free, lactate_per_lactose, buffer_factor, curd_rate_factor,
      drained_dissolved, serum_protons_at_start, whey_end, whey_rate_factor, loss_factor, room_c, cube_mm,
      water_in_serum, serum_kg, loss_kg, milk_water_kg, milk_casein_kg, rennet_dose, added_calcium, heat_slowing,
      species_factor, maker_factor, unused[5];
} Constants;

/* What is carried from step to step; `carried` of tape.ts in the same order. */
typedef struct {
  double temperature, whey_fraction, curd_serum, whey, clot, acid[ACID];
} State;
enum { CARRIED = sizeof(State) / sizeof(double) };

typedef struct {
  double minutes, stirring, heater, loss_a, loss_b, loss_c, heat_capacity, phase, has_culture, is_cut, has_rennet, changed;
  State before;
} Record;

typedef struct {
  Constants constants;
  int records;
  double end_ph, end_temperature, end_whey_fraction;
  const Record *record;
} Member;

static const double *table;
static int last_row, stride, members;
static Member *member;

static void read_tape(const char *path) {
  FILE *file = fopen(path, "rb");
  if (file == NULL) { perror(path); exit(1); }
  fseek(file, 0, SEEK_END);
  size_t size = (size_t)ftell(file);
  rewind(file);
  double *all = malloc(size);
  if (fread(all, 1, size, file) != size) { perror(path); exit(1); }
  fclose(file);
  const double *at = all;
  members = (int)*at++;
  last_row = (int)*at++;
  stride = (int)*at++;
  table = at;
  at += (last_row + 1) * stride;
  member = malloc(sizeof(Member) * (size_t)members);
  for (int i = 0; i < members; i++) {
    member[i].constants = *(const Constants *)at;
    at += sizeof(Constants) / sizeof(double);
    member[i].records = (int)*at++;
    member[i].end_ph = *at++;
    member[i].end_temperature = *at++;
    member[i].end_whey_fraction = *at++;
    member[i].record = (const Record *)at;
    at += member[i].records * (int)(sizeof(Record) / sizeof(double));
  }
}

/* Puts back what somebody changed in the vat before this step. */
static inline void take_changed(State *state, const Record *record) {
  unsigned changed = (unsigned)record->changed;
  double *own = (double *)state;
  const double *theirs = (const double *)&record->before;
  for (int i = 0; changed != 0; i++, changed >>= 1)
    if (changed & 1u) own[i] = theirs[i];
}

static double now_ms(void) {
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return 1e3 * (double)t.tv_sec + 1e-6 * (double)t.tv_nsec;
}
#endif
