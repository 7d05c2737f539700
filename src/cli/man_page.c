/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/commands.h"

#include <stdio.h>
#include <string.h>

/* ---- The language of man(7) -------------------------------------------------------------------
 */

/* Text in which nothing is a request or changes its look. */
static void print_text(const char *text) {
    if (*text == '.' || *text == '\'')
        fputs("\\&", stdout);
    for (; *text; text++) {
        if (*text == '\\')
            fputs("\\e", stdout);
        else if (*text == '-')
            fputs("\\-", stdout);
        else if (*text == '\'')
            fputs("\\(aq", stdout);
        else
            putchar(*text);
    }
}

static void print_section(const char *title) {
    printf(".SH %s\n", title);
}

static void print_paragraph(const char *text) {
    puts(".PP");
    print_text(text);
    putchar('\n');
}

/* An item with its text behind it. */
static void print_item(const char *item, const char *text) {
    printf(".TP\n.B ");
    print_text(item);
    putchar('\n');
    print_text(text);
    putchar('\n');
}

static void print_example(const char *what, const char *line) {
    print_paragraph(what);
    puts(".RS 4\n.EX");
    print_text(line);
    puts("\n.EE\n.RE");
}

/* ---- Sections ---------------------------------------------------------------------------------
 */

static void print_synopsis(void) {
    print_section("SYNOPSIS");
    for (int i = COMMAND_NONE + 1; i < COMMAND_COUNT; i++) {
        const cli_command *command = command_row((command_id)i);
        printf("%s.B runnel %s\n%s", i > COMMAND_NONE + 1 ? ".br\n" : "", command->name,
               command->formats ? ".RI [ option ]...\n" : "");
        print_text(command->operands);
        if (*command->operands)
            putchar('\n');
    }
}

static void print_description(void) {
    print_section("DESCRIPTION");
    print_paragraph(
        "runnel sizes the resin for carved, resin-inlaid wooden boards and signs. From lettering "
        "or a drawing, and the cutter, it works out what each cavity holds; from that, crown, "
        "soak, shrinkage, cup loss and reserve, what has to be mixed; and from the ratio and the "
        "scale, what goes on the scale. From the same job it works out the sealer that goes on "
        "first, how the crown is levelled, and the oil and the wax that go on last.");
    print_paragraph(
        "Every quantity carries its unit: mm, cm, m, in and fractions such as '1 1/4 in'; ml, L, "
        "'US fl oz', 'imperial fl oz'; g, kg, 'oz weight', lb; C, F; %; deg; min, h, days. The "
        "decimal sign is a point in every language. A ratio carries its basis: '2:1 by volume' "
        "or '100:44 by weight'.");
    print_section("COMMANDS");
    for (int i = COMMAND_NONE + 1; i < COMMAND_COUNT; i++)
        print_item(command_row((command_id)i)->name, command_row((command_id)i)->about);
    print_item("--man-page", "In place of a command: shows this page, for man.");
    print_item("--bash-completion", "In place of a command: shows the completions, for bash.");
}

/* "size and card", for options that not every command takes. */
static void print_takers(const cli_option *option) {
    const char *between = " (";
    for (int i = COMMAND_NONE + 1; i < COMMAND_COUNT; i++) {
        if (!(option->commands & TAKES(i)))
            continue;
        printf("%s%s", between, command_row((command_id)i)->name);
        between = ", ";
    }
    putchar(')');
}

static void print_option(const cli_option *option) {
    char text[OPTION_HELP_SIZE];
    puts(".TP");
    if (option->letter)
        printf(".BR \\-%c \", \" \\-\\-%s", option->letter, option->name);
    else
        printf(".BI \\-\\-");
    if (!option->letter)
        print_text(option->name);
    if (option->value && option->letter)
        printf(" \" \\fI%s\\fP\"", option->value);
    else if (option->value)
        printf(" \" %s\"", option->value);
    putchar('\n');
    print_text(option_help(option, text));
    print_takers(option);
    putchar('\n');
}

static void print_options(void) {
    print_section("OPTIONS");
    print_paragraph("A value stands behind its option, as a word of its own or behind the sign =. "
                    "No option is given twice or cut short; -- ends the options. Behind each one "
                    "stand the commands that take it. Those that tell of one cavity, its piece and "
                    "its colour stand in place of a job file; the others may stand beside one and "
                    "go before what it says.");
    for (int group = 0; group < GROUP_COUNT; group++) {
        printf(".SS %s\n", option_group_title((option_group)group));
        for (int i = 0; i < OPTION_IDS; i++)
            if (option_row((option_id)i)->group == (option_group)group)
                print_option(option_row((option_id)i));
    }
}

