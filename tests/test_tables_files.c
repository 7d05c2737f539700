/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a table file may look like, what is told when it is wrong, and want of memory. */
#include "compare.h"
#include "failing.h"
#include "tables_files.h"

#define BOM "\xEF\xBB\xBF"

static char folder[64];

static void open_folder(void) {
    make_folder(folder);
}

static void close_folder(void) {
    remove_folder(folder);
}

/* ---- Files that are right ------------------------------------------------------------------ */

/* All of them hold one cutter, "v-x": 60 degrees, tip 0.1 mm, with the source "mine". */
static const char *const right[] = {
    CUTTER_HEADER CUTTER_ROW,
    /* byte order mark, and quotes around the first name (a mark that is kept hides it) */
    BOM CUTTER_HEADER CUTTER_ROW,
    BOM "\"name\",kind,angle [deg],tip [mm],source,date,sure\nv-x,v,60,0.1,mine,2024,published\n",
    /* line ends */
    "name,kind,angle [deg],tip [mm],source,date,sure\r\nv-x,v,60,0.1,mine,2024,published\r\n",
    "name,kind,angle [deg],tip [mm],source,date,sure\rv-x,v,60,0.1,mine,2024,published\r",
    "\n\n  \nname,kind,angle [deg],tip [mm],source,date,sure\n\n\t\nv-x,v,60,0.1,mine,2024,"
    "published\n\n",
    "name,kind,angle [deg],tip [mm],source,date,sure\nv-x,v,60,0.1,mine,2024,published",
    "name,kind,angle [deg],tip [mm],source,date,sure,diameter [mm]\nv-x,v,60,0.1,mine,2024,"
    "published,",
    "name,kind,angle [deg],tip [mm],date,sure,source\nv-x,v,60,0.1,2024,published,\"mine\"",
    /* separators */
    "name;kind;angle [deg];tip [mm];source;date;sure\nv-x;v;60;0.1;mine;2024;published\n",
    "sep=;\nname;kind;angle [deg];tip [mm];source;date;sure\nv-x;v;60;0.1;mine;2024;published\n",
    BOM "SEP=,\r\nname,kind,angle [deg],tip [mm],source,date,sure\r\nv-x,v,60,0.1,mine,2024,"
        "published\r\n",
    "\"name\";\"kind\";\"angle [deg]\";\"tip "
    "[mm]\";\"source\";\"date\";\"sure\"\n\"v-x\";v;60;\"0.1\";"
    "mine;2024;published\n",
    /* blanks around cells, other order, other case, rows of nothing */
    " Name , Kind,Angle[deg], tip [ mm ] ,source,date,sure\n v-x , V , 60 , \" 0.1 \" , mine "
    ",2024,Published\n,,,,,,\n",
    "sure,date,source,tip [mm],angle [deg],kind,name\npublished,2024-02-29,mine,0.1,60,v,v-x\n",
    /* other units, signs and powers */
    "name,kind,angle [\xC2\xB0],tip [cm],source,date,sure\nv-x,v,60,0.01,mine,2024,published\n",
    "name,kind,angle [deg],tip [mm],source,date,sure\nv-x,v,+6e1,1E-1,mine,2024,published\n",
};

START_TEST(files_that_are_right) {
    runnel_tables tables = {0};
    runnel_problems problems;
    runnel_problems_init(&problems);
    put_text(folder, "cutters.csv", right[_i]);
    runnel_status status = runnel_tables_read(&tables, folder, &problems);
    print_problems(&problems);
    ck_assert_int_eq(status, RUNNEL_OK);
    ck_assert_uint_eq(problems.count, 0);
    ck_assert_uint_eq(tables.cutter_count, 1);
    ck_assert_str_eq(tables.cutters[0].name, "v-x");
    ck_near(tables.cutters[0].cutter.angle_deg, 60, 0);
    ck_near(tables.cutters[0].cutter.tip_mm, 0.1, 1e-15);
    ck_near(tables.cutters[0].diameter_mm, NAN, 0);
    ck_assert_str_eq(tables.cutters[0].source, "mine");
    ck_assert_str_eq(tables.cutters[0].sure, "published");
    runnel_problems_clear(&problems);
    runnel_tables_clear(&tables);
}
END_TEST

