/* SPDX-License-Identifier: GPL-3.0-or-later */
/** @file
 * The one table of commands and options: parsing, usage, man page and completions follow from it.
 */
#ifndef RUNNEL_CLI_OPTIONS_H
#define RUNNEL_CLI_OPTIONS_H

#include "runnel/runnel.h"

#include <stdbool.h>

/** The commands, as bits for the options that they take. */
typedef enum command_id {
    COMMAND_NONE,
    COMMAND_SIZE,
    COMMAND_CARD,
    COMMAND_SHEET,
    COMMAND_SEAL,
    COMMAND_LEVEL,
    COMMAND_OIL,
    COMMAND_UPKEEP,
    COMMAND_DAMP,
    COMMAND_STOCK,
    COMMAND_TIMELINE,
    COMMAND_TRIAL,
    COMMAND_RESCUE,
    COMMAND_CURE,
    COMMAND_LIST,
    COMMAND_HELP,
    COMMAND_COUNT
} command_id;

#define TAKES(command) (1U << (command))

/** What stands behind the name of a command. */
typedef enum command_operand {
    OPERAND_NONE,
    OPERAND_JOB,      /**< a job file; without it one cavity comes from options */
    OPERAND_JOBS,     /**< the same, or several job files */
    OPERAND_BOARD,    /**< a job file; without it a board comes from options, carved or not */
    OPERAND_SETTINGS, /**< a job file for resin, scale and shop; without it they come from options
                       */
    OPERAND_LIST,
    OPERAND_COMMAND
} command_operand;

/** One command. */
typedef struct cli_command {
    const char *name;
    const char *operands; /**< what stands behind the name, for the usage line */
    const char *summary;  /**< one clause */
    const char *about;    /**< a paragraph */
    const char *formats;  /**< words that --format takes, parted by one blank; NULL = no --format */
    command_operand operand;
} cli_command;

/** Headings of the options. */
typedef enum option_group {
    GROUP_SHAPE,
    GROUP_CUT,
    GROUP_PIECE,
    GROUP_RESIN,
    GROUP_SHOP,
    GROUP_POUR,
    GROUP_SEALER,
    GROUP_LEVEL,
    GROUP_OIL,
    GROUP_UPKEEP,
    GROUP_STOCK,
    GROUP_TIMELINE,
    GROUP_TRIAL,
    GROUP_RESCUE,
    GROUP_CURE,
    GROUP_OUTPUT,
    GROUP_COUNT
} option_group;

/** What can stand for a value, for completions. */
typedef enum option_values {
    VALUES_NONE, /**< the option takes no value */
    VALUES_ANY,
    VALUES_FILE,
    VALUES_FOLDER,
    VALUES_ALIGN,
    VALUES_SIZE_TO,
    VALUES_FORMAT,
    VALUES_RESINS,
    VALUES_CUTTERS,
    VALUES_WOODS,
    VALUES_FONTS,
    VALUES_SEALERS,
    VALUES_OILS,
    VALUES_USES,
    VALUES_PAPERS,
    VALUES_WASHINGS,
    VALUES_WATER
} option_values;

