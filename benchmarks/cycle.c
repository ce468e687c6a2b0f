/* A cylinder marched through its turns, as a plain C program of the same scheme as the kernels': the rod to hold their
   time against. It is handed the same arrays (a cell, the steam's table, the turn) and fills the same rows.

   `places.h` names the places in these arrays and the figures of the model; the benchmark writes it beside. Chest and
   exhaust pipe are never free here, so no stage wants all spaces at once: should the ends not agree in turn, the
   program says so by a negative count of turns. */

#include <math.h>
#include "places.h"

static double least(double a, double b) { return a < b ? a : b; }
static double most(double a, double b) { return a > b ? a : b; }

/* --- the medium ------------------------------------------------------------------------------------------------- */

static void flow_terms(double exponent, double *terms)
{
    double sonic = 2 / (exponent + 1), thinned = pow(sonic, 1 / (exponent - 1));
    double scale = 2 * exponent / (exponent - 1), ratio = 1 - SMALL_DROP, power = pow(ratio, 1 / exponent);
    terms[0] = sonic * thinned;
    terms[1] = sqrt(exponent * sonic) * thinned;
    terms[2] = 1 / exponent;
    terms[3] = scale;
    terms[4] = sqrt(scale * power * (power - ratio)) / SMALL_DROP;
}

static double flow_factor(double ratio, const double *terms)
{
    double power;
    if (ratio >= 1) return 0;
    if (ratio <= terms[0]) return terms[1];
    if (ratio > 1 - SMALL_DROP) return terms[4] * (1 - ratio);
    power = pow(ratio, terms[2]);
    return sqrt(terms[3] * power * (power - ratio));
}

/* The four cubic weights of a stretch: value and slope at its start, value and slope at its end. */
struct weights { double a, b, c, d; };

static struct weights weigh_stretch(double t)
{
    struct weights w = {(1 + 2 * t) * (1 - t) * (1 - t), t * (1 - t) * (1 - t), t * t * (3 - 2 * t), t * t * (t - 1)};
    return w;
}

static double along(struct weights w, const double *here, const double *next)
{
    return w.a * here[0] + w.b * here[1] + w.c * next[0] + w.d * next[1];
}

static void climb(const double *table, double place, double beyond, double *above, double *hotter)
{
    int i = (int)least(place, ROWS - 1), n;
    double across = beyond / COLUMN_STEP, more, *answers[2];
    int j = (int)least(across, COLUMNS - 1);
    double s = least(across - j, 1);
    struct weights w = weigh_stretch(place - i), x = weigh_stretch(s);
    const double *near = table + SURFACE + (i * (COLUMNS + 1) + j) * CORNER, *far = near + (COLUMNS + 1) * CORNER;
    answers[0] = above;
    answers[1] = hotter;
    more = across - j - s;
    for (n = 0; n < 2; n++, near += 4, far += 4) {
        *answers[n] = x.a * along(w, near, far) + x.b * along(w, near + 2, far + 2)
                    + x.c * along(w, near + CORNER, far + CORNER) + x.d * along(w, near + CORNER + 2, far + CORNER + 2);
        if (more > 0) *answers[n] += more * along(w, near + CORNER + 2, far + CORNER + 2);
    }
}

struct inside { double energy, temperature, dryness, saturation, film; };

static struct inside find_inside(const double *table, double pressure, double volume)
{
    double p = least(most(pressure, LOWEST), HIGHEST), place = (log(p) - LOW) / CURVE_STEP;
    int i = (int)least(place, CURVE - 1);
    struct weights w = weigh_stretch(place - i);
    const double *k = table + i * CURVES, *next = k + CURVES;
    double water = along(w, k + 2, next + 2), water_volume = along(w, k + 4, next + 4);
    double dry = along(w, k + 6, next + 6), dry_volume = along(w, k + 8, next + 8) / p, within, above, hotter;
    struct inside found;
    found.saturation = along(w, k, next);
    found.film = water + p * water_volume;
    within = volume * (pressure / p);
    if (within <= dry_volume) {
        found.dryness = (within - water_volume) / (dry_volume - water_volume);
        found.energy = water + found.dryness * (dry - water);
        found.temperature = found.saturation;
        return found;
    }
    climb(table, place * ((double)ROWS / CURVE), pressure * volume - p * dry_volume, &above, &hotter);
    found.energy = dry + above;
    found.temperature = found.saturation + hotter;
    found.dryness = 1 + above / (dry - water);
    return found;
}