static void print_forms(void) {
    print_section("WRITTEN FORMS");
    print_paragraph("The same in a job file and in an option:");
    print_item("SHAPE",
               "'rectangle 60 x 40 mm', 'rounded rectangle 380 x 220 r 20 mm', 'circle 40 mm' "
               "(its diameter), 'ellipse 60 x 40 mm', 'polygon 0,0 60,0 60,60 30,60 30,30 0,30 "
               "mm', a polygon's holes behind the word hole; as a path also 'line 0,0 100,0 mm' "
               "and 'polyline 0,0 50,0 50,30 mm'.");
    print_item("CUTTER", "The name of a row, or 'v 60 deg', 'v 60 deg tip 0.2 mm', 'round-nose "
                         "radius 3 mm', 'flat diameter 6 mm'.");
    print_item("GROOVE", "Of a juice groove: its centre line, the cutter and the depth, 'rounded "
                         "rectangle 380 x 220 r 20 mm, round-nose radius 6 mm, 5 mm deep'.");
    print_item("SLOTS", "Finger holds: how many, from end to end, the cutter, the depth and the "
                        "face, '2 of 100 mm, round-nose radius 8 mm, 10 mm deep, in the left'; "
                        "without the face in the bottom.");
    print_item("WHAT", "Under the zero of the cutter: wood for nothing, 'paper 2', 'tape 3', a "
                       "thickness such as '0.3 mm', or 'tape 3, 10 measure 1.3 mm' where a stack "
                       "was measured.");
    print_item("CUT", "Of shellac: '2 lb' for two pounds of flake to a US gallon of spirit, or the "
                      "like of '240 g/L'.");
    print_item("RECIPE", "Of oil to wax: '4:1 by weight', '4:1 by volume', or amounts such as '5 "
                         "ml : 1 g'.");
    print_item("STEPS", "With commas between: carve, seal, 'seal with what holds wax', 'wax the "
                        "face against spills', mix, pour, level, sand, 'raise the grain', oil, "
                        "'oil with one that dries', wax, 'use with food'.");
    print_item("AMOUNT", "A volume such as '18 ml', or the mass of the water that filled the "
                         "cavity, such as '18 g'.");
}

/* The outcomes, from the one table of them. */
static void print_exit_status(void) {
    enum { LARGEST = 5 };
    print_section("EXIT STATUS");
    for (int code = 0; code <= LARGEST; code++) {
        bool any = false;
        printf(".TP\n.B %d\n", code);
        for (int i = 0; i < RUNNEL_STATUS_COUNT; i++) {
            if (runnel_status_exit((runnel_status)i) != code)
                continue;
            fputs(any ? "; " : "", stdout);
            print_text(runnel_status_text((runnel_status)i));
            any = true;
        }
        putchar('\n');
    }
    print_paragraph("What is wrong with the input is told on standard error, all of it, one "
                    "problem a line, as FILE:LINE:COLUMN: FIELD: TEXT with the parts that there "
                    "are. Nothing is written then.");
}

static void print_files(void) {
    print_section("FILES");
    print_paragraph("A later table stands over an earlier one: a row takes the place of the whole "
                    "row of the same name, new rows are added.");
    print_item("resins.csv, cutters.csv, woods.csv, oils.csv, upkeep.csv, work.csv",
               "The names of the tables. The first line names the columns, with their units; "
               "'runnel list resins --format csv' shows how.");
    print_item("the file of --stock",
               "What is in the bottles, a row for each: what (the name of a resin, oil or wax, or "
               "tint, shellac, spirit), part (A, B or the colour), amount [g] or amount [ml]; as "
               "you like also pack size [g], price [EUR], opened, and columns of your own.");
    print_item("/usr/local/share/runnel",
               "The tables that came with runnel, below the place that it was installed to.");
    print_item("$XDG_DATA_HOME/runnel, or ~/.local/share/runnel", "The user's own tables.");
    print_item("the folder of --data, or else of $RUNNEL_DATA", "Tables over those.");
    print_section("ENVIRONMENT");
    print_item("RUNNEL_DATA", "A folder of tables, as for --data, which goes before it.");
    print_item("XDG_DATA_HOME", "Where the user's data are, when not in ~/.local/share.");
}

static void print_examples(void) {
    print_section("EXAMPLES");
    print_example("A rectangle, carved by a V cutter as deep as it goes:",
                  "runnel size --outline 'rectangle 60 x 40 mm' --cutter 'v 90 deg'");
    print_example("Letters with a flat bottom at 4 mm, two boards of maple:",
                  "runnel size --text 'RYE & SALT' --font 'EB Garamond' --cap-height '38 mm' \\\n"
                  "    --cutter v-60 --depth-limit '4 mm' --wood 'hard maple' --count 2");
    print_example("The card for a job file, on a colder day:",
                  "runnel card boards.yaml --temperature '16 C'");
    print_example(
        "A resin with a ratio of its own, as JSON in a file:",
        "runnel size boards.yaml --ratio '100:43 by weight' --format json -o boards.json");
    print_example("A table of one's own to be changed:",
                  "mkdir -p ~/.local/share/runnel\n"
                  "runnel list cutters --format csv -o ~/.local/share/runnel/cutters.csv");
}

void show_man_page(void) {
    puts(".\\\" SPDX-License-Identifier: GPL-3.0-or-later");
    puts(".\\\" Written by 'runnel --man-page'.");
    puts(".TH RUNNEL 1 \"\" \"runnel " RUNNEL_VERSION "\" \"User Commands\"");
    puts(".SH NAME\nrunnel \\- size the resin for carved and inlaid boards and signs");
    print_synopsis();
    print_description();
    print_options();
    print_forms();
    print_exit_status();
    print_files();
    print_examples();
}
