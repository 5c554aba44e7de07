/* Check tables: values from outside, kept as text that anyone can read.
 *
 * A table is a CSV in tests/tables. It opens with lines that start with # and name the source, the unit of
 * each column and the tolerance with its reason (the words "source", "unit" and "tolerance" must occur). Then
 * one line of column names and one line a row. No quotes; a cell may be empty. Anything else stops the test:
 * a row that is passed over in silence is a check that never ran. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  char *file;
  guint line; /* 1-based */
  char **names;
  char **cells; /* as many as @names; NULL-terminated */
} TestRow;

typedef void (*TestRowFunc) (const TestRow *row);

/* Rows of a text; NULL and a sentence with the line when it is malformed or has no row. Free with
 * g_ptr_array_unref. */
GPtrArray *test_table_parse (const char *file, const char *text, char **problem_out);

/* Rows of tests/tables/@file; stops the program when it cannot be read. */
GPtrArray *test_table_load (const char *file);

/* Registers one subtest a row, named @path/LINE-FIRSTCELL. */
void test_table_add (const char *file, const char *path, TestRowFunc func);

/* Cells by column name. A missing column, and a number that is none, stop the program; an empty cell is NAN
 * for _number_or_nan and stops it for _number. */
const char *test_row_text (const TestRow *row, const char *column);
double test_row_number (const TestRow *row, const char *column);
double test_row_number_or_nan (const TestRow *row, const char *column);

/* Fails the subtest with file, line, both values and the tolerance. NAN on either side fails. */
void test_row_near (const TestRow *row, const char *what, double got, double wanted, double tolerance);

G_END_DECLS
