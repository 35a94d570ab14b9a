/* One home through its weather, minute by minute: the loop of hearthbook.kernel.home_year, by hand.

   A yardstick for `bench/year.py` and nothing else: how fast a compiler of C makes the same sums.
   `fields.h`, which bench/year.py writes from the loop's own record layouts, holds the structures.
   Formulas, constants and their sources stand in the Python files of the same names. */

#include <math.h>
#include <stdint.h>
#include <string.h>

#include "fields.h"

enum { REST, HEATING, HOT_WATER, DEFROST, DRIP };

#define SLOT 900.0
#define LAYERS 8
#define ROWS 76
#define COLUMNS 12
#define MOST_ROOMS 64
#define VALVE_STEPS 5
#define MELTING 334e3

static inline double least(double a, double b) { return a < b ? a : b; }
static inline double most(double a, double b) { return a > b ? a : b; }

/* --- physics ----------------------------------------------------------------------------------- */

static inline double saturated_humidity(double t) {
    double ice = 0.49784753 + t * (5.1519008e-3 + t * (8.3768230e-6 - 2.7741588e-8 * t));
    double water = 0.49784078 + t * (4.5587564e-3 + t * (1.8284131e-6 + 3.8297350e-8 * t));
    double root = t < 0.0 ? ice : water;
    double squared = root * root, fourth = squared * squared;
    return fourth * fourth;
}

static inline double water_from_air(double air, double humidity, double coil) {
    double water = most(humidity - saturated_humidity(coil), 0.0);
    double latent = coil < 0.0 ? 2.834e6 : 2.501e6;
    return water / (1006.0 * most(air - coil, 0.1) + water * latent);
}

static inline double working_efficiency(double outdoor, double flow) {
    return (flow + 3.0 + 273.15) / (flow + 3.0 - (outdoor - 8.0));
}

static void mix_layers(double *layers) {
    for (int upper = 1; upper < LAYERS; upper++) {
        double total = layers[upper];
        int count = 1, lower = upper - 1;
        while (lower >= 0 && layers[lower] * count > total) {
            total += layers[lower];
            count++;
            lower--;
        }
        if (count > 1)
            for (int layer = lower + 1; layer <= upper; layer++) layers[layer] = total / count;
    }
}

static void heat_layers(double *layers, double heat, double capacity, int heated) {
    double rise = heat / (capacity * heated);
    for (int layer = 0; layer < heated; layer++) layers[layer] += rise;
    mix_layers(layers);
}

static double draw_layers(double *layers, double drawn, double mass, double cold) {
    double left = drawn, heat = 0.0;
    while (left > 0.0) {
        double moved = least(left, mass), share = moved / mass;
        heat += moved * layers[LAYERS - 1];
        for (int layer = LAYERS - 1; layer > 0; layer--)
            layers[layer] += share * (layers[layer - 1] - layers[layer]);
        layers[0] += share * (cold - layers[0]);
        left -= moved;
    }
    return drawn > 0.0 ? heat / drawn : cold;
}

/* --- controls ---------------------------------------------------------------------------------- */

static double hot_water_target(const Plant *p, const State *s) {
    if (s->hygiene > 0.0)
        return most(least(p->hygiene_temperature, p->hygiene_by_unit_up_to), p->hot_water_set);
    return p->hot_water_set;
}

static int wants_hot_water(const Plant *p, const State *s, const Driver *d, double sensor) {
    if (p->has_cylinder == 0.0 || d->outdoor < p->lowest_outdoor) return 0;
    double target = hot_water_target(p, s);
    if (s->mode == HOT_WATER) return sensor < target && s->mode_seconds < p->hot_water_longest;
    if (s->since_hot_water < p->hot_water_rest) return 0;
    if (s->hygiene > 0.0) return sensor < target - 1.0;
    return d->hot_water_allowed > 0.0 && sensor < target - p->hot_water_hysteresis;
}

static int wants_heating(const Plant *p, const State *s, const Driver *d) {
    if (least(s->unit, least(s->flow, s->back)) < 5.0) return 1;
    return d->heating_allowed > 0.0 && d->outdoor_mean < p->heating_limit && s->room_calls > 0.0;
}

