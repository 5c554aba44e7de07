/* Sentences for entries: what is wrong with what was typed or kept, what is allowed, and what to do. Written
 * to stand under their row, so they do not repeat its label. */
#pragma once

#include "domain/maths/tariff.h"
#include "domain/records/kinds.h"

G_BEGIN_DECLS

/**
 * fr_entry_sentence:
 * @problem: why the text could not be read
 * @typed: the text
 * @at: byte of @typed the problem is about
 * @kind: what was asked for
 * @units: how the household writes numbers
 *
 * Returns: (transfer full): a sentence, or NULL when there is no problem
 */
char *
fr_entry_sentence (FrQuantityProblem problem, const char *typed, gsize at, FrQuantityKind kind,
                   const FrUnits *units);

/**
 * fr_record_sentence:
 * @problem: from fr_record_check()
 * @record: the record it is about
 * @units: how the household writes numbers
 *
 * Returns: (transfer full): a sentence
 */
char *
fr_record_sentence (const FrProblem *problem, const FrRecord *record, const FrUnits *units);

/* What the range of an amount is, "50 W to 20,000 W is allowed."; NULL when the field has none worth telling.
 */
char *
fr_range_sentence (const FrField *field, const FrUnits *units);

/**
 * fr_amount_sentence:
 * @name: the member it is kept in, for its own reason where there is one
 * @value: the amount, outside @min to @max, or NAN where one is needed
 * @min: least allowed
 * @max: most allowed
 * @kind: what kind of amount
 * @units: how the household writes numbers
 *
 * Returns: (transfer full): why it cannot be and what is allowed, to stand under its row
 */
char *
fr_amount_sentence (const char *name, double value, double min, double max, FrQuantityKind kind,
                    const FrUnits *units);

/* Why a price plan cannot be kept, and what would help. Free it. */
char *
fr_price_plan_sentence (const FrTariffProblem *problem);

/* What a change did, for the toast and the undo tooltips: "Pan “Wide pot” changed". The label codes are
 * add-KIND, edit-KIND, delete-KIND, archive-KIND, restore-KIND and set-up. */
char *
fr_change_sentence (const char *label, const char *subject);

G_END_DECLS
