/* The events of many engines, one after another: the same closed form as the program's, as plainly as C can say it. */
#include <math.h>

/* Rows of the input: stroke, connecting rod, cylinder offset, throw, eccentric rod, eccentric angle, valve line offset,
   valve offset, head steam lap, head exhaust lap, crank steam lap, crank exhaust lap, hand, rocker. */
void find_events(long count, const double *const *in, double *const *deg, double *const *share)
{
    for (long i = 0; i < count; i++) {
        const double crank = in[0][i] / 2, con = in[1][i], off = in[2][i];
        const double e = in[3][i], rod = in[4][i], line = in[6][i], hand = in[12][i], rocker = in[13][i];
        const double low = sqrt((con - crank - off) * (con - crank + off));
        const double high = sqrt((con + crank - off) * (con + crank + off));
        const double near = sqrt((rod - e - line) * (rod - e + line)), far = sqrt((rod + e - line) * (rod + e + line));
        const double middle = (near + far) / 2, ca = cos(in[5][i]), sa = sin(in[5][i]), scale = 1 / (high - low);
        const double edge[4] = {-hand * in[8][i], hand * in[9][i], hand * in[10][i], -hand * in[11][i]};
        static const int row[4][2] = {{0, 1}, {3, 2}, {5, 4}, {6, 7}};
        for (int k = 0; k < 4; k++) {
            const double place = middle + rocker * (edge[k] - in[7][i]);
            const double d = sqrt(place * place + line * line);
            const double folded = (rod - d + e) * (rod + d - e), stretched = (d + e - rod) * (d + e + rod);
            const double whole = folded + stretched;
            const double along = (stretched - folded) / whole, across = 2 * sqrt(folded * stretched) / whole;
            const double l = place / d, m = line / d;
            for (int way = 0; way < 2; way++) {
                const double s = way ? -across : across;
                const double c1 = l * along - m * s, s1 = m * along + l * s;
                const double c = c1 * ca + s1 * sa, t = s1 * ca - c1 * sa;
                const int r = row[k][(hand * rocker < 0) ? 1 - way : way];
                double angle = atan2(t, c) * (180 / 3.14159265358979323846);
                if (angle < 0) angle += 360;
                const double rise = crank * t - off;
                const double at = crank * c + sqrt(con * con - rise * rise);
                deg[r][i] = angle;
                share[r][i] = (r < 4 ? high - at : at - low) * scale;
            }
        }
    }
}
