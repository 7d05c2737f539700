/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/options.h"

#include "cli/draft.h"

#include <stdio.h>
#include <string.h>

static const cli_command commands[COMMAND_COUNT] = {
    [COMMAND_NONE] = {.name = NULL},
    [COMMAND_SIZE] =
        {"size", "[JOB.yaml]", "how much resin: cavities, batches and each of their terms",
         "Reads a job file (- is the standard input), or takes one cavity from options, and shows "
         "what the cavities hold, what each batch needs, and what goes on the scale. Warnings "
         "stand first. Drawn, it also has each piece from above, darker where it is deeper, and "
         "sections of its cavities.",
         "text json pdf svg png html", OPERAND_JOB},
    [COMMAND_CARD] =
        {"card", "[JOB.yaml]", "the mixing card for the bench",
         "Reads what size reads and shows for each batch what the scale has to show, with all "
         "parts in one cup without taring, cup marks, pot life, mixing steps and cautions.",
         "text json pdf svg png html", OPERAND_JOB},
    [COMMAND_SHEET] =
        {"sheet", "[JOB.yaml]", "the whole job on one sheet, from the sealer to the oil",
         "Reads what size reads and shows each step with its figures: carving, sealer, what goes "
         "on the scale, levelling, oil and wax, the days where the job names a first or a last "
         "one, and the shopping list, with all warnings first and all cautions last. The other "
         "commands tell more of each step.",
         "text json pdf svg png html", OPERAND_JOB},
    [COMMAND_SEAL] =
        {"seal", "[JOB.yaml]", "sealer for the carved walls: how much, coats, times and order",
         "Reads what size reads and shows how much sealer the carved walls and the face beside "
         "them take, for each kind of piece and for all: from the coverage on the can, from a film "
         "and its solids, or shellac by its cut, with the flake and the spirit to dissolve. Then "
         "the times, until the resin may follow, the order of the steps, and cautions. Without a "
         "word on the sealer it is thin dewaxed shellac.",
         "text json", OPERAND_JOB},
    [COMMAND_LEVEL] =
        {"level", "[JOB.yaml]",
         "the crown off: passes, what is left to sand, what becomes of the "
         "strokes",
         "Reads what size reads and shows how the crown comes off: how far above the face the "
         "cutter passes, by what lies under its zero, in how many passes, and what is left to "
         "sand. Taking off the face makes the carving smaller: for each cavity it shows strokes "
         "and footprint before and after, and lists the strokes that vanish or get thin, with "
         "their letters.",
         "text json", OPERAND_JOB},
    [COMMAND_OIL] =
        {"oil", "[JOB.yaml]", "oil and wax for the finished pieces, coat by coat",
         "Reads a job file, or takes one board by its size, and shows the areas to be oiled: all "
         "faces, chamfers, grooves and finger holds, less the resin, face grain and end grain "
         "apart; the oil of a coat and of all coats, times, the wax to melt, and cautions.",
         "text json", OPERAND_BOARD},
    [COMMAND_UPKEEP] =
        {"upkeep", "[JOB.yaml]", "the care of the finished pieces: when to oil again, and how much",
         "Reads a job file, or takes one board by its size, and the day of delivery, and writes a "
         "note for whoever gets the piece: the dates of the first weeks and those after them, how "
         "much goes on, how, what not to do, and when to sand it; or the same for a calendar.",
         "text json ics pdf svg png html", OPERAND_BOARD},
    [COMMAND_DAMP] =
        {"damp", "[JOB.yaml]", "how damp the wood is and gets, and how the pieces move",
         "Reads a job file, or takes one board by its size, and the air of the shop and where the "
         "pieces will live, and shows the moisture that wood comes to in both, the dew point, how "
         "much each piece shrinks or swells across the grain, and what that does to bands of "
         "resin that lie across it.",
         "text json", OPERAND_BOARD},
    [COMMAND_STOCK] =
        {"stock", "[JOB.yaml]", "a job against what is in the bottles: enough, to buy, cost",
         "Reads what size reads and a table of what is in the bottles, and shows what the job "
         "takes of each, what is short, what to buy in whole packs, what it costs, and the bottles "
         "after it. Resin and tint count always; sealer, oil and wax where the job names them.",
         "text json", OPERAND_JOB},
    [COMMAND_TIMELINE] =
        {"timeline", "[JOB.yaml ...]", "the days of one or more jobs, from the blank to the parcel",
         "Reads what sheet reads and plans each step into the hours of the shop, with the waits of "
         "sealer, resin and oil at the shop's temperature: as early as can be from a start, or as "
         "late as can be for a day to be ready by. Several jobs share one pair of hands, the first "
         "in the list before the others. When a job is too late it tells by how much, and what "
         "would buy time. The clock is never asked: days are given. Drawn, they are bars.",
         "text json ics pdf svg png html", OPERAND_JOBS},
    [COMMAND_TRIAL] =
        {"trial", "", "the real angle and tip of a V cutter, from a groove that was measured",
         "Takes the width of a trial groove at the face and its depth, with the flat of the tip, "
         "or two grooves of different depth, which tell the tip as well, and shows the included "
         "angle with its error, and the cutter as a job or --cutter takes it.",
         "text json", OPERAND_NONE},
    [COMMAND_RESCUE] =
        {"rescue", "[JOB.yaml]", "a mix that was weighed wrongly: what to add, or that it is lost",
         "Takes what really went into the cup, by weight, by volume or in strokes of a pump, and "
         "the resin from options or a job file, and shows how far off it is, what to add to be "
         "right, and what that makes; or that it cannot be put right.",
         "text json", OPERAND_SETTINGS},
    [COMMAND_CURE] =
        {"cure", "[JOB.yaml]", "when resin gels, can be sanded and is hard, at your temperature",
         "Takes the resin and the temperature from options or a job file, or a day that gets cold "
         "and warm, or the log of a temperature logger, and shows when the moments come that the "
         "resin's sheet states for one temperature. Below the resin's lowest temperature the "
         "answer is no. With the humidity it also shows dew and the moisture of the wood. Drawn, "
         "it has the curves of conversion and temperature in the cup and in the layer.",
         "text json pdf svg png html", OPERAND_SETTINGS},
    [COMMAND_LIST] =
        {"list", "resins|cutters|woods|oils|upkeep|work|fonts",
         "what there is to choose from, with its sources",
         "Shows a reference table, the user's own rows over those that came with runnel, or the "
         "families of fonts that are installed. As CSV, a list can be changed and used as a table "
         "of one's own.",
         "text json csv", OPERAND_LIST},
    [COMMAND_HELP] = {"help", "[COMMAND]", "this help, or that of a command",
                      "Shows all commands, or the options of one.", NULL, OPERAND_COMMAND},
};

const cli_command *command_row(command_id id) {
    return &commands[id];
}