static void enter(State *s, int64_t mode) {
    if (s->mode == mode) return;
    if (s->mode == HOT_WATER) s->since_hot_water = 0.0;
    s->mode = mode;
    s->mode_seconds = 0.0;
}

static void decide(const Plant *p, State *s, const Driver *d, double cold, double sensor) {
    if (p->thermostat_room >= 0) {
        double above = -cold - p->thermostat_shift, half = 0.5 * p->thermostat_hysteresis;
        if (above > half)
            s->room_calls = 0.0;
        else if (above < -half)
            s->room_calls = 1.0;
    }
    double target = d->curve_flow + p->flow_shift + p->room_influence * cold;
    s->target = least(most(target, p->curve_least), p->curve_most);
    if (s->mode == DEFROST) {
        if (s->frost <= 0.0 || s->mode_seconds >= p->defrost_longest ||
            s->unit < p->defrost_lowest_flow)
            enter(s, DRIP);
        return;
    }
    if (s->mode == DRIP && s->mode_seconds < p->drip_time) return;
    if (s->frost >= p->frost_to_defrost && s->compressor > 0.0 && s->mode != DRIP) {
        enter(s, DEFROST);
        return;
    }
    if (wants_hot_water(p, s, d, sensor))
        enter(s, HOT_WATER);
    else
        enter(s, wants_heating(p, s, d) ? HEATING : REST);
}

static int compressor_wanted(const Plant *p, const State *s, double outdoor, int is_enough) {
    if (s->mode == DEFROST || s->mode == DRIP) return s->compressor > 0.0;
    if (s->mode == REST || outdoor < p->lowest_outdoor || !is_enough) return 0;
    if (s->compressor > 0.0) {
        int too_hot = s->unit > p->highest_flow + 1.0;
        if (s->mode == HOT_WATER) return !too_hot;
        double run = s->since_start < s->mode_seconds ? s->since_start : s->mode_seconds;
        int done = run >= p->least_run && s->unit > s->target + p->flow_hysteresis;
        return !(done || too_hot);
    }
    if (s->since_stop < p->least_rest) return 0;
    if (s->mode == HOT_WATER) return s->unit < p->highest_flow - 2.0;
    return s->unit < s->target - p->flow_hysteresis;
}

static int switch_compressor(const Plant *p, State *s, double outdoor, int is_enough, double step) {
    int was = s->compressor > 0.0, wanted = compressor_wanted(p, s, outdoor, is_enough);
    if (was && !wanted) s->compressor = s->since_stop = 0.0;
    int starts = wanted && !was;
    if (starts) {
        s->compressor = 1.0;
        s->since_start = 0.0;
        s->start_debt = p->start_loss;
    }
    s->since_start += step;
    s->since_stop += step;
    return starts;
}

static double switch_backup(const Plant *p, State *s, double outdoor, int at_most, double step) {
    if (p->backup_power <= 0.0 || s->mode != HEATING || outdoor > p->backup_locked_above) {
        s->backup = s->short_seconds = 0.0;
        return 0.0;
    }
    int cold = s->flow < s->target - p->backup_shortfall;
    s->short_seconds = cold && at_most ? s->short_seconds + step : 0.0;
    if (s->short_seconds >= p->backup_after) s->backup = 1.0;
    if (s->flow >= s->target) s->backup = 0.0;
    return p->backup_power * s->backup;
}

/* --- unit -------------------------------------------------------------------------------------- */

static double on_map(const double *map, int row, int column, double down, double across) {
    const double *a = map + row * COLUMNS + column, *b = a + COLUMNS;
    double upper = a[0] + across * (a[1] - a[0]), lower = b[0] + across * (b[1] - b[0]);
    return upper + down * (lower - upper);
}

static double defrost_heat(const Plant *p, State *s, Totals *now, double step, double *drawn) {
    if (s->mode_seconds == 0.0) now->defrosts += 1.0;
    double melts = p->defrost_power * p->defrost_efficiency * step / MELTING;
    double share = least(s->frost / melts, 1.0);
    s->frost = most(s->frost - share * melts, 0.0);
    now->meltwater += share * melts;
    *drawn = p->defrost_power * share * (1.0 - p->defrost_from_water);
    return -p->defrost_power * share * p->defrost_from_water;
}