/** Options in the order in which they are taken into a job: a row before what stands over it. */
typedef enum option_id {
    OPTION_TEXT,
    OPTION_FONT,
    OPTION_SINGLE_LINE,
    OPTION_CAP_HEIGHT,
    OPTION_TEXT_HEIGHT,
    OPTION_LETTER_SPACING,
    OPTION_LINE_SPACING,
    OPTION_ALIGN,
    OPTION_AXES,
    OPTION_OUTLINE,
    OPTION_PATH,
    OPTION_MEASURED,
    OPTION_FOOTPRINT,
    OPTION_WALL_AREA,
    OPTION_DEEPEST,
    OPTION_CUTTER,
    OPTION_DEPTH_LIMIT,
    OPTION_DEPTH,
    OPTION_COLOUR,
    OPTION_TINT,
    OPTION_COUNT,
    OPTION_WOOD,
    OPTION_SIZE,
    OPTION_FLOOR,
    OPTION_RESIN,
    OPTION_RATIO,
    OPTION_SCALE,
    OPTION_ACCURACY,
    OPTION_COUNTS,
    OPTION_TEMPERATURE,
    OPTION_HUMIDITY,
    OPTION_MOISTURE,
    OPTION_DESTINATION_TEMPERATURE,
    OPTION_DESTINATION_HUMIDITY,
    OPTION_CROWN,
    OPTION_MARGIN,
    OPTION_RESERVE,
    OPTION_TOP_UP,
    OPTION_SEALED,
    OPTION_BARE,
    OPTION_SOAK,
    OPTION_CUP,
    OPTION_DRAIN,
    OPTION_CUP_LOSS,
    OPTION_BRIM,
    OPTION_POUR_TIME,
    OPTION_USABLE_SHARE,
    OPTION_SIZE_TO,
    OPTION_ZERO_ERROR,
    OPTION_ANGLE_ERROR,
    OPTION_FLATNESS,
    OPTION_SOAK_ERROR,
    OPTION_SEALER,
    OPTION_CUT,
    OPTION_COVERAGE,
    OPTION_DRY_FILM,
    OPTION_WET_FILM,
    OPTION_SOLIDS,
    OPTION_THINNER,
    OPTION_LOSS,
    OPTION_COATS,
    OPTION_FACE_MARGIN,
    OPTION_RECOAT,
    OPTION_HARD,
    OPTION_ORDER,
    OPTION_ZERO_ON,
    OPTION_PASS,
    OPTION_BELOW,
    OPTION_TAKE_OFF,
    OPTION_THIN,
    OPTION_HIGH_SPOT,
    OPTION_VENEER,
    OPTION_GRAIN,
    OPTION_CHAMFER,
    OPTION_CHAMFERED,
    OPTION_JUICE_GROOVE,
    OPTION_FINGER_HOLDS,
    OPTION_OIL,
    OPTION_UPTAKE,
    OPTION_END_GRAIN,
    OPTION_FALL,
    OPTION_WASTE,
    OPTION_WAX,
    OPTION_WAX_KIND,
    OPTION_WAX_COATS,
    OPTION_WAX_COAT,
    OPTION_DELIVERED,
    OPTION_USE,
    OPTION_WASHING,
    OPTION_WATER,
    OPTION_OILED,
    OPTION_WRITTEN,
    OPTION_REVISION,
    OPTION_STOCK,
    OPTION_TAKE_OUT,
    OPTION_START,
    OPTION_READY_BY,
    OPTION_HOURS,
    OPTION_DAYS_OFF,
    OPTION_ZONE,
    OPTION_CARVE_TIME,
    OPTION_GRITS,
    OPTION_GRAIN_RAISED,
    OPTION_UNMASKED,
    OPTION_WIDTH,
    OPTION_AT_DEPTH,
    OPTION_WIDTH_2,
    OPTION_AT_DEPTH_2,
    OPTION_TIP,
    OPTION_SOLD_AS,
    OPTION_WIDTH_ERROR,
    OPTION_DEPTH_ERROR,
    OPTION_TIP_ERROR,
    OPTION_WEIGHED_A,
    OPTION_WEIGHED_B,
    OPTION_POURED_A,
    OPTION_POURED_B,
    OPTION_STROKES_A,
    OPTION_STROKES_B,
    OPTION_STROKE_A,
    OPTION_STROKE_B,
    OPTION_WANTED,
    OPTION_LEFT_A,
    OPTION_LEFT_B,
    OPTION_ROOM,
    OPTION_COLDEST,
    OPTION_WARMEST,
    OPTION_WARMEST_AT,
    OPTION_POURED_AT,
    OPTION_LOG,
    OPTION_POURED,
    OPTION_RULE,
    OPTION_MASS,
    OPTION_LAYER,
    OPTION_HOTTEST,
    OPTION_BOARD,
    OPTION_TOLERANCE,
    OPTION_SECTIONS,
    OPTION_JOB,
    OPTION_ID,
    OPTION_CUSTOMER,
    OPTION_DATA,
    OPTION_PAPER,
    OPTION_FORMAT,
    OPTION_OUTPUT,
    OPTION_HELP,
    OPTION_VERSION,
    OPTION_IDS
} option_id;

typedef struct cli_draft cli_draft;
typedef struct cli_option cli_option;

/** Takes the text of an option into a draft; problems are told there. */
typedef runnel_status (*option_setter)(cli_draft *draft, const cli_option *option,
                                       const char *text);

/** The struct of a job that an option's value is in. */
typedef enum option_owner { OWNER_JOB, OWNER_PIECE, OWNER_CAVITY } option_owner;

/** One option. */
struct cli_option {
    const char *name;  /**< without the dashes */
    char letter;       /**< short form, or 0 */
    const char *value; /**< what stands for the value in a usage; NULL = a flag */
    const char *help;
    unsigned commands;
    option_group group;
    option_values values;
    bool over_file;     /**< may stand beside a job file, over what that says */
    option_setter set;  /**< NULL for what is not part of a job */
    option_owner owner; /**< for the setters of plain values: where, and what is measured */
    size_t offset;
    runnel_dimension dimension;
    double otherwise;           /**< value without the option, in `otherwise_unit`, for the help */
    const char *otherwise_unit; /**< NULL = there is none to be told */
};

/** Row of a command; that of COMMAND_NONE has no name. */
const cli_command *command_row(command_id id);

/** Row of an option. */
const cli_option *option_row(option_id id);

/** Room for the help of an option. */
#define OPTION_HELP_SIZE 200

/** The help of an option, with what holds without it. @return buffer, of OPTION_HELP_SIZE bytes */
const char *option_help(const cli_option *option, char *buffer);

/** Heading of a group. */
const char *option_group_title(option_group group);

/** The command of a name; COMMAND_NONE when there is none. */
command_id command_named(const char *name);

/** The words that --align takes, in the order of runnel_align. */
#define ALIGN_WORDS "start centre end"

/** The words that --size-to takes, in the order of runnel_size_to. */
#define SIZE_TO_WORDS "high likely"

/** Formats that are drawn, in the order of runnel_paper_kind. */
#define DRAWN_WORDS "pdf svg png html"
/** All formats that have an ending of their own. */
#define FORMAT_WORDS "json csv ics " DRAWN_WORDS
/** What can be listed, in the order of runnel_list_kind. */
#define LIST_WORDS "resins cutters woods oils upkeep work fonts"

/** Place of a word in a list parted by blanks, or -1. */
int word_in(const char *words, const char *word);

#endif