static const char *const groups[GROUP_COUNT] = {
    [GROUP_SHAPE] = "Shape of the cavity, in place of a job file",
    [GROUP_CUT] = "How it is cut",
    [GROUP_PIECE] = "The piece and the colour",
    [GROUP_RESIN] = "Resin",
    [GROUP_SHOP] = "Scale and shop",
    [GROUP_POUR] = "What is needed beside the cavity",
    [GROUP_SEALER] = "Sealer",
    [GROUP_LEVEL] = "Levelling",
    [GROUP_OIL] = "Oil and wax",
    [GROUP_UPKEEP] = "Upkeep",
    [GROUP_STOCK] = "Stock",
    [GROUP_TIMELINE] = "Days",
    [GROUP_TRIAL] = "Trial groove",
    [GROUP_RESCUE] = "What is in the cup",
    [GROUP_CURE] = "Temperature over time",
    [GROUP_OUTPUT] = "Input and output",
};

const char *option_group_title(option_group group) {
    return groups[group];
}

/* Commands that take an option. */
enum {
    STOCKS = TAKES(COMMAND_STOCK),
    TIMES = TAKES(COMMAND_TIMELINE),
    SHEETS = TAKES(COMMAND_SHEET) | TIMES,
    MAKES = (TAKES(COMMAND_SIZE) | TAKES(COMMAND_CARD) | STOCKS | SHEETS),
    SEALS = (TAKES(COMMAND_SEAL) | SHEETS),
    LEVELS = (TAKES(COMMAND_LEVEL) | SHEETS),
    OILS = (TAKES(COMMAND_OIL) | SHEETS),
    KEEPS = TAKES(COMMAND_UPKEEP),
    DAMPS = TAKES(COMMAND_DAMP),
    CURES = TAKES(COMMAND_CURE),
    DRAWS = TAKES(COMMAND_SIZE) | TAKES(COMMAND_CARD) | SHEETS | KEEPS | CURES,
    JOBS = (MAKES | SEALS | LEVELS | OILS | KEEPS | DAMPS), /* all that work on a job */
    TRIES = TAKES(COMMAND_TRIAL),
    RESCUES = TAKES(COMMAND_RESCUE),
    LISTS = TAKES(COMMAND_LIST),
};
#define ALL (~0U)

#define CAVITY(member) OWNER_CAVITY, offsetof(runnel_job_cavity, member)
#define PIECE(member)  OWNER_PIECE, offsetof(runnel_job_piece, member)
#define WHOLE(member)  OWNER_JOB, offsetof(runnel_job, member)
#define NOWHERE        OWNER_JOB, 0
#define UNTOLD         0, NULL /* without the option nothing that is worth telling holds */
#define UNMEASURED     RUNNEL_DIMENSION_COUNT

