/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "yaml_reading.h"

#include <check.h>
#include <stdlib.h>

#define PIECES "pieces: [{cavities: [{measured: 5 ml}]}]\n"
/* A cavity whose first key stands in line 3, column 5, the others below it. */
#define CAVITY  "pieces:\n- cavities:\n  - "
#define NEXT    "\n    "
#define OUTLINE "outline: circle 40 mm" NEXT
#define A_PIECE "pieces[0].cavities[0]."

#define JOB_KEYS                                                                                   \
    "job, id, customer, resin, ratio, scale, shop, moisture, destination, crown, margin, soak, "   \
    "sealed, sealer, "                                                                             \
    "reserve, top up, cup, "                                                                       \
    "usable share, errors, size to, bridge, floor, tolerance, sections, level, oil, wax, upkeep, " \
    "days, order, grits, grain raised, mask, colours, pieces"
#define KINDS                                                                                      \
    "it must be 'shellac', 'shellac with wax', 'sanding sealer', 'lacquer', 'water-based sealer' " \
    "or 'clear resin'"

/* Files with one thing wrong, and all that is told of them. */
static const struct {
    const char *text;
    runnel_status status;
    size_t line, column;
    const char *field, *problem;
} single[] = {
    /* keys */
    {"corwn: 1 mm\n" PIECES, RUNNEL_E_UNKNOWN, 1, 1, "corwn",
     "'corwn' is no key of the job; the nearest is 'crown'"},
    {"job: a\n\nCrown: 1 mm\n" PIECES, RUNNEL_E_UNKNOWN, 3, 1, "Crown",
     "'Crown' is no key of the job; the nearest is 'crown'"},
    {"qwertz: 1 mm\n" PIECES, RUNNEL_E_UNKNOWN, 1, 1, "qwertz",
     "'qwertz' is no key of the job; it may have: " JOB_KEYS},
    {"<<: {crown: 1 mm}\n" PIECES, RUNNEL_E_UNKNOWN, 1, 1, "<<",
     "'<<' is no key of the job; it may have: " JOB_KEYS},
    {"cutter: v-60\n" PIECES, RUNNEL_E_UNKNOWN, 1, 1, "cutter",
     "'cutter' is a key of a cavity, not of the job"},
    {"shop: {temprature: 20 °C}\n" PIECES, RUNNEL_E_UNKNOWN, 1, 8, "shop.temprature",
     "'temprature' is no key of the shop; the nearest is 'temperature'"},
    {"cup: {x: 20}\n" PIECES, RUNNEL_E_UNKNOWN, 1, 7, "cup.x",
     "'x' is no key of the cup; it may have: diameter, drain, loss, brim"},
    {"sealer: shelac\n" PIECES, RUNNEL_E_UNKNOWN, 1, 9, "sealer.kind",
     "'shelac' is no kind of sealer (did you mean 'shellac'?); " KINDS},
    {"sealer: {kind: tar}\n" PIECES, RUNNEL_E_UNKNOWN, 1, 16, "sealer.kind",
     "'tar' is no kind of sealer; " KINDS},
    {"sealer: {kind: lacquer}\n" PIECES, RUNNEL_E_MISSING, 1, 1, "sealer.coverage",
     "how much of the sealer goes on is not told; give the 'coverage' on its can, such as '9 "
     "m2/L', or a 'wet film', or a 'dry film' with its 'solids'"},
    {"sealer: {cut: 2}\n" PIECES, RUNNEL_E_SYNTAX, 1, 15, "sealer.cut",
     "'2' is no cut of shellac; write '2 lb' for two pounds of flake to a US gallon of spirit, or "
     "the like of '240 g/L'"},
    {"sealer: {cut: 0 lb}\n" PIECES, RUNNEL_E_RANGE, 1, 15, "sealer.cut",
     "'0 lb' is out of range: a cut must be above 0 lb"},
    {"sealer: {cut: 25 lb}\n" PIECES, RUNNEL_E_RANGE, 1, 15, "sealer.cut",
     "'25 lb' is out of range: 'cut' must be above 0 lb and at most 20 lb"},
    {"sealer: {kind: lacquer, coverage: 9 m2/L, cut: 2 lb}\n" PIECES, RUNNEL_E_CONFLICT, 1, 48,
     "sealer.cut", "only shellac has a 'cut'"},
    {"sealer: {solids: 20 %}\n" PIECES, RUNNEL_E_CONFLICT, 1, 18, "sealer.solids",
     "the solids of shellac follow from its 'cut'; leave 'solids' out"},
    {"sealer: {dry film: 20 um, wet film: 100 um}\n" PIECES, RUNNEL_E_CONFLICT, 1, 37,
     "sealer.wet film", "'dry film' and 'wet film' are both given; give one of them"},
    {"sealer: {coverage: 9 m2/L, wet film: 100 um}\n" PIECES, RUNNEL_E_CONFLICT, 1, 20,
     "sealer.coverage", "'coverage' and 'wet film' are both given; give one of them"},
    {"sealer: {coverage: 9 m2/L, dry film: 20 um}\n" PIECES, RUNNEL_E_CONFLICT, 1, 20,
     "sealer.coverage", "'coverage' and 'dry film' are both given; give one of them"},
    {"sealer: {kind: lacquer, dry film: 20 um}\n" PIECES, RUNNEL_E_MISSING, 1, 1, "sealer.solids",
     "a 'dry film' needs the 'solids', the share of the sealer's volume that stays"},
    {"sealer: {coats: 0}\n" PIECES, RUNNEL_E_RANGE, 1, 17, "sealer.coats",
     "'0' is out of range: 'coats' must be 1 to 100"},
    {"sealer: {loss: 95 %}\n" PIECES, RUNNEL_E_RANGE, 1, 16, "sealer.loss",
     "'95 %' is out of range: 'loss' must be 0 % to 90 %"},
    {"order: carve, seel, pour\n" PIECES, RUNNEL_E_UNKNOWN, 1, 8, "order",
     "'seel' is no step; the nearest is 'seal'"},
    {"order: carve, hammer\n" PIECES, RUNNEL_E_UNKNOWN, 1, 8, "order",
     "'hammer' is no step; the steps are: carve, seal, seal with what holds wax, wax the face "
     "against spills, mix, pour, level, sand, raise the grain, oil, oil with one that dries, wax, "
     "use with food"},
    {"order: carve,, pour\n" PIECES, RUNNEL_E_SYNTAX, 1, 8, "order",
     "a step is empty; write the steps with one comma between, such as 'carve, seal, pour, level, "
     "sand, oil'"},
    {"oil: wallnut oil\n" PIECES, RUNNEL_E_UNKNOWN, 1, 6, "oil.kind",
     "no oil is called 'wallnut oil'; 'runnel list oils' shows the names"},
    {"wax: {kind: beeswax}\n" PIECES, RUNNEL_E_MISSING, 1, 1, "wax.recipe",
     "wax needs its 'recipe', such as '4:1 by weight', oil to wax"},
    {"wax: {recipe: 4:1 by weight, kind: bee wax}\n" PIECES, RUNNEL_E_UNKNOWN, 1, 36, "wax.kind",
     "no wax is called 'bee wax'; the nearest name is 'beeswax'"},
    {"oil: {end grain: 0}\n" PIECES, RUNNEL_E_RANGE, 1, 18, "oil.end grain",
     "'0' is out of range: 'end grain' must be above 0 and at most 100"},
    {"level: {zero on: sand}\n" PIECES, RUNNEL_E_UNKNOWN, 1, 18, "level.zero on",
     "'sand' is nothing that a cutter is zeroed on; write 'wood', 'paper 2', 'tape 3', or a "
     "thickness such as '0.3 mm'"},
    {"scale: {ste: 20 g}\n" PIECES, RUNNEL_E_UNKNOWN, 1, 9, "scale.ste",
     "'ste' is no key of the scale; the nearest is 'step'"},
    {"resin: {density-c: 1 g/ml}\n" PIECES, RUNNEL_E_UNKNOWN, 1, 9, "resin.density-c",
     "'density-c' is no key of the resin; the nearest is 'density a'"},
    {"colours: {red: {tints: 1 %}}\n" PIECES, RUNNEL_E_UNKNOWN, 1, 17, "colours.red.tints",
     "'tints' is no key of a colour; the nearest is 'tint'"},
    {"pieces: [{thickness: 5 mm, cavities: [{measured: 5 ml}]}]", RUNNEL_E_UNKNOWN, 1, 11,
     "pieces[0].thickness",
     "'thickness' is no key of a piece; it may have: name, wood, size, count, pour time, carve "
     "time, grain, "
     "chamfer, chamfered, juice groove, finger holds, cavities"},
    {CAVITY "measured: 5 ml" NEXT "color: red", RUNNEL_E_UNKNOWN, 4, 5, A_PIECE "color",
     "'color' is no key of a cavity; the nearest is 'colour'"},
    {"crown: 1 mm\nfloor: 1 mm\ncrown: 2 mm\n" PIECES, RUNNEL_E_CONFLICT, 3, 1, "crown",
     "'crown' is given twice; it stands on line 1 already"},
    {CAVITY "measured: 5 ml" NEXT "wall area: 5 cm2" NEXT "wall_area: 5 cm2", RUNNEL_E_CONFLICT, 5,
     5, A_PIECE "wall_area", "'wall_area' is given twice; it stands on line 4 already"},
    {"? [a]\n: b\n" PIECES, RUNNEL_E_SYNTAX, 1, 3, NULL, "a key of the job must be a word or two"},
    {"'': b\n" PIECES, RUNNEL_E_SYNTAX, 1, 1, NULL, "a key of the job must be a word or two"},
    /* kinds of value */
    {"job: [a]\n" PIECES, RUNNEL_E_SYNTAX, 1, 6, "job", "'job' needs a single value, not a list"},
    {"crown: {a: b}\n" PIECES, RUNNEL_E_SYNTAX, 1, 8, "crown",
     "'crown' needs a single value, not keys and values"},
    {"crown:\n" PIECES, RUNNEL_E_MISSING, 1, 7, "crown",
     "'crown' has no value; it needs a single value"},
    {"crown: ~\n" PIECES, RUNNEL_E_MISSING, 1, 8, "crown",
     "'crown' has no value; it needs a single value"},
    {"crown: ''\n" PIECES, RUNNEL_E_MISSING, 1, 8, "crown", "'crown' is empty"},
    {"job: \"a\\nb\"\n" PIECES, RUNNEL_E_SYNTAX, 1, 6, "job", "'job' must stand on one line"},
    {"job: \"a\\eb\"\n" PIECES, RUNNEL_E_SYNTAX, 1, 6, "job",
     "the control character U+001B cannot stand in 'job'"},
    {"shop: warm\n" PIECES, RUNNEL_E_SYNTAX, 1, 7, "shop",
     "'shop' needs keys of its own, each on a line under it, not a single value"},
    {"shop: [20 °C]\n" PIECES, RUNNEL_E_SYNTAX, 1, 7, "shop",
     "'shop' needs keys of its own, each on a line under it, not a list"},
    {"scale: [1 g]\n" PIECES, RUNNEL_E_SYNTAX, 1, 8, "scale.step",
     "'step' needs a single value, not a list"},
    {"resin: [a]\n" PIECES, RUNNEL_E_SYNTAX, 1, 8, "resin",
     "'resin' needs a single value, not a list"},
    {"colours: [red]\n" PIECES, RUNNEL_E_SYNTAX, 1, 10, "colours",
     "'colours' needs keys of its own, each on a line under it, not a list"},
    {"colours: {[red]: 2 %}\n" PIECES, RUNNEL_E_SYNTAX, 1, 11, "colours",
     "the name of a colour must be a word or two"},
    {"colours: {red: 2 %, red: 3 %}\n" PIECES, RUNNEL_E_CONFLICT, 1, 21, "colours",
     "the colour 'red' is given twice"},
    {"colours: {red: [2 %]}\n" PIECES, RUNNEL_E_SYNTAX, 1, 16, "colours.red.tint",
     "'tint' needs a single value, not a list"},
    {"pieces:\n  name: board\n", RUNNEL_E_SYNTAX, 2, 3, "pieces",
     "'pieces' needs a list, each item after '- ', not keys and values"},
    {"pieces:\n", RUNNEL_E_MISSING, 1, 8, "pieces",
     "'pieces' has no value; it needs a list, each item after '- '"},
    {"pieces:\n- board\n", RUNNEL_E_SYNTAX, 2, 3, "pieces",
     "a piece needs keys of its own after '- ', such as 'name: ...'"},
    {"pieces:\n- cavities: hole\n", RUNNEL_E_SYNTAX, 2, 13, "pieces[0].cavities",
     "'cavities' needs a list, each item after '- ', not a single value"},
    {"pieces:\n- cavities:\n  - hole\n", RUNNEL_E_SYNTAX, 3, 5, "pieces[0].cavities",
     "a cavity needs keys of its own after '- ', such as 'name: ...'"},
    {"pieces: []\n", RUNNEL_E_MISSING, 1, 9, "pieces",
     "the job has no piece; list at least one under 'pieces'"},
    {"\n  job: a\n", RUNNEL_E_MISSING, 2, 3, "pieces",
     "the job has no piece; list at least one under 'pieces'"},
    {"pieces:\n  - name: a\n", RUNNEL_E_MISSING, 2, 5, "pieces[0].cavities",
     "the piece has no cavity; list at least one under 'cavities'"},
    {"pieces: [{cavities: []}]\n", RUNNEL_E_MISSING, 1, 21, "pieces[0].cavities",
     "the piece has no cavity; list at least one under 'cavities'"},
    /* values of the job */
    {"scale: 0 g\n" PIECES, RUNNEL_E_RANGE, 1, 8, "scale.step",
     "'0 g' is out of range: 'step' must be above 0 and at most 1 kg"},
    {"scale: {accuracy: 101 %}\n" PIECES, RUNNEL_E_RANGE, 1, 19, "scale.accuracy",
     "'101 %' is out of range: 'accuracy' must be 0 % to 100 %"},
    {"shop: {temperature: 60.5 °C, humidity: 50 %}\n" PIECES, RUNNEL_E_RANGE, 1, 21,
     "shop.temperature", "'60.5 °C' is out of range: 'temperature' must be -30 °C to 60 °C"},
    {"shop: {humidity: -1 %}\n" PIECES, RUNNEL_E_RANGE, 1, 18, "shop.humidity",
     "'-1 %' is out of range: 'humidity' must be 0 % to 100 %"},
    {"crown: 1/2 in\n" PIECES, RUNNEL_E_RANGE, 1, 8, "crown",
     "'1/2 in' is out of range: 'crown' must be 0 mm to 10 mm"},
    {"soak: -1 ml/m2\n" PIECES, RUNNEL_E_RANGE, 1, 7, "soak",
     "'-1 ml/m2' is out of range: 'soak' must be 0 ml/m2 to 2000 ml/m2"},
    {"cup: {loss: -1 g}\n" PIECES, RUNNEL_E_RANGE, 1, 13, "cup.loss",
     "'-1 g' is out of range: 'loss' must be 0 g to 10 kg"},
    {"colours: {red: 21 %}\n" PIECES, RUNNEL_E_RANGE, 1, 16, "colours.red.tint",
     "'21 %' is out of range: 'tint' must be 0 % to 20 %"},
    {"sealed: maybe\n" PIECES, RUNNEL_E_UNKNOWN, 1, 9, "sealed", "'maybe' must be 'yes' or 'no'"},
    {"sealed: yess\n" PIECES, RUNNEL_E_UNKNOWN, 1, 9, "sealed",
     "'yess' must be 'yes' or 'no'; the nearest is 'yes'"},
    {"resin: table-top 3:1\n" PIECES, RUNNEL_E_UNKNOWN, 1, 8, "resin",
     "no resin is called 'table-top 3:1'; the nearest name is 'table-top 2:1'"},
    {"resin: {row: glue}\n" PIECES, RUNNEL_E_UNKNOWN, 1, 14, "resin.row",
     "no resin is called 'glue'; 'runnel list resins' shows the names"},
    {"resin: {ratio: 2:1 by volume}\nratio: 2:1 by volume\n" PIECES, RUNNEL_E_CONFLICT, 2, 8,
     "ratio", "'ratio' is given for the resin already, on line 1"},
    {"ratio: [2:1 by volume]\n" PIECES, RUNNEL_E_RANGE, 1, 8, "ratio",
     "a list of ratios has two, one by volume and one by weight, not 1"},
    {"ratio: [2:1 by volume, 3:1 by volume]\n" PIECES, RUNNEL_E_CONFLICT, 1, 8, "ratio",
     "both ratios have the same basis; give one, or one by volume and one by weight"},
    {"resin: {activation energy: 50 J/mol}\n" PIECES, RUNNEL_E_UNIT, 1, 28,
     "resin.activation energy", "'50 J/mol' needs the unit kJ/mol, as in '50 kJ/mol'"},
    {"resin: {heat of reaction: 95 kJ/mol}\n" PIECES, RUNNEL_E_UNIT, 1, 27,
     "resin.heat of reaction", "'95 kJ/mol' needs the unit J/g, as in '400 J/g'"},
    {"resin: {heat of reaction: J/g}\n" PIECES, RUNNEL_E_UNIT, 1, 27, "resin.heat of reaction",
     "'J/g' needs the unit J/g, as in '400 J/g'"},
    {"resin: {heat of reaction: 0 J/g}\n" PIECES, RUNNEL_E_RANGE, 1, 27, "resin.heat of reaction",
     "'0 J/g' is out of range: 'heat of reaction' must be above 0 and at most 1000 J/g"},
    {"resin: {recoat until: 30 min}\n" PIECES, RUNNEL_E_CONFLICT, 1, 23, "resin.recoat until",
     "'recoat until' is earlier than 'recoat from'"},
    {"resin: {row: casting 3:1, gel: 4 h}\n" PIECES, RUNNEL_E_MISSING, 1, 1,
     "resin.stated temperature",
     "the times of the resin need the 'stated temperature' that they hold at"},
    /* values of pieces */
    {"pieces: [{wood: oka, cavities: [{measured: 5 ml}]}]", RUNNEL_E_UNKNOWN, 1, 17,
     "pieces[0].wood", "no wood is called 'oka'; 'runnel list woods' shows the names"},
    {"pieces: [{count: 0, cavities: [{measured: 5 ml}]}]", RUNNEL_E_RANGE, 1, 18, "pieces[0].count",
     "'0' is out of range: 'count' must be 1 to 100000"},
    {"pieces: [{size: 30 x 0 x 5 mm, cavities: [{measured: 5 ml}]}]", RUNNEL_E_RANGE, 1, 17,
     "pieces[0].size",
     "'30 x 0 x 5 mm' is out of range: 'size' must be above 0 and at most 10 m each way"},
    {"pieces:\n- {name: a, cavities: [{measured: 5 ml}]}\n- {name: a, cavities: [{measured: 5 "
     "ml}]}\n",
     RUNNEL_E_CONFLICT, 3, 10, "pieces[1].name",
     "two pieces are called 'a'; each needs a name of its own"},
    {CAVITY "{name: b, measured: 5 ml}\n  - measured: 5 ml\n    name: b\n", RUNNEL_E_CONFLICT, 5,
     11, "pieces[0].cavities[1].name",
     "two cavities of the piece are called 'b'; each needs a name of its own"},
    /* values of cavities */
    {CAVITY "name: Zoë", RUNNEL_E_MISSING, 3, 5, A_PIECE "text",
     "the cavity has no shape; give one of 'text', 'outline', 'path' and 'measured'"},
    {CAVITY "measured: 5 ml" NEXT "outline: circle 40 mm", RUNNEL_E_CONFLICT, 3, 15,
     A_PIECE "measured",
     "'outline' and 'measured' are both given; a cavity has one source of shape"},
    {CAVITY OUTLINE "cutter: v-60" NEXT "text: A", RUNNEL_E_CONFLICT, 3, 14, A_PIECE "outline",
     "'text' and 'outline' are both given; a cavity has one source of shape"},
    {CAVITY "measured: 0 ml", RUNNEL_E_RANGE, 3, 15, A_PIECE "measured",
     "'0 ml' is out of range: 'measured' must be above 0 and at most 1000 L"},
    {CAVITY "measured: 5 ml" NEXT "deepest: 0 mm", RUNNEL_E_RANGE, 4, 14, A_PIECE "deepest",
     "'0 mm' is out of range: 'deepest' must be above 0 and at most 1 m"},
    {CAVITY "measured: 5 ml" NEXT "align: start", RUNNEL_E_CONFLICT, 4, 12, A_PIECE "align",
     "'align' does not go with 'measured'"},
    {CAVITY OUTLINE "cutter: v-60" NEXT "depth: 0 mm", RUNNEL_E_CONFLICT, 5, 12, A_PIECE "depth",
     "a V cutter goes as deep as the walls of an outline are apart, so it has no 'depth'; write "
     "'depth limit' for the deepest that it may go"},
    {CAVITY OUTLINE "cutter: flat-6mm" NEXT "depth: -0.5 in", RUNNEL_E_RANGE, 5, 12,
     A_PIECE "depth", "'-0.5 in' is out of range: 'depth' must be above 0 and at most 1 m"},
    {CAVITY OUTLINE "cutter: flat-6mm", RUNNEL_E_MISSING, 3, 5, A_PIECE "depth",
     "a round-nose or flat cutter clears an outline to one depth; give the 'depth'"},
    {CAVITY OUTLINE "cutter: flat-6mm" NEXT "depth limit: 3 mm", RUNNEL_E_CONFLICT, 5, 18,
     A_PIECE "depth limit",
     "'depth limit' is for a V cutter; for a round-nose or flat cutter write 'depth'"},
    {CAVITY OUTLINE "depth limit: 3 mm", RUNNEL_E_MISSING, 3, 5, A_PIECE "cutter",
     "a 'cutter' is needed: a name from 'runnel list cutters', or one written out, such as "
     "'v 60 deg'"},
    {CAVITY OUTLINE "cutter: v-66", RUNNEL_E_UNKNOWN, 4, 13, A_PIECE "cutter",
     "no cutter is called 'v-66'; the nearest name is 'v-60'; a cutter may also be written out, "
     "such as 'v 60 deg'"},
    {"pieces:\n- size: 30 x 20 x 5 mm\n  cavities:\n  - path: line 0,0 9,0 mm\n    cutter: "
     "v-60\n    depth: 0.5 in\n",
     RUNNEL_E_RANGE, 6, 12, A_PIECE "depth",
     "'depth' 12.7 mm would cut through the piece, which is 5 mm thick"},
    {CAVITY "text: A" NEXT "font: B" NEXT "cutter: v-60", RUNNEL_E_MISSING, 3, 5,
     A_PIECE "cap height",
     "a text needs a 'cap height' (of its capital H) or a 'text height' (of all its ink)"},
    {CAVITY "text: A" NEXT "cap height: 9 mm" NEXT "cutter: v-60", RUNNEL_E_MISSING, 3, 5,
     A_PIECE "font", "a text needs a 'font', or 'single-line' with a set of single-line letters"},
    {CAVITY "text: A" NEXT "font: B" NEXT "cap height: 9 mm" NEXT "cutter: v-60" NEXT
            "align: center",
     RUNNEL_E_UNKNOWN, 7, 12, A_PIECE "align",
     "'center' must be 'start', 'centre' or 'end'; the nearest is 'centre'"},
    {CAVITY "text: A" NEXT "font: B" NEXT "single-line: B" NEXT "cap height: 9 mm" NEXT
            "cutter: v-60",
     RUNNEL_E_CONFLICT, 5, 18, A_PIECE "single-line",
     "'font' and 'single-line' are both given; give one of them"},
    {CAVITY "text: \"A\\tB\"" NEXT "font: B" NEXT "cap height: 9 mm" NEXT "cutter: v-60",
     RUNNEL_E_SYNTAX, 3, 11, A_PIECE "text", "the control character U+0009 cannot stand in 'text'"},
    {CAVITY "text: '  '" NEXT "font: B" NEXT "cap height: 0 mm" NEXT "cutter: v-60", RUNNEL_E_RANGE,
     5, 17, A_PIECE "cap height",
     "'0 mm' is out of range: 'cap height' must be above 0 and at most 10 m"},
};

