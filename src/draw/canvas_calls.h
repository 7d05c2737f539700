/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * What canvas.c calls of cairo, pango and glib.
 */
#ifndef RUNNEL_DRAW_CANVAS_CALLS_H
#define RUNNEL_DRAW_CANVAS_CALLS_H

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <cairo.h>
#include <pango/pangocairo.h>

#define RUNNEL_CANVAS_CALLS(X)                                                                     \
    X(cairo_close_path)                                                                            \
    X(cairo_create)                                                                                \
    X(cairo_destroy)                                                                               \
    X(cairo_fill_preserve)                                                                         \
    X(cairo_font_options_create)                                                                   \
    X(cairo_font_options_destroy)                                                                  \
    X(cairo_font_options_set_antialias)                                                            \
    X(cairo_font_options_set_hint_metrics)                                                         \
    X(cairo_font_options_set_hint_style)                                                           \
    X(cairo_image_surface_create)                                                                  \
    X(cairo_line_to)                                                                               \
    X(cairo_move_to)                                                                               \
    X(cairo_new_path)                                                                              \
    X(cairo_new_sub_path)                                                                          \
    X(cairo_paint)                                                                                 \
    X(cairo_pdf_surface_create_for_stream)                                                         \
    X(cairo_pdf_surface_set_metadata)                                                              \
    X(cairo_restore)                                                                               \
    X(cairo_save)                                                                                  \
    X(cairo_scale)                                                                                 \
    X(cairo_set_fill_rule)                                                                         \
    X(cairo_set_line_width)                                                                        \
    X(cairo_set_source_rgb)                                                                        \
    X(cairo_show_page)                                                                             \
    X(cairo_status)                                                                                \
    X(cairo_stroke_preserve)                                                                       \
    X(cairo_surface_destroy)                                                                       \
    X(cairo_surface_finish)                                                                        \
    X(cairo_surface_status)                                                                        \
    X(cairo_surface_write_to_png_stream)                                                           \
    X(cairo_svg_surface_create_for_stream)                                                         \
    X(cairo_translate)                                                                             \
    X(g_base64_encode)                                                                             \
    X(g_free)                                                                                      \
    X(g_object_unref)                                                                              \
    X(g_string_append)                                                                             \
    X(g_string_append_len)                                                                         \
    X(g_string_free)                                                                               \
    X(g_string_sized_new)                                                                          \
    X(pango_cairo_context_set_font_options)                                                        \
    X(pango_cairo_context_set_resolution)                                                          \
    X(pango_cairo_font_map_new)                                                                    \
    X(pango_cairo_show_layout)                                                                     \
    X(pango_context_set_base_dir)                                                                  \
    X(pango_context_set_language)                                                                  \
    X(pango_font_description_free)                                                                 \
    X(pango_font_description_from_string)                                                          \
    X(pango_font_description_set_absolute_size)                                                    \
    X(pango_font_description_set_weight)                                                           \
    X(pango_font_map_create_context)                                                               \
    X(pango_language_from_string)                                                                  \
    X(pango_layout_get_extents)                                                                    \
    X(pango_layout_get_size)                                                                       \
    X(pango_layout_new)                                                                            \
    X(pango_layout_set_alignment)                                                                  \
    X(pango_layout_set_auto_dir)                                                                   \
    X(pango_layout_set_font_description)                                                           \
    X(pango_layout_set_text)                                                                       \
    X(pango_layout_set_width)                                                                      \
    X(pango_layout_set_wrap)

#endif