START_TEST(quoted_cells) {
    runnel_tables tables = {0};
    put_text(folder, "cutters.csv",
             CUTTER_HEADER "\"v, the \"\"big\"\" one\",v,60,0,,\"line one\r\nline two\",2024,"
                           "computed\nv-y,v,60,0,,\"\xC3\xA9tabli; caf\xC3\xA9\",2024,computed\n");
    ck_assert_int_eq(runnel_tables_read(&tables, folder, NULL), RUNNEL_OK);
    ck_assert_uint_eq(tables.cutter_count, 2);
    ck_assert_str_eq(tables.cutters[0].name, "v, the \"big\" one");
    ck_assert_str_eq(tables.cutters[0].source, "line one\r\nline two");
    ck_assert_str_eq(tables.cutters[1].source, "\xC3\xA9tabli; caf\xC3\xA9");
    runnel_tables_clear(&tables);
}
END_TEST

#define RESIN_HEADER                                                                               \
    "name,kind,part a,part b,basis,density a [g/ml],density b [g/ml],viscosity [mPa s],"           \
    "shrinkage [%],ratio tolerance [%],tint default [%],tint cap [%],source,date,sure"
#define RESIN_ROW "r,casting,2,1,volume,1.1,0.95,500,4,3,2,5,mine,2024,from memory"

#define WOOD_HEADER                                                                                \
    "name,density [kg/m3],open-pored,soak bare [ml/m2],soak sealed [ml/m2],soak sure,source,date," \
    "sure"
#define WOOD_ROW "w,700,yes,80,8,from memory,mine,2024,computed"

/* By hand: 77 F = 25 degC; 1.5 h = 5400 s; 1/4 in = 6.35 mm; 0.5 Pa s; 9.7 lb/US gal =
 * 9.7 x 0.11982643 = 1.16231633 g/ml; 1 week = 604800 s; 2 lb = 907.18474 g. */
START_TEST(other_units) {
    runnel_tables tables = {0};
    put_text(folder, "resins.csv",
             "name,kind,part a,part b,basis,density a [lb/US gal],density b [kg/m3],viscosity "
             "[Pa s],shrinkage [%],ratio tolerance [%],tint default [%],tint cap [%],source,date,"
             "sure,stated temperature [F],pot life [h],pot mass [lb],deepest layer [in],full cure "
             "[weeks],activation energy [kJ/mol],heat of reaction [J/g]\n"
             "r,casting,100,30,weight,9.7,950,0.5,4,3,2,5,mine,2024,from memory,77,1.5,2,1/4,1,"
             "52,351.5\n");
    put_text(folder, "woods.csv",
             "name,density [g/cm3],open-pored,soak bare [L/m2],soak sealed [ml/m2],soak sure,"
             "source,date,sure\nw,0.7,No,0.08,8,from memory,mine,2024,computed\n");
    ck_assert_int_eq(runnel_tables_read(&tables, folder, NULL), RUNNEL_OK);
    const runnel_resin *resin = &tables.resins[0].resin;
    ck_assert_int_eq(resin->ratio.basis, RUNNEL_BASIS_WEIGHT);
    ck_near(resin->density_a_g_per_ml, 1.162316, 1e-6);
    ck_near(resin->density_b_g_per_ml, 0.95, 1e-15);
    ck_near(resin->viscosity_pa_s, 0.5, 1e-15);
    ck_near(resin->stated_degc, 25, 1e-15);
    ck_near(resin->pot_life_s, 5400, 1e-15);
    ck_near(resin->pot_mass_g, 907.18474, 1e-15);
    ck_near(resin->deepest_layer_mm, 6.35, 1e-15);
    ck_near(resin->full_cure_s, 604800, 1e-15);
    ck_near(resin->activation_kj_per_mol, 52, 0);
    ck_near(resin->reaction_j_per_g, 351.5, 0);
    ck_near(resin->gel_s, NAN, 0);
    ck_near(resin->lowest_degc, NAN, 0);
    ck_near(tables.woods[0].density_kg_per_m3, 700, 1e-15);
    ck_near(tables.woods[0].soak_bare_ml_per_m2, 80, 1e-15);
    ck_near(tables.woods[0].coefficient_radial, NAN, 0);
    ck_assert(!tables.woods[0].open_pored);
    ck_assert_str_eq(tables.woods[0].also, "");
    ck_assert_str_eq(tables.woods[0].botanical, "");
    runnel_tables_clear(&tables);
}
END_TEST

/* ---- Files that are wrong ------------------------------------------------------------------ */

