/* How a record editor shows its draft: each row's value, choices and what is wrong with it. */
#include <glib/gi18n-lib.h>
#include <math.h>

#include "domain/units/money.h"
#include "ui/lines-row.h"
#include "ui/pieces.h"
#include "ui/quantity-row.h"
#include "ui/record-editor-private.h"
#include "ui/record-summary.h"
#include "ui/tariff-editor.h"
#include "ui/time-entry.h"
#include "words/entry-words.h"

const FrUnits *
fr_record_editor_units (FrRecordEditor *self)
{
  return self->units != NULL ? self->units : fr_book_get_units (self->book);
}

const char *
fr_record_editor_currency (FrRecordEditor *self)
{
  const FrHousehold *household = fr_book_get_household (self->book);

  if (self->currency != NULL)
    return self->currency;
  return household != NULL && household->currency != NULL ? household->currency : "";
}

/* What stands behind a price: "¢/kWh"; NULL for every other kind, whose unit is known. */
static char *
price_unit (FrRecordEditor *self, const FrField *field)
{
  if (field->quantity != FR_QUANTITY_PRICE)
    return NULL;
  return g_strdup_printf ("%s/%s", fr_money_minor_sign (fr_record_editor_currency (self)),
                          g_str_has_suffix (field->name, "_kg") ? "kg" : "kWh");
}

/* The sentence for a field, or NULL. What a new record still lacks is not held against it at first. */
char *
fr_editor_row_sentence (FrRecordEditor *self, FrEditorRow *row)
{
  FrDraftProblem problem;

  if (row->reason != NULL)
    return g_strdup (row->reason);
  if (g_str_equal (row->field->name, "zone"))
    {
      const char *zone = fr_record_text (fr_draft_get_current (self->draft), row->field);
      g_autoptr (GTimeZone) known = zone != NULL && *zone != '\0' ? g_time_zone_new_identifier (zone) : NULL;

      if (zone != NULL && *zone != '\0' && known == NULL)
        return g_strdup_printf (_ ("“%s” is no time zone this computer knows. Write it as Continent/City."),
                                zone);
    }
  if (!fr_draft_problem (self->draft, row->field, &problem))
    return NULL;
  if (problem.entry != FR_QUANTITY_OK)
    return fr_entry_sentence (problem.entry, fr_draft_unread (self->draft, row->field), problem.at,
                              row->field->quantity, fr_record_editor_units (self));
  if (problem.record.code == FR_PROBLEM_MISSING && fr_draft_is_new (self->draft) && !self->show_missing)
    return NULL;
  return fr_record_sentence (&problem.record, fr_draft_get_current (self->draft),
                             fr_record_editor_units (self));
}

static void
show_choices (FrRecordEditor *self, FrEditorRow *row)
{
  const FrRecord *record = fr_draft_get_current (self->draft);
  AdwComboRow *combo = ADW_COMBO_ROW (row->widget);
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  guint selected = 0;

  if (row->field->type == FR_FIELD_CODE)
    {
      const char *code = fr_record_text (record, row->field);

      for (guint i = 0; row->field->codes[i] != NULL; i++)
        {
          gtk_string_list_append (names, fr_code_word (row->field->name, row->field->codes[i]));
          if (g_strcmp0 (row->field->codes[i], code) == 0)
            selected = i;
        }
    }
  else
    {
      FrRecordList *list = fr_book_get_list (self->book, row->field->ref_kind);
      gint64 chosen = fr_record_int (record, row->field);
      gint64 none = 0;

      g_clear_pointer (&row->ids, g_array_unref);
      row->ids = g_array_new (FALSE, FALSE, sizeof (gint64));
      if (!row->field->required || chosen == 0)
        {
          gtk_string_list_append (names, _ ("None"));
          g_array_append_val (row->ids, none);
        }
      for (guint i = 0; i < fr_record_list_get_size (list); i++)
        {
          const FrRecord *other = fr_record_list_get (list, i);

          if (other->archived && other->id != chosen)
            continue;
          gtk_string_list_append (names, fr_record_label (other));
          g_array_append_val (row->ids, other->id);
        }
      for (guint i = 0; i < self->choices->len; i++)
        {
          FrEditorChoice *choice = &g_array_index (self->choices, FrEditorChoice, i);

          if (choice->kind != row->field->ref_kind)
            continue;
          gtk_string_list_append (names, choice->label);
          g_array_append_val (row->ids, choice->id);
        }
      for (guint i = 0; i < row->ids->len; i++)
        if (g_array_index (row->ids, gint64, i) == chosen)
          selected = i;
    }
  if (!fr_words_are_shown (adw_combo_row_get_model (combo), names))
    adw_combo_row_set_model (combo, G_LIST_MODEL (names));
  adw_combo_row_set_selected (combo, selected);
}

