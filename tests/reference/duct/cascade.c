/* A rival for the speed benchmark: the whole bore at every frequency by brute force, in plain C99 on one core.
 *
 *     cc -O2 cascade.c -lm -o cascade && ./cascade input.txt
 *
 * input.txt, SI, rim first: "density soundSpeed viscosity heatRatio prandtl", then N, then N lines "r_in r_out length"
 * (cascade.py --make writes one). The same job, equations and output as cascade.py.
 */
#include <complex.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

typedef double complex cplx;
enum { FREQUENCIES = 3921, PEAKS = 12, TERMS = 16 };
static const double PI = 3.14159265358979323846;

static double rho, c, mu, heat, Pr;
static int N;
static double (*section)[3];

/* J1/J0 for Im z < 0. Far out J is a Hankel function alone, whose ratio is -i sum tail[k] (i/z)^k. */
static double tail[TERMS];

static void prepareTail(void) {
  double a0[TERMS], a1[TERMS]; /* H_n ~ sum a_n[k] (i/z)^k */
  a0[0] = a1[0] = 1;
  for (int k = 1; k < TERMS; k++) {
    double odd = (2 * k - 1) * (2 * k - 1);
    a0[k] = a0[k - 1] * (0 - odd) / (8 * k);
    a1[k] = a1[k - 1] * (4 - odd) / (8 * k);
  }
  for (int k = 0; k < TERMS; k++) {
    tail[k] = a1[k];
    for (int i = 1; i <= k; i++) tail[k] -= a0[i] * tail[k - i];
  }
}

static cplx besselRatio(cplx z) {
  double size2 = creal(z) * creal(z) + cimag(z) * cimag(z);
  if (size2 > 28.0 * 28.0 && cimag(z) < -18) {
    cplx t = I / z, sum = tail[TERMS - 1];
    for (int k = TERMS - 2; k >= 0; k--) sum = sum * t + tail[k];
    return -I * sum;
  }
  cplx zz = z * z, d = 1; /* backward: J_n/J_(n-1) = z / d_n, d_n = 2n - z^2/d_(n+1) */
  int n = (int)(1.2 * sqrt(size2)) + 14;
  for (d = 2 * (n + 1); n >= 1; n--) {
    double m = 1 / (creal(d) * creal(d) + cimag(d) * cimag(d));
    d = 2 * n - zz * (conj(d) * m);
  }
  return z / d;
}

static cplx F(cplx r) {
  const cplx rootMinusJ = sqrt(0.5) * (1 - I);
  cplx z = r * rootMinusJ;
  return 2 * besselRatio(z) / z;
}

static cplx radiation(cplx w, double a) {
  cplx x = w / c * a, y = x * x;
  cplx R = (1 + 0.800 * y) / (1 + y * (1.300 + y * (0.266 + y * 0.0263)));
  cplx L = 0.6133 * (1 + 0.0599 * y) / (1 + y * (0.238 + y * (-0.0153 + y * 0.00150)));
  cplx reflection = -R * cexp(-2 * I * x * L);
  return rho * c / (PI * a * a) * (1 + reflection) / (1 - reflection);
}