/* A file with one problem: where it is and what is said. */
static const struct {
    const char *name, *text;
    runnel_status status;
    size_t line, column;
    const char *field, *told;
} wrong[] = {
    /* The file as a whole */
    {"cutters.csv", "", RUNNEL_E_MISSING, 1, 0, NULL, "an empty table"},
    {"cutters.csv", BOM "\r\n \n", RUNNEL_E_MISSING, 1, 0, NULL, "an empty table"},
    {"cutters.csv", "sep=;\n", RUNNEL_E_MISSING, 1, 0, NULL, "an empty table"},
    {"cutters.csv", "sep=|\nname|kind\n", RUNNEL_E_SYNTAX, 1, 5, NULL, "other than ',' or ';'"},
    {"cutters.csv", "name\tkind\tsource\n", RUNNEL_E_SYNTAX, 1, 0, NULL, "separated by tabs"},
    {"cutters.csv", "\xFF\xFEn", RUNNEL_E_SYNTAX, 1, 1, NULL, "UTF-16"},
    {"cutters.csv", CUTTER_HEADER "v-\xE9,v,60,0,,mine,2024,published\n", RUNNEL_E_SYNTAX, 2, 3,
     NULL, "not UTF-8"},
    /* Quotes */
    {"cutters.csv", CUTTER_HEADER "\"v-x,v,60,0.1,,mine,2024,published\n", RUNNEL_E_SYNTAX, 2, 1,
     NULL, "'\"' that opens here is never closed"},
    {"cutters.csv", CUTTER_HEADER "v-x,v,60,0.1,,3\" deep,2024,published\n", RUNNEL_E_SYNTAX, 2, 16,
     NULL, "in a cell that does not begin with one"},
    {"cutters.csv", CUTTER_HEADER "v-x,v,60,0.1,,\"3\" deep,2024,published\n", RUNNEL_E_SYNTAX, 2,
     19, NULL, "'d' after the closing double quote of a cell that begins on line 2, column 15"},
    {"cutters.csv",
     CUTTER_HEADER "v-x,v,60,0.1,,\"mine,2024,published\nv-y,v,60,0.1,,\"mine\",2024,published\n",
     RUNNEL_E_SYNTAX, 3, 16, NULL, "cell that begins on line 2, column 15"},
    /* The header */
    {"cutters.csv", "name,kind,angel [deg],tip [mm],diameter [mm],source,date,sure\n",
     RUNNEL_E_UNKNOWN, 1, 11, "angel [deg]", "'angel' is no column of this table; 'angle [deg]'"},
    {"cutters.csv", "name,kind,angle [deg],tip [mm],flutes,source,date,sure\n", RUNNEL_E_UNKNOWN, 1,
     32, "flutes", "'flutes' is no column of this table"},
    {"cutters.csv", "name,kind,angle [deg],tip [mm],Tip[in],source,date,sure\n", RUNNEL_E_CONFLICT,
     1, 32, "Tip[in]", "'tip' stands twice, in the columns 4 and 5"},
    {"cutters.csv", "name,kind,,angle [deg],tip [mm],source,date,sure\n", RUNNEL_E_SYNTAX, 1, 11,
     NULL, "column 3 has no name"},
    {"cutters.csv", "name,kind,angle [deg,tip [mm],source,date,sure\n", RUNNEL_E_SYNTAX, 1, 11,
     "angle [deg", "'angle [deg' is not a name with its unit in brackets"},
    {"cutters.csv", "name,kind,angle,tip [mm],source,date,sure\n", RUNNEL_E_UNIT, 1, 11, "angle",
     "'angle' needs its unit in brackets, such as 'angle [deg]'"},
    {"cutters.csv", "name,kind,angle [deg],tip [g],source,date,sure\n", RUNNEL_E_UNIT, 1, 23,
     "tip [g]", "'[g]' is no unit of 'tip'; 'tip [mm]' would be right"},
    {"cutters.csv", "name [m],kind,angle [deg],tip [mm],source,date,sure\n", RUNNEL_E_UNIT, 1, 1,
     "name [m]", "'[m]' behind 'name', which takes no unit"},
    {"cutters.csv", "name,kind,angle [deg],tip [mm],source,date\n", RUNNEL_E_MISSING, 1, 0, NULL,
     "the column 'sure' is missing"},
    {"resins.csv", RESIN_HEADER ",pot life [h 30 min]\n", RUNNEL_E_UNIT, 1, 164,
     "pot life [h 30 min]", "'[h 30 min]' is no unit of 'pot life'"},
    {"resins.csv", RESIN_HEADER ",activation energy [kcal/mol]\n", RUNNEL_E_UNIT, 1, 164,
     "activation energy [kcal/mol]", "'activation energy [kJ/mol]' would be right"},
    {"resins.csv", RESIN_HEADER ",heat of reaction [kJ/mol]\n", RUNNEL_E_UNIT, 1, 164,
     "heat of reaction [kJ/mol]", "'heat of reaction [J/g]' would be right"},
    /* Rows */
    {"cutters.csv", CUTTER_HEADER "v-x,v,60,0,1,,mine,2024,published\n", RUNNEL_E_SYNTAX, 2, 25,
     NULL, "9 cells, where the header has 8; a text with a separator in it needs double quotes"},
    {"cutters.csv", CUTTER_HEADER "\xC3\xA9,v,60,0.1,,mine\n", RUNNEL_E_SYNTAX, 2, 13, NULL,
     "6 cells, where the header has 8"},
    {"cutters.csv", CUTTER_HEADER CUTTER_ROW "V X,v,60,0.1,,mine,2024,published\n",
     RUNNEL_E_CONFLICT, 3, 1, "name", "'V X' stands twice, first on line 2"},
    /* Cells */
    {"cutters.csv", CUTTER_HEADER ",v,60,0.1,,mine,2024,published\n", RUNNEL_E_MISSING, 2, 1,
     "name", "an empty cell, where a value is needed"},
    {"cutters.csv", CUTTER_HEADER "v-x,v,60,0.1,,,2024,published\n", RUNNEL_E_MISSING, 2, 15,
     "source", "an empty cell, where a value is needed"},
    {"cutters.csv", CUTTER_HEADER "v-x,ball,60,0.1,,mine,2024,published\n", RUNNEL_E_UNKNOWN, 2, 5,
     "kind", "'ball' is none of 'v', 'round-nose', 'flat'"},
    {"cutters.csv", CUTTER_HEADER "v-x,flatt,,,6,mine,2024,published\n", RUNNEL_E_UNKNOWN, 2, 5,
     "kind", "; 'flat' is near"},
    {"cutters.csv", CUTTER_HEADER "v-x,v,60,0.1,,mine,2024,sure\n", RUNNEL_E_UNKNOWN, 2, 25, "sure",
     "'sure' is none of 'published', 'computed', 'common practice', 'from memory'"},
    {"cutters.csv", CUTTER_HEADER "v-x,v,60,0.1,,mine,31.5.2024,published\n", RUNNEL_E_SYNTAX, 2,
     20, "date", "'31.5.2024' is not a date such as 2024-05-31"},
    {"cutters.csv", CUTTER_HEADER "v-x,v,60,0.1,,mine,2023-02-29,published\n", RUNNEL_E_SYNTAX, 2,
     20, "date", "'2023-02-29' is not a date"},
    {"cutters.csv", CUTTER_HEADER "v-x,v,60,0.1,,mine,2024-13,published\n", RUNNEL_E_SYNTAX, 2, 20,
     "date", "'2024-13' is not a date"},
    {"cutters.csv", CUTTER_HEADER "v-x,v,60 deg,0.1,,mine,2024,published\n", RUNNEL_E_SYNTAX, 2, 7,
     "angle [deg]", "'60 deg' is not a plain number; its unit, 'deg', stands in the header"},
    {"cutters.csv", CUTTER_HEADER "v-x,v,sixty,0.1,,mine,2024,published\n", RUNNEL_E_SYNTAX, 2, 7,
     "angle [deg]", "'sixty' is not a plain number"},
    {"cutters.csv", CUTTER_HEADER "v-x,v,nan,0.1,,mine,2024,published\n", RUNNEL_E_SYNTAX, 2, 7,
     "angle [deg]", "'nan' is not a plain number"},
    {"cutters.csv", CUTTER_HEADER "v-x,v,6-0,0.1,,mine,2024,published\n", RUNNEL_E_SYNTAX, 2, 7,
     "angle [deg]", "'6-0'"},
    {"cutters.csv",
     "name;kind;angle [deg];tip [mm];source;date;sure\nv-x;v;60;0,1;mine;2024;published\n",
     RUNNEL_E_SYNTAX, 2, 10, "tip [mm]", "'0,1'"},
    {"cutters.csv", CUTTER_HEADER "v-x,v,60,\"0,1\",,mine,2024,published\n", RUNNEL_E_SYNTAX, 2, 10,
     "tip [mm]", "'0,1'"},
    {"cutters.csv", CUTTER_HEADER "v-x,v,1e999,0.1,,mine,2024,published\n", RUNNEL_E_RANGE, 2, 7,
     "angle [deg]", "'1e999'"},
    {"cutters.csv", CUTTER_HEADER "v-x,v,180,0.1,,mine,2024,published\n", RUNNEL_E_RANGE, 2, 7,
     "angle [deg]", "'180' must be above 0 and below 180 deg"},
    {"cutters.csv", CUTTER_HEADER "v-x,v,0,0.1,,mine,2024,published\n", RUNNEL_E_RANGE, 2, 7,
     "angle [deg]", "'0' must be above 0 and below 180 deg"},
    {"cutters.csv", CUTTER_HEADER "v-x,v,60,-0.1,,mine,2024,published\n", RUNNEL_E_RANGE, 2, 10,
     "tip [mm]", "'-0.1' must be from 0 to 100 mm"},
    {"cutters.csv", CUTTER_HEADER "f,flat,,,0,mine,2024,published\n", RUNNEL_E_RANGE, 2, 10,
     "diameter [mm]", "'0' must be above 0 and below 1000 mm"},
    {"resins.csv", RESIN_HEADER "\nr,casting,0,1,volume,1.1,0.95,500,4,3,2,5,mine,2024,computed\n",
     RUNNEL_E_RANGE, 2, 11, "part a", "'0' must be above 0"},
    {"resins.csv", RESIN_HEADER "\nr,casting,2,1,volume,1100,0.95,500,4,3,2,5,mine,2024,computed\n",
     RUNNEL_E_RANGE, 2, 22, "density a [g/ml]", "'1100' must be above 0 and below 30 g/ml"},
    {"resins.csv", RESIN_HEADER "\nr,casting,2,1,weigth,1.1,0.95,500,4,3,2,5,mine,2024,computed\n",
     RUNNEL_E_UNKNOWN, 2, 15, "basis", "'weigth' is none of 'volume', 'weight'; 'weight' is near"},
    {"resins.csv", RESIN_HEADER "\nr,casting,2,1,,1.1,0.95,500,4,3,2,5,mine,2024,computed\n",
     RUNNEL_E_MISSING, 2, 15, "basis", "an empty cell, where a value is needed"},
    {"resins.csv", RESIN_HEADER "\nr,casting,2,1,volume,1.1,0.95,500,51,3,2,5,mine,2024,computed\n",
     RUNNEL_E_RANGE, 2, 35, "shrinkage [%]", "'51' must be from 0 to 50 %"},
    {"woods.csv", WOOD_HEADER "\nw,700,perhaps,80,8,from memory,mine,2024,computed\n",
     RUNNEL_E_UNKNOWN, 2, 7, "open-pored", "'perhaps' is none of 'no', 'yes'"},
    /* Rows that do not agree with themselves */
    {"cutters.csv", CUTTER_HEADER "v-x,v,,0.1,,mine,2024,published\n", RUNNEL_E_MISSING, 2, 7,
     "angle [deg]", "a 'v' cutter needs its angle"},
    {"cutters.csv", CUTTER_HEADER "v-x,v,60,,,mine,2024,published\n", RUNNEL_E_MISSING, 2, 10,
     "tip [mm]", "a 'v' cutter needs its tip"},
    {"cutters.csv", CUTTER_HEADER "r,round-nose,,,,mine,2024,published\n", RUNNEL_E_MISSING, 2, 16,
     "diameter [mm]", "a 'round-nose' cutter needs its diameter"},
    {"cutters.csv", CUTTER_HEADER "f,flat,60,,6,mine,2024,published\n", RUNNEL_E_CONFLICT, 2, 8,
     "angle [deg]", "a 'flat' cutter has no angle: leave the cell empty"},
    {"cutters.csv", CUTTER_HEADER "v-x,v,60,7,6,mine,2024,published\n", RUNNEL_E_CONFLICT, 2, 10,
     "tip [mm]", "the tip is wider than the body"},
    {"cutters.csv",
     "name,kind,angle [deg],tip [mm],source,date,sure\nf,flat,,,mine,2024,published\n",
     RUNNEL_E_MISSING, 2, 1, NULL, "a 'flat' cutter needs its diameter"},
    {"resins.csv",
     RESIN_HEADER ",stated temperature [degC],pot life [min],pot mass [g]\n" RESIN_ROW ",25,40,\n",
     RUNNEL_E_MISSING, 2, 71, "pot mass [g]", "a pot life holds for a mass"},
    {"resins.csv", RESIN_HEADER ",gel [h]\n" RESIN_ROW ",4\n", RUNNEL_E_MISSING, 2, 1, NULL,
     "'stated temperature' is needed with 'gel'"},
    {"resins.csv", RESIN_HEADER "\nr,casting,2,1,volume,1.1,0.95,500,4,3,6,5,mine,2024,computed\n",
     RUNNEL_E_CONFLICT, 2, 39, "tint default [%]", "the default tint is above its cap"},
    {"resins.csv",
     RESIN_HEADER ",stated temperature [degC],recoat from [h],recoat until [min]\n" RESIN_ROW
                  ",25,4,239\n",
     RUNNEL_E_CONFLICT, 2, 68, "recoat from [h]", "'recoat from' is after 'recoat until'"},
    {"woods.csv", WOOD_HEADER "\nw,700,yes,8,80,from memory,mine,2024,computed\n",
     RUNNEL_E_CONFLICT, 2, 13, "soak sealed [ml/m2]", "sealed walls soak more than bare ones"},
};