static char *
value_text (FrRecordEditor *self, FrEditorRow *row)
{
  const FrRecord *record = fr_draft_get_current (self->draft);

  switch (row->field->type)
    {
    case FR_FIELD_AMOUNT:
      return fr_quantity_to_string (fr_record_amount ((FrRecord *)record, row->field)->value,
                                    row->field->quantity, fr_record_editor_units (self), -1);
    case FR_FIELD_TIME:
      return fr_time_text (self->book, fr_record_int (record, row->field));
    case FR_FIELD_REF:
      {
        const FrRecord *other
            = fr_book_find (self->book, row->field->ref_kind, fr_record_int (record, row->field));

        return g_strdup (other != NULL ? fr_record_label (other) : "–");
      }
    case FR_FIELD_BOOL:
      return g_strdup (fr_record_int (record, row->field) ? _ ("Yes") : _ ("No"));
    default:
      return g_strdup (fr_record_text (record, row->field) != NULL ? fr_record_text (record, row->field)
                                                                   : "–");
    }
}

static void
show_problem (FrEditorRow *row, const char *sentence)
{
  if (FR_IS_ENTRY_ROW (row->widget))
    fr_entry_row_set_problem (FR_ENTRY_ROW (row->widget), sentence);
  else if (FR_IS_LINES_ROW (row->widget))
    fr_lines_row_set_problem (FR_LINES_ROW (row->widget), sentence);
  else if (ADW_IS_COMBO_ROW (row->widget))
    {
      const char *note = fr_field_label_note (row->label);

      adw_action_row_set_subtitle (ADW_ACTION_ROW (row->widget), sentence != NULL ? sentence
                                                                 : note != NULL   ? note
                                                                                  : "");
      if (sentence != NULL)
        gtk_widget_add_css_class (row->widget, "error");
      else
        gtk_widget_remove_css_class (row->widget, "error");
    }
}

gboolean
fr_editor_row_is_clock (const FrEditorRow *row)
{
  return row->field->type == FR_FIELD_AMOUNT && g_str_has_suffix (row->field->name, "_minute");
}

static void
show_clock (FrRecordEditor *self, FrEditorRow *row)
{
  double minute = fr_record_amount ((FrRecord *)fr_draft_get_current (self->draft), row->field)->value;
  g_autofree char *text = row->unread != NULL ? g_strdup (row->unread)
                          : isnan (minute)    ? g_strdup ("")
                                              : g_strdup_printf ("%02d:%02d", (int)minute / 60, (int)minute % 60);

  fr_entry_row_set_texts (FR_ENTRY_ROW (row->widget), text, text, NULL);
}

static void
show_amount (FrRecordEditor *self, FrEditorRow *row)
{
  FrAmount *amount = fr_record_amount ((FrRecord *)fr_draft_get_current (self->draft), row->field);
  const char *unread = fr_draft_unread (self->draft, row->field);
  g_autofree char *unit = price_unit (self, row->field);

  if (unread != NULL)
    fr_quantity_row_set_unread (FR_QUANTITY_ROW (row->widget), unread, fr_record_editor_units (self), unit);
  else
    fr_quantity_row_set (FR_QUANTITY_ROW (row->widget), amount->value, amount->typed,
                         fr_record_editor_units (self), unit);
}

void
fr_editor_row_show (FrRecordEditor *self, FrEditorRow *row)
{
  const FrRecord *record = fr_draft_get_current (self->draft);
  g_autofree char *sentence = fr_editor_row_sentence (self, row);

  if (row->label->fixed)
    {
      g_autofree char *text = value_text (self, row);

      gtk_label_set_text (GTK_LABEL (row->value), text);
      return;
    }
  switch (row->field->type)
    {
    case FR_FIELD_AMOUNT:
      if (fr_editor_row_is_clock (row))
        show_clock (self, row);
      else
        show_amount (self, row);
      break;
    case FR_FIELD_TIME:
      {
        g_autofree char *text = row->unread != NULL ? g_strdup (row->unread) : value_text (self, row);

        fr_entry_row_set_texts (FR_ENTRY_ROW (row->widget), text, text, NULL);
        break;
      }
    case FR_FIELD_BOOL:
      gtk_switch_set_active (GTK_SWITCH (row->value), fr_record_int (record, row->field) != 0);
      break;
    case FR_FIELD_CODE:
    case FR_FIELD_REF:
      show_choices (self, row);
      break;
    case FR_FIELD_TEXT:
    case FR_FIELD_DATE:
    default:
      {
        const char *text = fr_record_text (record, row->field);

        if (FR_IS_TARIFF_EDITOR (row->widget))
          fr_tariff_editor_set (FR_TARIFF_EDITOR (row->widget), (const FrTariffRecord *)record,
                                fr_record_editor_units (self), fr_record_editor_currency (self));
        else if (FR_IS_LINES_ROW (row->widget))
          fr_lines_row_set_text (FR_LINES_ROW (row->widget), text);
        else
          fr_entry_row_set_texts (FR_ENTRY_ROW (row->widget), text != NULL ? text : "",
                                  text != NULL ? text : "", NULL);
      }
    }
  show_problem (row, sentence);
}