/* Z at the rim for n frequencies, one section after the other from the bell. */
static void impedance(int n, const cplx *f, cplx *Z) {
  cplx *w = malloc(n * sizeof *w), *rv = malloc(n * sizeof *rv), *G = malloc(n * sizeof *G), *zc = malloc(n * sizeof *zc);
  double rootPr = sqrt(Pr), last = 0;
  for (int k = 0; k < n; k++) {
    w[k] = 2 * PI * f[k];
    rv[k] = csqrt(w[k] * rho / mu); /* times the radius */
    Z[k] = radiation(w[k], section[N - 1][1]);
  }
  for (int i = N - 1; i >= 0; i--) {
    double r1 = section[i][0], r2 = section[i][1], L = section[i][2];
    double mean = (r1 + r2) / 2, s = (r2 - r1) / L, t = r2 / r1, q = s / r1, area = PI * r1 * r2, bend = PI * s * s;
    if (fabs(mean - last) > 1e-14 * mean) { /* else the losses of the section before serve again */
      last = mean;
      for (int k = 0; k < n; k++) {
        cplx v = 1 - F(mean * rv[k]);
        cplx h = 1 + (heat - 1) * F(mean * rootPr * rv[k]);
        cplx root = csqrt(h / v);
        G[k] = I * w[k] / c * root;
        zc[k] = rho * c * root / h;
      }
    }
    for (int k = 0; k < n; k++) {
      cplx e = cexp(G[k] * L), inverse = 1 / e;
      cplx ch = (e + inverse) / 2, sh = (e - inverse) / 2;
      cplx A = t * ch, B = zc[k] * sh / area, C = area * sh, D = ch / t;
      if (s != 0) {
        cplx g = 1 / G[k], shG = sh * g;
        A -= q * shG;
        C += bend * (L * ch - shG) * g;
        D += q / t * shG;
      }
      Z[k] = (A * Z[k] + B) / (C / zc[k] * Z[k] + D);
    }
  }
  free(w), free(rv), free(G), free(zc);
}

static int findPeaks(const cplx *f, const cplx *Z, double *peak) {
  static double m[FREQUENCIES];
  int found = 0;
  for (int k = 0; k < FREQUENCIES; k++) m[k] = cabs(Z[k]);
  for (int k = 1; k + 1 < FREQUENCIES && found < PEAKS; k++)
    if (m[k] > m[k - 1] && m[k] >= m[k + 1])
      peak[found++] = creal(f[k]) + 0.25 * (m[k - 1] - m[k + 1]) / (m[k - 1] - 2 * m[k] + m[k + 1]);
  return found;
}

/* Secant on Y; steps of at most 0.5 % of the start keep each search with its own peak. */
static cplx resonance(double start) {
  cplx f0 = start, f1 = start * (1 + 0.01 * I), Z0, Z1;
  impedance(1, &f0, &Z0);
  impedance(1, &f1, &Z1);
  for (int i = 0; i < 40; i++) {
    cplx y0 = 1 / Z0, y1 = 1 / Z1, step = y1 * (f1 - f0) / (y1 - y0);
    if (cabs(step) > 0.005 * start) step *= 0.005 * start / cabs(step);
    f0 = f1, Z0 = Z1, f1 -= step;
    if (cabs(step) < 1e-9 * start) break;
    impedance(1, &f1, &Z1);
  }
  return f1;
}

static double seconds(void) { return (double)clock() / CLOCKS_PER_SEC; }

int main(int argc, char **argv) {
  FILE *in = argc > 1 ? fopen(argv[1], "r") : NULL;
  if (!in || fscanf(in, "%lf %lf %lf %lf %lf %d", &rho, &c, &mu, &heat, &Pr, &N) != 6) return 1;
  section = malloc(N * sizeof *section);
  for (int i = 0; i < N; i++)
    if (fscanf(in, "%lf %lf %lf", &section[i][0], &section[i][1], &section[i][2]) != 3) return 1;
  fclose(in);

  static cplx f[FREQUENCIES], Z[FREQUENCIES], pole[PEAKS];
  double peak[PEAKS], best = INFINITY;
  int found = 0;
  for (int trial = 0; trial < 3; trial++) {
    double start = seconds();
    prepareTail();
    for (int k = 0; k < FREQUENCIES; k++) f[k] = 40 + 0.5 * k;
    impedance(FREQUENCIES, f, Z);
    found = findPeaks(f, Z, peak);
    for (int i = 0; i < found; i++) pole[i] = resonance(peak[i]);
    best = fmin(best, seconds() - start);
  }

  int at = 2 * (1000 - 40);
  printf("{\"seconds\": %.4f, \"peaks\": [", best);
  for (int i = 0; i < found; i++) printf("%s%.6f", i ? ", " : "", peak[i]);
  printf("], \"Z_at_1000\": [%.9g, %.9g], \"resonances\": [", creal(Z[at]), cimag(Z[at]));
  for (int i = 0; i < found; i++) printf("%s[%.6f, %.6f]", i ? ", " : "", creal(pole[i]), cimag(pole[i]));
  printf("]}\n");
  return 0;
}