static void check_problem(const runnel_problem *item, runnel_status status, size_t line,
                          size_t column, const char *field, const char *told) {
    ck_assert_int_eq(item->status, status);
    ck_assert_uint_eq(item->line, line);
    ck_assert_uint_eq(item->column, column);
    if (field)
        ck_assert_pstr_eq(item->field, field);
    else
        ck_assert_ptr_null(item->field);
    ck_assert_msg(strstr(item->text, told) != NULL, "'%s' in '%s'", told, item->text);
}

START_TEST(files_that_are_wrong) {
    char path[128];
    runnel_tables tables = {0};
    runnel_problems problems;
    runnel_problems_init(&problems);
    put_text(folder, wrong[_i].name, wrong[_i].text);
    runnel_status status = runnel_tables_read(&tables, folder, &problems);
    print_problems(&problems);
    ck_assert_int_eq(status, wrong[_i].status);
    ck_assert_uint_eq(problems.count, 1);
    check_problem(&problems.items[0], wrong[_i].status, wrong[_i].line, wrong[_i].column,
                  wrong[_i].field, wrong[_i].told);
    snprintf(path, sizeof path, "%s/%s", folder, wrong[_i].name);
    ck_assert_str_eq(problems.items[0].file, path);
    ck_assert_ptr_null(tables.cutters);
    /* The same without a list of problems. */
    ck_assert_int_eq(runnel_tables_read(&tables, folder, NULL), wrong[_i].status);
    runnel_problems_clear(&problems);
}
END_TEST

