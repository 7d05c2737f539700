/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The pictures of a document, on paper and in a page of HTML.
 */
#ifndef RUNNEL_DRAW_GALLERY_H
#define RUNNEL_DRAW_GALLERY_H

#include "draw/canvas.h"
#include "runnel/heating.h"
#include "runnel/look.h"
#include "runnel/timing.h"
#include "write/doc.h"

/** What pictures are made from. All borrowed; NULL where there is no picture of it. */
typedef struct runnel_gallery {
    const runnel_job *job;
    const runnel_plan *plan;
    const runnel_look *look;
    const runnel_timings *timings;
    const runnel_heating *heating;
    const runnel_heating_curves *curves;
} runnel_gallery;

/** How high a picture is in a width, mm; 0 when there is nothing to be seen. */
double runnel_gallery_height(const runnel_gallery *gallery, const runnel_doc_block *block,
                             double width_mm);

/** Draws it. @param room as high as told above */
void runnel_gallery_draw(const runnel_gallery *gallery, const runnel_doc_block *block,
                         runnel_canvas *canvas, const runnel_ink_box *room);

/** Writes it as the address of an image. @param state a runnel_gallery
 * @return RUNNEL_OK; RUNNEL_E_NO_MEMORY; RUNNEL_E_NOT_COMPUTED */
runnel_status runnel_gallery_embed(const runnel_doc_block *block, const void *state, FILE *out);

#endif