static void grow_frost(const Plant *p, State *s, Totals *now, double outdoor, double humidity,
                       double air_heat, double step) {
    double coil = outdoor - p->coil_below_air * air_heat / p->reference_heat -
                  p->frost_lift * (s->frost / p->frost_to_defrost);
    double water = water_from_air(outdoor, humidity, coil) * air_heat * step;
    if (coil < 0.0) {
        s->frost += water;
        now->frost += water;
        return;
    }
    now->condensate += water;
    if (outdoor > 0.0) {
        double melted = least(s->frost, 0.1 * air_heat * step / MELTING);
        s->frost -= melted;
        now->meltwater += melted;
    }
}

static double unit_heat(const Plant *p, State *s, Totals *now, const double *maps, double sensor,
                        double outdoor, double humidity, int quiet, double flow_rate, double step,
                        double *drawn, int *at_most) {
    *drawn = 0.0;
    *at_most = 0;
    if (s->mode == DEFROST) return defrost_heat(p, s, now, step, drawn);
    if (s->compressor == 0.0 || s->mode == DRIP) {
        if (s->frost > 0.0 && outdoor > 0.0) {
            double still = 0.1 * p->reference_heat / p->coil_below_air;
            double melted = least(s->frost, still * outdoor * step / MELTING);
            s->frost -= melted;
            now->meltwater += melted;
        }
        *at_most = outdoor < p->lowest_outdoor;
        return 0.0;
    }
    double target = s->target, inlet = s->back;
    if (s->mode == HOT_WATER) {
        target = least(sensor + p->hot_water_flow_excess, p->highest_flow);
        inlet = s->coil_loop;
    }
    double wanted = flow_rate * (target - inlet) + p->unit_capacity * (target - s->unit) / 300.0;
    double y = least(most(outdoor + 30.0, 0.0), ROWS - 2 + 0.999);
    double x = least(most((s->unit - 20.0) / 5.0, 0.0), COLUMNS - 2 + 0.999);
    int row = (int)y, column = (int)x;
    double down = y - row, across = x - column;
    double share = s->frost / p->frost_to_defrost;
    double able = on_map(maps, row, column, down, across) * (quiet ? p->quiet_share : 1.0) *
                  most(1.0 - p->frost_capacity_loss * share, 0.3);
    double low = least(on_map(maps + 2 * ROWS * COLUMNS, row, column, down, across), able);
    double heat = least(most(wanted, low), able);
    double load = (heat - low) / most(able - low, 1.0);
    double above = on_map(maps + ROWS * COLUMNS, row, column, down, across);
    double below = on_map(maps + 3 * ROWS * COLUMNS, row, column, down, across);
    double lowered = least(outdoor, s->unit - 12.0) - p->frost_lift * share;
    double efficiency = (below + load * (above - below)) * working_efficiency(lowered, s->unit) *
                        p->efficiency_factor;
    *drawn = heat / most(efficiency, 1.0);
    grow_frost(p, s, now, outdoor, humidity, heat - *drawn, step);
    double paid = least(s->start_debt, 0.7 * heat * step);
    s->start_debt -= paid;
    *at_most = heat >= 0.98 * able;
    return heat - paid / step;
}

/* --- water ------------------------------------------------------------------------------------- */

static void round_the_rooms(const Plant *p, State *s, Totals *now, double heat, double flow_heat,
                            double back_heat, double outdoor, double rate, double constant,
                            double slope, double step) {
    double outside = p->outdoor_loss * (s->unit - outdoor), into = heat - outside;
    double unit = p->unit_capacity / step, flow = p->flow_capacity / step;
    double back = p->return_capacity / step;
    double unit_constant = (unit * s->unit + into) / (unit + rate), unit_slope = rate / (unit + rate);
    double flow_constant = (flow * s->flow + rate * unit_constant + flow_heat) / (flow + rate);
    double flow_slope = rate * unit_slope / (flow + rate);
    s->back = (back * s->back + constant + slope * flow_constant + back_heat) /
              (back + rate - slope * flow_slope);
    s->unit = (unit * s->unit + rate * s->back + into) / (unit + rate);
    s->flow = (flow * s->flow + rate * s->unit + flow_heat) / (flow + rate);
    now->heat_pipes_outdoors += outside * step;
}