START_TEST(binary_file) {
    static const char bytes[] = CUTTER_HEADER "v-\0x,v,60";
    runnel_tables tables = {0};
    runnel_problems problems;
    runnel_problems_init(&problems);
    put_bytes(folder, "cutters.csv", bytes, sizeof bytes - 1);
    ck_assert_int_eq(runnel_tables_read(&tables, folder, &problems), RUNNEL_E_SYNTAX);
    ck_assert_uint_eq(problems.count, 1);
    check_problem(&problems.items[0], RUNNEL_E_SYNTAX, 2, 3, NULL, "binary file");
    runnel_problems_clear(&problems);
}
END_TEST

/* A folder in the place of a table is there, but cannot be read. */
START_TEST(folder_for_a_file) {
    char path[128];
    runnel_tables tables = {0};
    runnel_problems problems;
    runnel_problems_init(&problems);
    snprintf(path, sizeof path, "%s/woods.csv", folder);
    ck_assert_int_eq(mkdir(path, 0700), 0);
    put_text(folder, "cutters.csv", CUTTER_HEADER CUTTER_ROW);
    runnel_status status = runnel_tables_read(&tables, folder, &problems);
    ck_assert_int_eq(status, RUNNEL_E_NOT_FOUND);
    ck_assert_uint_eq(problems.count, 1);
    ck_assert_pstr_eq(problems.items[0].file, path);
    ck_assert_ptr_null(tables.cutters);
    runnel_problems_clear(&problems);
}
END_TEST