static void find_volumes(const double *table, double pressure, double *water, double *dry)
{
    double p = least(most(pressure, LOWEST), HIGHEST), place = (log(p) - LOW) / CURVE_STEP;
    int i = (int)least(place, CURVE - 1);
    struct weights w = weigh_stretch(place - i);
    const double *k = table + i * CURVES, *next = k + CURVES;
    *water = along(w, k + 4, next + 4) * (p / pressure);
    *dry = along(w, k + 8, next + 8) / p * (p / pressure);
}

/* --- the balance of a space ------------------------------------------------------------------------------------- */

static double wetness(double dryness) { return least(1, most(0, (1 - dryness) / DAMP)); }

static double find_exponent(double dryness)
{
    if (dryness <= 1) return 1.035 + 0.1 * most(dryness, 0);
    return 1.135 + 0.165 * least(1, (dryness - 1) / FULLY_DRY);
}

static void set_flow_terms(double *cell, int space)
{
    double *here = cell + space * ROW, exponent = cell[STEAM] == 0 ? cell[GAS_EXPONENT] : find_exponent(here[DRYNESS]);
    here[WET] = wetness(here[DRYNESS]);
    if (fabs(exponent - here[EXPONENT]) < SAME_EXPONENT) return;
    here[EXPONENT] = exponent;
    flow_terms(exponent, here + FLOW);
}

static int is_narrow(const double *up, double p, double q, const double *gap)
{
    if (q < up[FLOW] * p) return 0;
    return gap[GAP_GAS] * (p + q) * sqrt(up[DENSITY] / p) < gap[GAP_AREA] * (up[FLOW + 1] / (1 - up[FLOW]));
}

static double leak_water(const double *gap, double drop)
{
    return least(gap[GAP_WATER] * drop, gap[GAP_AREA] * sqrt(2 * WATER * drop));
}

static void leak_through(const double *up, double q, const double *gap, double *gas, double *water)
{
    double p = up[P], density = up[DENSITY];
    *gas = gap[GAP_GAS] * (p * p - q * q) * density / p;
    if (!is_narrow(up, p, q, gap))
        *gas = least(*gas, gap[GAP_AREA] * sqrt(p * density) * flow_factor(q / p, up + FLOW));
    *water = 0;
    if (gap[GAP_WATER] == 0) return;
    *gas *= 1 - gap[GAP_WET] * up[WET];
    *water = gap[GAP_WET] * wetness(up[DRYNESS]) * leak_water(gap, p - q) * up[MASS] / up[START];
}

static void note_inside(double *cell, int space, double p, double mass, const double *table)
{
    double *here = cell + space * ROW, volume = here[VOLUME] / mass, energy, saturation = 0;
    if (cell[STEAM] == 0) {
        energy = p * volume / (cell[GAS_EXPONENT] - 1);
        here[TEMPERATURE] = p * volume / cell[GAS_R];
    } else {
        struct inside found = find_inside(table, p, volume);
        energy = found.energy;
        saturation = found.saturation;
        here[TEMPERATURE] = found.temperature;
        here[DRYNESS] = found.dryness;
        here[FILM] = found.film;
    }
    here[P] = p;
    here[MASS] = mass;
    here[ENERGY] = mass * energy;
    here[DENSITY] = 1 / volume;
    here[ENTHALPY] = energy + p * volume;
    if (cell[HEATED] != 0 && space <= CRANK) {
        double area = cell[WALL_HEAD + space] + cell[WALL_PER_VOLUME] * here[VOLUME], wall = cell[WALL];
        double coupling = cell[DRY_HEAT] * area, heat = coupling * (wall - here[TEMPERATURE]);
        if (cell[STEAM] != 0) {
            double more = (cell[WET_HEAT] - cell[DRY_HEAT]) * area;
            if (wall > saturation) more *= wetness(here[DRYNESS]);
            heat += more * (wall - saturation);
            coupling += more;
        }
        here[HEAT] = heat;
        here[COUPLING] = coupling;
    }
}