static void round_the_coil(const Plant *p, State *s, Totals *now, double *layers, double heat,
                           double outdoor, double rate, double step) {
    double zone = 0.0, share = p->coil_effectiveness;
    for (int layer = 0; layer < p->coil_layers; layer++) zone += layers[layer];
    zone /= (double)p->coil_layers;
    double outside = p->outdoor_loss * (s->unit - outdoor);
    double unit = p->unit_capacity / step, loop = p->coil_loop_capacity / step;
    double constant = (unit * s->unit + heat - outside) / (unit + rate), slope = rate / (unit + rate);
    double top = loop * s->coil_loop + rate * ((1.0 - share) * constant + share * zone);
    s->coil_loop = top / (loop + rate * (1.0 - (1.0 - share) * slope));
    s->unit = constant + slope * s->coil_loop;
    double given = rate * share * (s->unit - zone) * step;
    heat_layers(layers, given, p->layer_capacity, (int)p->coil_layers);
    now->heat_coil += given;
    now->heat_pipes_outdoors += outside * step;
}

static void tap(const Plant *p, State *s, Totals *now, double *layers, double drawn, double cold,
                double step) {
    if (p->has_cylinder == 0.0) return;
    if (drawn > 0.0) {
        double mixed = drawn * p->draw_factor * step / 60.0;
        double hotter = most(layers[LAYERS - 1], p->draw_temperature) - cold;
        double mass = mixed * (p->draw_temperature - cold) / hotter;
        double left_at = draw_layers(layers, mass, p->layer_mass, cold);
        now->heat_drawn += mass * p->layer_capacity / p->layer_mass * (left_at - cold);
        if (left_at < p->draw_temperature - 2.0) now->short_water += mixed;
    }
    if (s->hygiene <= 0.0) return;
    double wanted = p->hygiene_temperature;
    s->hygiene_seconds += step;
    int done = s->mode != HOT_WATER && layers[p->sensor_layer] >= hot_water_target(p, s) - 1.0;
    if (done && p->immersion_power > 0.0 && layers[0] < wanted) {
        double missing = 0.0;
        for (int layer = 0; layer < LAYERS; layer++)
            missing += most(wanted + 1.0 - layers[layer], 0.0) * p->layer_capacity;
        double heat = least(p->immersion_power * step, missing);
        heat_layers(layers, heat, p->layer_capacity, 1);
        now->heat_immersion += heat;
    }
    if (layers[0] >= wanted - 0.5) s->hygiene_held += step;
    if (s->hygiene_held >= p->hygiene_hold || s->hygiene_seconds > 43200.0) s->hygiene = 0.0;
}

static double rest_cylinder(const Plant *p, Totals *now, double *layers, double around) {
    double lost = 0.0, below = 0.0;
    for (int layer = 0; layer < LAYERS; layer++) {
        double away = p->layer_loss * (layers[layer] - around) * SLOT, above = 0.0;
        if (layer + 1 < LAYERS)
            above = p->layer_conduction * (layers[layer] - layers[layer + 1]) * SLOT;
        layers[layer] += (below - above - away) / p->layer_capacity;
        below = above;
        lost += away;
    }
    now->heat_standing += lost;
    if (p->cylinder_room >= 0) now->heat_standing_inside += lost;
    return lost / SLOT;
}

/* --- sums -------------------------------------------------------------------------------------- */