/* All problems of all files in one go; of a file its quotes first, then its header and rows. */
START_TEST(all_problems_at_once) {
    static const struct {
        runnel_status status;
        size_t line, column;
        const char *field, *told;
    } want[] = {
        {RUNNEL_E_RANGE, 2, 11, "part a", "'-2' must be above 0"},
        {RUNNEL_E_UNKNOWN, 2, 16, "basis", "'ml'"},
        {RUNNEL_E_SYNTAX, 4, 8, NULL, "in a cell that does not begin with one"},
        {RUNNEL_E_UNIT, 1, 23, "tip", "'tip' needs its unit"},
        {RUNNEL_E_UNKNOWN, 1, 27, "colour", "'colour' is no column"},
        {RUNNEL_E_MISSING, 1, 0, NULL, "the column 'sure' is missing"},
        {RUNNEL_E_MISSING, 2, 5, "kind", "an empty cell"},
        {RUNNEL_E_RANGE, 3, 7, "angle [deg]", "'360' must be"},
        {RUNNEL_E_SYNTAX, 5, 5, NULL, "2 cells, where the header has 7"},
    };
    runnel_tables tables = {0};
    runnel_problems problems;
    runnel_problems_init(&problems);
    put_text(folder, "resins.csv",
             RESIN_HEADER "\nr,casting,-2,1,ml,1.1,0.95,500,4,3,2,5,mine,2024,computed\n" RESIN_ROW
                          "\n");
    put_text(folder, "cutters.csv",
             "name,kind,angle [deg],tip,colour,source,date\n"
             "v-x,,60,0.1,red,mine,2024\nv-y,v,360,0.1,red,mine,2024\nv-z,v,6\"0,0,red,mine,2024\n"
             "v-w,v\n");
    put_text(folder, "woods.csv", WOOD_HEADER "\n" WOOD_ROW "\n");
    ck_assert_int_eq(runnel_tables_read(&tables, folder, &problems), RUNNEL_E_RANGE);
    print_problems(&problems);
    ck_assert_uint_eq(problems.count, sizeof want / sizeof *want);
    for (size_t i = 0; i < problems.count; i++)
        check_problem(&problems.items[i], want[i].status, want[i].line, want[i].column,
                      want[i].field, want[i].told);
    ck_assert_ptr_null(tables.woods);
    runnel_problems_clear(&problems);
}
END_TEST