START_TEST(one_problem) {
    runnel_job before = job;
    runnel_status status = read_text(single[_i].text);
    ck_problem_count(1);
    ck_problem(0, single[_i].status, single[_i].line, single[_i].column, single[_i].field,
               single[_i].problem);
    ck_assert_int_eq(status, single[_i].status);
    ck_assert_mem_eq(&before, &job, sizeof job);
}
END_TEST

/* What the readers of quantities, ratios and shapes say is theirs; the place is ours. */
static const struct {
    const char *text;
    size_t line, column;
    const char *field;
} passed_on[] = {
    {"crown: 4\n" PIECES, 1, 8, "crown"},
    {"crown: 4,5 mm\n" PIECES, 1, 8, "crown"},
    {"ratio: 2:1\n" PIECES, 1, 8, "ratio"},
    {"ratio: [2:1 by volume, 3:1]\n" PIECES, 1, 24, "ratio"},
    {"scale: {counts: many}\n" PIECES, 1, 17, "scale.counts"},
    {"scale: {accuracy: 1}\n" PIECES, 1, 19, "scale.accuracy"},
    {"resin: {activation energy: x kJ/mol}\n" PIECES, 1, 28, "resin.activation energy"},
    {"resin: {heat of reaction: x J/g}\n" PIECES, 1, 27, "resin.heat of reaction"},
    {"pieces: [{count: 1.5, cavities: [{measured: 5 ml}]}]", 1, 18, "pieces[0].count"},
    {"pieces: [{count: 100001, cavities: [{measured: 5 ml}]}]", 1, 18, "pieces[0].count"},
    {"pieces: [{size: 30 x 20 mm, cavities: [{measured: 5 ml}]}]", 1, 17, "pieces[0].size"},
    {CAVITY "measured: 5 oz", 3, 15, A_PIECE "measured"},
    {CAVITY "outline: blob 4 mm" NEXT "cutter: v-60", 3, 14, A_PIECE "outline"},
    {CAVITY "path: polygon 1 mm" NEXT "cutter: v-60" NEXT "depth: 1 mm", 3, 11, A_PIECE "path"},
    {CAVITY OUTLINE "cutter: v 60 furlongs", 4, 13, A_PIECE "cutter"},
};