/* clang-format off */
static const cli_option options[OPTION_IDS] = {
[OPTION_TEXT] = {"text", 0, "TEXT", "letters to be carved; a line end starts a new line",
    JOBS, GROUP_SHAPE, VALUES_ANY, false, set_text, CAVITY(text), UNMEASURED, UNTOLD},
[OPTION_FONT] = {"font", 0, "FONT", "font of the letters: a family, 'Family:Style', or a file",
    JOBS, GROUP_SHAPE, VALUES_FONTS, false, set_name, CAVITY(font), UNMEASURED, UNTOLD},
[OPTION_SINGLE_LINE] = {"single-line", 0, "SET", "single-line letters in place of a font, such as 'rowmans'",
    JOBS, GROUP_SHAPE, VALUES_ANY, false, set_single_line, CAVITY(font), UNMEASURED, UNTOLD},
[OPTION_CAP_HEIGHT] = {"cap-height", 0, "LENGTH", "height of the font's capital H, such as '38 mm'",
    JOBS, GROUP_SHAPE, VALUES_ANY, false, set_above_0, CAVITY(cap_height_mm), RUNNEL_LENGTH, UNTOLD},
[OPTION_TEXT_HEIGHT] = {"text-height", 0, "LENGTH", "height of the whole text, in place of the cap height",
    JOBS, GROUP_SHAPE, VALUES_ANY, false, set_above_0, CAVITY(text_height_mm), RUNNEL_LENGTH, UNTOLD},
[OPTION_LETTER_SPACING] = {"letter-spacing", 0, "LENGTH", "space to be added between letters; may be negative",
    JOBS, GROUP_SHAPE, VALUES_ANY, false, set_quantity, CAVITY(spacing_mm), RUNNEL_LENGTH, UNTOLD},
[OPTION_LINE_SPACING] = {"line-spacing", 0, "NUMBER", "distance of the lines, in line heights of the font",
    JOBS, GROUP_SHAPE, VALUES_ANY, false, set_number_above_0, CAVITY(line_spacing), UNMEASURED, UNTOLD},
[OPTION_ALIGN] = {"align", 0, "SIDE", "how lines stand to each other: start, centre or end",
    JOBS, GROUP_SHAPE, VALUES_ALIGN, false, set_align, CAVITY(align), UNMEASURED, UNTOLD},
[OPTION_AXES] = {"axes", 0, "LIST", "axes of a variable font, such as 'wght=600,wdth=80'",
    JOBS, GROUP_SHAPE, VALUES_ANY, false, set_name, CAVITY(axes), UNMEASURED, UNTOLD},
[OPTION_OUTLINE] = {"outline", 0, "SHAPE", "region to be carved out, such as 'rectangle 60 x 40 mm'",
    JOBS, GROUP_SHAPE, VALUES_ANY, false, set_outline, CAVITY(form), UNMEASURED, UNTOLD},
[OPTION_PATH] = {"path", 0, "SHAPE", "line that the cutter's centre follows, such as 'circle 80 mm'",
    JOBS, GROUP_SHAPE, VALUES_ANY, false, set_path, CAVITY(form), UNMEASURED, UNTOLD},
[OPTION_MEASURED] = {"measured", 0, "AMOUNT", "measured volume, or mass of the water that filled it",
    JOBS, GROUP_SHAPE, VALUES_ANY, false, set_measured, CAVITY(measured_mm3), UNMEASURED, UNTOLD},
[OPTION_FOOTPRINT] = {"footprint", 0, "AREA", "its area at the face, such as '4.2 cm2'",
    JOBS, GROUP_SHAPE, VALUES_ANY, false, set_above_0, CAVITY(measured_footprint_mm2), RUNNEL_AREA, UNTOLD},
[OPTION_WALL_AREA] = {"wall-area", 0, "AREA", "area of its walls and floor",
    JOBS, GROUP_SHAPE, VALUES_ANY, false, set_above_0, CAVITY(measured_wall_mm2), RUNNEL_AREA, UNTOLD},
[OPTION_DEEPEST] = {"deepest", 0, "LENGTH", "its deepest point",
    JOBS, GROUP_SHAPE, VALUES_ANY, false, set_above_0, CAVITY(measured_deepest_mm), RUNNEL_LENGTH, UNTOLD},

[OPTION_CUTTER] = {"cutter", 0, "CUTTER", "a row of 'runnel list cutters', or written out, such as 'v 60 deg'",
    JOBS, GROUP_CUT, VALUES_CUTTERS, false, set_cutter, CAVITY(cutter_name), UNMEASURED, UNTOLD},
[OPTION_DEPTH_LIMIT] = {"depth-limit", 0, "LENGTH", "deepest that a V cutter goes between the walls",
    JOBS, GROUP_CUT, VALUES_ANY, false, set_above_0, CAVITY(depth_limit_mm), RUNNEL_LENGTH, UNTOLD},
[OPTION_DEPTH] = {"depth", 0, "LENGTH", "depth along a path, or of a pocket",
    JOBS, GROUP_CUT, VALUES_ANY, false, set_above_0, CAVITY(depth_mm), RUNNEL_LENGTH, UNTOLD},

[OPTION_COLOUR] = {"colour", 0, "NAME", "name of the batch, otherwise '" RUNNEL_DEFAULT_COLOUR "', which is not tinted",
    MAKES, GROUP_PIECE, VALUES_ANY, false, set_name, CAVITY(colour), UNMEASURED, UNTOLD},
[OPTION_TINT] = {"tint", 0, "PERCENT", "tint, of the mass of A and B and on top of it",
    MAKES, GROUP_PIECE, VALUES_ANY, false, set_tint, NOWHERE, RUNNEL_FRACTION, UNTOLD},
[OPTION_COUNT] = {"count", 0, "NUMBER", "how many such pieces, otherwise 1",
    JOBS, GROUP_PIECE, VALUES_ANY, false, set_count, PIECE(count), UNMEASURED, UNTOLD},
[OPTION_WOOD] = {"wood", 0, "WOOD", "a row of 'runnel list woods', for the soak and how it moves",
    MAKES | KEEPS | DAMPS | LEVELS, GROUP_PIECE, VALUES_WOODS, false, set_name, PIECE(wood), UNMEASURED, UNTOLD},
[OPTION_SIZE] = {"size", 0, "SIZE", "length x width x thickness, such as '420 x 260 x 25 mm'",
    JOBS, GROUP_PIECE, VALUES_ANY, false, set_size, PIECE(length_mm), RUNNEL_LENGTH, UNTOLD},
[OPTION_FLOOR] = {"floor", 0, "LENGTH", "wood that must stay under the deepest point",
    MAKES | SEALS | LEVELS, GROUP_PIECE, VALUES_ANY, true, set_quantity, WHOLE(floor_mm), RUNNEL_LENGTH, RUNNEL_DEFAULT_FLOOR_MM, "mm"},

[OPTION_RESIN] = {"resin", 0, "RESIN", "a row of 'runnel list resins', in place of all that a job file says of it; otherwise '" RUNNEL_DEFAULT_RESIN "'",
    MAKES | SEALS | LEVELS | RESCUES | CURES, GROUP_RESIN, VALUES_RESINS, true, set_resin, NOWHERE, UNMEASURED, UNTOLD},
[OPTION_RATIO] = {"ratio", 0, "RATIO", "A to B with its basis, such as '2:1 by volume'",
    MAKES | SEALS | RESCUES, GROUP_RESIN, VALUES_ANY, true, set_ratio, NOWHERE, UNMEASURED, UNTOLD},

[OPTION_SCALE] = {"scale", 0, "MASS", "smallest step that the scale shows, such as '0.1 g'",
    MAKES | SEALS | RESCUES, GROUP_SHOP, VALUES_ANY, true, set_scale, WHOLE(scale.step_g), RUNNEL_MASS, RUNNEL_DEFAULT_SCALE_STEP_G, "g"},
[OPTION_ACCURACY] = {"accuracy", 0, "PERCENT", "error of the scale beyond its step, of the reading",
    MAKES | SEALS, GROUP_SHOP, VALUES_ANY, true, set_percent, WHOLE(scale.accuracy_percent), RUNNEL_FRACTION, UNTOLD},
[OPTION_COUNTS] = {"counts", 0, "NUMBER", "the same in steps; the larger of the two counts",
    MAKES | SEALS, GROUP_SHOP, VALUES_ANY, true, set_number, WHOLE(scale.accuracy_counts), UNMEASURED, UNTOLD},
[OPTION_TEMPERATURE] = {"temperature", 0, "TEMPERATURE", "of the shop, such as '20 C' or '68 F'",
    MAKES | SEALS | LEVELS | CURES | DAMPS, GROUP_SHOP, VALUES_ANY, true, set_temperature, WHOLE(shop_degc), RUNNEL_TEMPERATURE, RUNNEL_DEFAULT_SHOP_DEGC, "C"},
[OPTION_HUMIDITY] = {"humidity", 0, "PERCENT", "of the air in the shop",
    MAKES | CURES | DAMPS, GROUP_SHOP, VALUES_ANY, true, set_from_0, WHOLE(humidity), RUNNEL_FRACTION, UNTOLD},
[OPTION_MOISTURE] = {"moisture", 0, "PERCENT", "of the wood, as it was measured; otherwise what the air of the shop makes it",
    DAMPS, GROUP_SHOP, VALUES_ANY, true, set_from_0, WHOLE(moisture), RUNNEL_FRACTION, UNTOLD},
[OPTION_DESTINATION_TEMPERATURE] = {"destination-temperature", 0, "TEMPERATURE", "where the pieces will live",
    DAMPS, GROUP_SHOP, VALUES_ANY, true, set_quantity, WHOLE(destination.degc), RUNNEL_TEMPERATURE, RUNNEL_DEFAULT_SHOP_DEGC, "C"},
[OPTION_DESTINATION_HUMIDITY] = {"destination-humidity", 0, "PERCENT", "of the air there; otherwise wood is taken to come to 8 %, outdoors to 12 %",
    DAMPS, GROUP_SHOP, VALUES_ANY, true, set_from_0, WHOLE(destination.humidity), RUNNEL_FRACTION, UNTOLD},

[OPTION_CROWN] = {"crown", 0, "LENGTH", "resin left proud of the face, to be levelled",
    MAKES | LEVELS, GROUP_POUR, VALUES_ANY, true, set_quantity, WHOLE(crown_mm), RUNNEL_LENGTH, RUNNEL_DEFAULT_CROWN_MM, "mm"},
[OPTION_MARGIN] = {"margin", 0, "LENGTH", "how far the crown reaches beyond the edges",
    MAKES | SEALS, GROUP_POUR, VALUES_ANY, true, set_quantity, WHOLE(margin_mm), RUNNEL_LENGTH, RUNNEL_DEFAULT_MARGIN_MM, "mm"},
[OPTION_RESERVE] = {"reserve", 0, "PERCENT", "a little more than worked out",
    MAKES, GROUP_POUR, VALUES_ANY, true, set_quantity, WHOLE(reserve), RUNNEL_FRACTION, 100 * RUNNEL_DEFAULT_RESERVE, "%"},
[OPTION_TOP_UP] = {"top-up", 0, "PERCENT", "of the cavities, mixed again for pinholes",
    MAKES, GROUP_POUR, VALUES_ANY, true, set_from_0, WHOLE(top_up), RUNNEL_FRACTION, 100 * RUNNEL_DEFAULT_TOP_UP, "%"},
[OPTION_SEALED] = {"sealed", 0, NULL, "the carved walls are sealed before the pour",
    MAKES | SEALS, GROUP_POUR, VALUES_NONE, true, set_sealed, WHOLE(sealed), UNMEASURED, UNTOLD},
[OPTION_BARE] = {"bare", 0, NULL, "they are bare, as without any of the two",
    MAKES | SEALS, GROUP_POUR, VALUES_NONE, true, set_bare, WHOLE(sealed), UNMEASURED, UNTOLD},
[OPTION_SOAK] = {"soak", 0, "LOADING", "resin that the walls drink, such as '40 ml/m2'",
    MAKES, GROUP_POUR, VALUES_ANY, true, set_from_0, WHOLE(soak_mm), RUNNEL_AREA_LOADING, UNTOLD},
[OPTION_CUP] = {"cup", 0, "LENGTH", "inside width of the straight mixing cup",
    MAKES | CURES, GROUP_POUR, VALUES_ANY, true, set_quantity, WHOLE(cup.diameter_mm), RUNNEL_LENGTH, RUNNEL_DEFAULT_CUP_DIAMETER_MM, "mm"},
[OPTION_DRAIN] = {"drain", 0, "TIME", "how long the cup is left to drain into the pour",
    MAKES, GROUP_POUR, VALUES_ANY, true, set_quantity, WHOLE(cup.drain_s), RUNNEL_TIME, RUNNEL_DEFAULT_CUP_DRAIN_S, "s"},
[OPTION_CUP_LOSS] = {"cup-loss", 0, "MASS", "what stays in cup and on stick, where it was weighed",
    MAKES, GROUP_POUR, VALUES_ANY, true, set_from_0, WHOLE(cup.fixed_loss_g), RUNNEL_MASS, UNTOLD},
[OPTION_BRIM] = {"brim", 0, "VOLUME", "what the cup holds to its brim, such as '250 ml'",
    MAKES, GROUP_POUR, VALUES_ANY, true, set_above_0, WHOLE(brim_mm3), RUNNEL_VOLUME, UNTOLD},
[OPTION_POUR_TIME] = {"pour-time", 0, "TIME", "how long pouring one piece takes, such as '40 s'",
    MAKES, GROUP_POUR, VALUES_ANY, false, set_above_0, CAVITY(pour_s), RUNNEL_TIME, UNTOLD},
[OPTION_USABLE_SHARE] = {"usable-share", 0, "PERCENT", "of the pot life, in which a cup should be poured",
    MAKES | CURES, GROUP_POUR, VALUES_ANY, true, set_quantity, WHOLE(usable_share), RUNNEL_FRACTION, 100 * RUNNEL_DEFAULT_USABLE_SHARE, "%"},
[OPTION_SIZE_TO] = {"size-to", 0, "END", "what batches are sized for: high, when errors add up, or likely; otherwise high",
    MAKES, GROUP_POUR, VALUES_SIZE_TO, true, set_size_to, WHOLE(size_to), UNMEASURED, UNTOLD},
[OPTION_ZERO_ERROR] = {"zero-error", 0, "LENGTH", "of the cutter's zero, either way",
    MAKES, GROUP_POUR, VALUES_ANY, true, set_error, WHOLE(errors.depth_mm), RUNNEL_LENGTH, RUNNEL_BAND_DEPTH_MM, "mm"},
[OPTION_ANGLE_ERROR] = {"angle-error", 0, "ANGLE", "of the cutter's included angle",
    MAKES, GROUP_POUR, VALUES_ANY, true, set_error, WHOLE(errors.angle_deg), RUNNEL_ANGLE, RUNNEL_BAND_ANGLE_DEG, "deg"},
[OPTION_FLATNESS] = {"flatness", 0, "LENGTH", "of the board, either way",
    MAKES, GROUP_POUR, VALUES_ANY, true, set_error, WHOLE(errors.flatness_mm), RUNNEL_LENGTH, RUNNEL_BAND_FLATNESS_MM, "mm"},
[OPTION_SOAK_ERROR] = {"soak-error", 0, "PERCENT", "of the soak",
    MAKES, GROUP_POUR, VALUES_ANY, true, set_error, WHOLE(errors.soak), RUNNEL_FRACTION, 100 * RUNNEL_BAND_SOAK_SHARE, "%"},

[OPTION_SEALER] = {"sealer", 0, "KIND", "shellac (dewaxed), 'shellac with wax', 'sanding sealer', lacquer, 'water-based sealer' or 'clear resin'; otherwise shellac",
    SEALS, GROUP_SEALER, VALUES_SEALERS, true, set_sealer, WHOLE(sealer.kind), UNMEASURED, UNTOLD},
[OPTION_CUT] = {"cut", 0, "CUT", "of shellac, pounds of flake to a US gallon of spirit, or the like of '240 g/L'",
    SEALS, GROUP_SEALER, VALUES_ANY, true, set_cut, WHOLE(sealer.cut_lb_per_gal), UNMEASURED, RUNNEL_DEFAULT_CUT_LB_PER_GAL, "lb"},
[OPTION_COVERAGE] = {"coverage", 0, "COVERAGE", "area that it covers, such as '9 m2/L' or '400 ft2/US gal', which is taken for shellac",
    SEALS, GROUP_SEALER, VALUES_ANY, true, set_above_0, WHOLE(sealer.m2_per_l), RUNNEL_SPREADING, UNTOLD},
[OPTION_DRY_FILM] = {"dry-film", 0, "LENGTH", "in place of the coverage: film of a dry coat, such as '20 um'",
    SEALS, GROUP_SEALER, VALUES_ANY, true, set_above_0, WHOLE(sealer.dry_film_mm), RUNNEL_LENGTH, UNTOLD},
[OPTION_WET_FILM] = {"wet-film", 0, "LENGTH", "or film of a coat as laid on",
    SEALS, GROUP_SEALER, VALUES_ANY, true, set_above_0, WHOLE(sealer.wet_film_mm), RUNNEL_LENGTH, UNTOLD},
[OPTION_SOLIDS] = {"solids", 0, "PERCENT", "share of its volume that stays when it is dry",
    SEALS, GROUP_SEALER, VALUES_ANY, true, set_above_0, WHOLE(sealer.solids), RUNNEL_FRACTION, UNTOLD},
[OPTION_THINNER] = {"thinner", 0, "PERCENT", "to be added, of the sealer's volume",
    SEALS, GROUP_SEALER, VALUES_ANY, true, set_from_0, WHOLE(sealer.thinner), RUNNEL_FRACTION, 0, "%"},
[OPTION_LOSS] = {"loss", 0, "PERCENT", "share that stays in brush and pot",
    SEALS, GROUP_SEALER, VALUES_ANY, true, set_from_0, WHOLE(sealer.loss), RUNNEL_FRACTION, 100 * RUNNEL_SEALER_USUAL_LOSS, "%"},
[OPTION_COATS] = {"coats", 0, "NUMBER", "how many coats; otherwise 2 of a sealer, and as many as is usual of an oil",
    SEALS | OILS | KEEPS, GROUP_SEALER, VALUES_ANY, true, set_coats, WHOLE(sealer.coats), UNMEASURED, UNTOLD},
[OPTION_FACE_MARGIN] = {"face-margin", 0, "LENGTH", "face to be sealed beside the edges, otherwise as far as the crown",
    SEALS, GROUP_SEALER, VALUES_ANY, true, set_from_0, WHOLE(sealer.face_margin_mm), RUNNEL_LENGTH, UNTOLD},
[OPTION_RECOAT] = {"recoat", 0, "TIME", "from coat to coat, as its can says",
    SEALS, GROUP_SEALER, VALUES_ANY, true, set_above_0, WHOLE(sealer.recoat_s), RUNNEL_TIME, UNTOLD},
[OPTION_HARD] = {"hard", 0, "TIME", "from the last coat until it is hard",
    SEALS, GROUP_SEALER, VALUES_ANY, true, set_above_0, WHOLE(sealer.hard_s), RUNNEL_TIME, UNTOLD},
[OPTION_ORDER] = {"order", 0, "STEPS", "your order, to be checked, such as 'carve, seal, pour, level, sand, oil, wax'",
    SEALS | OILS, GROUP_SEALER, VALUES_ANY, true, set_order, WHOLE(order), UNMEASURED, UNTOLD},

[OPTION_ZERO_ON] = {"zero-on", 0, "WHAT", "what lies under the cutter's zero: wood, 'paper 2', 'tape 3', a thickness such as '0.3 mm', or 'tape 3, 10 measure 1.3 mm'; otherwise wood",
    LEVELS, GROUP_LEVEL, VALUES_ANY, true, set_under, WHOLE(level.under), UNMEASURED, UNTOLD},
[OPTION_PASS] = {"pass", 0, "LENGTH", "most that the cutter takes at once",
    LEVELS, GROUP_LEVEL, VALUES_ANY, true, set_above_0, WHOLE(level.pass_mm), RUNNEL_LENGTH, RUNNEL_DEFAULT_PASS_MM, "mm"},
[OPTION_BELOW] = {"below", 0, "LENGTH", "how far the cutter is set below that zero",
    LEVELS, GROUP_LEVEL, VALUES_ANY, true, set_from_0, WHOLE(level.below_mm), RUNNEL_LENGTH, 0, "mm"},
[OPTION_TAKE_OFF] = {"take-off", 0, "LENGTH", "wood that sanding takes off the face after that",
    LEVELS, GROUP_LEVEL, VALUES_ANY, true, set_from_0, WHOLE(level.take_off_mm), RUNNEL_LENGTH, RUNNEL_DEFAULT_TAKE_OFF_MM, "mm"},
[OPTION_THIN] = {"thin", 0, "LENGTH", "strokes that are left no wider are listed",
    LEVELS, GROUP_LEVEL, VALUES_ANY, true, set_from_0, WHOLE(level.thin_mm), RUNNEL_LENGTH, RUNNEL_DEFAULT_THIN_MM, "mm"},
[OPTION_HIGH_SPOT] = {"high-spot", 0, "LENGTH", "how much the face stands higher elsewhere than where the zero was set",
    LEVELS, GROUP_LEVEL, VALUES_ANY, true, set_from_0, WHOLE(level.high_spot_mm), RUNNEL_LENGTH, 0, "mm"},
[OPTION_VENEER] = {"veneer", 0, "LENGTH", "thickness of a face veneer, for what is not solid wood",
    LEVELS, GROUP_LEVEL, VALUES_ANY, true, set_above_0, WHOLE(level.veneer_mm), RUNNEL_LENGTH, UNTOLD},

[OPTION_GRAIN] = {"grain", 0, "WAY", "which way the grain runs: length, width or 'end grain'; otherwise length",
    DAMPS | OILS | KEEPS, GROUP_OIL, VALUES_ANY, false, set_grain, PIECE(grain), UNMEASURED, UNTOLD},
[OPTION_CHAMFER] = {"chamfer", 0, "LENGTH", "how far chamfers of 45 degrees stand back from the edges",
    OILS | KEEPS, GROUP_OIL, VALUES_ANY, false, set_from_0, PIECE(chamfer_mm), RUNNEL_LENGTH, 0, "mm"},
[OPTION_CHAMFERED] = {"chamfered", 0, "EDGES", "all, top, bottom, 'top and bottom' or upright; otherwise all",
    OILS | KEEPS, GROUP_OIL, VALUES_ANY, false, set_edges, PIECE(chamfered), UNMEASURED, UNTOLD},
[OPTION_JUICE_GROOVE] = {"juice-groove", 0, "GROOVE", "its centre line, cutter and depth: 'RECTANGLE, CUTTER, 5 mm deep'",
    OILS | KEEPS, GROUP_OIL, VALUES_ANY, false, set_juice, PIECE(juice), UNMEASURED, UNTOLD},
[OPTION_FINGER_HOLDS] = {"finger-holds", 0, "SLOTS", "their length, cutter, depth and face: '2 of 100 mm, CUTTER, 10 mm deep, in the left'",
    OILS | KEEPS, GROUP_OIL, VALUES_ANY, false, set_holds, PIECE(holds), UNMEASURED, UNTOLD},
[OPTION_OIL] = {"oil", 0, "OIL", "a row of 'runnel list oils'; otherwise '" RUNNEL_DEFAULT_OIL "'",
    OILS | KEEPS, GROUP_OIL, VALUES_OILS, true, set_name, WHOLE(oil.name), UNMEASURED, UNTOLD},
[OPTION_UPTAKE] = {"uptake", 0, "LOADING", "what a coat takes on face grain, such as '60 ml/m2'; otherwise as the row says",
    OILS | KEEPS, GROUP_OIL, VALUES_ANY, true, set_above_0, WHOLE(oil.uptake_mm), RUNNEL_AREA_LOADING, UNTOLD},
[OPTION_END_GRAIN] = {"end-grain", 0, "NUMBER", "how many times that end grain takes; otherwise as the row says",
    OILS | KEEPS, GROUP_OIL, VALUES_ANY, true, set_number_above_0, WHOLE(oil.end_factor), UNMEASURED, UNTOLD},
[OPTION_FALL] = {"fall", 0, "PERCENT", "by which each coat takes less than the one before",
    OILS | KEEPS, GROUP_OIL, VALUES_ANY, true, set_from_0, WHOLE(oil.fall), RUNNEL_FRACTION, 0, "%"},
[OPTION_WASTE] = {"waste", 0, "PERCENT", "that stays in brush and rag",
    OILS | KEEPS, GROUP_OIL, VALUES_ANY, true, set_from_0, WHOLE(oil.waste), RUNNEL_FRACTION, 100 * RUNNEL_DEFAULT_OIL_WASTE, "%"},
[OPTION_WAX] = {"wax", 0, "RECIPE", "also wax, oil to wax, such as '4:1 by weight' or '5 ml : 1 g'",
    OILS, GROUP_OIL, VALUES_ANY, true, set_recipe, WHOLE(wax.recipe), UNMEASURED, UNTOLD},
[OPTION_WAX_KIND] = {"wax-kind", 0, "WAX", "beeswax, 'carnauba wax' or 'paraffin wax'; otherwise beeswax",
    OILS, GROUP_OIL, VALUES_ANY, true, set_name, WHOLE(wax.kind), UNMEASURED, UNTOLD},
[OPTION_WAX_COATS] = {"wax-coats", 0, "NUMBER", "how many coats of it, otherwise 1",
    OILS, GROUP_OIL, VALUES_ANY, true, set_count_from_1, WHOLE(wax.coats), UNMEASURED, UNTOLD},
[OPTION_WAX_COAT] = {"wax-coat", 0, "LOADING", "what a coat of it takes",
    OILS, GROUP_OIL, VALUES_ANY, true, set_above_0, WHOLE(wax.coat_mm), RUNNEL_AREA_LOADING, 1000 * RUNNEL_WAX_COAT_MM, "ml/m2"},

[OPTION_DELIVERED] = {"delivered", 0, "DATE", "day of delivery, such as 2026-12-24",
    KEEPS, GROUP_UPKEEP, VALUES_ANY, true, set_date, WHOLE(upkeep.delivered), UNMEASURED, UNTOLD},
[OPTION_USE] = {"use", 0, "USE", "rare, weekly, daily, wet, or outdoors: sheltered or 'open air'; otherwise weekly",
    KEEPS | SHEETS | DAMPS, GROUP_UPKEEP, VALUES_USES, true, set_use, WHOLE(upkeep.use), UNMEASURED, UNTOLD},
[OPTION_WASHING] = {"washing", 0, "WASHING", "wiped, rinsed or scrubbed; otherwise rinsed",
    KEEPS, GROUP_UPKEEP, VALUES_WASHINGS, true, set_washing, WHOLE(upkeep.washing), UNMEASURED, UNTOLD},
[OPTION_WATER] = {"water", 0, "WHAT", "what a drop of water does on it by now: beads, so later, or 'soaks in', so earlier",
    KEEPS, GROUP_UPKEEP, VALUES_WATER, true, set_water, WHOLE(upkeep.water), UNMEASURED, UNTOLD},
[OPTION_OILED] = {"oiled", 0, "DATE", "day of its owner's last coat, from which the waits begin anew",
    KEEPS, GROUP_UPKEEP, VALUES_ANY, true, set_date, WHOLE(upkeep.oiled), UNMEASURED, UNTOLD},
[OPTION_WRITTEN] = {"written", 0, "DATE", "day on which a calendar is written, otherwise that of delivery or the first day of work; or a drawing, otherwise none",
    KEEPS | TIMES | DRAWS, GROUP_UPKEEP, VALUES_ANY, true, NULL, NOWHERE, UNMEASURED, UNTOLD},
[OPTION_REVISION] = {"revision", 0, "NUMBER", "how often a calendar was written before, so that it goes before the earlier ones; otherwise 0",
    KEEPS | TIMES, GROUP_UPKEEP, VALUES_ANY, true, NULL, NOWHERE, UNMEASURED, UNTOLD},

[OPTION_STOCK] = {"stock", 0, "FILE", "table of what is in the bottles; 'what', 'part', 'amount [g]' or 'amount [ml]', and 'pack size [g]', 'price [EUR]', 'opened' as you like",
    STOCKS, GROUP_STOCK, VALUES_FILE, true, NULL, NOWHERE, UNMEASURED, UNTOLD},
[OPTION_TAKE_OUT] = {"take-out", 0, NULL, "write into that file what is left, when there is enough",
    STOCKS, GROUP_STOCK, VALUES_NONE, true, NULL, NOWHERE, UNMEASURED, UNTOLD},

[OPTION_START] = {"start", 0, "DATE", "first day of work, such as '2026-11-25'",
    TIMES, GROUP_TIMELINE, VALUES_ANY, true, set_date, WHOLE(days.start), UNMEASURED, UNTOLD},
[OPTION_READY_BY] = {"ready-by", 0, "DATE", "last day to be ready to ship",
    TIMES, GROUP_TIMELINE, VALUES_ANY, true, set_date, WHOLE(days.ready_by), UNMEASURED, UNTOLD},
[OPTION_HOURS] = {"hours", 0, "HOURS", "of the shop, such as 'Mon-Fri 8:00-12:00 13:00-17:30, Sat 9:00-13:00'; otherwise '" RUNNEL_DEFAULT_HOURS "'",
    TIMES, GROUP_TIMELINE, VALUES_ANY, true, set_hours, WHOLE(days.hours), UNMEASURED, UNTOLD},
[OPTION_DAYS_OFF] = {"days-off", 0, "DATES", "days without work, with commas between, such as '2026-12-08, 2026-12-24 to 2027-01-02'",
    TIMES, GROUP_TIMELINE, VALUES_ANY, true, set_days_off, WHOLE(days.off), UNMEASURED, UNTOLD},
[OPTION_ZONE] = {"zone", 0, "ZONE", "of the shop's clock, such as 'Europe/Berlin', for waits across a change to or from summer time; otherwise every day has 24 h",
    TIMES, GROUP_TIMELINE, VALUES_ANY, true, set_name, WHOLE(days.zone), UNMEASURED, UNTOLD},
[OPTION_CARVE_TIME] = {"carve-time", 0, "TIME", "of hands, to carve one piece, such as '90 min'; otherwise as 'runnel list work' says",
    TIMES, GROUP_TIMELINE, VALUES_ANY, false, set_above_0, PIECE(carve_s), RUNNEL_TIME, UNTOLD},
[OPTION_GRITS] = {"grits", 0, "LIST", "of sanding, from coarse to fine; otherwise '" RUNNEL_DEFAULT_GRITS "'",
    TIMES, GROUP_TIMELINE, VALUES_ANY, true, set_grits, WHOLE(grits), UNMEASURED, UNTOLD},
[OPTION_GRAIN_RAISED] = {"grain-raised", 0, "NUMBER", "how often the grain is raised and cut back; otherwise once before oil",
    TIMES, GROUP_TIMELINE, VALUES_ANY, true, set_raisings, WHOLE(raisings), UNMEASURED, UNTOLD},
[OPTION_UNMASKED] = {"unmasked", 0, NULL, "the face is not masked before the pour",
    TIMES, GROUP_TIMELINE, VALUES_NONE, true, set_bare, WHOLE(mask), UNMEASURED, UNTOLD},

[OPTION_WIDTH] = {"width", 0, "LENGTH", "of the groove at the face, such as '5.9 mm'",
    TRIES, GROUP_TRIAL, VALUES_ANY, true, NULL, NOWHERE, RUNNEL_LENGTH, UNTOLD},
[OPTION_AT_DEPTH] = {"at-depth", 0, "LENGTH", "depth of the tip below the face",
    TRIES, GROUP_TRIAL, VALUES_ANY, true, NULL, NOWHERE, RUNNEL_LENGTH, UNTOLD},
[OPTION_WIDTH_2] = {"width-2", 0, "LENGTH", "of a second groove",
    TRIES, GROUP_TRIAL, VALUES_ANY, true, NULL, NOWHERE, RUNNEL_LENGTH, UNTOLD},
[OPTION_AT_DEPTH_2] = {"at-depth-2", 0, "LENGTH", "and its depth",
    TRIES, GROUP_TRIAL, VALUES_ANY, true, NULL, NOWHERE, RUNNEL_LENGTH, UNTOLD},
[OPTION_TIP] = {"tip", 0, "LENGTH", "flat of the tip, with one groove",
    TRIES, GROUP_TRIAL, VALUES_ANY, true, NULL, NOWHERE, RUNNEL_LENGTH, 0, "mm"},
[OPTION_SOLD_AS] = {"sold-as", 0, "ANGLE", "the angle that it was sold as, to compare",
    TRIES, GROUP_TRIAL, VALUES_ANY, true, NULL, NOWHERE, RUNNEL_ANGLE, UNTOLD},
[OPTION_WIDTH_ERROR] = {"width-error", 0, "LENGTH", "how far the widths may be off",
    TRIES, GROUP_TRIAL, VALUES_ANY, true, NULL, NOWHERE, RUNNEL_LENGTH, RUNNEL_TRIAL_WIDTH_MM, "mm"},
[OPTION_DEPTH_ERROR] = {"depth-error", 0, "LENGTH", "how far the depths may be off",
    TRIES, GROUP_TRIAL, VALUES_ANY, true, NULL, NOWHERE, RUNNEL_LENGTH, RUNNEL_TRIAL_DEPTH_MM, "mm"},
[OPTION_TIP_ERROR] = {"tip-error", 0, "LENGTH", "how far the tip given may be off",
    TRIES, GROUP_TRIAL, VALUES_ANY, true, NULL, NOWHERE, RUNNEL_LENGTH, 0, "mm"},

[OPTION_WEIGHED_A] = {"weighed-a", 0, "MASS", "A (resin) that went in, such as '144 g'",
    RESCUES, GROUP_RESCUE, VALUES_ANY, true, NULL, NOWHERE, RUNNEL_MASS, UNTOLD},
[OPTION_WEIGHED_B] = {"weighed-b", 0, "MASS", "B (hardener) that went in",
    RESCUES, GROUP_RESCUE, VALUES_ANY, true, NULL, NOWHERE, RUNNEL_MASS, UNTOLD},
[OPTION_POURED_A] = {"poured-a", 0, "VOLUME", "the same of A by volume",
    RESCUES, GROUP_RESCUE, VALUES_ANY, true, NULL, NOWHERE, RUNNEL_VOLUME, UNTOLD},
[OPTION_POURED_B] = {"poured-b", 0, "VOLUME", "and of B",
    RESCUES, GROUP_RESCUE, VALUES_ANY, true, NULL, NOWHERE, RUNNEL_VOLUME, UNTOLD},
[OPTION_STROKES_A] = {"strokes-a", 0, "NUMBER", "or strokes of A's pump",
    RESCUES, GROUP_RESCUE, VALUES_ANY, true, NULL, NOWHERE, UNMEASURED, UNTOLD},
[OPTION_STROKES_B] = {"strokes-b", 0, "NUMBER", "and of B's",
    RESCUES, GROUP_RESCUE, VALUES_ANY, true, NULL, NOWHERE, UNMEASURED, UNTOLD},
[OPTION_STROKE_A] = {"stroke-a", 0, "VOLUME", "what a stroke of A gives, such as '5 ml'",
    RESCUES, GROUP_RESCUE, VALUES_ANY, true, NULL, NOWHERE, RUNNEL_VOLUME, UNTOLD},
[OPTION_STROKE_B] = {"stroke-b", 0, "VOLUME", "and of B, otherwise the same",
    RESCUES, GROUP_RESCUE, VALUES_ANY, true, NULL, NOWHERE, RUNNEL_VOLUME, UNTOLD},
[OPTION_WANTED] = {"wanted", 0, "MASS", "A + B that was to be mixed",
    RESCUES, GROUP_RESCUE, VALUES_ANY, true, NULL, NOWHERE, RUNNEL_MASS, UNTOLD},
[OPTION_LEFT_A] = {"left-a", 0, "MASS", "A that is left in the bottle, otherwise enough",
    RESCUES, GROUP_RESCUE, VALUES_ANY, true, NULL, NOWHERE, RUNNEL_MASS, UNTOLD},
[OPTION_LEFT_B] = {"left-b", 0, "MASS", "and B",
    RESCUES, GROUP_RESCUE, VALUES_ANY, true, NULL, NOWHERE, RUNNEL_MASS, UNTOLD},
[OPTION_ROOM] = {"room", 0, "VOLUME", "what the cup may hold, otherwise enough",
    RESCUES, GROUP_RESCUE, VALUES_ANY, true, NULL, NOWHERE, RUNNEL_VOLUME, UNTOLD},

[OPTION_COLDEST] = {"coldest", 0, "TEMPERATURE", "of each day, such as '12 C'",
    CURES, GROUP_CURE, VALUES_ANY, true, NULL, NOWHERE, RUNNEL_TEMPERATURE, UNTOLD},
[OPTION_WARMEST] = {"warmest", 0, "TEMPERATURE", "of each day",
    CURES, GROUP_CURE, VALUES_ANY, true, NULL, NOWHERE, RUNNEL_TEMPERATURE, UNTOLD},
[OPTION_WARMEST_AT] = {"warmest-at", 0, "TIME", "when it is warmest, from midnight on",
    CURES, GROUP_CURE, VALUES_ANY, true, NULL, NOWHERE, RUNNEL_TIME, 15, "h"},
[OPTION_POURED_AT] = {"poured-at", 0, "TIME", "when it is poured, from midnight on",
    CURES, GROUP_CURE, VALUES_ANY, true, NULL, NOWHERE, RUNNEL_TIME, 9, "h"},
[OPTION_LOG] = {"log", 0, "FILE", "of a temperature logger: CSV with time stamp, temperature and perhaps humidity",
    CURES, GROUP_CURE, VALUES_FILE, true, NULL, NOWHERE, UNMEASURED, UNTOLD},
[OPTION_POURED] = {"poured", 0, "STAMP", "when it was poured, such as '2026-11-25 08:05'; otherwise at the first reading",
    CURES, GROUP_CURE, VALUES_ANY, true, NULL, NOWHERE, UNMEASURED, UNTOLD},
[OPTION_RULE] = {"rule", 0, "RULE", "activation (by the resin's activation energy) or doubling (for each 10 C more); otherwise activation",
    CURES, GROUP_CURE, VALUES_ANY, true, NULL, NOWHERE, UNMEASURED, UNTOLD},
[OPTION_MASS] = {"mass", 0, "MASS", "of resin in the cup, for its heat; otherwise what the pot life was stated for",
    CURES, GROUP_CURE, VALUES_ANY, true, NULL, NOWHERE, RUNNEL_MASS, UNTOLD},
[OPTION_LAYER] = {"layer", 0, "LENGTH", "depth of the layer, for its heat; otherwise the resin's deepest one",
    CURES, GROUP_CURE, VALUES_ANY, true, NULL, NOWHERE, RUNNEL_LENGTH, UNTOLD},
[OPTION_HOTTEST] = {"hottest", 0, "TEMPERATURE", "that the resin may get by its own heat",
    CURES, GROUP_CURE, VALUES_ANY, true, NULL, NOWHERE, RUNNEL_TEMPERATURE, RUNNEL_HEATING_LIMIT_DEGC, "C"},
[OPTION_BOARD] = {"board", 0, "TEMPERATURE", "of the board's face; otherwise the coldest of the air",
    CURES, GROUP_CURE, VALUES_ANY, true, NULL, NOWHERE, RUNNEL_TEMPERATURE, UNTOLD},

[OPTION_TOLERANCE] = {"tolerance", 0, "LENGTH", "how far the chords of a curve may lie beside it",
    JOBS, GROUP_OUTPUT, VALUES_ANY, true, set_quantity, WHOLE(flatten_mm), RUNNEL_LENGTH, RUNNEL_DEFAULT_FLATTEN_MM, "mm"},
[OPTION_SECTIONS] = {"sections", 0, "LENGTH", "also the area of each cavity at levels this far apart",
    MAKES, GROUP_OUTPUT, VALUES_ANY, true, set_quantity, WHOLE(section_step_mm), RUNNEL_LENGTH, UNTOLD},
[OPTION_JOB] = {"job", 0, "NAME", "name of the job, for the top of the output",
    JOBS, GROUP_OUTPUT, VALUES_ANY, true, set_name, WHOLE(name), UNMEASURED, UNTOLD},
[OPTION_ID] = {"id", 0, "TEXT", "of the order, as in its file: events of a calendar keep to it",
    TIMES | KEEPS, GROUP_OUTPUT, VALUES_ANY, true, set_name, WHOLE(id), UNMEASURED, UNTOLD},
[OPTION_CUSTOMER] = {"customer", 0, "NAME", "whose order it is: without an id it tells it from others",
    TIMES | KEEPS, GROUP_OUTPUT, VALUES_ANY, true, set_name, WHOLE(customer), UNMEASURED, UNTOLD},
[OPTION_DATA] = {"data", 0, "FOLDER", "tables of one's own, over those that are there",
    JOBS | LISTS | RESCUES | CURES, GROUP_OUTPUT, VALUES_FOLDER, true, NULL, NOWHERE, UNMEASURED, UNTOLD},
[OPTION_PAPER] = {"paper", 0, "SIZE", "of what is drawn: a4, letter, a5 or 4x6; otherwise a4",
    DRAWS, GROUP_OUTPUT, VALUES_PAPERS, true, NULL, NOWHERE, UNMEASURED, UNTOLD},
[OPTION_FORMAT] = {"format", 0, "FORMAT", "of the output: text, json, for a list csv, for a calendar ics, html for a page, or drawn as pdf, svg or png; otherwise by the ending of the file",
    JOBS | LISTS | TRIES | RESCUES | CURES, GROUP_OUTPUT, VALUES_FORMAT, true, NULL, NOWHERE, UNMEASURED, UNTOLD},
[OPTION_OUTPUT] = {"output", 'o', "FILE", "write to a file, whole or not at all",
    JOBS | LISTS | TRIES | RESCUES | CURES, GROUP_OUTPUT, VALUES_FILE, true, NULL, NOWHERE, UNMEASURED, UNTOLD},
[OPTION_HELP] = {"help", 'h', NULL, "show this help",
    ALL, GROUP_OUTPUT, VALUES_NONE, true, NULL, NOWHERE, UNMEASURED, UNTOLD},
[OPTION_VERSION] = {"version", 0, NULL, "show the version",
    ALL, GROUP_OUTPUT, VALUES_NONE, true, NULL, NOWHERE, UNMEASURED, UNTOLD},
};
/* clang-format on */

const cli_option *option_row(option_id id) {
    return &options[id];
}

const char *option_help(const cli_option *option, char *buffer) {
    char number[32];
    if (option->otherwise_unit)
        snprintf(buffer, OPTION_HELP_SIZE, "%s; otherwise '%s %s'", option->help,
                 runnel_number_exact(option->otherwise, number, sizeof number),
                 option->otherwise_unit);
    else
        snprintf(buffer, OPTION_HELP_SIZE, "%s", option->help);
    return buffer;
}

command_id command_named(const char *name) {
    for (int i = COMMAND_NONE + 1; i < COMMAND_COUNT; i++)
        if (!strcmp(commands[i].name, name))
            return (command_id)i;
    return COMMAND_NONE;
}

int word_in(const char *words, const char *word) {
    size_t length = strlen(word);
    for (int index = 0; *words; index++) {
        size_t whole = strcspn(words, " ");
        if (whole == length && !strncmp(words, word, length))
            return index;
        words += whole + (words[whole] == ' ');
    }
    return -1;
}
