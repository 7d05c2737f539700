/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Sizes one pocket with librunnel: 60 x 40 mm, carved by a 90 degree V cutter without a depth
 * limit, and filled with a resin of 2 parts A to 1 part B by volume.
 *
 *     cc size_board.c $(pkg-config --cflags --libs runnel) -o size_board
 *
 * The carved solid is a hip roof upside down: width^2 (3 length - width) / 12 = 56000/3 mm3.
 */
#include <runnel/runnel.h>

#include <stdio.h>

#define LENGTH_MM 60.0
#define WIDTH_MM  40.0

/* Makes the outline, its shape and from it the figures of the cavity. */
static runnel_status carve(runnel_cavity *cavity) {
    const runnel_point corners[] = {{0, 0}, {LENGTH_MM, 0}, {LENGTH_MM, WIDTH_MM}, {0, WIDTH_MM}};
    const runnel_cut cut = {.cutter = {.kind = RUNNEL_CUTTER_V, .angle_deg = 90},
                            .rule = RUNNEL_CUT_WALLS};
    runnel_contours outline;
    runnel_shape *shape = NULL;

    runnel_contours_init(&outline);
    runnel_status status = runnel_contours_begin(&outline, true);
    for (size_t i = 0; i < sizeof corners / sizeof *corners && !status; i++)
        status = runnel_contours_add(&outline, corners[i].x_mm, corners[i].y_mm);
    if (!status)
        status = runnel_shape_outline(&outline, NULL, &shape);
    if (!status)
        status = runnel_cavity_compute(shape, &cut, cavity);
    runnel_shape_free(shape);
    runnel_contours_clear(&outline);
    return status;
}

/* From the cavity to what goes on a scale that shows 0.1 g. */
static runnel_status mix(const runnel_cavity *cavity, runnel_weighing *weighing) {
    const double density_a_g_per_ml = 1.16, density_b_g_per_ml = 0.95;
    const runnel_ratio ratio = {2, 1, RUNNEL_BASIS_VOLUME};
    const runnel_cup cup = {.diameter_mm = 70, .drain_s = 60, .fixed_loss_g = 2};
    const runnel_scale scale = {.step_g = 0.1};
    const runnel_need need = {.cavity_mm3 = cavity->volume_mm3,
                              .footprint_mm2 = cavity->footprint_mm2,
                              .crown_mm = 0.4,
                              .reserve = 0.10};
    runnel_mixture mixture = {0};
    runnel_terms terms = {0};

    runnel_status status =
        runnel_mixture_of(&ratio, density_a_g_per_ml, density_b_g_per_ml, &mixture);
    if (!status)
        status = runnel_terms_of(&need, &cup, &mixture, 0.8, &terms);
    if (!status)
        status = runnel_weigh(&mixture, density_a_g_per_ml, density_b_g_per_ml, terms.total_mm3, 0,
                              &scale, weighing);
    return status;
}

int main(void) {
    runnel_cavity cavity;
    runnel_weighing weighing;

    runnel_status status = carve(&cavity);
    if (!status)
        status = mix(&cavity, &weighing);
    if (status) {
        fprintf(stderr, "size_board: %s\n", runnel_status_text(status));
        return runnel_status_exit(status);
    }
    printf("volume  %.3f mm3\n", cavity.volume_mm3);
    printf("walls   %.3f mm2\n", cavity.wall_mm2);
    printf("deepest %.3f mm\n", cavity.deepest_mm);
    printf("part A  %.1f g\n", weighing.part_a_g);
    printf("part B  %.1f g\n", weighing.part_b_g);
    return 0;
}