static void count(const Plant *p, State *s, Totals *now, double outdoor, double heat, double drawn,
                  double backup, double price, int pumping, int enough, double step) {
    double fan = p->fan_power * s->compressor, pump = pumping ? p->pump_power : 0.0;
    double standby = p->standby_power;
    if (s->compressor == 0.0 && outdoor < p->crankcase_below) standby += p->crankcase_power;
    if (s->mode == DEFROST) {
        now->heat_defrost -= heat * step;
        now->electricity_defrost += (drawn + fan) * step;
        now->defrost_seconds += step;
    } else if (s->mode == HOT_WATER) {
        now->heat_cylinder += heat * step;
        now->electricity_cylinder += (drawn + fan) * step;
        now->hot_water_seconds += step;
    } else {
        now->heat_rooms += heat * step;
        now->electricity_rooms += (drawn + fan) * step;
        if (s->compressor > 0.0 && s->mode == HEATING) {
            now->heating_seconds += step;
            now->flow_temperature += s->unit * step;
            now->target_temperature += s->target * step;
        }
    }
    if (s->compressor > 0.0) now->run_seconds += step;
    now->heat_backup += backup * step;
    now->backup_seconds += s->backup * step;
    now->electricity_pump += pump * step;
    now->electricity_standby += standby * step;
    now->cost += price * (drawn + fan + pump + standby + backup) * step;
    if (s->mode == HEATING && !enough) now->low_flow_seconds += step;
    s->mode_seconds += step;
    s->since_hot_water += step;
}

/* --- the loop ---------------------------------------------------------------------------------- */

