/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "compare.h"
#include "numeric/gsl_guard.h"
#include "numeric/quadrature.h"
#include "numeric/root.h"

#include <gsl/gsl_errno.h>
#include <stdlib.h>

static const double pi = 3.14159265358979323846;

/* --- functions --- */

static double square(double x, void *state) {
    (void)state;
    return x * x;
}
static double sine(double x, void *state) {
    (void)state;
    return sin(x);
}
static double bend(double x, void *state) {
    (void)state;
    return fabs(x);
}
static double half_circle(double x, void *state) {
    (void)state;
    return sqrt(fmax(0, 1 - x * x));
}
static double one_over(double x, void *state) {
    (void)state;
    return 1 / x;
}
static double comb(double x, void *state) {
    (void)state;
    return fmod(floor(x * 1e7), 2); /* jumps 1e7 times: no rule of a few thousand points does */
}
static double power(double x, void *state) {
    return pow(x, *(int *)state);
}
static double counted_cosine(double x, void *state) {
    ++*(int *)state;
    return cos(x) - x;
}
static double wallis(double x, void *state) {
    (void)state;
    return x * x * x - 2 * x - 5;
}
static double shifted(double x, void *state) {
    return x - *(double *)state;
}
static double steep(double x, void *state) {
    (void)state;
    return x < 1e-9 ? -1e300 : 1e-300;
}
static double hole(double x, void *state) {
    (void)state;
    return x > 0.2 && x < 0.8 ? NAN : x - 0.5;
}

/* --- adaptive --- */

START_TEST(adaptive_closed_forms) {
    /* Antiderivatives by hand. */
    static const struct {
        double (*f)(double x, void *state);
        double from, to, want;
    } rows[] = {{square, 0, 1, 1.0 / 3},
                {square, 1, 0, -1.0 / 3},
                {square, -2.385, 7.11, (7.11 * 7.11 * 7.11 + 2.385 * 2.385 * 2.385) / 3},
                {sine, 0, 3.14159265358979323846, 2},
                {bend, -1, 2, 2.5},
                {half_circle, 0, 1, 3.14159265358979323846 / 4},
                {half_circle, -1, 1, 3.14159265358979323846 / 2},
                {one_over, 1, 2.718281828459045, 1}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        double value = NAN, error = NAN;
        ck_assert_int_eq(
            runnel_integrate(rows[i].f, NULL, rows[i].from, rows[i].to, 0, 1e-11, &value, &error),
            RUNNEL_OK);
        ck_near(value, rows[i].want, 1e-11);
        ck_assert(error >= 0 && error <= 1e-11 * fabs(rows[i].want) * 1.001);
    }
}
END_TEST

START_TEST(adaptive_empty_and_zero) {
    double value = NAN, error = NAN;
    ck_assert_int_eq(runnel_integrate(square, NULL, 3, 3, 0, 0, &value, &error), RUNNEL_OK);
    ck_near(value, 0, 0);
    ck_near(error, 0, 0);
    /* An odd function over a symmetric interval: only the absolute tolerance can be met. */
    ck_assert_int_eq(runnel_integrate(sine, NULL, -pi, pi, 1e-12, 0, &value, &error), RUNNEL_OK);
    ck_near_or(value, 0, 0, 1e-12);
    /* No tolerance at all counts as 1e-13 of the integral. */
    ck_assert_int_eq(runnel_integrate(sine, NULL, 0, pi, 0, 0, &value, &error), RUNNEL_OK);
    ck_near(value, 2, 1e-13);
}
END_TEST

START_TEST(adaptive_refusals) {
    double value = 7, error = 8;
    static const struct {
        double from, to, absolute, relative;
    } out_of_range[] = {{NAN, 1, 0, 0},   {0, INFINITY, 0, 0}, {0, 1, -1, 0},
                        {0, 1, 0, -1e-9}, {0, 1, NAN, 1e-9},   {0, 1, 0, INFINITY}};
    for (size_t i = 0; i < sizeof out_of_range / sizeof *out_of_range; i++)
        ck_assert_int_eq(runnel_integrate(square, NULL, out_of_range[i].from, out_of_range[i].to,
                                          out_of_range[i].absolute, out_of_range[i].relative,
                                          &value, &error),
                         RUNNEL_E_RANGE);
    /* Infinite at an end, NaN inside, and far too many jumps. */
    ck_assert_int_eq(runnel_integrate(one_over, NULL, 0, 1, 0, 1e-9, &value, &error),
                     RUNNEL_E_NOT_COMPUTED);
    ck_assert_int_eq(runnel_integrate(hole, NULL, 0, 1, 0, 1e-9, &value, &error),
                     RUNNEL_E_NOT_COMPUTED);
    ck_assert_int_eq(runnel_integrate(comb, NULL, 0, 1, 0, 1e-9, &value, &error),
                     RUNNEL_E_NOT_COMPUTED);
    ck_near(value, 7, 0);
    ck_near(error, 8, 0);
}
END_TEST

