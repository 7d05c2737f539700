/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "runnel/cautions.h"

#include "base/utf8.h"

#include <string.h>

#define BIT(step)  RUNNEL_STEP_BIT(RUNNEL_STEP_##step)
#define EVERY_STEP ((1u << RUNNEL_STEP_COUNT) - 1)

static const char resin_sheets[] = "the safety data sheets of both parts";

static const runnel_caution cautions[] = {
    {"skin", BIT(MIX) | BIT(POUR), 0,
     "Gloves that resin does not get through, goggles, sleeves. Resin and hardener can make the "
     "skin allergic, for life. Wash it with soap and water, not with solvent.",
     "UK HSE research report RR079; label H317 of epoxy resins and amines (GHS)", resin_sheets},
    {"air", BIT(MIX) | BIT(POUR), 0, "Let fresh air in.", "common practice", resin_sheets},
    {"exotherm", BIT(MIX) | BIT(POUR), 0,
     "Resin heats itself as it cures. A lot of it in one cup can smoke, foam and burn the hand: "
     "when it gets hot, set it down outside, on what cannot burn, and stay out of the smoke.",
     "articles of resin makers on runaway heat", "the resin's data sheet for its largest mass"},
    {"resin-dust", BIT(MIX) | BIT(LEVEL) | BIT(SAND), 0,
     "Sand only what is hard all through, and with a dust mask: the dust of half cured resin acts "
     "on skin and lungs like resin itself.",
     "support note of a boat-building supplier: dust of part-cured epoxy causes dermatitis",
     "the resin's data sheet for its time to sanding"},
    {"wood-dust", BIT(CARVE) | BIT(LEVEL) | BIT(SAND) | BIT(RAISE_GRAIN), 0,
     "Wood dust harms nose and lungs, and is known to cause cancer; oak and beech are among the "
     "worst. Take it off at the tool, wear a mask, and clean up with a vacuum, not with a broom.",
     "IARC volumes 62 and 100C (Group 1); NIOSH Pocket Guide: 1 mg/m3; ACGIH A1 for oak and beech",
     "the limits for wood dust where you work"},
    {"cutters", BIT(CARVE) | BIT(LEVEL), 0,
     "Unplug the machine before a cutter is changed. At least half an inch (13 mm) of the shank "
     "goes into the collet, without touching its floor. No gloves or loose sleeves near what "
     "turns.",
     "rules of community workshops",
     "the manual of the machine; where it applies 29 CFR 1910.213 (from memory)"},
    {"solvent-vapour", BIT(SEAL) | BIT(SEAL_WAXY) | BIT(OIL) | BIT(OIL_DRYING) | BIT(WAX),
     RUNNEL_CASE_SOLVENT,
     "Spirit and thinner give off vapour that burns; alcohol does from 12.8 " RUNNEL_DEGC
     " (55 F) on, so in every warm shop. No flame, spark or heater, fresh air, and the lid on the "
     "can.",
     "NIOSH Pocket Guide, ethyl alcohol: flash point 55 F, burns in air from 3.3 %, limit 1000 ppm",
     "the product's safety data sheet; rules for flammable liquids where you are, such as 29 CFR "
     "1910.106, NFPA 30 and 33 (from memory)"},
    {"oily-rags", BIT(OIL_DRYING), 0,
     "Cloths wet with an oil that dries heat up by themselves and can burn hours later. Never heap "
     "them or put them in a bin: spread them out singly outdoors, away from buildings, then keep "
     "them in a metal can with a tight lid, under water with detergent.",
     "NFPA tip sheet on oily rags and note of 2017: about 1,600 home fires a year in the US",
     "the can's label; rules for such waste where you are"},
    {"nut-oil", BIT(OIL) | BIT(OIL_DRYING) | BIT(FOOD), RUNNEL_CASE_NUT_OIL,
     "This oil comes from nuts, or from what is called a nut. It may harm those who are allergic "
     "to nuts, refined or not: tell whoever gets the piece, or take another oil.",
     "an allergy periodical: cold-pressed oils unsafe, refined ones always safer to avoid",
     "the product's label; a doctor"},
    {"food-grade-oil", BIT(OIL), 0,
     "For what touches food take white mineral oil of food grade. What is sold as technical white "
     "oil or baby oil is something else, and salad oils turn rancid.",
     "21 CFR 172.878 and 178.3620(a), (b); FPL FinishLine and Wood Handbook FPL-GTR-190, chapter "
     "16",
     "the label of the bottle"},
    {"oil-on-resin", BIT(OIL) | BIT(OIL_DRYING) | BIT(WAX), 0,
     "Oil does not soak into resin. Wipe it off there at once, or it stays as a soft film.",
     "common practice", "the resin's data sheet for what may go over it"},
    {"oil-weeps", BIT(OIL) | BIT(OIL_DRYING), 0,
     "Do not flood end grain: what it cannot hold weeps out in a warm room. Warm the board, wipe "
     "it "
     "again, and wait a week before it is wrapped.",
     "common practice", "the product's data sheet"},
    {"melting-wax", BIT(WAX), 0,
     "Melt wax in a water bath, not on the plate or over a flame, and stay with it: hot wax and "
     "oil "
     "burn, and burn the skin. Beeswax melts at about 63 " RUNNEL_DEGC " (146 F).",
     "melting point as in published recipes, 146 F; the rest common practice",
     "the labels of wax and oil"},
    {"food-resin", BIT(FOOD), 0,
     "Keep the side that is cut on free of resin. Whether a cured resin may touch food is for its "
     "maker to say, of the resin as it is mixed and fully cured, with the tint in it.",
     "21 CFR 175.300(a), (b)(3); a coatings maker's compliance bulletin",
     "the product's own statement on food"},
    {"food-cure", BIT(FOOD), 0,
     "No food before resin and oil are fully cured: days for the resin, weeks for an oil that "
     "dries.",
     "common practice", "the data sheets for their full cure"},
    {"sheets-first", EVERY_STEP, 0,
     "The data sheets of the product, and the rules where you are, go before what is written here.",
     "common practice", "the product's data sheets; the rules where you are"},
};

enum { CAUTIONS = sizeof cautions / sizeof *cautions };

const runnel_caution *runnel_cautions(size_t *count) {
    *count = CAUTIONS;
    return cautions;
}

const runnel_caution *runnel_caution_next(const runnel_caution *after, unsigned steps,
                                          unsigned cases) {
    for (size_t i = after ? (size_t)(after - cautions) + 1 : 0; i < CAUTIONS; i++)
        if ((cautions[i].steps & steps) && (!cautions[i].cases || (cautions[i].cases & cases)))
            return &cautions[i];
    return NULL;
}

const runnel_caution *runnel_caution_find(const char *code) {
    for (size_t i = 0; code && i < CAUTIONS; i++)
        if (strcmp(cautions[i].code, code) == 0)
            return &cautions[i];
    return NULL;
}