/* Problems that were in the list before stay, and do not make sound tables fail. */
START_TEST(earlier_problems_stay) {
    runnel_tables tables = {0};
    runnel_problems problems;
    runnel_problems_init(&problems);
    runnel_problems_add(&problems, RUNNEL_E_RANGE, NULL, "from before");
    put_text(folder, "cutters.csv", CUTTER_HEADER CUTTER_ROW);
    ck_assert_int_eq(runnel_tables_read(&tables, folder, &problems), RUNNEL_OK);
    ck_assert_uint_eq(problems.count, 1);
    ck_assert_uint_eq(tables.cutter_count, 1);
    runnel_problems_clear(&problems);
    runnel_tables_clear(&tables);
}
END_TEST

/* ---- Much of everything -------------------------------------------------------------------- */

/* Writes `head` and then `count` times `part`, and tells how many problems and how many rows. */
static runnel_status read_much(const char *head, const char *part, size_t count, size_t *told,
                               size_t *rows) {
    size_t size = strlen(head) + count * strlen(part) + 1, length;
    char *text = malloc(size);
    ck_assert_ptr_nonnull(text);
    length = (size_t)snprintf(text, size, "%s", head);
    for (size_t i = 0; i < count; i++)
        length += (size_t)snprintf(text + length, size - length, "%s", part);
    put_bytes(folder, "cutters.csv", text, length);
    free(text);
    runnel_tables tables = {0};
    runnel_problems problems;
    runnel_problems_init(&problems);
    runnel_status status = runnel_tables_read(&tables, folder, &problems);
    *told = problems.count;
    *rows = tables.cutter_count;
    runnel_problems_clear(&problems);
    runnel_tables_clear(&tables);
    return status;
}

/* Quotes, separators and bytes without end give a handful of problems, and soon. */
START_TEST(hostile_sizes) {
    size_t told, rows;
    ck_assert_int_eq(read_much(CUTTER_HEADER, "a\"b\n", 100000, &told, &rows), RUNNEL_E_SYNTAX);
    ck_assert_uint_eq(told, 101);
    ck_assert_int_eq(read_much(CUTTER_HEADER "\"", "\"\"\n", 100000, &told, &rows),
                     RUNNEL_E_SYNTAX);
    ck_assert_uint_le(told, 101);
    ck_assert_int_eq(read_much("", ",x", 1000000, &told, &rows), RUNNEL_E_SYNTAX);
    ck_assert_uint_eq(told, 1);
    ck_assert_int_eq(read_much("", "xxxxxxxxxx", 1000000, &told, &rows), RUNNEL_E_UNKNOWN);
    ck_assert_uint_le(told, 7);
    ck_assert_int_eq(read_much(CUTTER_HEADER, CUTTER_ROW, 4097, &told, &rows), RUNNEL_E_RANGE);
    ck_assert_uint_eq(told, 1);
    /* as many as allowed: all but the first stand twice */
    ck_assert_int_eq(read_much(CUTTER_HEADER, CUTTER_ROW, 4096, &told, &rows), RUNNEL_E_CONFLICT);
    ck_assert_uint_eq(told, 4095);
    ck_assert_int_eq(read_much(CUTTER_HEADER CUTTER_ROW, ",,,,,,,\n", 100000, &told, &rows),
                     RUNNEL_OK);
    ck_assert_uint_eq(rows, 1);
}
END_TEST

