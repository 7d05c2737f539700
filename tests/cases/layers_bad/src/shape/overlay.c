/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <geos_c.h>
#include <boost/polygon/voronoi.hpp> /* bad: in no line of the table */