/* --- fixed rules --- */

START_TEST(rule_against_table) {
    /* Abramowitz and Stegun, Handbook of Mathematical Functions, table 25.4. */
    static const struct {
        size_t points, index;
        double node, weight;
    } rows[] = {{1, 0, 0.0, 2.0},
                {2, 0, -0.577350269189626, 1.0},
                {2, 1, 0.577350269189626, 1.0},
                {3, 0, -0.774596669241483, 0.555555555555556},
                {3, 1, 0.0, 0.888888888888889},
                {5, 0, -0.906179845938664, 0.236926885056189},
                {5, 1, -0.538469310105683, 0.478628670499366},
                {5, 2, 0.0, 0.568888888888889},
                {5, 4, 0.906179845938664, 0.236926885056189},
                {8, 7, 0.960289856497536, 0.101228536290376}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        runnel_gauss_rule rule;
        ck_assert_int_eq(runnel_gauss_rule_of(rows[i].points, &rule), RUNNEL_OK);
        ck_assert_uint_eq(rule.points, rows[i].points);
        ck_near_or(rule.node[rows[i].index], rows[i].node, 0, 1e-15);
        ck_near_or(rule.weight[rows[i].index], rows[i].weight, 0, 1e-15);
    }
}
END_TEST

START_TEST(rule_is_exact_to_its_degree) {
    /* int_-1^1 x^k dx = 2/(k + 1) for even k, 0 for odd k; exact up to k = 2n - 1. */
    for (size_t points = 1; points <= RUNNEL_GAUSS_MOST; points++) {
        runnel_gauss_rule rule;
        if (points > 20 && points != 32 && points != 64) {
            ck_assert_int_eq(runnel_gauss_rule_of(points, &rule), RUNNEL_E_RANGE);
            continue;
        }
        ck_assert_int_eq(runnel_gauss_rule_of(points, &rule), RUNNEL_OK);
        for (int degree = 0; degree < (int)(2 * points); degree++) {
            double want = degree % 2 ? 0 : 2.0 / (degree + 1), got = 0;
            for (size_t i = 0; i < points; i++)
                got += rule.weight[i] * pow(rule.node[i], degree);
            ck_near_or(got, want, 1e-12, 1e-14);
            ck_near_or(runnel_gauss_legendre(power, &degree, -1, 1, points), want, 1e-12, 1e-14);
        }
        for (size_t i = 1; i < points; i++)
            ck_assert_msg(rule.node[i - 1] < rule.node[i], "nodes rise, rule of %zu", points);
    }
}
END_TEST

START_TEST(fixed_on_an_interval) {
    ck_near(runnel_gauss_legendre(square, NULL, 0, 3, 2), 9, 1e-15);  /* x^3/3 */
    ck_near(runnel_gauss_legendre(square, NULL, 3, 0, 2), -9, 1e-15); /* turned round */
    ck_near(runnel_gauss_legendre(sine, NULL, 0, pi, 16), 2, 1e-14);
    /* A second call of one size takes the kept rule. */
    ck_near(runnel_gauss_legendre(sine, NULL, 0, pi, 16), 2, 1e-14);
}
END_TEST

START_TEST(fixed_refusals) {
    runnel_gauss_rule rule = {.points = 3};
    ck_assert_int_eq(runnel_gauss_rule_of(0, &rule), RUNNEL_E_RANGE);
    ck_assert_int_eq(runnel_gauss_rule_of(RUNNEL_GAUSS_MOST + 1, &rule), RUNNEL_E_RANGE);
    ck_assert_uint_eq(rule.points, 3);
    ck_assert(isnan(runnel_gauss_legendre(square, NULL, 0, 1, 0)));
    ck_assert(isnan(runnel_gauss_legendre(square, NULL, 0, 1, RUNNEL_GAUSS_MOST + 1)));
}
END_TEST

/* --- roots --- */

START_TEST(root_known_values) {
    double value = NAN, error = NAN;
    int calls = 0;
    /* Fixed point of the cosine, OEIS A003957. */
    ck_assert_int_eq(runnel_root(counted_cosine, &calls, 0, 1, 0, 0, &value, &error), RUNNEL_OK);
    ck_near(value, 0.73908513321516064, 1e-15);
    ck_assert(fabs(value - 0.73908513321516064) <= error + 1e-16);
    ck_assert_int_lt(calls, 30);
    /* Wallis's cubic x^3 - 2x - 5 (1685): 2.09455148154232659. Ends may come in either order. */
    ck_assert_int_eq(runnel_root(wallis, NULL, 3, 2, 0, 0, &value, &error), RUNNEL_OK);
    ck_near(value, 2.09455148154232659, 1e-15);
    /* A loose tolerance stops early and says how far. */
    ck_assert_int_eq(runnel_root(wallis, NULL, 2, 3, 0.05, 0, &value, &error), RUNNEL_OK);
    ck_assert(error <= 0.05 && fabs(value - 2.09455148154232659) <= error);
}
END_TEST