static double settle_mass(double mass, double by_root, double by_mass)
{
    return 2 * mass / (by_root + sqrt(by_root * by_root + 4 * (1 + by_mass) * mass));
}

/* The root of the mass that stays, where besides a film of water leaves: whole, as far as there is water, or none. */
static double settle_film(
    const double *table, double p, double volume, double mass, double by_root, double by_mass, double film,
    double *drained)
{
    double water, dry, root = settle_mass(mass, by_root, by_mass + film), per_mass, none;
    find_volumes(table, p, &water, &dry);
    per_mass = (1 + water / (dry - water)) / DAMP;
    none = volume / ((dry - water) * DAMP);
    if (per_mass * root * root - none >= root * root) {
        *drained = film * root * root;
        return root;
    }
    root = settle_mass(mass + film * none, by_root, by_mass + film * per_mass);
    if (per_mass * root * root > none) {
        *drained = film * (per_mass * root * root - none);
        return root;
    }
    *drained = 0;
    return settle_mass(mass, by_root, by_mass);
}

static double weigh(double *cell, int space, double p, double span, const double *table)
{
    double *here = cell + space * ROW, volume = here[VOLUME], mass = here[BASE_MASS], energy = here[BASE_ENERGY];
    double work = span * p * here[SWELLING], by_root = 0, by_mass = 0, film = 0, root, left, gone, heat;
    double drained = 0;
    int n;
    for (n = 0; n < MOST_WAYS && WAYS_AT[space][n] >= 0; n++) {
        int way = WAYS_AT[space][n];
        double opening = span * cell[OPEN + way], q, factor = 0;
        const double *there = cell + THERE_AT[space][n], *gap;
        if (opening == 0) continue;
        q = there[P];
        if (way < FIRST_GAP) {
            if (q > p) {
                double flow = opening * sqrt(q * there[DENSITY]) * (factor = flow_factor(p / q, there + FLOW));
                mass += flow;
                energy += flow * there[ENTHALPY];
            } else if (p > q)
                by_root += opening * sqrt(p / volume) * (factor = flow_factor(q / p, here + FLOW));
            cell[FACTOR + way] = factor;
            continue;
        }
        gap = cell + GAPS + GAP * (way - FIRST_GAP);
        if (q > p) {
            double gas, water;
            leak_through(there, p, gap, &gas, &water);
            mass += span * (gas + water);
            energy += span * (gas * there[ENTHALPY] + water * there[FILM]);
        } else if (p > q) {
            double through = 0, line = gap[GAP_GAS] * (p * p - q * q) / (p * volume);
            if (!is_narrow(here, p, q, gap)) {
                double held = here[DENSITY] * volume;
                through = gap[GAP_AREA] * sqrt(p / volume) * flow_factor(q / p, here + FLOW);
                if (line * held > through * sqrt(held)) line = 0;
                else through = 0;
            }
            if (gap[GAP_WATER] != 0) {
                through *= 1 - gap[GAP_WET] * here[WET];
                line *= 1 - gap[GAP_WET] * here[WET];
                film += span * gap[GAP_WET] * leak_water(gap, p - q) / here[START];
            }
            by_root += span * through;
            by_mass += span * line;
        }
    }
    root = film > 0 ? settle_film(table, p, volume, mass, by_root, by_mass, film, &drained)
                    : settle_mass(mass, by_root, by_mass);
    left = root * root;
    note_inside(cell, space, p, left, table);
    gone = (by_root * root + by_mass * left) * here[ENTHALPY] + drained * here[FILM];
    heat = span * here[HEAT];
    here[TURNED] = here[ENERGY] + gone + most(work, 0) - least(heat, 0);
    return here[ENERGY] + gone + work - energy - heat;
}

/* --- a stage ---------------------------------------------------------------------------------------------------- */