START_TEST(passed_on_with_its_place) {
    runnel_status status = read_text(passed_on[_i].text);
    ck_assert_int_eq(runnel_status_exit(status), 3);
    ck_problem_count(1);
    ck_problem(0, status, passed_on[_i].line, passed_on[_i].column, passed_on[_i].field,
               problems.items[0].text);
    ck_assert_ptr_nonnull(strchr(problems.items[0].text, '\''));
}
END_TEST

/* ---- All in one go --------------------------------------------------------------------------- */

static const char twelve[] = "job: [a]\n"                   /* 1: a list */
                             "resin: {row: glue, gel: 4}\n" /* 2: no row; 3: no unit */
                             "shop: {temperature: 90 °C}\n" /* 4: range */
                             "croun: 1 mm\n"                /* 5: key */
                             "pieces:\n"
                             "- name: board\n"
                             "  wood: granite\n" /* 6: wood */
                             "  count: none\n"   /* 7: number */
                             "  cavities:\n"
                             "  - text: A\n" /* 8: no font */
                             "    cap height: 9 mm\n"
                             "    cutter: v-60\n"
                             "    depth: 2 mm\n"  /* 9: no depth for a V */
                             "  - {name: hole}\n" /* 10: no shape */
                             "  - measured: 3 ml\n"
                             "    name: hole\n"  /* 11: name */
                             "- name: second\n"; /* 12: no cavity */

