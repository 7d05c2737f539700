/* SPDX-License-Identifier: GPL-3.0-or-later */
void sink(void); /* bad-on-1: the folder is in no layer */