void run_home(int64_t R, int64_t E, int64_t L, int64_t K, const Room *rooms, const Link *links,
              const Emitter *emitters, const double *maps, const Plant *p, const Driver *slots,
              const double *told, const double *draws, double *nodes, double *valves, State *s,
              double *layers, double *days, double *bins, RoomFigures *figures, double step) {
    double *air = nodes, *inner = nodes + R, *outer = nodes + 2 * R, *floor_ = nodes + 3 * R;
    double *water = valves, *opening = valves + E, *held = valves + 2 * E;
    double base[5][MOST_ROOMS], in[5][MOST_ROOMS];
    double through[MOST_ROOMS], weight[MOST_ROOMS], kept[MOST_ROOMS], warming[MOST_ROOMS];
    double given[MOST_ROOMS];
    const int quantities = sizeof(Totals) / sizeof(double);
    const int steps = (int)lround(SLOT / step);
    Totals total, *now = &total;

    for (int64_t k = 0; k < K; k++) {
        const Driver *d = slots + k, *later = slots + k + 1;
        const double *solar = told + k * R, *gains = told + (K + k) * R;
        const double *wanted = told + (2 * K + k) * R;
        memset(now, 0, sizeof total);
        s->mean_air = 0.0;
        for (int r = 0; r < R; r++) {
            const Room *m = rooms + r;
            double people = gains[r] * m->gain_factor, sun = solar[r] * m->solar_factor;
            base[4][r] = people * m->gain_radiant;
            base[0][r] = people - base[4][r] + sun * m->solar_air;
            base[1][r] = sun * m->solar_inner;
            base[2][r] = sun * m->solar_outer;
            base[3][r] = sun * m->solar_floor;
            s->mean_air += air[r] / (double)R;
        }
        if (p->has_cylinder > 0.0) {
            double around = p->cylinder_room >= 0 ? air[p->cylinder_room] : d->outdoor;
            s->cylinder_loss = rest_cylinder(p, now, layers, around);
            if (d->hygiene_due > 0.0) {
                s->hygiene = 1.0;
                s->hygiene_seconds = s->hygiene_held = 0.0;
            }
        }
        for (int number = 0; number < steps; number++) {
            double part = (number + 0.5) / steps;
            double outdoor = d->outdoor + part * (later->outdoor - d->outdoor);
            double humidity = d->humidity + part * (later->humidity - d->humidity);
            int64_t hall = p->thermostat_room;
            double cold = hall < 0 ? 0.0 : wanted[hall] + rooms[hall].wanted_shift - air[hall];
            double sensor = layers[p->sensor_layer];
            decide(p, s, d, cold, sensor);
            int moving = number % VALVE_STEPS == 0;
            if (moving) {
                double open = 0.0;
                for (int e = 0; e < E; e++) {
                    const Emitter *m = emitters + e;
                    double middle = wanted[m->room] + rooms[m->room].wanted_shift + m->valve_shift;
                    double half = 0.5 * m->valve_hysteresis, sensed = air[m->room];
                    double acting = least(most(held[e], sensed - half), sensed + half);
                    double lift = least(most(0.5 + (middle - acting) / m->valve_band, 0.0), 1.0);
                    double goal = most(lift, m->least_opening), lag = VALVE_STEPS * step;
                    opening[e] += (goal - opening[e]) * (lag / (m->valve_lag + lag));
                    held[e] = acting;
                    open += opening[e] * m->design_flow;
                }
                s->open_flow = open;
            }
            double rate, past = 0.0, scale = 0.0;
            int enough = 1;
            if (s->mode == HOT_WATER) {
                rate = p->coil_flow * p->heat_capacity;
            } else {
                double q = s->open_flow / p->design_flow;
                double pumped = p->design_flow * q /
                                sqrt(1.0 - p->common_resistance + p->common_resistance * q * q);
                if (pumped < p->least_flow && p->has_bypass > 0.0) past = p->least_flow - pumped;
                enough = pumped + past >= p->least_flow;
                rate = (pumped + past) * p->heat_capacity;
                past *= p->heat_capacity;
                scale = p->heat_capacity * pumped / most(s->open_flow, 1e-9);
                if (s->mode == REST) rate = past = scale = 0.0;
            }
            if (moving || scale != s->branch_scale) {
                double slope = 0.0;
                for (int e = 0; e < E; e++) {
                    const Emitter *m = emitters + e;
                    double w = opening[e] * m->design_flow * scale, ratio = w / m->conductance;
                    through[e] = w;
                    weight[e] = (6.0 * ratio + 1.0) * ratio / ((12.0 * ratio + 4.0) * ratio + 1.0);
                    kept[e] = m->capacity / (m->capacity + step * w);
                    warming[e] = kept[e] * step / m->capacity;
                    slope += w * (1.0 - kept[e]);
                }
                s->branch_scale = scale;
                s->branch_slope = slope;
            }
            int starts = switch_compressor(p, s, outdoor, enough, step), at_most;
            double drawn;
            double heat = unit_heat(p, s, now, maps, sensor, outdoor, humidity, d->quiet > 0.0,
                                    rate, step, &drawn, &at_most);
            double backup = switch_backup(p, s, outdoor, at_most, step);
            for (int row = 0; row < 5; row++) memcpy(in[row], base[row], R * sizeof(double));
            double emitted = 0.0, constant = 0.0;
            for (int e = 0; e < E; e++) {
                const Emitter *m = emitters + e;
                int64_t r = m->room;
                double mean = water[e] + weight[e] * (s->flow - water[e]);
                double sink = air[r] + m->into_floor * (floor_[r] - air[r]);
                double over = most(mean - sink, 0.0), root = sqrt(over);
                double out = over * (m->linear + m->quarter * sqrt(root) + m->half * root);
                double above = out * (1.0 - m->into_floor), radiant = above * m->radiant;
                given[e] = out;
                in[4][r] += radiant;
                in[0][r] += above - radiant;
                in[3][r] += out * m->into_floor;
                emitted += out;
                constant += through[e] * (kept[e] * water[e] - warming[e] * out);
            }
            double pipe_air = air[p->pipe_room];
            double flow_loss = p->flow_loss * (s->flow - pipe_air);
            double back_loss = p->return_loss * (s->back - pipe_air);
            now->heat_pipes += (flow_loss + back_loss) * step;
            if (s->mode == HOT_WATER) {
                round_the_coil(p, s, now, layers, heat, outdoor, rate, step);
                s->flow -= flow_loss * step / p->flow_capacity;
                s->back -= back_loss * step / p->return_capacity;
            } else {
                round_the_rooms(p, s, now, heat, backup - flow_loss, -back_loss, outdoor, rate,
                                constant, s->branch_slope + past, step);
            }
            in[0][p->pipe_room] += flow_loss + back_loss;
            if (p->cylinder_room >= 0) in[0][p->cylinder_room] += s->cylinder_loss;
            for (int e = 0; e < E; e++)
                water[e] = kept[e] * water[e] - warming[e] * given[e] + (1.0 - kept[e]) * s->flow;
            for (int l = 0; l < L; l++) {
                int64_t a = links[l].first, b = links[l].second;
                double by_air = links[l].air * (air[a] - air[b]);
                double by_wall = links[l].wall * (inner[a] - inner[b]);
                in[0][a] -= by_air;
                in[0][b] += by_air;
                in[1][a] -= by_wall;
                in[1][b] += by_wall;
            }
            double force = sqrt(p->leak_stack * fabs(s->mean_air - outdoor) +
                                p->leak_wind * d->wind * d->wind);
            double lost = 0.0;
            for (int r = 0; r < R; r++) {
                const Room *m = rooms + r;
                double radiant = in[4][r], i = inner[r], o = outer[r], f = floor_[r];
                double out = m->air_outside + m->ventilation + force * m->infiltration;
                double conductance = m->air_inner + m->air_outer + m->air_floor + out;
                double inflow = m->air_inner * i + m->air_outer * o + m->air_floor * f +
                                out * outdoor + in[0][r] + radiant * m->radiant_air;
                double a = (m->air_capacity * air[r] + step * inflow) /
                           (m->air_capacity + step * conductance);
                double to_outer = m->inner_outer * (i - o), to_floor = m->inner_floor * (i - f);
                double to_neighbour = m->inner_neighbour * (i - m->neighbour_temperature);
                double to_outside = m->outer_outside * (o - outdoor);
                double to_ground = m->floor_ground * (f - d->ground);
                lost += to_neighbour + to_outside + to_ground + out * (a - outdoor);
                inner[r] = i + (m->air_inner * (a - i) - to_outer - to_floor - to_neighbour +
                                in[1][r] + radiant * m->radiant_inner) * (step / m->inner_capacity);
                outer[r] = o + (m->air_outer * (a - o) + to_outer - to_outside + in[2][r] +
                                radiant * m->radiant_outer) * (step / m->outer_capacity);
                floor_[r] = f + (m->air_floor * (a - f) + to_floor - to_ground + in[3][r] +
                                 radiant * m->radiant_floor) * (step / m->floor_capacity);
                air[r] = a;
            }
            tap(p, s, now, layers, draws[k * 15 + number * 15 / steps], d->cold_water, step);
            now->heat_emitted += emitted * step;
            now->heat_lost += lost * step;
            now->starts += starts;
            count(p, s, now, outdoor, heat, drawn, backup, d->price, rate > 0.0, enough, step);
        }
        double gained = 0.0, shone = 0.0;
        for (int r = 0; r < R; r++) {
            gained += gains[r] * rooms[r].gain_factor;
            shone += solar[r] * rooms[r].solar_factor;
        }
        now->heat_gains += gained * SLOT;
        now->heat_sun += shone * SLOT;
        now->seconds = SLOT;
        double mean = 0.5 * (d->outdoor + later->outdoor);
        now->outdoor = mean * SLOT;
        now->cost += now->heat_immersion * d->price;
        int degree = (int)floor(mean + 0.5) + 30;
        degree = degree < 0 ? 0 : degree > ROWS - 1 ? ROWS - 1 : degree;
        for (int q = 0; q < quantities; q++) {
            days[d->day * quantities + q] += ((double *)now)[q];
            bins[degree * quantities + q] += ((double *)now)[q];
        }
        int season = d->outdoor_mean < p->heating_limit;
        for (int r = 0; r < R; r++) {
            RoomFigures *f = figures + r;
            double should = wanted[r] + rooms[r].wanted_shift;
            f->seconds += SLOT;
            f->temperature += air[r] * SLOT;
            f->coldest = least(f->coldest, air[r]);
            f->warmest = most(f->warmest, air[r]);
            if (season && air[r] < should - 0.5) {
                f->below_seconds += SLOT;
                f->below += (should - 0.5 - air[r]) * SLOT;
            }
            if (air[r] > should + 2.0) f->above_seconds += SLOT;
        }
    }
}