static int solve_alone(double *cell, int space, double span, const double *table)
{
    double *here = cell + space * ROW, low = 0, high = 1e300, p = here[P], before = p, excess_before = 0, excess;
    double slope = here[SLOPE] > 0 ? here[SLOPE] : 2.5 * here[VOLUME];
    int n, creeps;
    for (n = 0; n < 200; n++) {
        excess = weigh(cell, space, p, span, table);
        if (n > 0) {
            double change = (excess - excess_before) / (p - before);
            if (change > 0) slope = change;
        }
        if (fabs(excess) < FINE * most(2.5 * p * here[VOLUME], 0.1 * here[TURNED])) break;
        if (excess > 0) high = p;
        else low = p;
        creeps = n > PATIENCE && fabs(excess) > 0.5 * fabs(excess_before);
        before = p;
        excess_before = excess;
        p -= excess / slope;
        if (creeps || !(low < p && p < high)) p = high < 1e300 ? 0.5 * (low + high) : 2 * before;
        p = least(most(p, 0.2 * before), 5 * before);
        if (p == before) break;
    }
    here[SLOPE] = slope;
    return n > 0;
}

/* Whether the two ends agreed. */
static int solve_stage(double *cell, long row, double ahead, double span, const double *table)
{
    int end, n, tied = cell[OPEN + FIRST_GAP] != 0;
    for (end = 0; end < 2; end++) {
        double *here = cell + end * ROW, p = here[P], guess;
        guess = p + ahead * (here[RATE] + ahead * here[BEND + row % 2]);
        if (fabs(guess - p) < BOLDEST * p) here[P] = guess;
    }
    for (n = 0; n < (tied ? 2 * ROUNDS : 2); n++)
        if (!solve_alone(cell, n % 2, span, table) && n >= 2) return 1;
    return !tied;
}

static void find_flows(double *cell, double *out)
{
    int space, way;
    for (space = 0; space < SPACES; space++) {
        double *here = cell + space * ROW;
        here[GAIN_MASS] = 0;
        here[GAIN_ENERGY] = here[HEAT] - here[P] * here[SWELLING];
    }
    for (way = 0; way < WAYS; way++) {
        double *from = cell + WAY_FROM[way] * ROW, *to = cell + WAY_TO[way] * ROW, *up = from, *down = to;
        double sign = 1, flow = 0, carried = 0;
        if (cell[OPEN + way] != 0 && from[P] != to[P]) {
            if (to[P] > from[P]) {
                up = to;
                down = from;
                sign = -1;
            }
            if (way < FIRST_GAP) {
                flow = sign * cell[OPEN + way] * sqrt(up[P] * up[DENSITY]) * cell[FACTOR + way];
                carried = flow * up[ENTHALPY];
            } else {
                double gas, water;
                leak_through(up, down[P], cell + GAPS + GAP * (way - FIRST_GAP), &gas, &water);
                flow = sign * (gas + water);
                carried = sign * (gas * up[ENTHALPY] + water * up[FILM]);
            }
        }
        out[OUT_FLOWS + way] = flow;
        out[OUT_CARRIED + way] = carried;
        from[GAIN_MASS] -= flow;
        from[GAIN_ENERGY] -= carried;
        to[GAIN_MASS] += flow;
        to[GAIN_ENERGY] += carried;
    }
}

/* --- a turn ----------------------------------------------------------------------------------------------------- */

static int take_stage(
    double *cell, long row, double ahead, double span, const double *table, const double *place, double *out)
{
    double before[2];
    int end, way, agreed;
    for (end = 0; end < 2; end++) {
        cell[end * ROW + VOLUME] = place[VOLUME_HEAD + 2 * end];
        cell[end * ROW + SWELLING] = place[SWELL_HEAD + 2 * end] * cell[SPEED];
        before[end] = cell[end * ROW + P];
    }
    for (way = 0; way < 5; way++) cell[OPEN + WAY_STEAM_HEAD + way] = place[OPEN_STEAM_HEAD + way];
    agreed = solve_stage(cell, row, ahead, span, table);
    find_flows(cell, out);
    for (end = 0; end < 2; end++) {
        double *here = cell + end * ROW, rate = (here[P] - before[end]) / ahead;
        here[BEND + row % 2] = (rate - here[RATE]) / ahead;
        here[RATE] = rate;
        here[MASS] = here[BASE_MASS] + span * here[GAIN_MASS];
        here[ENERGY] = here[BASE_ENERGY] + span * here[GAIN_ENERGY];
        out[OUT_T + end] = here[TEMPERATURE];
        out[OUT_X + end] = here[DRYNESS];
        out[OUT_HEAT + end] = here[HEAT];
        out[OUT_HEAT + 2 + end] = here[COUPLING];
    }
    for (end = 0; end < 4; end++) out[OUT_P + end] = cell[end * ROW + P];
    return agreed;
}