START_TEST(root_at_an_end_and_at_zero) {
    double value = NAN, error = NAN, at = 0;
    ck_assert_int_eq(runnel_root(shifted, &at, 0, 1, 0, 0, &value, &error), RUNNEL_OK);
    ck_near(value, 0, 0);
    ck_near(error, 0, 0);
    ck_assert_int_eq(runnel_root(shifted, &at, -1, 0, 0, 0, &value, &error), RUNNEL_OK);
    ck_near(value, 0, 0);
    ck_assert_int_eq(runnel_root(shifted, &at, -1, 3, 0, 0, &value, &error), RUNNEL_OK);
    ck_near_or(value, 0, 0, 1e-300);
    ck_assert_int_eq(runnel_root(steep, NULL, -1, 1, 0, 1e-6, &value, &error), RUNNEL_OK);
    ck_near(value, 1e-9, 1e-5);
}
END_TEST

START_TEST(root_over_many_brackets) {
    srand(11);
    for (int i = 0; i < 2000; i++) {
        double low = -1e3 * rand() / RAND_MAX, high = 1e3 * rand() / RAND_MAX + 1e-3;
        double at = low + (high - low) * (rand() / (RAND_MAX + 1.0)), value = NAN, error = NAN;
        ck_assert_int_eq(runnel_root(shifted, &at, low, high, 1e-10, 0, &value, &error), RUNNEL_OK);
        ck_near_or(value, at, 0, 1e-10);
        ck_assert(fabs(value - at) <= error + 4e-16 * fabs(at));
    }
}
END_TEST

START_TEST(root_refusals) {
    double value = 7, error = 8, at = 5;
    static const struct {
        double low, high, absolute, relative;
    } out_of_range[] = {{0, 1, 0, 0}, /* no change of sign */
                        {NAN, 9, 0, 0}, {0, INFINITY, 0, 0}, {0, 9, -1, 0},
                        {0, 9, 0, -1},  {0, 9, NAN, 0},      {0, 9, 0, NAN}};
    for (size_t i = 0; i < sizeof out_of_range / sizeof *out_of_range; i++)
        ck_assert_int_eq(runnel_root(shifted, &at, out_of_range[i].low, out_of_range[i].high,
                                     out_of_range[i].absolute, out_of_range[i].relative, &value,
                                     &error),
                         RUNNEL_E_RANGE);
    at = NAN;
    ck_assert_int_eq(runnel_root(shifted, &at, 0, 1, 0, 0, &value, &error), RUNNEL_E_NOT_COMPUTED);
    ck_assert_int_eq(runnel_root(hole, NULL, 0, 1, 0, 0, &value, &error), RUNNEL_E_NOT_COMPUTED);
    ck_near(value, 7, 0);
    ck_near(error, 8, 0);
}
END_TEST

/* --- guard --- */

START_TEST(guard_keeps_the_process_alive) {
    runnel_numeric_quiet();
    gsl_error("provoked", __FILE__, __LINE__, GSL_EINVAL); /* aborts under GSL's own handler */
    gsl_error_handler_t *handler = gsl_set_error_handler(NULL);
    ck_assert_msg(handler != NULL, "a quiet handler is set");
    gsl_set_error_handler(handler);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("numeric");
    TCase *integrals = tcase_create("integrals");
    tcase_add_test(integrals, adaptive_closed_forms);
    tcase_add_test(integrals, adaptive_empty_and_zero);
    tcase_add_test(integrals, adaptive_refusals);
    tcase_add_test(integrals, rule_against_table);
    tcase_add_test(integrals, rule_is_exact_to_its_degree);
    tcase_add_test(integrals, fixed_on_an_interval);
    tcase_add_test(integrals, fixed_refusals);
    suite_add_tcase(suite, integrals);
    TCase *roots = tcase_create("roots");
    tcase_add_test(roots, root_known_values);
    tcase_add_test(roots, root_at_an_end_and_at_zero);
    tcase_add_test(roots, root_over_many_brackets);
    tcase_add_test(roots, root_refusals);
    suite_add_tcase(suite, roots);
    TCase *guard = tcase_create("guard");
    tcase_add_test(guard, guard_keeps_the_process_alive);
    suite_add_tcase(suite, guard);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