/* ---- Want of memory ------------------------------------------------------------------------ */

/* Reads the tables of a folder over one row with a failure at call after call, until none happens.
 * A failure must change nothing and leave nothing behind. */
static void sweep(runnel_status last, bool for_good) {
    char first[64];
    make_folder(first);
    put_text(first, "cutters.csv", CUTTER_HEADER CUTTER_ROW);
    size_t fail_at = 0;
    for (bool failed = true; failed; fail_at++) {
        failing count = {.fail_at = SIZE_MAX, .for_good = for_good};
        runnel_tables tables = {0};
        runnel_problems problems;
        start_failing(&count);
        runnel_problems_init(&problems);
        ck_assert_int_eq(runnel_tables_read(&tables, first, NULL), RUNNEL_OK);
        const runnel_tables before = tables;
        const runnel_table_places places = {
            .installed = first, .home = "/nowhere", .option = folder};
        count.fail_at = count.calls + fail_at;
        runnel_status status = runnel_tables_read_places(&places, &problems, &tables);
        failed = count.calls > count.fail_at;
        if (!failed)
            ck_assert_int_eq(status, last);
        else
            ck_assert_msg(status == RUNNEL_E_NO_MEMORY || (!for_good && status == last),
                          "call %zu: %s", fail_at, runnel_status_name(status));
        if (status != RUNNEL_OK)
            ck_assert_mem_eq(&before, &tables, sizeof tables);
        runnel_tables_clear(&tables);
        runnel_problems_clear(&problems);
        ck_assert_msg(count.alive == 0, "call %zu: %zu blocks left", fail_at, count.alive);
        runnel_set_allocator(NULL);
    }
    ck_assert_uint_gt(fail_at, 100);
    remove_folder(first);
}

START_TEST(memory_runs_out) {
    put_text(folder, "cutters.csv", CUTTER_HEADER CUTTER_ROW "v-y,v,60,0,,mine,2024,published\n");
    put_text(folder, "resins.csv", RESIN_HEADER "\n" RESIN_ROW "\n");
    put_text(folder, "woods.csv", WOOD_HEADER "\n" WOOD_ROW "\n");
    put_text(folder, "oils.csv", OIL_HEADER OIL_ROW);
    put_text(folder, "upkeep.csv", UPKEEP_HEADER UPKEEP_ROW);
    put_text(folder, "work.csv", WORK_HEADER WORK_ROW);
    sweep(RUNNEL_OK, _i == 1);
}
END_TEST

START_TEST(memory_runs_out_over_problems) {
    put_text(folder, "cutters.csv",
             "name,kind,angle [deg],tip,colour,source,date\nv-x,,60,0.1,red,mine,2024\n"
             "v-y,v,360,0.1,red,mine,2024\nv-z,v,6\"0,0,red,mine,2024\n");
    put_text(folder, "woods.csv", WOOD_HEADER "\n" WOOD_ROW "\n");
    sweep(RUNNEL_E_SYNTAX, _i == 1);
}
END_TEST

#define COUNT(table) (int)(sizeof(table) / sizeof *(table))

int main(void) {
    Suite *suite = suite_create("tables_files");
    TCase *files = tcase_create("files");
    tcase_add_checked_fixture(files, open_folder, close_folder);
    tcase_add_loop_test(files, files_that_are_right, 0, COUNT(right));
    tcase_add_test(files, quoted_cells);
    tcase_add_test(files, other_units);
    tcase_add_loop_test(files, files_that_are_wrong, 0, COUNT(wrong));
    tcase_add_test(files, binary_file);
    tcase_add_test(files, folder_for_a_file);
    tcase_add_test(files, all_problems_at_once);
    tcase_add_test(files, earlier_problems_stay);
    tcase_add_test(files, hostile_sizes);
    tcase_add_loop_test(files, memory_runs_out, 0, 2);
    tcase_add_loop_test(files, memory_runs_out_over_problems, 0, 2);
    tcase_set_timeout(files, 60);
    suite_add_tcase(suite, files);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