START_TEST(all_in_one_go) {
    static const size_t lines[] = {1, 2, 2, 3, 4, 7, 8, 10, 13, 14, 16, 17};
    ck_assert_int_eq(read_text(twelve), RUNNEL_E_SYNTAX);
    ck_problem_count(12);
    for (size_t i = 0; i < 12; i++)
        ck_assert_uint_eq(problems.items[i].line, lines[i]);
}
END_TEST

/* Columns count characters: "Größe" has five, in seven bytes. */
START_TEST(columns_in_characters) {
    ck_assert_int_eq(read_text("pieces: [{name: Gr\xC3\xB6\xC3\x9F"
                               "e, coun: 1, cavities: "
                               "[{measured: 5 ml}]}]"),
                     RUNNEL_E_UNKNOWN);
    ck_problem_count(1);
    ck_problem(0, RUNNEL_E_UNKNOWN, 1, 24, "pieces[0].coun",
               "'coun' is no key of a piece; the nearest is 'count'");
}
END_TEST

START_TEST(problems_that_were_there_stay) {
    runnel_problems_add(&problems, RUNNEL_E_IO, NULL, "before");
    ck_assert_int_eq(read_text("corwn: 1 mm\nx: y\n" PIECES), RUNNEL_E_UNKNOWN);
    ck_problem_count(3);
    ck_assert_str_eq(problems.items[0].text, "before");
    runnel_problems_clear(&problems);
    runnel_problems_add(&problems, RUNNEL_E_IO, NULL, "before");
    ck_assert_int_eq(read_text(PIECES), RUNNEL_OK);
    ck_problem_count(1);
}
END_TEST

/* ---- Running --------------------------------------------------------------------------------- */

#define COUNT(table) (int)(sizeof(table) / sizeof *(table))

static Suite *suite(void) {
    Suite *suite = suite_create("yaml problems");
    TCase *told = tcase_create("told");
    tcase_add_checked_fixture(told, setup, teardown);
    tcase_add_loop_test(told, one_problem, 0, COUNT(single));
    tcase_add_loop_test(told, passed_on_with_its_place, 0, COUNT(passed_on));
    tcase_add_test(told, all_in_one_go);
    tcase_add_test(told, columns_in_characters);
    tcase_add_test(told, problems_that_were_there_stay);
    suite_add_tcase(suite, told);
    return suite;
}

int main(void) {
    SRunner *runner = srunner_create(suite());
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