static int rushes(double now, double then) { return fabs(now - then) > RUSHED * least(now, then); }

static int take_step(double *cell, long row, const double *table, const double *turn, double *out)
{
    double width = turn[STEP], length = width / cell[SPEED], weight;
    double *last = out + OUT;
    int end, rushed = 0, agreed;
    for (end = 0; end < 2; end++) {
        double *here = cell + end * ROW;
        set_flow_terms(cell, end);
        here[START] = here[BASE_MASS] = here[MASS];
        here[BASE_ENERGY] = here[ENERGY];
    }
    agreed = take_stage(cell, row, GAMMA * length, GAMMA * length, table, turn, out);
    for (end = 0; end < 2; end++) {
        double *here = cell + end * ROW;
        rushed = rushed || rushes(here[MASS], here[BASE_MASS]) || rushes(here[ENERGY], here[BASE_ENERGY]);
    }
    weight = rushed ? GAMMA : 1 - GAMMA;
    for (end = 0; end < 2; end++) {
        double *here = cell + end * ROW;
        here[BASE_MASS] += weight * length * here[GAIN_MASS];
        here[BASE_ENERGY] += weight * length * here[GAIN_ENERGY];
    }
    agreed &= take_stage(cell, row + 1, (1 - GAMMA) * length, (1 - weight) * length, table, turn + TURN, last);
    out[OUT_SHARE] = weight * width;
    last[OUT_SHARE] = (1 - weight) * width;
    for (end = 0; end < 2; end++) {
        double first = out[OUT_SHARE] / cell[SPEED], second = last[OUT_SHARE] / cell[SPEED];
        cell[WALL_GIVEN] -= first * out[OUT_HEAT + end] + second * last[OUT_HEAT + end];
        cell[WALL_COUPLING] += first * out[OUT_HEAT + 2 + end] + second * last[OUT_HEAT + 2 + end];
    }
    return agreed;
}

static double warm_wall(double *cell)
{
    double period = 2 * PI / cell[SPEED], bold = cell[WALL_BOLD], move;
    double kept = cell[WALL_GIVEN] - cell[LOSS] * (cell[WALL] - cell[SHOP_TEMPERATURE]) * period;
    cell[WALL_ANSWER] = most(cell[WALL_COUPLING] + cell[LOSS] * period, 0.3 * cell[WALL_ANSWER]);
    cell[WALL_BOLD] = kept * cell[WALL_KEPT] > 0 ? least(1.5 * bold, 4) : most(0.5 * bold, 0.05);
    cell[WALL_KEPT] = kept;
    move = least(most(cell[WALL_BOLD] * kept / cell[WALL_ANSWER], -BIGGEST_MOVE), BIGGEST_MOVE);
    cell[WALL] += move;
    return fabs(move) / cell[WALL];
}

/* March until a turn repeats; the count of turns, negative where the ends of a stage did not agree. */
long march(double *cell, const double *table, const double *turn, long rows, double *out)
{
    double change = 1;
    long turns = 0, row;
    int end, agreed = 1;
    cell[WALL_BOLD] = 1;
    cell[WALL_KEPT] = cell[WALL_ANSWER] = 0;
    while (turns < (long)cell[MOST_TURNS] && !(change < cell[TOLERANCE])) {
        for (end = 0; end < 2; end++) {
            cell[end * ROW + TURN_MASS] = cell[end * ROW + MASS];
            cell[end * ROW + TURN_ENERGY] = cell[end * ROW + ENERGY];
        }
        cell[WALL_GIVEN] = cell[WALL_COUPLING] = 0;
        for (row = 0; row < rows; row += 2) agreed &= take_step(cell, row, table, turn + row * TURN, out + row * OUT);
        for (change = 0, end = 0; end < 2; end++) {
            double *here = cell + end * ROW;
            change = most(change, fabs(here[MASS] / here[TURN_MASS] - 1));
            change = most(change, fabs(here[ENERGY] / here[TURN_ENERGY] - 1));
        }
        if (cell[HEATED] != 0) change = most(change, warm_wall(cell));
        turns++;
    }
    return agreed ? turns : -turns;
}
