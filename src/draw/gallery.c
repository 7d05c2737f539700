/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "draw/gallery.h"

#include "draw/cup.h"
#include "draw/curves.h"
#include "draw/days.h"
#include "draw/section.h"
#include "draw/view.h"

/* Of a picture in a page of HTML, mm: the measure of its text. A cup is small. */
static const double page_mm = 160, cup_wide_mm = 45, cup_high_mm = 42;

static const runnel_weighing *weighing_of(const runnel_gallery *gallery,
                                          const runnel_doc_block *block) {
    const runnel_plan_batch *batch = &gallery->plan->batches[block->index];
    return batch->cup_count > 1 ? &batch->cups[block->part].load.weighing : &batch->weighing;
}

static runnel_section_of section_of(const runnel_gallery *gallery, const runnel_doc_block *block) {
    return runnel_section_of_job(gallery->job, gallery->plan, gallery->look, block->index);
}

static const char *colour_of(const runnel_gallery *gallery, const runnel_doc_block *block) {
    return gallery->plan->batches[block->index].colour;
}

double runnel_gallery_height(const runnel_gallery *gallery, const runnel_doc_block *block,
                             double width_mm) {
    runnel_section_of section;
    switch (block->image) {
    case RUNNEL_IMAGE_PLAN:
        return runnel_view_plan_height(&gallery->look->pieces[block->index], width_mm);
    case RUNNEL_IMAGE_SECTION:
        section = section_of(gallery, block);
        return runnel_section_height(&section, width_mm);
    case RUNNEL_IMAGE_COLOUR:
        return runnel_view_colour_height(gallery->look, gallery->plan, colour_of(gallery, block),
                                         RUNNEL_VIEW_THUMB, width_mm);
    case RUNNEL_IMAGE_CUP:
        return cup_high_mm;
    case RUNNEL_IMAGE_DAYS:
        return runnel_days_height(&gallery->timings->items[block->index], block->part);
    case RUNNEL_IMAGE_CURE:
        return runnel_curves_height(width_mm);
    }
    return 0;
}

void runnel_gallery_draw(const runnel_gallery *gallery, const runnel_doc_block *block,
                         runnel_canvas *canvas, const runnel_ink_box *room) {
    runnel_section_of section;
    switch (block->image) {
    case RUNNEL_IMAGE_PLAN:
        runnel_view_plan(canvas, gallery->look, gallery->plan, block->index, room);
        break;
    case RUNNEL_IMAGE_SECTION:
        section = section_of(gallery, block);
        runnel_section_draw(canvas, &section, room);
        break;
    case RUNNEL_IMAGE_COLOUR:
        runnel_view_colour(canvas, gallery->look, gallery->plan, colour_of(gallery, block),
                           RUNNEL_VIEW_THUMB, room);
        break;
    case RUNNEL_IMAGE_CUP:
        runnel_cup_draw(canvas, gallery->job, weighing_of(gallery, block), true, room);
        break;
    case RUNNEL_IMAGE_DAYS:
        runnel_days_draw(canvas, gallery->timings, block->index, block->part, room);
        break;
    case RUNNEL_IMAGE_CURE:
        runnel_curves_draw(canvas, gallery->heating, gallery->curves, block->index == 1, room);
        break;
    }
}

runnel_status runnel_gallery_embed(const runnel_doc_block *block, const void *state, FILE *out) {
    const runnel_gallery *gallery = state;
    const double rim_mm = 1, width_mm = block->image == RUNNEL_IMAGE_CUP ? cup_wide_mm : page_mm;
    runnel_canvas *canvas = NULL;
    double height_mm = runnel_gallery_height(gallery, block, width_mm);
    runnel_status status =
        runnel_canvas_new_picture(width_mm + 2 * rim_mm, height_mm + 2 * rim_mm, &canvas);
    if (status)
        return status;
    runnel_canvas_page(canvas);
    runnel_gallery_draw(gallery, block, canvas,
                        &(runnel_ink_box){rim_mm, rim_mm, width_mm, height_mm});
    status = runnel_canvas_embed(canvas, out);
    runnel_canvas_free(canvas);
    return status;
}
